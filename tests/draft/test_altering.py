"""Alterations: what a fitting changed goes where it was said, by as much, and nowhere else."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import BODIES, FILE, STAYS, garment

from fanblock.draft.altering import Alteration, RaiseEdge, SpringMore, TakeMore
from fanblock.make import draft_pattern
from fanblock.pattern.model import Girth, Pattern
from fanblock.problems import GeometryError
from fanblock.recipe.library import open_recipe
from fanblock.terms import Around, Height, Length, Share

WAIST, MIDDLE, BUST, TOP = (
    Height(landmark="waist"),
    Height(share=Share(0.5)),
    Height(share=Share(1.0)),
    Height(landmark="top edge"),
)
BODY = "ordinary"


def drafted(*alterations: Alteration, body: str = BODY) -> Pattern:
    """Return the sample garment with alterations."""
    return draft_pattern(BODIES[body], garment(), alterations=alterations)


def parts(pattern: Pattern) -> dict[float, float]:
    """Return what the pieces of one half, and what is open above them, measure at every level."""
    return {girth.height: girth.parts_mm + girth.open_mm for girth in pattern.girths}


def at(pattern: Pattern, height: float) -> Girth:
    """Return the sums at a level."""
    return next(girth for girth in pattern.girths if girth.height == height)


@settings(max_examples=25, deadline=None, derandomize=True)
@given(st.floats(-12.0, 12.0), st.sampled_from([(WAIST, 0.0), (MIDDLE, 0.5), (BUST, 1.0)]))
def test_a_seam_takes_more_where_it_was_said(more: float, place: tuple[Height, float]) -> None:
    """The pieces get narrower by so much at that height, and nothing changes at the two others."""
    height, level = place
    before, after = parts(drafted()), parts(drafted(TakeMore("side front", height, Length(more))))
    for one in (0.0, 0.5, 1.0):
        due = more if one == level else 0.0
        if {level, one} == {0.0, 0.5} or {level, one} == {1.0, 0.5}:
            continue  # between waist and bust it runs out smoothly
        assert before[one] - after[one] == pytest.approx(due, abs=0.05)


def test_a_change_half_way_leaves_waist_and_bust_alone() -> None:
    """A centimetre in at the ribs takes nothing at the waist and at the bust."""
    before, after = parts(drafted()), parts(drafted(TakeMore("side back", MIDDLE, Length(10.0))))
    assert [before[level] - after[level] for level in (0.0, 0.5, 1.0)] == pytest.approx([0.0, 10.0, 0.0], abs=0.05)


def test_what_was_altered_counts_in_the_worn_waist() -> None:
    """The waist that is checked is the tape less the reduction less what the fitting took in, of both halves."""
    pattern = drafted(TakeMore("side front", WAIST, Length(4.0)), TakeMore("side back", WAIST, Length(-1.0)))
    assert pattern.sound
    assert at(pattern, 0.0).altered_mm == pytest.approx(6.0)
    says = next(finding.says for finding in pattern.findings if finding.code == "girth-worn-waist")
    assert says.endswith(", taken in by 6.0 mm after a fitting")


def test_a_top_that_gapes_is_taken_in_above_the_bust_only() -> None:
    """At the top edge the front narrows by the whole amount; at the bust and below nothing changes."""
    plain, taken = drafted(), drafted(TakeMore("side front", TOP, Length(6.0)))
    assert parts(taken)[0.5] == pytest.approx(parts(plain)[0.5], abs=0.02)
    tops = [pattern.by_name["front"].edge("top edge").curve.length_mm for pattern in (plain, taken)]
    assert 1.5 < tops[0] - tops[1] < 3.5  # half of it on either side of the seam


def test_two_changes_at_one_place_add_up() -> None:
    """The second is made on top of the first."""
    twice = drafted(TakeMore("side front", WAIST, Length(3.0)), TakeMore("side front", WAIST, Length(2.0)))
    once = drafted(TakeMore("side front", WAIST, Length(5.0)))
    assert parts(twice) == pytest.approx(parts(once), abs=1e-9)


def test_a_change_and_its_reverse_leave_no_trace() -> None:
    """Taken in and let out by as much, every point of every piece is where it was."""
    there = (TakeMore("side front", MIDDLE, Length(7.0)), RaiseEdge("top edge", Around(ratio=0.0), Length(12.0)))
    back = (TakeMore("side front", MIDDLE, Length(-7.0)), RaiseEdge("top edge", Around(ratio=0.0), Length(-12.0)))
    plain, again = drafted(), drafted(*there, *back)
    for panel in plain.panels:
        assert np.allclose(panel.loop(), again.by_name[panel.name].loop(), atol=1e-6)


@settings(max_examples=15, deadline=None, derandomize=True)
@given(st.floats(-15.0, 25.0))
def test_an_edge_is_raised_at_its_place(up: float) -> None:
    """The centre front stands higher by so much; the edge a quarter round is where it was."""
    plain, raised = drafted(), drafted(RaiseEdge("top edge", Around(landmark="center front"), Length(up)))
    heights = [pattern.by_name["front"].edge("center front").curve.length_mm for pattern in (plain, raised)]
    assert heights[1] - heights[0] == pytest.approx(up, abs=0.05)
    tops = [pattern.lines["top edge"].points for pattern in (plain, raised)]
    far = [points[np.argmax(points[:, 0] > 160.0), 1] for points in tops]
    assert far[1] == pytest.approx(far[0], abs=1.0)


def test_a_seam_springs_more() -> None:
    """The hem widens by so much in all, half of it in either piece, and the waist stays."""
    plain, sprung = drafted(), drafted(SpringMore("side front", Length(10.0)))
    hems = [sum(panel.edge("hem").curve.length_mm for panel in pattern.panels) for pattern in (plain, sprung)]
    assert 8.0 < hems[1] - hems[0] < 12.0
    assert parts(sprung)[0.0] == pytest.approx(parts(plain)[0.0], abs=0.05)


@pytest.mark.parametrize("recipe", STAYS)
def test_altered_stays_stay_sound(recipe: str) -> None:
    """What a fitting usually changes leaves shipped stays sound: they add up and sew up."""
    read = open_recipe(recipe)
    seams = [step.options.name for step in read.steps if step.kind == "seam"]  # type: ignore[attr-defined]
    changes = [TakeMore(seam, place, Length(5.0)) for seam in seams for place in (MIDDLE, TOP)]
    pattern = draft_pattern(
        BODIES[BODY], read, alterations=[*changes, RaiseEdge("top edge", Around(ratio=0.0), Length(10.0))]
    )
    assert pattern.sound


def test_what_is_not_there_is_told_all_together() -> None:
    """A misspelt seam and a misspelt edge are told with the nearest that there is."""
    with pytest.raises(GeometryError) as caught:
        drafted(TakeMore("side frnt", WAIST, Length(5.0)), RaiseEdge("top egde", Around(ratio=0.0), Length(5.0)))
    assert str(caught.value) == (
        "changes › 1 › seam › there is no seam “side frnt”. Did you mean “side front”?\n"
        "changes › 2 › edge › there is no outline edge “top egde”. Did you mean “top edge”?"
    )


def test_the_code_changes_with_an_alteration() -> None:
    """Two printings of one recipe for one wearer, one of them altered, cannot be mixed up."""
    codes = {drafted().title.code, drafted(TakeMore("side front", WAIST, Length(1.0))).title.code}
    assert len(codes) == 2, FILE
