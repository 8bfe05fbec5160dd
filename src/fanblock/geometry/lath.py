"""Curves as a hand draws them: a thin lath held at a few points, and how far two lines stand apart."""

from __future__ import annotations

import numpy as np

from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.splines import free_or_clamped


def lath(points: Points, step_mm: float) -> Points:
    """Return points, at most ``step_mm`` apart, along a thin lath that is held at ``points``, in order, and free at its ends.

    Points that repeat their neighbour hold it once; at least two must differ.

    A lath takes the shape of least bending, which a cubic spline without bend at its ends is for small slopes (the
    draughtsman's spline; see any textbook of numerical analysis). Through two points it is straight.
    """
    held = Curve.through(points)
    points, at = held.points, held.along
    many = np.linspace(0.0, at[-1], 1 + max(len(points) - 1, int(np.ceil(at[-1] / step_mm))))
    where = np.unique(np.concatenate((many, at)))
    x, y = (free_or_clamped(at, points[:, axis], None, None)(where) for axis in (0, 1))
    return np.stack((x, y), axis=1)


def apart_mm(first: Points, second: Points) -> float:
    """Return the greatest distance from a point given of either run of points to the other run."""
    import shapely

    return float(shapely.hausdorff_distance(shapely.LineString(first), shapely.LineString(second)))
