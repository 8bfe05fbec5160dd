"""Béziers fitted to polylines: near enough both ways, few, and straight where the curve is."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import CubicSpline

from fanblock.geometry.bezier import corners, fit, fit_all, is_straight, polyline, sample, straights
from fanblock.geometry.curve import Curve
from fanblock.tolerances import BEZIER_MM, CHORD_MM

ROUNDING_MM = 0.0005
WAVE = np.array([[0.0, 0.0], [60.0, 25.0], [130.0, -20.0], [200.0, 10.0]])


def arc(radius_mm: float, angle_deg: float) -> Curve:
    """A circular arc sampled so that no chord stands off it by more than ``CHORD_MM``."""
    angle = math.radians(angle_deg)
    count = math.ceil(angle / (2 * math.acos(1 - 0.9 * CHORD_MM / radius_mm)))
    turns = np.linspace(0.0, angle, count + 1)
    return Curve.through(radius_mm * np.stack((np.cos(turns), np.sin(turns)), axis=1))


def spline(knots: np.ndarray) -> Curve:
    """A cubic spline of scipy through ``knots``, sampled by its curvature to ``CHORD_MM``."""
    along = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(knots, axis=0).T))))
    smooth = CubicSpline(along, knots)
    fine = np.linspace(0.0, along[-1], 4000)
    bend = np.maximum(np.hypot(*smooth(fine, 2).T), 0.0001)
    steps = np.cumsum(np.sqrt(bend / (8 * 0.9 * CHORD_MM))) * (fine[1] - fine[0])
    return Curve.through(smooth(np.interp(np.linspace(steps[0], steps[-1], math.ceil(steps[-1]) + 1), steps, fine)))


def apart_mm(curve: Curve, beziers: np.ndarray) -> float:
    """The larger of how far the curve strays from the Béziers and they from it, by shapely."""
    drawn, wanted = shapely.LineString(sample(beziers, 0.1)), shapely.LineString(curve.points)
    there = shapely.distance(shapely.points(drawn.coords), wanted).max()
    back = shapely.distance(shapely.points(wanted.segmentize(0.25).coords), drawn).max()
    return float(max(there, back))


@pytest.mark.parametrize(
    ("radius_mm", "angle_deg", "most"),
    [(30, 90, 1), (100, 60, 1), (100, 90, 1), (300, 76, 2), (100, 180, 4), (60, 180, 3), (700, 30, 1)],
)
def test_an_arc_takes_few_pieces(radius_mm: float, angle_deg: float, most: int) -> None:
    """Arcs of 40 to 400 mm are within the tolerance both ways, in at most as many pieces as given here.

    A quarter circle by one cubic is off by at best 0.02 % of its radius (Goldapp, Computer Aided Geometric
    Design 8, 1991, from memory), so radius 100 mm is about the largest that one piece carries.
    """
    curve = arc(radius_mm, angle_deg)
    beziers = fit(curve)
    assert len(beziers) <= most
    assert apart_mm(curve, beziers) <= BEZIER_MM + ROUNDING_MM


@pytest.mark.parametrize("seed", range(12))
def test_a_garment_like_curve_takes_one_to_four_pieces(seed: int) -> None:
    """Splines of 40 to 400 mm with up to two bends, as edges of garments have, take at most four pieces."""
    chance = np.random.default_rng(seed)
    length = chance.uniform(40.0, 400.0)
    knots = np.stack((np.linspace(0.0, length, 4), chance.normal(0.0, length / 20.0, 4)), axis=1)
    curve = spline(knots)
    beziers = fit(curve)
    assert 1 <= len(beziers) <= 4
    assert apart_mm(curve, beziers) <= BEZIER_MM + ROUNDING_MM


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.lists(st.tuples(st.floats(5.0, 60.0), st.floats(-40.0, 40.0)), min_size=2, max_size=7))
def test_any_spline_is_met_within_the_tolerance(moves: list[tuple[float, float]]) -> None:
    """However a curve winds, its Béziers begin and end with it, hang together, and keep the tolerance both
    ways."""
    curve = spline(np.cumsum(np.array([(0.0, 0.0), *moves]), axis=0))
    beziers = fit(curve)
    assert np.array_equal(beziers[0, 0], curve.start)
    assert np.array_equal(beziers[-1, 3], curve.end)
    assert np.array_equal(beziers[:-1, 3], beziers[1:, 0])
    assert apart_mm(curve, beziers) <= BEZIER_MM + ROUNDING_MM


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.lists(st.tuples(st.floats(-80.0, 80.0), st.floats(-80.0, 80.0)), min_size=2, max_size=12, unique=True))
def test_any_polyline_is_met_within_the_tolerance(points: list[tuple[float, float]]) -> None:
    """A polyline that no smooth curve made, with corners of any angle, is kept as it is."""
    curve = Curve.through(np.array(points))
    if len(curve.points) < 2:
        return
    assert apart_mm(curve, fit(curve)) <= BEZIER_MM + ROUNDING_MM


def test_pieces_of_a_smooth_curve_share_their_tangents() -> None:
    """Where a smooth curve is cut in two, both handles lie on one line, so an editor shows no kink."""
    beziers = fit(arc(100.0, 300.0))
    before, after = beziers[:-1, 3] - beziers[:-1, 2], beziers[1:, 1] - beziers[1:, 0]
    turn = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    assert len(beziers) > 1
    assert np.abs(turn / np.hypot(*before.T) / np.hypot(*after.T)).max() < 0.0001


def test_a_straight_curve_is_one_straight_piece() -> None:
    """Points along a line, however many and uneven, become one cubic whose handles lie at its thirds."""
    share = np.array([0.0, 0.001, 0.3, 0.31, 0.8, 1.0])[:, None]
    beziers = fit(Curve.through(np.array([3.0, 4.0]) + share * np.array([120.0, 50.0])))
    assert len(beziers) == 1
    assert is_straight(beziers).all()
    assert beziers[0, 1] == pytest.approx([43.0, 4.0 + 50.0 / 3.0])


def test_corners_stay_sharp() -> None:
    """A square is four straight pieces; a curve with one right angle in it is cut there."""
    square = Curve.through(np.array([[0, 0], [50, 0], [50, 50], [0, 50], [0, 0]]))
    assert len(fit(square)) == 4
    bend = arc(80.0, 60.0).points
    bent = Curve.through(np.vstack((bend, bend[-1] + np.array([[20.0, 5.0], [40.0, 10.0]]))))
    assert corners(bent.points) == [len(bend) - 1]
    assert len(fit(bent)) == 2


def test_a_slight_corner_in_a_dense_curve_is_found() -> None:
    """Fifteen degrees between two straight runs of many points is a corner: nothing else turns near it."""
    run = np.linspace(0.0, 50.0, 101)[1:, None]
    turn = math.radians(15.0)
    points = np.vstack(([[0.0, 0.0]], run * (1.0, 0.0), (50.0, 0.0) + run * (math.cos(turn), math.sin(turn))))
    assert corners(points) == [100]
    assert len(fit(Curve.through(points))) == 2


def test_polyline_goes_through_its_points() -> None:
    """Straight pieces join the points in order, and the last to the first where it is closed."""
    beziers = polyline([(0, 0), (3, 0), (3, 4)], closed=True)
    assert beziers.shape == (3, 4, 2)
    assert is_straight(beziers).all()
    assert beziers[:, 0].tolist() == [[0, 0], [3, 0], [3, 4]]
    assert beziers[-1, 3].tolist() == [0, 0]


@pytest.mark.parametrize("radius_mm", [8.0, 12.0, 40.0])
def test_a_rounded_corner_is_two_straights_and_an_arc(radius_mm: float) -> None:
    """Where an arc meets straights it is cut there, so that each is one piece, and the drawn line runs on without a
    kink."""
    bend = arc(radius_mm, 90.0).points
    before, after = (np.linspace(length, 0.0, 15)[:-1, None] for length in (30.0, 45.0))
    run = np.vstack((bend[0] - before * (0.0, 1.0), bend, bend[-1] - after[::-1] * (1.0, 0.0)))
    curve = Curve.through(run)
    beziers = fit(curve)
    assert is_straight(beziers).tolist() == [True, False, True]
    assert beziers[1, 0] == pytest.approx(bend[0], abs=0.02)
    assert beziers[1, 3] == pytest.approx(bend[-1], abs=0.02)
    assert apart_mm(curve, beziers) <= BEZIER_MM + ROUNDING_MM
    (x, y) = beziers[1, 1] - beziers[1, 0]
    assert abs(x / math.hypot(x, y)) < 0.01  # upward, as the straight before it


def test_curves_fitted_together_are_fitted_as_alone() -> None:
    """Fitting several curves in one go, which is faster, gives each the pieces it has by itself."""
    curves = [arc(30.0, 90.0), arc(100.0, 180.0), Curve.through([[0, 0], [50, 0], [50, 50]]), spline(WAVE)]
    for together, curve in zip(fit_all(curves), curves, strict=True):
        alone = fit(curve)
        assert together.shape == alone.shape
        assert together == pytest.approx(alone, abs=0.0001)
    assert fit_all([]) == []


def test_straights_are_told_run_by_run() -> None:
    """For each of several runs the straight pieces are flagged, as :func:`is_straight` flags them one by one."""
    runs = [fit(arc(30.0, 90.0)), polyline([(0, 0), (3, 0), (3, 4)])]
    assert straights(runs) == [[False], [True, True]]
    assert straights([]) == []


def test_the_same_curve_gives_the_same_pieces() -> None:
    """Fitting twice gives the same numbers to the last bit."""
    curve = arc(120.0, 110.0)
    assert np.array_equal(fit(curve), fit(curve))
