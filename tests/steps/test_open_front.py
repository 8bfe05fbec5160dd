"""``open front``: edges on a line of their own, measured along every level."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import FILE, HEM, RED, SOME, TOP, failed, made, recipe, recipe_text, seam, separate

from fanblock.pattern.model import LACING, Pattern
from fanblock.problems import GeometryError, RecipeError
from fanblock.recipe.reading import read_recipe
from fanblock.sheet.json import pattern_data
from fanblock.sheet.sewing import joining
from fanblock.sheet.tapes import tape_sentence, tape_words

SIDE = seam("side seam", "55%, top edge", "52%, waist", "52%, hem", share="1", spring="20 mm")
TWO = separate("front", "back")


def front(
    above: str = "90 mm", waist: str = "40 mm", more: str = "", name: str = "ordinary", height: str = "bust"
) -> Pattern:
    """Return a garment whose front stands open so far from the centre, at a height and at the waist."""
    step = f"open front: {{through: [[center front + {above}, {height}], [center front + {waist}, waist]]{more}}}"
    return made(recipe(step, TOP, HEM, SIDE, RED, TWO), name)


@pytest.mark.parametrize("name", SOME)
def test_it_adds_up_and_sews_up_on_every_body(name: str) -> None:
    """Sums at every level hold with the opening measured along each."""
    assert failed(front(name=name)) == []


@settings(max_examples=15, deadline=None, derandomize=True)
@given(st.sampled_from(SOME), st.floats(60.0, 100.0), st.floats(45.0, 60.0))
def test_the_opening_is_as_wide_as_the_recipe_says(name: str, above: float, waist: float) -> None:
    """Twice what the points say at their heights, and at every level what lies between edge and centre along it."""
    pattern = front(f"{above:.2f} mm", f"{waist:.2f} mm", name=name)
    (opening,) = pattern.openings
    assert opening.width_mm == pytest.approx(2.0 * waist, abs=0.02)
    bust = next(girth for girth in pattern.girths if girth.name == "bust")
    assert 2.0 * bust.gap_mm == pytest.approx(2.0 * above, abs=0.05)
    widths = dict(opening.widths)
    ruling = pattern.block.center_front_mm
    for girth in pattern.girths:
        between = np.interp(girth.height * ruling, list(widths), list(widths.values()))
        if 0.0 < girth.height * ruling < max(widths):
            assert between == pytest.approx(2.0 * girth.gap_mm, abs=1.5)


def test_the_width_is_told_every_5_cm_and_every_2_inches_to_who_measures_in_inches() -> None:
    """On the tape page, in the sentence and for other programs."""
    pattern = front()
    heights = [at for at, _ in pattern.openings[0].widths]
    assert heights == [-50.0, 0.0, 50.0, 100.0, 150.0]
    rows = [row for row in tape_words(pattern) if "front edge to front edge" in row[0]]
    assert rows[0] == ("front edge to front edge, at the waist", "80.0 mm")
    assert rows[1][0] == "front edge to front edge, 50.0 mm above the waist"
    assert rows[-1][0] == "front edge to front edge, 50.0 mm below the waist"
    assert tape_sentence(pattern).endswith("of which 80.0 mm stands open.")
    assert "along the front edge" in tape_sentence(pattern)
    told = pattern_data(pattern)["openings"][0]["widths"]
    assert [one["above_waist"] for one in told] == heights


def test_straight_edges_run_straight_and_others_smooth() -> None:
    """`straight: yes` draws from point to point; without it three points make one curve."""
    through = (
        "through: [[center front + 80 mm, bust + 40 mm], [center front + 80 mm, 50%], [center front + 50 mm, waist]]"
    )

    def edge(straight: str) -> np.ndarray:
        pattern = made(recipe(f"open front: {{{through}{straight}}}", TOP, HEM, SIDE, RED, TWO))
        return np.asarray(pattern.by_name["front"].edge("front edge").curve.points)

    corners, smooth = edge(", straight: yes"), edge("")
    turns = [
        np.degrees(np.abs(np.diff(np.unwrap(np.arctan2(*np.diff(run, axis=0).T[::-1]))))).max()
        for run in (corners, smooth)
    ]
    assert turns[0] > 15.0
    assert turns[1] < 3.0


def test_one_that_laces_has_lacing_edges() -> None:
    """It is called what it is, and sewn by the words for it."""
    pattern = front(more=", closed with: lacing")
    assert pattern.by_name["front"].edge("lacing edge").kind == LACING
    said = " ".join(joining(pattern))
    assert "finished and laced, 80.0 mm apart at the waist and farther above." in said


def test_a_robing_is_a_fold_of_the_outer_cloth() -> None:
    """A tuck of 15 mm laid along the edge: two folds and the line its free side comes to, 50 mm from the edge; so much
    more cloth beyond the edge as the tuck takes, and 15 mm to turn under (from memory)."""
    pattern = front(more=", robing: 50 mm")
    panel = pattern.by_name["front"]
    edge = panel.edge("front edge").curve.points
    off = {}
    for mark in panel.marks:
        middle = mark.curve.at(mark.curve.length_mm / 2.0)
        off[mark.name] = float(np.hypot(*(edge - middle).T).min())
    assert off["robing lies here"] == pytest.approx(50.0, abs=2.5)
    assert off["robing first fold"] == pytest.approx(35.0, abs=2.5)
    assert off["robing second fold"] == pytest.approx(20.0, abs=2.5)
    assert panel.allowances["front edge"] == 45.0
    step = "open front: {through: [[center front + 9 cm, bust], [center front + 4 cm, waist]], robing: 5 cm}"
    named = made(recipe(step, TOP, HEM, SIDE, RED, TWO, "allowances: {front edge: 7 cm}"))
    assert named.by_name["front"].allowances["front edge"] == 70.0


def test_edges_that_run_over_each_other_are_not_sound() -> None:
    """A line that crosses the centre front below its points is found by the checks."""
    pattern = front("60 mm", "15 mm")
    assert failed(pattern) == ["opening-apart"]
    says = next(finding.says for finding in pattern.findings if finding.code == "opening-apart")
    assert says.startswith("the front edges run over each other, by ")


def test_edges_that_cross_before_the_hem_are_refused() -> None:
    """A line that has run past the centre front before it comes to the hem leaves nothing to cut."""
    with pytest.raises(GeometryError) as caught:
        front("110 mm", "10 mm")
    assert (
        "open front › on their way down the front edges run over each other, or past the hem, before they meet it. Give the "
        "open front one more point there, and begin the edge at `front edge`." in str(caught.value)
    )


READING = {
    "open front: {through: [[center front + 5 cm, bust]]}": "step 1 (open front) › through › needs at least two points. Give the edge from the top down.",
    "open front: {through: [[center front + 5 cm, bust], [center front + 5 cm, waist]], closed with: lacing, number: 9}": "step 1 (open front) › number › is of no use with a lace. Say the eyelets in a step of their own: leave it out.",
    "open front: {through: [[center front + 5 cm, bust], [center front + 5 cm, waist]], spacing: 3 cm}": "step 1 (open front) › spacing › is of no use with pins. Pins go where they are wanted: leave it out.",
}


@pytest.mark.parametrize("step", READING)
def test_slips_are_told_on_reading(step: str) -> None:
    """Every refusal says what is wrong and what to do."""
    with pytest.raises(RecipeError) as caught:
        read_recipe(recipe_text(step, TOP, HEM, SIDE, RED, TWO), FILE)
    assert str(caught.value).split(": ", 1)[1] == READING[step]


DRAWING = {
    "[[center front - 2 cm, bust], [center front + 4 cm, waist]]": "step 1 (open front) › through › on this body point 1 lies past the centre front. Let the edges meet at the centre front, or stand apart.",
    "[[70%, bust], [center front + 4 cm, waist]]": "step 1 (open front) › through › on this body point 1 lies at 70% around, behind the side. Bring it nearer to the centre front.",
    "[[center front + 4 cm, waist], [center front + 9 cm, bust]]": "step 1 (open front) › through › on this body point 2 does not lie below point 1. Give the points from the top down.",
}


@pytest.mark.parametrize("through", DRAWING)
def test_what_cannot_be_drawn_on_this_body_is_refused(through: str) -> None:
    """The points run from the top down, between the centre front and the side."""
    with pytest.raises(GeometryError) as caught:
        made(recipe(f"open front: {{through: {through}}}", TOP, HEM, SIDE, RED, TWO))
    assert str(caught.value).split(": ", 1)[1] == DRAWING[through]


def test_a_robing_narrower_than_its_fold_is_refused() -> None:
    """The fold alone takes 3 cm."""
    with pytest.raises(GeometryError) as caught:
        front(more=", robing: 20 mm")
    assert (
        "step 1 (open front) › robing › got 20 mm; its fold alone takes 30 mm. Make it 4 to 6 cm wide, or leave it out."
        in str(caught.value)
    )
