"""``stomacher``: what lies under an open front, everywhere as far under its edges as was asked."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.checks.spoiling import with_edge
from tests.samples import FILE, GAP, HEM, RED, SOME, TOP, failed, made, recipe, recipe_text, seam, separate

from fanblock.checks.opening import check
from fanblock.pattern.model import Pattern
from fanblock.problems import GeometryError, RecipeError
from fanblock.recipe.reading import read_recipe
from fanblock.sheet.sewing import joining, toile

OPEN = "open front: {through: [[center front + 100 mm, bust], [center front + 45 mm, waist]]}"
LACED = "lacing gap: {at: center front, width: 25 mm}"
SIDE = seam("side seam", "55%, top edge", "52%, waist", "52%, hem", share="1", spring="20 mm")
TWO = separate("front", "back")
TOP_POINTS = "top: [[center front, bust + 20 mm]]"


def made_with(options: str = TOP_POINTS, opening: str = OPEN, name: str = "ordinary") -> Pattern:
    """Return a garment that opens in front over a stomacher."""
    return made(recipe(opening, TOP, HEM, SIDE, RED, TWO, f"stomacher: {{{options}}}"), name)


def under_mm(pattern: Pattern, edge: str = "front edge") -> np.ndarray:
    """Return how far the stomacher reaches under the front edge, along the levels, wherever both are."""
    block = pattern.block
    around, height = block.where(pattern.by_name["front"].edge(edge).curve.points)
    side_around, side_height = block.where(pattern.by_name["stomacher"].edge("right side").curve.points)
    order, side_order = np.argsort(height), np.argsort(side_height)
    at = np.linspace(max(height.min(), side_height.min()), min(height.max(), side_height.max()), 30)
    first = np.interp(at, height[order], around[order])
    second = np.interp(at, side_height[side_order], side_around[side_order])
    return np.asarray(block.level_part_mm(at, first, second))


@pytest.mark.parametrize("name", SOME)
@pytest.mark.parametrize(
    ("opening", "options"),
    [
        (OPEN, TOP_POINTS),
        (OPEN, f"{TOP_POINTS}, foot: pointed, foot width: 80 mm, held by: eyelets, number: 5"),
        (OPEN, f"{TOP_POINTS}, foot: straight, tabs: 3"),
        (LACED, f"{TOP_POINTS}, held by: pins"),
    ],
    ids=["rounded", "pointed", "tabs", "laced"],
)
def test_it_is_sound_on_every_body(name: str, opening: str, options: str) -> None:
    """A stomacher of any shape is a whole piece that can be cut, under a pinned front or a laced one."""
    assert failed(made_with(options, opening, name)) == []


@settings(max_examples=12, deadline=None, derandomize=True)
@given(st.sampled_from(SOME), st.floats(20.0, 30.0))
def test_it_lies_so_far_under_the_edges_at_every_height(name: str, under: float) -> None:
    """2 to 3 cm under the edges on either side (common practice, no source), along every level."""
    found = under_mm(made_with(f"{TOP_POINTS}, under: {under:.1f} mm", name=name))
    assert found == pytest.approx(np.full(len(found), round(under, 1)), abs=0.3)


def test_under_a_lace_it_lies_under_the_lacing_edges() -> None:
    """The same piece serves stays that lace in front: 25 mm of gap and 25 under either edge make 75 at the waist."""
    pattern = made_with(opening=LACED)
    assert under_mm(pattern, "lacing edge") == pytest.approx(25.0, abs=0.3)
    loop = pattern.by_name["stomacher"].loop()
    assert np.ptp(loop[np.abs(loop[:, 1]) < 2.0][:, 0]) == pytest.approx(75.0, abs=0.5)


def test_it_is_whole_and_the_same_on_both_sides() -> None:
    """One piece, cut once, its outline unchanged when it is turned over at the centre front."""
    panel = made_with().by_name["stomacher"]
    assert (panel.whole, panel.added, panel.loose) == (True, True, "pinned under the front edges")
    assert panel.cuts == (("outer", 1),)
    turned = panel.loop() * (-1.0, 1.0)
    away = np.array([np.hypot(*(panel.loop() - point).T).min() for point in turned])
    assert away.max() < 1e-6


def test_its_length_and_depth_are_as_asked() -> None:
    """From its upper edge at the centre front to its foot, and that below the waist."""
    panel = made_with("top: [[center front, bust + 30 mm]], depth: 110 mm").by_name["stomacher"]
    middle = panel.loop()[np.abs(panel.loop()[:, 0]) < 1e-6]
    assert middle[:, 1].min() == pytest.approx(-110.0, abs=0.01)
    assert middle[:, 1].max() == pytest.approx(175.0 + 30.0, abs=0.1)


@pytest.mark.parametrize(("foot", "width"), [("rounded", 60.0), ("pointed", 90.0), ("straight", 120.0)])
def test_its_foot_has_its_width(foot: str, width: float) -> None:
    """The two ends of its foot stand so far apart."""
    edge = (
        made_with(f"{TOP_POINTS}, depth: 13 cm, foot: {foot}, foot width: {width} mm").by_name["stomacher"].edge("foot")
    )
    assert np.ptp(edge.curve.points[[0, -1], 0]) == pytest.approx(width, abs=0.01)
    assert edge.pointed == (foot == "pointed")


def test_tabs_are_slit_from_the_waist() -> None:
    """Six tabs (V&A O137802) are five slits that begin on the waist."""
    short = HEM.replace("80 mm", "40 mm")
    step = f"stomacher: {{{TOP_POINTS}, foot: straight, foot width: 150 mm, tabs: 6}}"
    pattern = made(recipe(OPEN, TOP, short, SIDE, RED, TWO, step))
    assert failed(pattern) == []
    panel = pattern.by_name["stomacher"]
    assert len(panel.slits) == 5
    assert len([edge for edge in panel.edges if edge.kind == "hem"]) == 6
    waist = next(mark for mark in panel.marks if mark.name == "waist")
    for slit in panel.slits:
        assert np.hypot(*(waist.curve.points - slit.start).T).min() < 3.0


def test_marks_say_where_one_lies_on_the_other() -> None:
    """The stomacher shows where the front edges lie, the front where the stomacher's side lies under it; three loops a
    side hold it (common practice, no source)."""
    pattern = made_with()
    stomacher = {mark.name: mark for mark in pattern.by_name["stomacher"].marks}
    assert {"front edge left", "front edge right", "waist"} <= set(stomacher)
    assert sum(name.startswith("hold ") and name.endswith("right") for name in stomacher) == 3
    edge = pattern.by_name["front"].edge("front edge").curve
    for point in stomacher["front edge right"].curve.points[::20]:
        assert np.hypot(*(edge.points - point).T).min() < 2.5
    (mark,) = (mark for mark in pattern.by_name["front"].marks if mark.name == "stomacher")
    assert mark.kind == "place"
    side = pattern.by_name["stomacher"].edge("right side").curve
    for point in mark.curve.points[::20]:
        assert np.hypot(*(side.points - point).T).min() < 2.5


def test_the_order_of_sewing_and_the_toile_tell_of_it() -> None:
    """How it is held, and that the front edges are pinned to it."""
    said = " ".join(joining(made_with()))
    assert "Bind the stomacher (piece 3) all round. Work the loops at its sides" in said
    assert "they are finished and pinned to piece 3 (stomacher), 90.0 mm apart at the waist and farther above." in said
    assert any("Make the stomacher of the toile as well" in line for line in toile(made_with()))
    assert "laced over piece 3 (stomacher), 25.0 mm apart" in " ".join(joining(made_with(opening=LACED)))


def findings(pattern: Pattern) -> dict[str, str]:
    """Return the states of what is found at openings."""
    return {finding.code: finding.state for finding in check(pattern)}


def test_too_little_under_the_edges_warns_and_next_to_nothing_fails() -> None:
    """2 to 3 cm are common practice; what cannot be pinned is not sound."""
    deep = f"{TOP_POINTS}, depth: 13 cm"
    assert findings(made_with(deep))["opening-under"] == "holds"
    assert findings(made_with(f"{deep}, under: 15 mm"))["opening-under"] == "warns"
    assert findings(made_with(f"{deep}, under: 40 mm"))["opening-under"] == "warns"
    assert findings(made_with(f"{deep}, under: 3 mm"))["opening-under"] == "fails"


def test_the_checks_measure_the_finished_piece() -> None:
    """A stomacher whose one side was moved is caught: it is no longer the same on both, nor far enough under."""
    pattern = made_with()
    side = pattern.by_name["stomacher"].edge("right side").curve
    spoilt = with_edge(pattern, "stomacher", "right side", curve=side.moved(np.eye(2), np.array([-23.0, 0.0])))
    found = findings(spoilt)
    assert (found["opening-under"], found["opening-alike"]) == ("fails", "fails")


def test_one_that_ends_above_the_edges_lower_ends_warns() -> None:
    """Where the front edges go on below it there is nothing to pin them to."""
    pattern = made_with(f"{TOP_POINTS}, depth: 40 mm")
    assert findings(pattern)["opening-under"] == "warns"


def test_its_size_is_told_beside_those_that_are_left() -> None:
    """36.0 by 28.0 (V&A O137800), 34.5 by 29.0 (V&A O137802), 35.5 by 31.5 (V&A O15322), 37 by 25 cm (Manchester Art
    Gallery 2003.109/2)."""
    (finding,) = (finding for finding in check(made_with()) if finding.code == "opening-size")
    assert "four that are left are 345.0 mm to 370.0 mm long and 250.0 mm to 315.0 mm wide" in finding.says


READING = {
    "stomacher: {top: []}": "step 6 (stomacher) › top › needs at least one point. Give the middle of its upper edge: `[[center front, bust + 6 cm]]`.",
    f"stomacher: {{{TOP_POINTS}, tabs: 12}}": "step 6 (stomacher) › tabs › got 12, needs 8 or fewer. Have fewer of them.",
    f"stomacher: {{{TOP_POINTS}, number: 0}}": "step 6 (stomacher) › number › got 0, needs 1 to 8. To pin it without loops write `held by: pins`.",
    f"stomacher: {{{TOP_POINTS}, name: front}}": "step 6 (stomacher) › there is a panel “front” already. Give every piece a name of its own.",
}


@pytest.mark.parametrize("step", READING)
def test_slips_are_told_on_reading(step: str) -> None:
    """Every refusal says what is wrong and what to do."""
    with pytest.raises(RecipeError) as caught:
        read_recipe(recipe_text(OPEN, TOP, HEM, SIDE, TWO, step), FILE)
    assert str(caught.value).split(": ", 1)[1] == READING[step]


DRAWING = (
    (
        GAP,
        TOP_POINTS,
        "step 7 (stomacher) › stomacher › the garment does not open at the center front. Put an `opening`, `open front` or `lacing gap` before it.",
    ),
    (
        "opening: {closed with: buttons, overlap: 1 cm}",
        TOP_POINTS,
        "step 7 (stomacher) › stomacher › the fronts lie over each other, and nothing shows between them. Leave it out, or leave the front open.",
    ),
    (
        OPEN,
        f"{TOP_POINTS}, depth: 10 mm",
        "step 7 (stomacher) › depth › got 10 mm, needs 20 mm or more. It has to go under the petticoats.",
    ),
    (
        OPEN,
        "top: [[center front, waist - 9 cm]]",
        "step 7 (stomacher) › depth › on this body nothing is left of its sides between foot and upper edge. Raise its upper edge, or let it reach lower.",
    ),
    (
        OPEN,
        f"{TOP_POINTS}, tabs: 8",
        "step 7 (stomacher) › tabs › a tab would be",
    ),
    (
        OPEN,
        f"{TOP_POINTS}, foot: straight, foot width: 170 mm",
        "step 7 (stomacher) › foot width › below the front edges its sides would turn out by 40 mm on 20 mm. Give its foot another width, or let it reach lower.",
    ),
)


@pytest.mark.parametrize(("opening", "options", "says"), DRAWING, ids=[str(number) for number in range(len(DRAWING))])
def test_what_cannot_be_drawn_is_refused(opening: str, options: str, says: str) -> None:
    """What is wrong, in the maker's words, and what to do."""
    with pytest.raises(GeometryError) as caught:
        made_with(options, opening)
    assert says in str(caught.value)


def test_a_pattern_without_one_is_not_asked_for_it() -> None:
    """An open front needs no stomacher: a kerchief may lie under it."""
    pattern = made(recipe(OPEN, TOP, HEM, SIDE, RED, TWO))
    assert set(findings(pattern)) == {"opening-at-center-front", "opening-apart"}
    assert findings(replace(pattern, openings=())) == {}
