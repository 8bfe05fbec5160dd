"""Bending a sleeve at the elbow: with its darts closed both edges of the seam are equally long."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

from fanblock.geometry.curve import Points
from fanblock.problems import GeometryError
from fanblock.sleeves.bent import LEAST_TAKE_MM, MOST_TAKE_MM, STAYING, Darted, darted, side


def bent(count: int = 2, take: float = 40.0, long: float = 440.0, elbow: float = -180.0) -> Darted:
    """Return the seam of a sleeve 340 mm wide at the top, 300 at the elbow and narrower below."""
    front = side([(-60.0, -25.0), (-40.0, elbow), (-10.0, 20.0 - long)], from_y=10.0)
    return darted(front, 110.0, elbow, 170.0, count, take)


def turned(points: Points, about: Points, turn: float) -> Points:
    """Return points turned about one of them."""
    cos, sin = math.cos(turn), math.sin(turn)
    return (points - about) @ np.array([[cos, sin], [-sin, cos]]) + about


@given(st.integers(1, 3), st.floats(8.0, 30.0), st.floats(330.0, 500.0))
def test_the_back_edge_is_longer_by_what_the_darts_take(count: int, each: float, long: float) -> None:
    """By shapely, stretch for stretch: above and below they are alike, at the elbow they differ by the darts."""
    made = bent(count, count * each, long)
    assert sum(dart.width_mm for dart in made.darts) == pytest.approx(count * each, abs=1e-6)
    for number, (front, back) in enumerate(zip(made.front, made.back, strict=True)):
        if front is None or back is None:
            assert number == 2
            assert front is back is None
            continue
        longer = LineString(back.points).length - LineString(front.points).length
        assert longer == pytest.approx(count * each if number == 1 else 0.0, abs=1e-6)


@given(st.integers(1, 3), st.floats(8.0, 30.0))
def test_a_dart_closes(count: int, each: float) -> None:
    """Its legs are equally long, and closing it lays what is below the seam's mouth against what is above."""
    for dart in bent(count, count * each).darts:
        upper, lower = dart.legs_mm
        assert upper == pytest.approx(lower, abs=1e-9)
        angle = 2.0 * math.asin(dart.width_mm / 2.0 / upper)
        assert turned(dart.lower, dart.point, angle) == pytest.approx(dart.upper, abs=1e-6)


def test_the_sleeve_turns_forward_by_its_darts() -> None:
    """A dart of 20 mm at 300 mm from the turning point opens 2 asin(10/300) (by hand), and the front edge bends by as much."""
    made = bent(1, 20.0)
    tail = made.front[2]
    assert tail is not None
    straight = bent(1, LEAST_TAKE_MM).front[2]
    assert straight is not None

    def turn(curve: Points) -> float:
        way = curve[-1] - curve[0]
        return math.atan2(way[0], -way[1])

    opened = 2.0 * (math.asin(20.0 / 2.0 / 300.0) - math.asin(LEAST_TAKE_MM / 2.0 / 300.0))
    assert turn(straight.points) - turn(tail.points) == pytest.approx(opened, abs=0.002)


def test_the_elbow_line_is_as_wide_as_the_elbow() -> None:
    """With an even number of darts the line lies between them, from edge to edge of the straight sleeve."""
    front, back = bent(2).elbow
    assert float(np.hypot(*(back - front))) == pytest.approx(300.0, abs=1e-3)


def test_the_front_edge_bends_smoothly() -> None:
    """No corner is left where the sleeve was turned: at most 1° from point to point."""
    made = bent(2, 50.0)
    run = np.vstack([curve.points for curve in made.front if curve is not None])
    steps = np.diff(run, axis=0)
    steps = steps[np.hypot(*steps.T) > 0.1]
    ways = np.unwrap(np.arctan2(steps[:, 1], steps[:, 0]))
    assert np.degrees(np.abs(np.diff(ways))).max() < 2.0


@pytest.mark.parametrize(
    ("count", "take", "says"),
    [
        (
            2,
            8.0,
            "dart take › each elbow dart would take 4 mm. Let each take 6 to 32 mm: change `dart take` or the number of `darts`.",
        ),
        (
            1,
            60.0,
            "dart take › each elbow dart would take 60 mm. Let each take 6 to 32 mm: change `dart take` or the number of `darts`.",
        ),
    ],
)
def test_darts_that_cannot_be_sewn_are_refused(count: int, take: float, says: str) -> None:
    """Too little is not worth a dart, too much does not lie flat."""
    assert not LEAST_TAKE_MM <= take / count <= MOST_TAKE_MM
    with pytest.raises(GeometryError) as caught:
        bent(count, take)
    assert str(caught.value) == says


def test_there_must_be_room() -> None:
    """Darts need an underarm seam above them, and one that stands away from the back of the arm."""
    with pytest.raises(GeometryError) as caught:
        bent(3, 45.0, elbow=-30.0)
    assert str(caught.value) == (
        "darts › there is no room for the elbow darts between the underarm and the hem. "
        "Give fewer darts, or make the sleeve longer."
    )
    with pytest.raises(GeometryError) as caught:
        darted(side([(-60.0, -25.0), (-40.0, -180.0), (-10.0, -420.0)], from_y=10.0), 110.0, -180.0, 240.0, 2, 40.0)
    assert str(caught.value) == (
        "seam ahead › an elbow dart would be 1.9 cm long. Let the seam stand nearer to the underarm."
    )


def test_turns_follow_each_other() -> None:
    """Two turns about one point are one of their sum (arithmetic), and no point moves under none."""
    pivot = np.array([3.0, 4.0])
    twice = STAYING.turned_about(pivot, 0.3).turned_about(pivot, 0.4)
    points = np.array([[0.0, 0.0], [10.0, -5.0]])
    assert twice(points) == pytest.approx(STAYING.turned_about(pivot, 0.7)(points), abs=1e-12)
    assert STAYING(points) == pytest.approx(points)
