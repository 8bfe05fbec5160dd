"""Finishing: folds, cut counts, edges of their own widths, and names that are names of nothing."""

from __future__ import annotations

import pytest
from tests.samples import GAP, HEM, ONE, RED, THREE, TOP, failed, made, recipe, side_back, side_front

from fanblock.pattern.model import CENTER, FOLD, Pattern
from fanblock.problems import GeometryError


def finished(*steps: str, gap: str = GAP) -> Pattern:
    """Return the sample garment with more steps after `separate`; the first of them stands in line 19."""
    return made(recipe(gap, TOP, HEM, side_front(), side_back(), RED, THREE, *steps))


def test_a_panel_on_the_fold_is_cut_once_where_others_are_cut_twice() -> None:
    """On the fold the front is one piece of each pair, its centre line a fold without allowance."""
    pattern = finished("cut: {outer: 2, lining: 4, on fold: [front]}")
    front, side = pattern.by_name["front"], pattern.by_name["side"]
    assert front.cuts == (("outer", 1), ("lining", 2))
    assert side.cuts == (("outer", 2), ("lining", 4))
    assert (front.fold, front.edge("center front").kind) == ("center front", FOLD)
    assert (front.allowances["center front"], side.fold) == (0.0, "")
    assert failed(pattern) == []


def test_a_panel_with_two_centre_lines_is_folded_at_the_front() -> None:
    """A half without seams has both centre lines; only one of them can lie on the fold."""
    pattern = made(recipe(TOP, HEM, ONE, "cut: {outer: 2, on fold: [whole]}"))
    whole = pattern.by_name["whole"]
    assert whole.fold == "center front"
    assert (whole.edge("center front").kind, whole.edge("center back").kind) == (FOLD, CENTER)
    assert failed(pattern) == []


def test_a_named_edge_has_its_own_allowance_on_both_mates() -> None:
    """A width given for a seam's name goes beyond both its sides and before what its kind would have."""
    pattern = finished("allowances: {seam: 12 mm, side back: 20 mm}")
    assert pattern.by_name["side"].allowances["side back"] == 20.0
    assert pattern.by_name["back"].allowances["side back"] == 20.0
    assert pattern.by_name["side"].allowances["side front"] == 12.0


def test_what_is_not_chosen_is_cut_in_one_pair() -> None:
    """Without a cut step every panel is one outer pair."""
    assert {panel.cuts for panel in finished().panels} == {(("outer", 2),)}


BAD = {
    "a fold where there is no centre line": (
        "cut: {outer: 2, on fold: [side]}",
        "step 8 (cut) › on fold › panel “side” has no centre line to fold at. Leave it out.",
    ),
    "an allowance for an edge there is not": (
        "allowances: {side frnt: 10 mm}",
        "step 8 (allowances) › there is no edge “side frnt”. Did you mean “side front”?",
    ),
    "an allowance of less than nothing": (
        "allowances: {hem: -10 mm}",
        "step 8 (allowances) › hem › got -10.0 mm, needs 0 or more. Leave out the minus.",
    ),
    "a tick of less than nothing": (
        "notches: {tick: -1 mm}",
        "step 8 (notches) › tick › got -1.0 mm, needs 0 or more. Leave out the minus.",
    ),
}


@pytest.mark.parametrize("name", BAD)
def test_what_cannot_be_finished_is_refused(name: str) -> None:
    """What finishing cannot do is told at the step that asked for it."""
    step, says = BAD[name]
    with pytest.raises(GeometryError) as caught:
        finished(step)
    assert str(caught.value) == f"r.yaml:19:5: {says}"
