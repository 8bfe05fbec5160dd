"""Allowances: one ring round every panel, full width beyond every edge, tidy corners."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import RECIPES, drawn, garment, made, side_back, side_front

from fanblock.finish.offsets import REACH, cut_line
from fanblock.geometry.curve import Curve
from fanblock.pattern.model import ARMHOLE, CENTER, FREE, HEM, SEAM, SHOULDER, SLIT, TOP, Edge, Panel
from fanblock.problems import GeometryError
from fanblock.tolerances import SLIVER_MM2

WIDTH_MM = 0.05
"""How exactly the width beyond the middle of an edge is kept."""


def width_mm(cut: Curve, edge: Edge) -> float:
    """Return how far from the middle of an edge, straight away from the panel, the cut line first runs."""
    along = edge.curve.tangent_at(0.5 * edge.curve.length_mm)
    place, away = edge.curve.at(0.5 * edge.curve.length_mm), np.array([along[1], -along[0]])
    ray = shapely.LineString([place + 1e-6 * away, place + 500.0 * away])
    return float(ray.intersection(shapely.LinearRing(cut.points)).distance(shapely.Point(place)))


def check_cut(panel: Panel, widths: dict[str, float], cut: Curve) -> None:
    """Assert all that must be so of a panel's cut line."""
    ring, cloth = shapely.Polygon(cut.points), shapely.Polygon(panel.loop())
    assert shapely.LinearRing(cut.points).is_simple
    assert ring.exterior.is_ccw
    assert cloth.difference(ring).area < SLIVER_MM2
    for edge in panel.edges:
        if 0.0 < widths[edge.name] <= edge.curve.length_mm:  # a shorter one, as on the peak of a dart, is all corner
            assert width_mm(cut, edge) == pytest.approx(widths[edge.name], abs=WIDTH_MM), edge.name
            check_along(panel, edge, widths, ring.exterior)
    farthest = REACH * max(widths.values()) + 1.0
    away = shapely.distance(shapely.points(cut.points), cloth)
    assert float(np.max(away)) <= farthest


def check_along(panel: Panel, edge: Edge, widths: dict[str, float], ring: shapely.LinearRing) -> None:
    """Assert that an edge has exactly its own width everywhere but in its corners, where other edges come near."""
    corner, width = REACH * max(widths.values()), widths[edge.name]
    others = shapely.MultiLineString([one.curve.points for one in panel.edges if one is not edge])
    for at_mm in np.linspace(corner, edge.curve.length_mm - corner, 5):
        place = shapely.Point(edge.curve.at(float(np.clip(at_mm, 0.0, edge.curve.length_mm))))
        if place.distance(others) > corner:
            assert ring.distance(place) == pytest.approx(width, abs=WIDTH_MM), edge.name


@pytest.mark.parametrize("recipe", RECIPES)
def test_every_panel_of_the_catalogue_is_cut_right(recipe: str) -> None:
    """On every body each panel has one ring that crosses nothing, holds the stitch line, has beyond the middle of every edge,
    and everywhere off its corners, exactly that edge's width, and no ear further out than twice the widest allowance.
    """
    for pattern in drawn(recipe).values():
        for panel in pattern.panels:
            assert panel.cut_line is not None
            check_cut(panel, dict(panel.allowances), panel.cut_line)


def tent(interior_deg: float, kinds: tuple[str, str], bow_mm: float) -> Panel:
    """Return a panel with one corner of this interior angle between two edges, each bowed outward by so much."""
    turn = math.pi - math.radians(interior_deg) + 2.0 * math.atan(4.0 * bow_mm / 150.0)
    first = bowed((-150.0, 0.0), (0.0, 0.0), bow_mm)
    away = (150.0 * math.cos(turn), 150.0 * math.sin(turn))
    second = bowed((0.0, 0.0), away, bow_mm)
    third = bowed(away, (-150.0, 0.0), 5.0)
    return Panel(
        "tent", 1, (Edge("first", kinds[0], first), Edge("second", kinds[1], second), Edge("rest", CENTER, third))
    )


def bowed(start: tuple[float, float], end: tuple[float, float], bow_mm: float) -> Curve:
    """Return an arc from start to end that stands out to its right by ``bow_mm`` (left where negative)."""
    a, b = np.array(start), np.array(end)
    t = np.linspace(0.0, 1.0, 61)[:, None]
    across = np.array([(b - a)[1], -(b - a)[0]]) / np.hypot(*(b - a))
    return Curve.through(a + t * (b - a) + 4.0 * t * (1.0 - t) * bow_mm * across)


KINDS = st.sampled_from([SEAM, CENTER, TOP, HEM, SLIT])
WIDTHS = st.sampled_from([0.0, 6.0, 15.0, 30.0])


@settings(max_examples=120, deadline=None, derandomize=True)
@given(st.floats(35.0, 145.0), st.tuples(KINDS, KINDS), st.floats(-6.0, 6.0), WIDTHS, WIDTHS)
def test_every_corner_is_tidy(
    interior_deg: float, kinds: tuple[str, str], bow_mm: float, first: float, second: float
) -> None:
    """At corners of 35 to 145 degrees, between edges of any kinds, widths and bows, the cut line stays one ring with its
    widths, and no ear.
    """
    panel = tent(interior_deg, kinds, bow_mm)
    widths = {"first": first, "second": second, "rest": 12.0}
    check_cut(panel, widths, cut_line(panel, widths))


def test_a_seam_allowance_mirrors_the_edge_it_ends_on() -> None:
    """Folded back along the seam, the allowance's end lies along the crossing edge: its angle is the same outside.

    With 60 degrees inside, the outer line runs 15 · tan 30° = 8.66 mm short of the corner (arithmetic).
    """
    panel = tent(60.0, (SEAM, TOP), 0.0)
    cut = cut_line(panel, {"first": 15.0, "second": 0.0, "rest": 0.0})
    outer = cut.points[np.isclose(cut.points[:, 1], -15.0)]
    assert outer[:, 0].max() == pytest.approx(-15.0 / math.tan(math.radians(60.0)), abs=1e-4)


def test_a_short_edge_that_runs_on_from_a_seam_keeps_its_own_width() -> None:
    """As at the top of a sleeve's seam: the cap begins with 20 mm that turn by 20 degrees from the seam. A mirror image would
    lie 10 / tan 20° = 27 mm along it, over all of it; the two lines are carried on to meet instead.
    """
    turns = np.radians([90.0, 110.0])
    seam = np.array([[0.0, 0.0], [0.0, 200.0]])
    short = seam[-1] + np.outer(np.linspace(0.0, 20.0, 11), [math.cos(turns[1]), math.sin(turns[1])])
    cap = bowed(tuple(short[-1]), (-150.0, 200.0), 8.0)
    panel = Panel(
        "sleeve",
        1,
        (
            Edge("seam", SEAM, Curve.through(seam)),
            Edge("short", ARMHOLE, Curve.through(short)),
            Edge("cap", ARMHOLE, cap),
            Edge("rest", SEAM, Curve.through([cap.end, (0.0, 0.0)])),
        ),
    )
    widths = {"seam": 12.0, "short": 10.0, "cap": 10.0, "rest": 12.0}
    cut = cut_line(panel, widths)
    check_cut(panel, widths, cut)
    assert width_mm(cut, panel.edge("short")) == pytest.approx(10.0, abs=1e-6)


def test_a_short_wide_allowance_beside_a_bare_edge_keeps_its_middle() -> None:
    """As at the end of a strap: 46 mm long and 40 mm wide, beside an edge without allowance that slants by 59 degrees. Carried
    on, that edge would cut off 40 / tan 59° = 24 mm of it, more than half.
    """
    turn = math.radians(59.0)
    corners = np.array([[0.0, 0.0], [46.0, 0.0], [46.0, 120.0], [-90.0 * math.cos(turn), 90.0 * math.sin(turn)]])
    names = (("end", SHOULDER), ("armhole", ARMHOLE), ("back", SHOULDER), ("inner", FREE))
    edges = tuple(
        Edge(name, kind, Curve.through([corners[at], corners[(at + 1) % 4]])) for at, (name, kind) in enumerate(names)
    )
    panel, widths = Panel("strap", 1, edges), {"end": 40.0, "armhole": 10.0, "back": 25.0, "inner": 0.0}
    cut = cut_line(panel, widths)
    check_cut(panel, widths, cut)
    assert width_mm(cut, panel.edge("end")) == pytest.approx(40.0, abs=1e-6)


def test_a_bend_within_an_edge_has_its_full_width_on_both_sides() -> None:
    """An edge that bends outward by 90 degrees is cut 15 mm from both its parts: its corner stands at 15, -15 (arithmetic)."""
    bent = Curve.through([[-150.0, 0.0], [-50.0, 0.0], [0.0, 0.0], [0.0, 50.0], [0.0, 150.0]])
    panel = Panel("bent", 1, (Edge("bent", TOP, bent), Edge("rest", CENTER, Curve.through([bent.end, bent.start]))))
    cut = cut_line(panel, {"bent": 15.0, "rest": 0.0})
    assert np.min(np.hypot(*(cut.points - [15.0, -15.0]).T)) == pytest.approx(0.0, abs=1e-6)


def test_without_allowances_the_cut_line_is_the_stitch_line() -> None:
    """A panel bound all round is cut along its stitch line."""
    panel = tent(90.0, (TOP, HEM), 5.0)
    assert np.array_equal(cut_line(panel, dict.fromkeys(("first", "second", "rest"), 0.0)).points, panel.loop())


def test_allowances_that_cannot_be_drawn_are_refused() -> None:
    """Cloth wider than the panel is deep does not make one ring, and is told with the step that asked for it."""
    with pytest.raises(GeometryError) as caught:
        made_with_allowances("{seam: 400 mm, hem: 300 mm}")
    assert str(caught.value) == (
        "r.yaml:19:5: step 8 (allowances) › the allowances of panel “back” cannot be drawn: the cut line does not make "
        "one ring. Make them narrower."
    )


def made_with_allowances(widths: str) -> None:
    """Draft the sample garment with an allowances step."""
    from tests.samples import GAP, HEM, RED, THREE, TOP, recipe

    made(recipe(GAP, TOP, HEM, side_front(), side_back(), RED, THREE, f"allowances: {widths}"))


def test_a_lacing_edge_gets_its_own_width() -> None:
    """Where nothing is said a lacing edge has 25 mm to fold under the eyelets, seams 15 mm (common practice, no source)."""
    back = made(garment()).by_name["back"]
    assert back.cut_line is not None
    assert width_mm(back.cut_line, back.edge("lacing edge")) == pytest.approx(25.0, abs=WIDTH_MM)
    assert width_mm(back.cut_line, back.edge("side back")) == pytest.approx(15.0, abs=WIDTH_MM)
