"""Where polylines meet: against crossings worked by hand and against shapely."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from fanblock.geometry import meet

STAIR = np.array([[0.0, 0.0], [10.0, 10.0], [20.0, 0.0], [30.0, 10.0]])
SQUARE = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]])
points = st.lists(st.tuples(st.integers(0, 400), st.integers(0, 400)), min_size=3, max_size=8, unique=True)


def test_places_are_counted_in_points() -> None:
    """A level at half height meets the zigzag in the middle of each of its three stretches."""
    level = np.array([[-5.0, 5.0], [35.0, 5.0]])
    found = meet.meetings(STAIR, level)
    assert [place for place, _ in found] == pytest.approx([0.5, 1.5, 2.5])
    assert [place for _, place in found] == pytest.approx([0.25, 0.5, 0.75])


def test_lines_that_pass_each_other_by_do_not_meet() -> None:
    """Lines whose boxes overlap but that do not cross meet nowhere."""
    assert meet.meetings(STAIR, np.array([[0.0, 5.0], [4.0, 9.0]])) == []


@settings(max_examples=60, deadline=None, derandomize=True)
@given(points, points)
def test_crossings_are_those_that_shapely_finds(first: list[tuple[int, int]], second: list[tuple[int, int]]) -> None:
    """Every crossing of two random runs, off their corners, is found, and none besides."""
    a, b = np.array(first, dtype=float), np.array(second, dtype=float) + np.array([0.37, 0.41])
    expected = shapely.get_coordinates(shapely.intersection(shapely.LineString(a), shapely.LineString(b)))
    found = np.array([meet.point_at(a, place) for place, _ in meet.meetings(a, b)]).reshape(-1, 2)
    away = np.hypot(*(expected[:, None] - found[None]).transpose(2, 0, 1))
    assert np.all(away.min(axis=1, initial=np.inf) < 1e-6)
    assert np.all(away.min(axis=0, initial=np.inf) < 1e-6)


def test_part_keeps_both_ends_and_what_lies_between() -> None:
    """From the middle of the first stretch to the middle of the last: the two corners between, and the new ends."""
    assert meet.part(STAIR, 0.5, 2.5).tolist() == [[5.0, 5.0], [10.0, 10.0], [20.0, 0.0], [25.0, 5.0]]


def test_several_places_are_read_like_one() -> None:
    """Points at several places are the points at each of them, the very last point included."""
    places = np.array([0.25, 1.0, 2.75, 3.0])
    expected = [meet.point_at(STAIR, place).tolist() for place in places.tolist()]
    assert meet.points_at(STAIR, places).tolist() == expected


def test_a_level_that_ends_on_the_last_point_is_read_there() -> None:
    """A crossing so near the last point that its place rounds up to it is still read as that point."""
    line = np.array([[0.0, 0.0], [1.0, 1.0], [2.0, -1e-18]])
    places = meet.crossings(line, 1, 0.0)
    assert places.tolist() == [2.0]
    assert meet.points_at(line, places).tolist() == [[2.0, 0.0]]


def test_crossings_of_one_coordinate() -> None:
    """The zigzag passes 2.5 three times, at a quarter of its climbs and at three quarters of its fall."""
    assert meet.crossings(STAIR, 1, 2.5).tolist() == pytest.approx([0.25, 1.75, 2.25])


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.floats(-5.0, 15.0), st.floats(-5.0, 15.0))
def test_a_square_holds_what_lies_within_it(x: float, y: float) -> None:
    """Crossing count agrees with the comparison of coordinates, off the square's own edges."""
    if min(abs(x), abs(x - 10.0), abs(y), abs(y - 10.0)) < 1e-9:
        return
    assert meet.contains(SQUARE, np.array([x, y])) == (0.0 < x < 10.0 and 0.0 < y < 10.0)
