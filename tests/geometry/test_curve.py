"""Curves: what is cut, moved or run backwards keeps its length, and tangents are those of the smooth curve."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fanblock.geometry.curve import Curve, Points, frozen

QUARTER = Curve.through(
    [(100.0 * math.cos(turn), 100.0 * math.sin(turn)) for turn in np.linspace(0.0, math.pi / 2.0, 101)]
)
"""A quarter of a circle of 100 mm, run from the right to the top."""

places = st.floats(0.0, QUARTER.length_mm)


def test_a_quarter_circle_is_as_long_as_its_formula_says() -> None:
    """100 chords of a quarter circle of radius r measure r · 2 · 100 · sin(π/400) together."""
    assert QUARTER.length_mm == pytest.approx(20000.0 * math.sin(math.pi / 400.0), abs=1e-9)
    assert QUARTER.length_mm == pytest.approx(50.0 * math.pi, abs=0.002)


def test_repeated_points_are_dropped_and_both_ends_kept() -> None:
    """Points that repeat their neighbour go; the first and the last point stay exactly what they were."""
    curve = Curve.through([(0.0, 0.0), (0.0, 1e-9), (5.0, 0.0), (10.0, 0.0), (10.0, 1e-9)])
    assert curve.points.tolist() == [[0.0, 0.0], [5.0, 0.0], [10.0, 1e-9]]


def test_points_cannot_be_changed() -> None:
    """A curve's points are read-only: values never change."""
    with pytest.raises(ValueError, match="read-only"):
        QUARTER.points[0, 0] = 1.0
    with pytest.raises(ValueError, match="read-only"):
        frozen([1.0])[0] = 2.0


@settings(max_examples=40, deadline=None, derandomize=True)
@given(places, places)
def test_parts_add_up_to_the_whole(first: float, second: float) -> None:
    """Cut in three anywhere, the parts are as long together as the whole, and each as long as it was cut."""
    low, high = sorted((first, second))
    if low < 1e-3 or high - low < 1e-3 or QUARTER.length_mm - high < 1e-3:
        return
    parts = [QUARTER.between(0.0, low), QUARTER.between(low, high), QUARTER.between(high, QUARTER.length_mm)]
    assert [part.length_mm for part in parts] == pytest.approx([low, high - low, QUARTER.length_mm - high], abs=1e-9)
    assert np.allclose(parts[0].end, parts[1].start)
    assert np.allclose(parts[1].end, parts[2].start)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(places)
def test_tangents_are_those_of_the_circle(place: float) -> None:
    """Anywhere on a circle the tangent stands square to the radius, within 0.05 degrees at chords of 0.9 degrees."""
    tangent, radius = QUARTER.tangent_at(place), QUARTER.at(place) / 100.0
    assert abs(math.degrees(math.asin(tangent @ radius))) < 0.05
    assert np.hypot(*tangent) == pytest.approx(1.0)


def test_beyond_its_ends_a_curve_goes_straight_on() -> None:
    """What is asked for beyond an end lies on the tangent there."""
    assert np.allclose(QUARTER.at(-10.0), (100.0, -10.0), atol=0.01)
    longer = QUARTER.between(-10.0, QUARTER.length_mm + 20.0)
    assert longer.length_mm == pytest.approx(QUARTER.length_mm + 30.0)
    assert np.allclose(longer.end, (-20.0, 100.0), atol=0.02)


def test_run_backwards_twice_is_the_same_curve() -> None:
    """Two turns about are none, and one leaves the length and swaps the ends."""
    back = QUARTER.reversed()
    assert back.length_mm == pytest.approx(QUARTER.length_mm)
    assert np.array_equal(back.start, QUARTER.end)
    assert np.array_equal(back.reversed().points, QUARTER.points)


def test_turning_and_moving_keeps_the_length() -> None:
    """A curve turned by 30 degrees and moved is as long as before."""
    cos, sin = math.cos(math.pi / 6.0), 0.5
    turned: Points = np.array([[cos, -sin], [sin, cos]])
    moved = QUARTER.moved(turned, np.array([3.0, 4.0]))
    assert moved.length_mm == pytest.approx(QUARTER.length_mm)
    assert np.allclose(moved.start, (100.0 * cos + 3.0, 54.0))
