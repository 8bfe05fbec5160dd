"""``lacing gap``: at either centre, at the sides, along a seam, at several places or at none."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import (
    BODIES,
    FOUR,
    GAP,
    HEM,
    ONE,
    RED,
    SOME,
    THREE,
    TOP,
    failed,
    made,
    recipe,
    recipe_text,
    seam,
    separate,
    side_back,
    side_front,
)

from fanblock.pattern.joins import laced_together
from fanblock.pattern.model import LACING
from fanblock.problems import FanblockError
from fanblock.recipe.reading import read_recipe

FRONT_GAP = "lacing gap: {at: center front, width: 40 mm}"
SIDE_GAP = "lacing gap: {at: side, width: 20 mm}"
SEAM_GAP = "lacing gap: {at: side back, width: 20 mm}"
SEAMS = (side_front(), side_back())
TWO = separate("front", "back")
LONG = "hem: {height: waist - 160 mm}"
FLAT = "top edge: {through: [[center front, bust], [50%, bust], [center back, bust]]}"


@pytest.mark.parametrize("name", SOME)
@pytest.mark.parametrize("gaps", [(), (GAP,), (FRONT_GAP,), (FRONT_GAP, GAP)], ids=["none", "back", "front", "both"])
def test_every_way_of_lacing_is_sound(name: str, gaps: tuple[str, ...]) -> None:
    """Laced behind, before, on both sides or not at all, no check fails on any body."""
    assert failed(made(recipe(*gaps, TOP, HEM, *SEAMS, RED, THREE), name)) == []


def test_lacing_edges_are_named_by_their_centre_where_there_are_two() -> None:
    """One is the lacing edge; of two each says where it is. What is not laced stays the body's centre line."""
    names = {
        gaps: [edge.name for panel in made(recipe(*gaps, TOP, HEM, *SEAMS, RED, THREE)).panels for edge in panel.edges]
        for gaps in ((), (GAP,), (FRONT_GAP, GAP))
    }
    assert {"center front", "center back"} < set(names[()])
    assert {"center front", "lacing edge"} < set(names[(GAP,)])
    assert {"lacing edge front", "lacing edge back"} < set(names[(FRONT_GAP, GAP)])


def test_the_gap_is_kept_in_the_pattern() -> None:
    """The pattern tells the whole opening, both gaps together."""
    assert made(recipe(FRONT_GAP, GAP, TOP, HEM, *SEAMS, RED, THREE)).gap_mm == 90.0


def test_a_tube_laced_at_both_sides() -> None:
    """By hand: where bust is waist, 900 mm, half of it is 450 wide. A gap of 20 mm at each side leaves 430 of cloth in the half,
    215 before and 215 behind, and 40 mm of the 900 without cloth, at every height up to the top edge.
    """
    pattern = made(recipe(FLAT, HEM, SIDE_GAP, TWO), "bust is waist")
    front, back = pattern.panels
    assert [shapely.Polygon(panel.loop()).area for panel in (front, back)] == pytest.approx(
        [215.0 * 255.0] * 2, abs=1.0
    )
    assert pattern.gap_mm == 40.0
    for girth in pattern.girths[:-1]:
        assert (girth.parts_mm, girth.gap_mm, girth.open_mm) == pytest.approx((430.0, 20.0, 0.0), abs=0.02)
    edges = [panel.edge("lacing edge") for panel in (front, back)]
    assert [(edge.kind, edge.mate, edge.opens_at, edge.letter) for edge in edges] == [(LACING, None, "side", "")] * 2
    assert edges[1].curve.start[0] - edges[0].curve.start[0] == pytest.approx(20.0, abs=0.01)
    (opening,) = pattern.openings
    assert (opening.at, opening.edge, opening.closed, opening.width_mm, opening.times) == (
        "side", "lacing edge", "lacing", 20.0, 2,
    )  # fmt: skip
    assert failed(pattern) == []


PLACES = {
    "sides": (TOP, HEM, *SEAMS, SIDE_GAP, RED, FOUR),
    "along a seam": (TOP, HEM, *SEAMS, SEAM_GAP, RED, THREE),
    "along a seam that parts below": (
        TOP, HEM, side_front(below_waist="open"), side_back(below_waist="open"), SEAM_GAP, RED, THREE,
    ),
    "front and sides": (FRONT_GAP, TOP, HEM, *SEAMS, SIDE_GAP, RED, FOUR),
    "back and along a seam": (GAP, TOP, HEM, *SEAMS, SEAM_GAP, RED, THREE),
    "everywhere": (FRONT_GAP, GAP, TOP, HEM, *SEAMS, SIDE_GAP, SEAM_GAP, RED, FOUR),
    "along a seam that a level one cuts": (
        TOP, LONG, *SEAMS, SEAM_GAP, "level seam: {name: waist seam, height: waist}", RED, separate(*"abcdef"),
    ),
    "with a seam that ends on it": (
        TOP, HEM, side_front(), SIDE_GAP, seam("dart", "side, 60%", "40%, waist", "42%, hem"), RED, FOUR,
    ),
    "with a level seam that ends on it": (
        TOP, LONG, *SEAMS, SIDE_GAP, "level seam: {name: waist seam, height: waist, to: side}", RED, separate(*"abcdef"),
    ),
}  # fmt: skip


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("name", SOME)
def test_laced_at_the_sides_or_along_a_seam_it_is_sound(place: str, name: str) -> None:
    """Alone or with other lacings, whatever crosses it or ends on it: the panels are one whole and every level adds up."""
    assert failed(made(recipe(*PLACES[place]), name)) == []


@settings(max_examples=20, deadline=None, derandomize=True)
@given(st.sampled_from(sorted(BODIES)), st.integers(0, 60), st.booleans())
def test_what_a_seam_takes_and_its_gap_are_counted_apart(body: str, width: int, side: bool) -> None:
    """Laced instead of sewn, a seam takes as much as before; what is missing besides is the gap, twice in the garment, and
    nearly the same at every height.
    """
    at = "side" if side else "side back"
    panels = FOUR if side else THREE
    sewn = made(recipe(TOP, HEM, *SEAMS, RED, THREE), body)
    laced = made(recipe(TOP, HEM, *SEAMS, f"lacing gap: {{at: {at}, width: {width} mm}}", RED, panels), body)
    assert laced.gap_mm == pytest.approx(2.0 * width)
    for one, other in zip(laced.girths, sewn.girths, strict=True):
        assert dict(one.takes)["side back"] == pytest.approx(dict(other.takes)["side back"])
        assert width <= one.gap_mm + 1e-3
        assert one.gap_mm == pytest.approx(width, rel=0.03, abs=0.01)


def test_the_edges_stand_back_half_the_gap_square_to_themselves() -> None:
    """Each lacing edge keeps half the gap from the edge that the seam would have had, all along."""
    sewn, laced = (made(recipe(TOP, HEM, *SEAMS, *gap, RED, THREE)) for gap in ((), (SEAM_GAP,)))
    for panel in ("side", "back"):
        was = shapely.LineString(sewn.by_name[panel].edge("side back").curve.points)
        inner = laced.by_name[panel].edge("lacing edge").curve
        off = [was.distance(shapely.Point(inner.at(share * inner.length_mm))) for share in np.linspace(0.1, 0.9, 9)]
        assert off == pytest.approx([10.0] * 9, abs=0.02)


def test_a_lace_holds_two_panels_together() -> None:
    """A front and a back that nothing sews are one whole: the lace joins them. The front panel is named first."""
    pattern = made(recipe(TOP, HEM, SIDE_GAP, TWO))
    assert pattern.seams == ()
    assert laced_together(pattern) == [("front", "back")]
    says = next(finding.says for finding in pattern.findings if finding.code == "one-whole")
    assert says == "all panels hang together by their seams and laces"


def test_in_several_places_every_edge_says_where_it_is() -> None:
    """Front, back, side and a seam: each edge has its place in its name, and openings are told from the centres on."""
    pattern = made(recipe(*PLACES["everywhere"]))
    assert [(one.at, one.edge, one.times) for one in pattern.openings] == [
        ("center front", "lacing edge front", 1),
        ("center back", "lacing edge back", 1),
        ("side", "lacing edge side", 2),
        ("side back", "lacing edge side back", 2),
    ]
    assert pattern.gap_mm == 40.0 + 50.0 + 2 * 20.0 + 2 * 20.0
    assert {edge.name for panel in pattern.panels for edge in panel.edges if edge.kind == LACING} == {
        one.edge for one in pattern.openings
    }


def test_the_edges_may_be_named_as_arounds() -> None:
    """`lacing edge front` and the like stand for that edge; at a side for the one nearer to the front."""
    top = TOP.replace("center front, bust", "lacing edge front, bust").replace(
        "center back, bust", "lacing edge back, bust"
    )
    assert failed(made(recipe(FRONT_GAP, GAP, top, HEM, *SEAMS, RED, THREE))) == []
    dart = seam("dart", "lacing edge side, 60%", "40%, waist", "42%, hem")
    ends = "level seam: {name: waist seam, height: waist, to: lacing edge side back}"
    assert failed(made(recipe(TOP, HEM, SIDE_GAP, dart, separate("front", "side", "back")))) == []
    assert failed(made(recipe(TOP, LONG, side_back(), SEAM_GAP, ends, separate("front", "skirt", "back")))) == []


WRONG = {
    "at the side before there is an outline": (
        (SIDE_GAP, TOP, HEM, ONE),
        "r.yaml:5:22: step 1 (lacing gap) › at › the hem has not been drawn before this step, so nobody knows how far the "
        "opening goes. Move `hem` before this step.\n"
        "r.yaml:5:22: step 1 (lacing gap) › at › the top edge has not been drawn before this step, so nobody knows how far the "
        "opening goes. Move `top edge` before this step.",
    ),
    "at a seam that there is not": (
        (TOP, HEM, side_back(), "lacing gap: {at: side bak, width: 20 mm}", ONE),
        "r.yaml:15:22: step 4 (lacing gap) › at › there is no seam “side bak” before this step. Did you mean “side back” or "
        "“side”?",
    ),
    "too wide for two sides": (
        (TOP, HEM, side_back(), "lacing gap: {at: side back, width: 200 mm}", TWO),
        "r.yaml:15:5: step 4 (lacing gap) › width › a gap of 200 mm on each side is more than half of the waist. Open it less.",
    ),
    "less than nothing": (
        (TOP, HEM, "lacing gap: {at: side, width: -20 mm}", TWO),
        "r.yaml:14:5: step 3 (lacing gap) › width › got -20.0 mm, needs 0 or more. Leave out the minus.",
    ),
    "along a seam that ends on another": (
        (
            GAP, TOP, HEM, side_front(), seam("dart", "side front, 55%", "30%, waist", "32%, hem"),
            "lacing gap: {at: dart, width: 20 mm}", THREE,
        ),
        "r.yaml:17:5: step 6 (lacing gap) › at › the seam “dart” ends on side front; its two edges could not stand apart "
        "there. Lace a seam that runs from the top edge to the hem.",
    ),
    "an edge that may be either": (
        (GAP, FRONT_GAP, TOP.replace("center back, bust", "lacing edge, bust"), HEM, ONE),
        "r.yaml:14:12: step 3 (top edge) › through › point 6 › around › the garment laces in 2 places, and this does not say "
        "which edge is meant. Write `lacing edge back` or `lacing edge front`.",
    ),
    "an edge that there is not": (
        (FRONT_GAP, TOP.replace("center back, bust", "lacing edge back, bust"), HEM, ONE),
        "r.yaml:13:12: step 2 (top edge) › through › point 6 › around › the lacing edge back has not been drawn before this "
        "step. Put a `lacing gap` before this step.",
    ),
    "a reduction that no seam takes": (
        (TOP, HEM, SIDE_GAP, RED, TWO),
        "r.yaml:16:5: step 5 (separate) › waist reduction › 10.2 mm a half shall be taken in or let out at the waist, and no "
        "seam there has a share of it. Give one or more seams a `share`.",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", WRONG)
def test_what_cannot_be_laced_is_refused_whole(name: str) -> None:
    """The whole message says where, what is wrong and what to do."""
    steps, says = WRONG[name]
    with pytest.raises(FanblockError) as caught:
        made(read_recipe(recipe_text(*steps), "r.yaml"))
    assert str(caught.value) == says
