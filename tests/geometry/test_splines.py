"""Smooth functions: through their values, with the ends they were asked for, against closed forms."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fanblock.geometry import splines

AT = np.array([0.0, 1.0, 2.5, 4.0])
VALUES = np.array([1.0, 3.0, 2.0, 5.0])
STEP = 1e-6


def slope(function: splines.Function, at: float) -> float:
    """Return the slope of a function by a small difference."""
    return float(np.diff(function(np.array([at - STEP, at + STEP])))[0] / (2.0 * STEP))


def test_a_clamped_spline_keeps_values_and_slopes() -> None:
    """It goes through every value and leaves with the slopes given, straight on beyond the ends."""
    edge = splines.free_or_clamped(AT, VALUES, 0.5, -2.0)
    assert edge(AT) == pytest.approx(VALUES)
    assert slope(edge, 0.0) == pytest.approx(0.5, abs=1e-5)
    assert edge(np.array([-1.0, 5.0])) == pytest.approx([0.5, 3.0])


def test_a_free_spline_through_two_values_is_a_straight_line() -> None:
    """Two values and no slopes given: a straight line, carried on."""
    edge = splines.free_or_clamped(np.array([0.0, 2.0]), np.array([1.0, 5.0]), None, None)
    assert edge(np.array([-1.0, 0.5, 3.0])) == pytest.approx([-1.0, 2.0, 7.0])


def test_a_clamped_spline_is_exact_for_cubics() -> None:
    """Through four values of x³ with its slopes at the ends it is x³."""
    edge = splines.free_or_clamped(AT, AT**3, 0.0, 48.0)
    at = np.linspace(0.0, 4.0, 33)
    assert edge(at) == pytest.approx(at**3)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.lists(st.floats(-50.0, 50.0), min_size=2, max_size=5))
def test_a_monotone_line_never_overshoots(values: list[float]) -> None:
    """Between two values it stays between them; beyond its ends it keeps the end value or goes straight on."""
    at = np.arange(float(len(values)))
    line = splines.monotone(at, np.array(values), straight_on=(False, True))
    for low, high, start in zip(values, values[1:], at, strict=False):
        inner = line(np.linspace(start, start + 1.0, 21))
        assert inner.min() >= min(low, high) - 1e-9
        assert inner.max() <= max(low, high) + 1e-9
    assert line(np.array([-3.0])) == pytest.approx(values[0])
    end = slope(line, at[-1] - 2.0 * STEP)
    assert float(line(np.array([at[-1] + 2.0]))[0]) == pytest.approx(values[-1] + 2.0 * end, abs=1e-3)


def test_a_level_ended_step_is_the_smooth_step() -> None:
    """Between two values it is 3t² - 2t³, level at both ends, and keeps the end values beyond."""
    step = splines.level_ended(np.array([0.0, 2.0]), np.array([10.0, 0.0]))
    t = np.linspace(0.0, 1.0, 11)
    assert step(2.0 * t) == pytest.approx(10.0 * (1.0 - 3.0 * t**2 + 2.0 * t**3))
    assert step(np.array([-1.0, 3.0])) == pytest.approx([10.0, 0.0])


def test_a_single_value_is_kept_everywhere() -> None:
    """One value is the same at every height."""
    assert splines.level_ended(np.array([0.3]), np.array([4.0]))(np.array([-1.0, 9.0])).tolist() == [4.0, 4.0]
