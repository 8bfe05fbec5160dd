"""Smooth functions through a few values: what edges and seams are drawn with. The one place that uses scipy's splines."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from fanblock.geometry.curve import Points

Function = Callable[[Any], Points]


def free_or_clamped(at: Points, values: Points, start_slope: float | None, end_slope: float | None) -> Function:
    """Return the cubic spline through ``values`` at rising ``at``, carried on straight beyond both ends.

    A slope given for an end is kept there; an end without one is free (no bend).
    """
    from scipy.interpolate import CubicSpline

    ends = tuple((2, 0.0) if slope is None else (1, slope) for slope in (start_slope, end_slope))
    spline = CubicSpline(at, values, bc_type=ends)
    slopes = spline(np.array([at[0], at[-1]]), 1)

    def function(where: Any) -> Points:
        where = np.asarray(where, dtype=np.float64)
        inside = np.clip(where, at[0], at[-1])
        straight = np.where(where < at[0], slopes[0], slopes[1]) * (where - inside)
        return np.asarray(spline(inside) + straight)

    return function


def monotone(at: Points, values: Points, *, straight_on: tuple[bool, bool] = (False, False)) -> Function:
    """Return the monotone cubic through ``values`` at rising ``at``.

    Beyond an end it keeps the end value, or goes straight on where ``straight_on`` says so (start, end).
    """
    from scipy.interpolate import CubicHermiteSpline, PchipInterpolator

    chord = (values[-1] - values[0]) / (at[-1] - at[0])
    slopes = PchipInterpolator(at, values).derivative()(at) if len(at) > 2 else np.array([chord, chord])
    spline = CubicHermiteSpline(at, values, slopes)
    before, after = (slope if on else 0.0 for slope, on in zip(slopes[[0, -1]], straight_on, strict=True))

    def function(where: Any) -> Points:
        where = np.asarray(where, dtype=np.float64)
        inside = np.clip(where, at[0], at[-1])
        return np.asarray(spline(inside) + np.where(where < at[0], before, after) * (where - inside))

    return function


def level_ended(at: Points, values: Points) -> Function:
    """Return the monotone cubic through ``values`` whose first and last slopes are 0; it keeps the end values beyond.

    Between two values this is the smooth step 3t² - 2t³.
    """
    from scipy.interpolate import CubicHermiteSpline, PchipInterpolator

    if len(at) == 1:
        return lambda where: np.full(np.shape(where), float(values[0]))
    slopes = PchipInterpolator(at, values).derivative()(at) if len(at) > 2 else np.zeros(len(at))
    slopes[[0, -1]] = 0.0
    spline = CubicHermiteSpline(at, values, slopes)
    return lambda where: np.asarray(spline(np.clip(where, at[0], at[-1])))


def through_points(
    points: Points, step_mm: float, start_tangent: Points | None = None, end_tangent: Points | None = None
) -> Points:
    """Return points about ``step_mm`` apart along the smooth curve through ``points``, shape (n, 2).

    A cubic spline over the length of the chords; an end whose tangent (a unit vector) is given leaves along it, one
    without is free. Two points without tangents give the straight line.
    """
    from scipy.interpolate import CubicSpline

    along = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))))
    count = max(int(along[-1] / step_mm), 2) + 1
    if len(points) == 2 and start_tangent is None and end_tangent is None:
        return np.asarray(points[0] + np.linspace(0.0, 1.0, count)[:, None] * (points[1] - points[0]))
    ends = tuple((2, np.zeros(2)) if tangent is None else (1, tangent) for tangent in (start_tangent, end_tangent))
    return np.asarray(CubicSpline(along, points, bc_type=ends)(np.linspace(0.0, along[-1], count)))


@dataclass(frozen=True, slots=True)
class SmoothLine:
    """A smooth line in the plane as functions of one parameter: its points, its first and its second derivative.

    Points are complex numbers, x + iy. Beyond both ends it goes straight on.
    """

    at: Callable[[Any], Any]
    slope: Callable[[Any], Any]
    bend: Callable[[Any], Any]


def smooth_line(at: Points, points: Points) -> SmoothLine:
    """Return the cubic spline through ``points``, shape (n, 2), at rising ``at``."""
    from scipy.interpolate import CubicSpline

    spline = CubicSpline(at, points[:, 0] + 1j * points[:, 1])
    first, last = float(at[0]), float(at[-1])

    def place(where: Any) -> Any:
        where = np.asarray(where, dtype=np.float64)
        inside = np.clip(where, first, last)
        return spline(inside) + (where - inside) * spline(inside, 1)

    def slope(where: Any) -> Any:
        return spline(np.clip(np.asarray(where, dtype=np.float64), first, last), 1)

    def bend(where: Any) -> Any:
        where = np.asarray(where, dtype=np.float64)
        return np.where((where < first) | (where > last), 0.0, spline(np.clip(where, first, last), 2))

    return SmoothLine(place, slope, bend)
