"""Straight strips on a sheet: how far they may run, worked by hand and against shapely."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from fanblock.geometry.strips import OUTLINE, Obstacles, crossed_at, free_stretches

SQUARE = np.array([[0.0, 0.0], [100.0, 0.0], [100.0, 200.0], [0.0, 200.0], [0.0, 0.0]])
UP = np.array([[0.0, 1.0]])


def outline(beside: float = 0.0, beyond: float = 0.0) -> Obstacles:
    """Return a sheet 100 mm wide and 200 mm high."""
    return Obstacles.along(SQUARE, beside, beyond, 7, ring=OUTLINE)


def test_a_strip_runs_from_edge_to_edge_less_its_clearance() -> None:
    """Upright in the middle of the sheet, 10 mm from either end: from 10 to 190 mm."""
    free = free_stretches(np.array([[50.0, 0.0]]), UP, 4.0, outline(3.0, 10.0))
    assert free.low_mm == pytest.approx([10.0])
    assert free.high_mm == pytest.approx([190.0])
    assert free.length_mm == pytest.approx([180.0])
    assert (free.low_kinds[0], free.high_kinds[0]) == (7, 7)
    assert (free.low_clear_mm[0], free.high_clear_mm[0]) == (10.0, 10.0)


def test_a_strip_too_near_a_side_finds_no_room() -> None:
    """Half a width of 4 mm and 3 mm of clearance: at 7 mm from the side it fits, at 6 it does not."""
    free = free_stretches(np.array([[7.0, 0.0], [6.0, 0.0]]), np.vstack((UP, UP)), 4.0, outline(3.0, 10.0))
    assert free.length_mm == pytest.approx([180.0, 0.0])
    assert free.low_kinds.tolist() == [7, -1]


def test_the_longer_of_two_stretches_is_taken() -> None:
    """A bar across at 60 mm leaves 60 below and 140 above, less what is kept clear of it."""
    bar = Obstacles.along([[30.0, 60.0], [70.0, 60.0]], 0.0, 5.0, 9)
    free = free_stretches(np.array([[50.0, 0.0]]), UP, 4.0, Obstacles.joined([outline(), bar]))
    assert (free.low_mm[0], free.high_mm[0]) == pytest.approx((65.0, 200.0))
    assert (free.low_kinds[0], free.high_kinds[0]) == (9, 7)


def test_nothing_is_laid_in_a_ring_that_is_closed_to_it() -> None:
    """A ring over the upper three quarters leaves the lower quarter, though the other stretch is longer."""
    upper = Obstacles.along([[-5, 50], [105, 50], [105, 500], [-5, 500], [-5, 50]], 0.0, 0.0, 3, ring=OUTLINE + 1)
    free = free_stretches(np.array([[50.0, 0.0]]), UP, 4.0, Obstacles.joined([outline(), upper]))
    assert (free.low_mm[0], free.high_mm[0]) == pytest.approx((0.0, 50.0))


def test_neighbours_may_share_a_side() -> None:
    """Two strips as far apart as they are wide touch and do not block each other."""
    other = Obstacles.along([[50.0, 0.0], [50.0, 200.0]], 4.0, 3.0, 9)
    free = free_stretches(
        np.array([[58.0, 0.0], [57.0, 0.0]]), np.vstack((UP, UP)), 4.0, Obstacles.joined([outline(), other])
    )
    assert free.length_mm == pytest.approx([200.0, 0.0])


def test_an_end_keeps_clear_over_its_whole_width() -> None:
    """Under an edge that falls by 0.2, 12 mm are kept left of the middle and 8 mm right of it, where the edge is lower.

    Left the edge is lowest at 50 mm, at a height of 200, right at 52 mm, at 199.6. What is left alone would end the strip
    at 188; 12 mm are kept there all over its width, so it ends at 187.6 (arithmetic).
    """
    sides = [[0.0, 210.0], [0.0, 0.0], [100.0, 0.0], [100.0, 190.0]]
    sheet = Obstacles.joined(
        [
            Obstacles.along(sides, 0.0, 0.0, 5, ring=OUTLINE),
            Obstacles.along([[100.0, 190.0], [50.0, 200.0]], 0.0, 8.0, 7, ring=OUTLINE),
            Obstacles.along([[50.0, 200.0], [0.0, 210.0]], 0.0, 12.0, 7, ring=OUTLINE),
        ]
    )
    free = free_stretches(np.array([[48.0, 10.0]]), UP, 4.0, sheet)
    assert free.high_clear_mm[0] == 12.0
    assert free.high_mm[0] + 10.0 == pytest.approx(187.6, abs=0.01)


def test_where_lines_cross_a_run() -> None:
    """A level run at 80 mm is met 80 mm up; a line beside it never."""
    found = crossed_at(
        np.array([[50.0, 0.0], [150.0, 0.0]]), np.vstack((UP, UP)), np.array([[0.0, 80.0], [100.0, 80.0]])
    )
    assert found.tolist() == [80.0, -np.inf]


@given(x=st.floats(-20.0, 120.0), lean=st.floats(-0.5, 0.5), bar=st.floats(20.0, 180.0), half=st.floats(1.0, 8.0))
def test_what_is_found_lies_inside_and_touches_nothing(x: float, lean: float, bar: float, half: float) -> None:
    """By shapely the strip found lies within the sheet and meets no bar; none is found where it could not be."""
    way = np.array([[np.sin(lean), np.cos(lean)]])
    cut = np.array([[40.0, bar], [60.0, bar + 15.0]])
    free = free_stretches(
        np.array([[x, 0.0]]), way, half, Obstacles.joined([outline(), Obstacles.along(cut, 1.0, 2.0, 9)])
    )
    if free.length_mm[0] > 1.0:
        side = half * np.array([-way[0, 1], way[0, 0]])
        low, high = (np.array([x, 0.0]) + at * way[0] for at in (free.low_mm[0], free.high_mm[0]))
        strip = shapely.Polygon([low + side, low - side, high - side, high + side])
        assert shapely.Polygon(SQUARE).buffer(0.05).covers(strip)
        assert strip.distance(shapely.LineString(cut)) > 0.5
