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
from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import CENTER, HEM, SEAM, SLIT, TOP, Edge, Panel
from fanblock.problems import GeometryError
from fanblock.tolerances import SLIVER_MM2

WIDTH_MM = 0.05
"""How exactly the width beyond the middle of an edge is kept."""


ALL_CORNER = 1.5
"""An edge shorter than this many times the widest allowance lies within the corners of its neighbours."""


def outward(edge: Edge) -> tuple[Points, Points]:
    """Return the middle of an edge and the direction away from the panel there."""
    middle = edge.curve.length_mm / 2.0
    along = edge.curve.tangent_at(middle)
    return edge.curve.at(middle), np.array([along[1], -along[0]])


def width_mm(cut: Curve, edge: Edge) -> float:
    """Return how far from the middle of an edge, straight away from the panel, the cut line first runs."""
    middle, away = outward(edge)
    ray = shapely.LineString([middle + 1e-6 * away, middle + 500.0 * away])
    return float(ray.intersection(shapely.LinearRing(cut.points)).distance(shapely.Point(middle)))


def check_cut(panel: Panel, widths: dict[str, float], cut: Curve) -> None:
    """Assert all that must be so of a panel's cut line."""
    ring, cloth = shapely.Polygon(cut.points), shapely.Polygon(panel.loop())
    assert shapely.LinearRing(cut.points).is_simple
    assert ring.exterior.is_ccw
    assert cloth.difference(ring).area < SLIVER_MM2
    for edge in panel.edges:
        if 0.0 < widths[edge.name] <= edge.curve.length_mm:  # a shorter one, as on the peak of a dart, is all corner
            found = width_mm(cut, edge)
            assert found >= widths[edge.name] - WIDTH_MM
            if edge.curve.length_mm > ALL_CORNER * max(
                widths.values()
            ):  # the corner of its neighbour reaches no further
                assert found == pytest.approx(widths[edge.name], abs=WIDTH_MM)
    farthest = REACH * max(widths.values()) + 1.0
    away = shapely.distance(shapely.points(cut.points), cloth)
    assert float(np.max(away)) <= farthest


@pytest.mark.parametrize("recipe", RECIPES)
def test_every_panel_of_the_catalogue_is_cut_right(recipe: str) -> None:
    """On every body each panel has one ring that crosses nothing, holds the stitch line, has its full width beyond the
    middle of every edge and no ear further out than twice the widest allowance.
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
