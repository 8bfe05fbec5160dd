"""``opening``: edges that meet, stand apart or lie over each other; every sheet says truly how they close."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import FILE, HEM, RED, SOME, THREE, TOP, failed, made, recipe, recipe_text, side_back, side_front

from fanblock.pattern.model import OPENING, Pattern
from fanblock.problems import GeometryError, RecipeError
from fanblock.recipe.reading import read_recipe
from fanblock.sheet.json import pattern_data
from fanblock.sheet.sewing import joining, toile
from fanblock.sheet.tapes import tape_sentence, tape_words

SEAMS = (side_front(), side_back())
BUTTONED = "opening: {at: center front, closed with: buttons, overlap: 15 mm, down to: hem}"


def opened(step: str, name: str = "ordinary") -> Pattern:
    """Return a garment with one opening."""
    return made(recipe(step, TOP, HEM, *SEAMS, RED, THREE), name)


def refused(*steps: str) -> str:
    """Return what is said of a recipe of these steps."""
    with pytest.raises(RecipeError) as caught:
        read_recipe(recipe_text(*steps), FILE)
    return str(caught.value)


@pytest.mark.parametrize("name", SOME)
@pytest.mark.parametrize("at", ["center front", "center back"])
@pytest.mark.parametrize(
    "how", ["closed with: pins", "closed with: ties, width: 20 mm", "closed with: hooks, overlap: 20 mm"]
)
def test_every_way_of_closing_is_sound(name: str, at: str, how: str) -> None:
    """Met, apart or overlapping, before or behind, everything adds up and sews up on any body."""
    assert failed(opened(f"opening: {{at: {at}, {how}}}", name)) == []


def test_girths_stay_exact_under_an_overlap() -> None:
    """Each half is 15 mm wider at every level, the gap so much less than nothing: the sums are what they were."""
    pattern = opened(BUTTONED)
    plain = made(recipe(TOP, HEM, *SEAMS, RED, THREE))
    for lapped, usual in zip(pattern.girths, plain.girths, strict=True):
        assert lapped.gap_mm == pytest.approx(-15.0, abs=0.2)
        total = lapped.parts_mm + lapped.open_mm + lapped.gap_mm + lapped.takes_mm
        assert total == pytest.approx(lapped.block_mm, abs=0.01)
        assert lapped.parts_mm + lapped.open_mm - 15.0 == pytest.approx(usual.parts_mm + usual.open_mm, abs=0.3)
    assert pattern.gap_mm == 0.0


@settings(max_examples=12, deadline=None, derandomize=True)
@given(st.sampled_from(SOME), st.floats(5.0, 30.0), st.sampled_from(["center front", "center back"]))
def test_what_runs_past_the_centre_is_the_mirror_image_of_what_lies_before_it(name: str, over: float, at: str) -> None:
    """Laid over each other on the centre line the two halves end alike: no corner of the one looks out under the other."""
    pattern = opened(f"opening: {{at: {at}, closed with: buttons, overlap: {over:.1f} mm}}", name)
    panel = pattern.by_name["front" if at == "center front" else "back"]
    center = 0.0 if at == "center front" else 1.0
    foot, up = pattern.block.at(center, 0.0), pattern.block.ruling_direction(center)
    across = np.array([up[1], -up[0]]) * (1.0 if center == 0.0 else -1.0)
    for edge in ("top edge", "hem"):
        inner = (panel.edge(edge).curve.points - foot) @ np.column_stack((across, up))
        outer = (panel.edge(f"{edge} overlap").curve.points - foot) @ np.column_stack((across, up))
        inner = inner[np.argsort(inner[:, 0])]
        assert outer[:, 0].min() == pytest.approx(-over, abs=0.2)
        assert np.interp(-outer[:, 0], inner[:, 0], inner[:, 1]) == pytest.approx(outer[:, 1], abs=0.05)


def test_the_centre_line_and_the_buttons_are_marked() -> None:
    """The centre front runs all the way up the piece, and the buttons sit on it, evenly (common practice, no source)."""
    marks = opened(BUTTONED).by_name["front"].marks
    center = next(mark for mark in marks if mark.name == "center front")
    buttons = [mark for mark in marks if mark.kind == "fastening"]
    assert np.abs(center.curve.points[:, 0]).max() < 0.01
    middles = np.array([mark.curve.points.mean(axis=0) for mark in buttons])
    assert np.abs(middles[:, 0]).max() < 0.5
    steps = -np.diff(middles[:, 1])
    assert steps == pytest.approx(np.full(len(steps), steps.mean()), abs=0.5)
    assert steps.mean() == pytest.approx(30.0, abs=3.0)
    assert buttons[0].says == "button"


@pytest.mark.parametrize(("how", "count"), [("number: 7", 7), ("spacing: 4 cm", 6), ("number: 1", 1)])
def test_there_are_as_many_as_are_asked_for(how: str, count: int) -> None:
    """Seven fastenings closed jumps of 1720 to 1750 (Colonial Williamsburg 1971-1566); down to the waist by default."""
    pattern = opened(f"opening: {{closed with: ties, {how}}}")
    marks = [mark for mark in pattern.by_name["front"].marks if mark.kind == "fastening"]
    assert len(marks) == count
    heights = pattern.block.where(np.array([mark.curve.start for mark in marks]))[1]
    assert heights.min() > -0.05


def test_edges_are_named_and_allowed_for_as_what_they_are() -> None:
    """Nothing that is pinned is called a lacing edge, and it has the allowance of an opening."""
    front = opened("opening: {closed with: pins}").by_name["front"]
    edge = front.edge("front edge")
    assert edge.kind == OPENING
    assert front.allowances["front edge"] == 20.0
    back = opened("opening: {at: center back, closed with: hooks}").by_name["back"]
    assert back.edge("back edge").kind == OPENING


def test_edges_that_meet_are_square_to_the_centre() -> None:
    """Where two halves meet, an edge runs on across the centre without a peak."""
    front = opened("opening: {closed with: pins}").by_name["front"]
    assert abs(front.edge("top edge").curve.end_tangent[1]) < 0.02


WORDS = {
    "closed with: pins": "finished and pinned edge to edge.",
    "closed with: ties, width: 15 mm": "finished and tied, 15.0 mm apart.",
    "closed with: hooks": "finished and hooked edge to edge.",
    "closed with: buttons, overlap: 15 mm": "finished and buttoned, 30.0 mm over each other, the marked centre front of one half on that of the other.",
}


@pytest.mark.parametrize("how", WORDS)
def test_the_order_of_sewing_tells_how_it_closes(how: str) -> None:
    """The words of the trade for each closing; nobody is told to lace what is pinned."""
    said = joining(opened(f"opening: {{{how}}}"))
    assert [line for line in said if "open edges" in line] == [
        f"The open edges at the centre front (piece 1) are not sewn: they are {WORDS[how]}"
    ]
    assert "lac" not in " ".join(toile(opened(f"opening: {{{how}}}")))


def test_tape_and_toile_tell_an_overlap() -> None:
    """The waist as worn has no gap in it; how far the halves lie over each other is a number of its own."""
    pattern = opened(BUTTONED)
    said = dict(tape_words(pattern))
    assert said["how far the halves lie over each other at the centre front"] == "30.0 mm"
    assert "waist as worn" in said
    assert "gap" not in tape_sentence(pattern)
    assert any(
        line.startswith("Close it at the centre front with pins: lay the marked centre front")
        for line in toile(pattern)
    )
    worn = next(finding for finding in pattern.findings if finding.code == "girth-worn-waist")
    assert ", the halves lying 30.0 mm over each other" in worn.says


def test_other_programs_are_told_the_same() -> None:
    """The pattern's file says where it opens, with what it closes, and how far the halves lie over each other."""
    data = pattern_data(opened(BUTTONED))
    (opening,) = data["openings"]
    assert (opening["at"], opening["edge"], opening["closed_with"]) == ("center front", "front edge", "buttons")
    assert (opening["width"], opening["overlap"], opening["widths"]) == (0.0, 15.0, [])
    assert data["gap"]["per_level"]["waist"] == pytest.approx(-30.0, abs=0.3)


OPTIONS = (
    (
        "opening: {closed with: buttons, overlap: 1 cm, width: 1 cm}",
        "r.yaml:5:46: step 1 (opening) › overlap › stands beside a `width`. The edges stand apart or run past the centre: keep one.",
    ),
    (
        "opening: {closed with: hooks, number: 5, spacing: 2 cm}",
        "r.yaml:5:55: step 1 (opening) › spacing › stands beside a `number`. Keep one: how many, or how far apart.",
    ),
    (
        "opening: {closed with: hooks, number: 0}",
        "r.yaml:5:43: step 1 (opening) › number › got 0, needs 1 or more. To close it with nothing but pins write `closed with: pins`.",
    ),
    (
        "opening: {closed with: pins, number: 5}",
        "r.yaml:5:42: step 1 (opening) › number › is of no use with pins. Pins go where they are wanted: leave it out.",
    ),
    (
        "opening: {closed with: lacing}",
        "r.yaml:5:28: step 1 (opening) › closed with › got “lacing”, needs `buttons`, `hooks`, `pins` or `ties`.",
    ),
)


@pytest.mark.parametrize(("step", "says"), OPTIONS, ids=[str(number) for number in range(len(OPTIONS))])
def test_slips_are_told(step: str, says: str) -> None:
    """Every refusal says what is wrong and what to do, at the place where it stands."""
    text = recipe_text(step, TOP, HEM, *SEAMS, RED, THREE)
    with pytest.raises(RecipeError) as caught:
        read_recipe(text, FILE)
    assert [str(problem) for problem in caught.value.problems] == [says]


def test_an_overlap_is_drawn_before_the_edges_that_it_carries_on() -> None:
    """An edge that is already drawn ends at the centre line."""
    said = refused(TOP, HEM, BUTTONED, *SEAMS, RED, THREE)
    assert said == (
        "r.yaml:14:5: step 3 (opening) › runs past the center front, but stands after `hem`, which ends there. "
        "Move it before the top edge and the hem."
    )


def test_a_garment_opens_once_at_a_place() -> None:
    """A second opening at one centre is a slip."""
    said = refused("opening: {closed with: pins}", BUTTONED, TOP, HEM, *SEAMS, RED, THREE)
    assert said == "r.yaml:6:5: step 2 (opening) › the garment opens at center front already. Keep one of them."


BODY_REFUSALS = {
    "opening: {closed with: pins, width: 500 mm}": "step 1 (opening) › width › an opening of 500 mm is more than half of the waist. Open it less, or draw an `open front`.",
    "opening: {closed with: buttons, overlap: 90 mm}": "step 1 (opening) › overlap › got 90 mm; each half may run at most 80 mm past the centre line. Let them lie over each other less.",
    "opening: {closed with: ties, spacing: 0 mm}": "step 1 (opening) › spacing › got nothing between one and the next. Give a length, such as 3 cm.",
    "opening: {closed with: buttons, number: 60}": "opening at the center front › 60 buttons on",
}


@pytest.mark.parametrize("step", BODY_REFUSALS)
def test_what_cannot_be_drawn_on_this_body_is_refused(step: str) -> None:
    """What is too wide, or too close, is told with its number."""
    with pytest.raises(GeometryError) as caught:
        opened(step)
    assert BODY_REFUSALS[step] in str(caught.value)


def test_a_position_may_stand_on_the_front_edge() -> None:
    """`front edge` is the cut edge where it does not lace; without an opening there is none."""
    seam = "seam: {name: yoke seam, through: [[30%, top edge], [25%, waist]], below waist: sewn, share: 1}"
    top = TOP.replace("[center front, bust + 30 mm]", "[front edge, bust + 30 mm]")
    assert failed(made(recipe("opening: {closed with: pins, width: 4 cm}", top, HEM, *SEAMS, RED, THREE))) == []
    said = refused(top, HEM, seam, *SEAMS, RED, THREE)
    assert (
        "step 1 (top edge) › through › point 1 › around › the front edge has not been drawn before this step. "
        "Put an `opening` or an `open front` before this step." in said
    )
