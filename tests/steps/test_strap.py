"""``strap``: pieces that join front and back over the shoulder, and take their length from the body."""

from __future__ import annotations

import numpy as np
import pytest
from tests.samples import BODIES, FILE, SOME, failed, made, recipe, recipe_text, seam, separate
from tests.steps.test_outline_edges import POINTS

from fanblock.pattern.model import Pattern
from fanblock.problems import GeometryError, RecipeError
from fanblock.recipe.reading import read_recipe
from fanblock.sheet.sewing import joining

ARMHOLE = "[[37%, underarm + 20 mm], [46%, underarm - 20 mm], [54%, underarm - 20 mm], [center back - 150 mm, 82% of back length]]"
TOP = f"""top edge:
      edges:
        - {{name: front neckline, kind: neckline, through: [[center front, bust + 20 mm], [center front + 100 mm, bust + 100 mm]]}}
        - {{name: front seat, kind: shoulder, through: [[center front + 145 mm, bust + 92 mm]], straight: yes}}
        - {{name: armhole, kind: armhole, through: {ARMHOLE}}}
        - {{name: back seat, kind: shoulder, through: [[center back - 95 mm, 84% of back length]], straight: yes}}
        - {{name: back neckline, kind: neckline, through: [[center back, 74% of back length]]}}"""
SIDE = seam("side seam", "50%, top edge", "50%, waist", share="1")
TWO = separate("front", "back")
BOTH = "strap: {from: back seat, to: front seat}"


def strapped(*steps: str, name: str = "ordinary") -> Pattern:
    """Return a bodice with straps."""
    return made(recipe(TOP, POINTS, SIDE, TWO, *steps), name)


@pytest.mark.parametrize("name", BODIES)
def test_a_bodice_with_straps_is_sound_on_every_body(name: str) -> None:
    """Ends and seats agree, everything hangs together, the piece can be cut."""
    assert failed(strapped(BOTH, name=name)) == []


@pytest.mark.parametrize("name", SOME)
def test_its_ends_are_as_long_as_the_edges_they_are_sewn_to(name: str) -> None:
    """Mates agree within a tenth of a millimetre (common practice), and each names the other."""
    pattern = strapped(BOTH, name=name)
    strap = pattern.by_name["strap"]
    for end, panel, seat in (("strap front end", "front", "front seat"), ("strap back end", "back", "back seat")):
        mine, theirs = strap.edge(end), pattern.by_name[panel].edge(seat)
        assert mine.curve.length_mm == pytest.approx(theirs.curve.length_mm, abs=0.1)
        assert mine.mate is not None
        assert theirs.mate is not None
        assert (mine.mate.panel, mine.mate.edge, theirs.mate.edge) == (panel, seat, end)
        assert mine.letter == theirs.letter


def test_its_sides_go_on_as_armhole_and_neckline() -> None:
    """What a sleeve is set into is armhole, and counts the strap's side; the other is neckline."""
    strap = strapped(BOTH).by_name["strap"]
    kinds = {edge.name: edge.kind for edge in strap.edges}
    assert kinds == {
        "strap front end": "shoulder",
        "armhole strap": "armhole",
        "strap back end": "shoulder",
        "neckline strap": "neckline",
    }
    loop = strap.loop()
    assert strap.edge("armhole strap").curve.points[:, 0].mean() > loop[:, 0].mean()


def test_it_is_a_straight_strip_on_the_straight_thread_of_its_length() -> None:
    """The middles of its ends are its length apart, and the grain runs along it."""
    strap = strapped("strap: {from: back seat, to: front seat, length: 18 cm}").by_name["strap"]
    ends = [strap.edge(end).curve.points.mean(axis=0) for end in ("strap front end", "strap back end")]
    assert ends[1] - ends[0] == pytest.approx([0.0, 180.0], abs=1e-6)
    assert strap.grain is not None
    assert strap.grain[1][0] - strap.grain[0][0] == pytest.approx(0.0)
    assert strap.cuts == (("outer", 2),)


def test_its_length_is_guessed_from_front_and_back_length() -> None:
    """What is left of front and back length above its two seats, and 1 cm for the neck (from memory); said to be guessed."""
    pattern = strapped(BOTH)
    block, above = pattern.block, []
    for panel, seat in (("front", "front seat"), ("back", "back seat")):
        curve = pattern.by_name[panel].edge(seat).curve
        around, height = block.where(curve.at(curve.length_mm / 2.0))
        above.append(float(height) * block.ruling_length_mm(float(around)))
    lengths = pattern.body.lengths
    due = lengths["front length"] + lengths["back length"] + 10.0 - sum(above)
    ends = [
        pattern.by_name["strap"].edge(end).curve.points.mean(axis=0) for end in ("strap front end", "strap back end")
    ]
    assert np.hypot(*(ends[1] - ends[0])) == pytest.approx(due, abs=0.01)
    assert any(note.kind == "guess" and "GUESSED: the length of the strap" in note.says for note in pattern.notes)


def test_it_has_cloth_to_spare_where_it_is_pinned_on_the_body() -> None:
    """Strap length is taken on the body: the end named second is cut to fit there, and says so."""
    pattern = strapped(BOTH)
    assert pattern.by_name["strap"].allowances["strap front end"] == 40.0
    assert pattern.by_name["strap"].allowances["strap back end"] == 20.0
    assert any("Strap length is taken on the body" in note.says for note in pattern.notes if note.kind == "toile")
    other = strapped("strap: {from: front seat, to: back seat, spare: 3 cm}").by_name["strap"]
    assert (other.allowances["strap front end"], other.allowances["strap back end"]) == (20.0, 30.0)


def test_it_is_set_on_after_the_seams_the_first_end_first() -> None:
    """The order of sewing joins front and back first, then the strap behind, then pins it in front."""
    lines = joining(strapped(BOTH))
    sewn = [line for line in lines if "Join" in line]
    assert "piece 1 (front) to piece 2 (back)" in sewn[0]
    assert "piece 3 (strap) to piece 2 (back)" in sewn[1]
    assert "piece 1 (front) to piece 3 (strap)" in sewn[2]
    assert sewn[2].startswith("Draw the strap (piece 3) over the shoulder on the body, pin it to the front,")


def test_neck_and_armhole_run_on_over_its_ends_as_straight_as_a_strip_allows() -> None:
    """The ends are cut on the slant of their seats: what is left to trim is shared between both sides."""
    pattern = strapped(BOTH)
    strap, front = pattern.by_name["strap"], pattern.by_name["front"]
    seat = front.edge("front seat").curve
    inner = strap.edge("neckline strap").curve.end_tangent
    outer = strap.edge("armhole strap").curve.start_tangent
    end = strap.edge("strap front end").curve

    def turn(along: np.ndarray, line: np.ndarray) -> float:
        return float(np.degrees(np.arctan2(along[0] * line[1] - along[1] * line[0], along @ line)))

    at_arm = turn(front.edge("armhole").curve.end_tangent, seat.start_tangent) + turn(end.end_tangent, outer)
    at_neck = turn(seat.end_tangent, front.edge("front neckline").curve.start_tangent) + turn(inner, end.start_tangent)
    assert at_arm == pytest.approx(at_neck, abs=2.0)


def test_one_end_may_be_tied() -> None:
    """Straps of bodies are sewn on behind and tied in front (Manchester Art Gallery 2003.109/2)."""
    top = TOP.replace("kind: shoulder", "kind: top")
    pattern = made(recipe(top, POINTS, SIDE, TWO, "strap: {from: back seat, length: 24 cm, width: 2 cm}"))
    assert failed(pattern) == []
    strap = pattern.by_name["strap"]
    assert strap.edge("strap front end").mate is None
    assert strap.edge("strap front end").kind == "free"
    assert strap.edge("strap front end").curve.length_mm == pytest.approx(20.0)
    assert [mark.says for mark in strap.marks] == ["tie"]
    assert any(
        "Finish the other end of the strap (piece 3); it is tied to the front" in line for line in joining(pattern)
    )


READING = {
    "strap: {from: back seat, to: back seat}": "step 5 (strap) › to › “back seat” is where it comes from. Name the edge of its other end.",
    "strap: {from: back seat}": "step 5 (strap) › length › is missing, and nothing says where its other end lies. Add `length`, or `to`.",
    "strap: {from: back seat, to: front seat, width: 3 cm}": "step 5 (strap) › width › stands beside a `to`. Both ends are as wide as the edges they are sewn to: leave it out.",
}


@pytest.mark.parametrize("step", READING)
def test_slips_are_told_on_reading(step: str) -> None:
    """Every refusal says what is wrong and what to do."""
    with pytest.raises(RecipeError) as caught:
        read_recipe(recipe_text(TOP, POINTS, SIDE, TWO, step), FILE)
    assert str(caught.value).split(": ", 1)[1] == READING[step]


DRAWING = {
    "strap: {from: back seet, to: front seat}": "step 5 (strap) › from › no panel has an edge “back seet”. Did you mean “back seat”",
    "strap: {from: side seam, to: front seat}": "step 5 (strap) › from › “side seam” is sewn to “side seam” of panel “back” already. A strap needs an edge that is free.",
    "strap: {from: back seat, to: back neckline}": "step 5 (strap) › to › “back seat” and “back neckline” both lie behind. A strap goes from the back to the front.",
    "strap: {from: back seat, to: front seat, length: 1 cm}": "step 5 (strap) › length › on this body it would be 10 mm long. Lower its seats, or give its length.",
}


@pytest.mark.parametrize("step", DRAWING)
def test_what_cannot_be_drawn_is_refused(step: str) -> None:
    """An edge that is not there, not free or on the wrong side, and a strap of no length."""
    with pytest.raises(GeometryError) as caught:
        strapped(step)
    assert DRAWING[step] in str(caught.value)
