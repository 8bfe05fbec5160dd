"""Strips: parts of rings with the radii of published circle-skirt tables, and straight ones."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fanblock.geometry.curve import Points
from fanblock.skirts.strip import Strip

INCH = 25.4
RIGHT, DOWN = np.array([1.0, 0.0]), np.array([0.0, -1.0])


def strip(width_mm: float, turn_rad: float) -> Strip:
    """Return a strip that begins at the origin and hangs straight down there."""
    return Strip(np.zeros(2), DOWN, RIGHT, width_mm, turn_rad)


def radius_mm(points: Points) -> float:
    """Return the radius of the circle through three points: the product of the sides over four times the area."""
    a, b, c = points
    sides = [math.dist(a, b), math.dist(b, c), math.dist(c, a)]
    area = 0.5 * abs((b - a)[0] * (c - a)[1] - (b - a)[1] * (c - a)[0])
    return math.prod(sides) / (4.0 * area)


@pytest.mark.parametrize(
    ("seam_mm", "circle", "due_mm", "within_mm"),
    [
        (26.0 * INCH, 1.0, 4.13 * INCH, 0.015 * INCH),
        (26.0 * INCH, 0.5, 8.2 * INCH, 0.08 * INCH),
        (26.0 * INCH, 1.0 / 3.0, 12.4 * INCH, 0.015 * INCH),
        (26.0 * INCH, 0.25, 16.56 * INCH, 0.015 * INCH),
        (700.0, 1.0, 111.41, 0.006),
        (700.0, 0.5, 222.82, 0.006),
        (700.0, 0.25, 445.63, 0.006),
    ],
)
def test_the_upper_edge_lies_on_the_radius_of_a_circle_skirt(
    seam_mm: float, circle: float, due_mm: float, within_mm: float
) -> None:
    """Seams of 26 in by a table that goes about among sewers (its first two figures are cut off); 70 cm by hand."""
    one = strip(seam_mm, circle * 2.0 * math.pi)
    assert radius_mm(np.array([one.at(share * seam_mm, 0.0) for share in (0.0, 0.2, 0.4)])) == pytest.approx(
        due_mm, abs=within_mm
    )


@given(width=st.floats(50.0, 1500.0), turn=st.floats(0.0, 6.0), depth=st.floats(20.0, 400.0))
def test_lines_across_are_as_long_as_their_angle_makes_them(width: float, turn: float, depth: float) -> None:
    """At depth d the line across is width + turn · d long, and every line straight down is d long and square to it."""
    one = strip(width, turn)
    assert one.across(depth, 0.0, width).length_mm == pytest.approx(width + turn * depth, rel=1e-4)
    for share in (0.0, 0.37, 1.0):
        down = one.straight_down(share * width, depth)
        assert down.length_mm == pytest.approx(depth)
        beside = one.at(share * width + 0.01, 0.0) - one.at(share * width - 0.01, 0.0)
        assert abs(float(down.end_tangent @ beside)) < 1e-6


def test_a_strip_of_no_turn_is_straight() -> None:
    """Without turn nothing is bent, and a strip of no width is one line."""
    assert strip(100.0, 0.0).at(40.0, 30.0).tolist() == [40.0, -30.0]
    assert strip(0.0, 0.0).at(0.0, 30.0).tolist() == [0.0, -30.0]
