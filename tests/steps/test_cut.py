"""``cut``: layers and counts for the whole garment."""

from __future__ import annotations

import pytest
from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, side_back, side_front

from fanblock.problems import GeometryError, RecipeError

STEPS = (GAP, TOP, HEM, side_front(), side_back(), RED, THREE)


def test_layers_keep_their_order() -> None:
    """Layers are listed as they were written, each panel cut as often as was said."""
    pattern = made(recipe(*STEPS, "cut: {lining: 2, outer: 2, strength layer: 4}"))
    assert pattern.by_name["back"].cuts == (("lining", 2), ("outer", 2), ("strength layer", 4))


def test_panels_are_cut_in_pairs() -> None:
    """Odd counts and counts past all reason are refused, all of them together."""
    with pytest.raises(RecipeError) as caught:
        recipe(*STEPS, "cut: {outer: 3, lining: 14}")
    assert str(caught.value) == (
        "r.yaml:19:18: step 8 (cut) › outer › got 3, needs an even number from 2 to 12. "
        "Panels are cut in pairs, one for each half.\n"
        "r.yaml:19:29: step 8 (cut) › lining › got 14, needs an even number from 2 to 12. "
        "Panels are cut in pairs, one for each half."
    )


def test_a_fold_that_is_no_panel_is_refused() -> None:
    """A misspelt panel on the fold is told with the nearest that there is."""
    with pytest.raises(RecipeError) as caught:
        recipe(*STEPS, "cut: {outer: 2, on fold: [frnt]}")
    assert str(caught.value) == (
        "r.yaml:19:31: step 8 (cut) › on fold › there is no panel “frnt” in `separate` (step 7). Did you mean “front”?"
    )


def test_all_panels_are_counted_once() -> None:
    """A second `cut` of everything would silently undo the first, and so would one of the same piece."""
    with pytest.raises(RecipeError) as caught:
        recipe(*STEPS, "cut: {outer: 2}", "cut: {outer: 4}")
    assert str(caught.value) == (
        "r.yaml:20:5: step 9 (cut) › stands a second time (first in step 8). "
        "Put all its options in one step, or say which `panels`."
    )
    with pytest.raises(RecipeError, match=r"step 9 \(cut\) › counts “front” a second time \(first in step 8\)"):
        recipe(*STEPS, "cut: {panels: [front], outer: 2}", "cut: {panels: [front, back], outer: 4}")


def test_pieces_have_counts_of_their_own() -> None:
    """Named pieces are cut as they say, all others as the other `cut` says, in whatever order the two stand."""
    pattern = made(recipe(*STEPS, "cut: {panels: [back], outer: 4}", "cut: {outer: 2, lining: 2}"))
    assert pattern.by_name["back"].cuts == (("outer", 4),)
    assert pattern.by_name["side"].cuts == (("outer", 2), ("lining", 2))


def test_one_of_a_pair_is_not_cut_singly() -> None:
    """Only a piece that is whole may have an odd count."""
    with pytest.raises(
        GeometryError, match=r"outer › got 1 for “back”, which is one of a pair\. Give an even number\."
    ):
        made(recipe(*STEPS, "cut: {panels: [back], outer: 1}"))


def test_a_fold_is_said_once() -> None:
    """What lies on the fold is said where all panels are counted."""
    with pytest.raises(RecipeError, match=r"on fold › stands beside `panels`\."):
        recipe(*STEPS, "cut: {panels: [back], on fold: [back], outer: 2}")
