"""The outline of a piece that is let in: arcs of a given length, widths at given places, an outer edge that runs on."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon

from fanblock.geometry.curve import Curve
from fanblock.shaping.inset import Beside, Wedge, bowed, wedge

UP = np.array([0.0, 1.0])
ACROSS = np.array([-1.0, 0.0])


def plain(
    width: float = 40.0, swell: float = 0.0, rise: float = 0.0, lengths: tuple[float, float] = (100.0, 100.0)
) -> Wedge:
    """Return a piece between upright sides, the edge beside it level, run from right to left."""
    beside = (Beside(UP, ACROSS), Beside(UP, ACROSS))
    return wedge(
        np.zeros(2), UP, lengths, width_mm=width, at_mm=lengths, swell_mm=swell, rise_mm=rise, beside=beside
    )  # fmt: skip


def test_an_isosceles_triangle() -> None:
    """Sides 100, width 40: half the angle is asin(0.2), the sides' ends lie 20 mm either side of the middle."""
    found = plain()
    assert found.first.end == pytest.approx([20.0, math.sqrt(100.0**2 - 20.0**2)])
    assert found.last.start == pytest.approx([-20.0, math.sqrt(100.0**2 - 20.0**2)])
    assert found.last.end == pytest.approx([0.0, 0.0])


def test_the_outer_edge_is_nearly_an_arc_about_the_point() -> None:
    """Square to both sides and beside level edges, it keeps within a tenth of a millimetre of the circle about the point."""
    outer = plain().outer
    assert np.hypot(*outer.points.T) == pytest.approx(100.0, abs=0.1)
    assert outer.start_tangent @ plain().first.end_tangent == pytest.approx(0.0, abs=1e-3)


@given(st.floats(40.0, 200.0), st.floats(0.0, 0.25))
def test_arcs_have_the_length_and_the_swell_asked_for(length: float, ratio: float) -> None:
    """Length by another library; the farthest point from the chord stands off by the swell."""
    points = bowed(length, ratio * length)
    line = LineString(points)
    assert line.length == pytest.approx(length, abs=1e-6)
    chord = LineString(points[[0, -1]])
    middle = line.interpolate(0.5, normalized=True)
    assert chord.distance(middle) == pytest.approx(ratio * length, abs=0.02)
    assert middle.y <= 0.0  # to the right of its way


def test_a_swell_the_other_way_makes_it_hollow() -> None:
    """Less than nothing curves the sides in."""
    assert bowed(100.0, -5.0)[:, 1].max() == pytest.approx(5.0, abs=0.01)
    swollen, hollow = plain(swell=5.0), plain(swell=-5.0)
    areas = [
        Polygon(np.vstack((one.first.points, one.outer.points, one.last.points))).area for one in (swollen, hollow)
    ]
    assert areas[0] > areas[1]


@given(st.floats(10.0, 90.0), st.floats(60.0, 140.0), st.floats(60.0, 140.0), st.floats(0.4, 1.0))
def test_as_wide_as_asked_where_it_is_asked(width: float, one: float, other: float, share: float) -> None:
    """The two sides keep their lengths; at their places they are so far apart."""
    least = abs(share * one - share * other)
    if not least < width < 1.4 * share * min(one, other):
        return
    beside = (Beside(UP, ACROSS), Beside(UP, ACROSS))
    at = (share * one, share * other)
    found = wedge(np.zeros(2), UP, (one, other), width_mm=width, at_mm=at, swell_mm=0.0, rise_mm=0.0, beside=beside)
    assert LineString(found.first.points).length == pytest.approx(one, abs=1e-9)
    assert LineString(found.last.points).length == pytest.approx(other, abs=1e-9)
    places = [found.first.at(at[0]), found.last.reversed().at(at[1])]
    assert np.hypot(*(places[0] - places[1])) == pytest.approx(width, abs=1e-6)


def test_too_wide_and_too_round_are_refused() -> None:
    """A spread over 100°, or a swell of more than a third."""
    with pytest.raises(ValueError, match="width"):
        plain(width=2.0 * 100.0 * math.sin(math.radians(50.0)) + 0.1)
    with pytest.raises(ValueError, match="swell"):
        plain(swell=40.0)


def test_straight_sides_are_points_on_a_line() -> None:
    """No swell: a straight run, in steps short enough to be laid on a block."""
    curve = Curve.through(bowed(50.0, 0.0))
    assert curve.points[:, 1] == pytest.approx(0.0)
    assert len(curve.points) > 40
