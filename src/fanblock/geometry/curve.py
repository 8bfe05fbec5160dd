"""Curves as polylines whose chords stay within :data:`fanblock.tolerances.CHORD_MM` of the smooth curve.

A :class:`Curve` is an ordered run of points in millimetres, y up. Lengths along it are measured from its first
point. Curves never change: every operation returns a new one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fanblock.tolerances import SAME_POINT_MM

Points = NDArray[np.float64]


def frozen(values: Any) -> Points:
    """Return ``values`` as a read-only array of floats."""
    array = np.array(values, dtype=np.float64)
    array.setflags(write=False)
    return array


@dataclass(frozen=True, eq=False)
class Curve:
    """An ordered run of at least two points, shape (n, 2), in millimetres."""

    points: Points

    @staticmethod
    def through(points: Any) -> Curve:
        """Return the curve through ``points``, dropping those that repeat their neighbour."""
        array = np.asarray(points, dtype=np.float64)
        steps = np.hypot(*np.diff(array, axis=0).T)
        keep = np.concatenate(([True], steps > SAME_POINT_MM))
        if not keep[-1] and keep.sum() > 1:  # the last point is kept in place of the one it repeats
            keep[np.flatnonzero(keep)[-1]] = False
            keep[-1] = True
        return Curve(frozen(array[keep]))

    @cached_property
    def along(self) -> Points:
        """Distance of every point from the first, along the curve."""
        steps = np.hypot(*np.diff(self.points, axis=0).T)
        return frozen(np.concatenate(([0.0], np.cumsum(steps))))

    @property
    def length_mm(self) -> float:
        """Length of the whole curve."""
        return float(self.along[-1])

    @property
    def start(self) -> Points:
        """First point."""
        return np.asarray(self.points[0])

    @property
    def end(self) -> Points:
        """Last point."""
        return np.asarray(self.points[-1])

    def reversed(self) -> Curve:
        """Return the same curve run the other way."""
        return Curve(frozen(self.points[::-1]))

    def at(self, distance_mm: float) -> Points:
        """Return the point ``distance_mm`` along; beyond the ends the end tangents carry on."""
        if distance_mm < 0.0:
            return self.start + distance_mm * self.start_tangent
        if distance_mm > self.length_mm:
            return self.end + (distance_mm - self.length_mm) * self.end_tangent
        x = np.interp(distance_mm, self.along, self.points[:, 0])
        y = np.interp(distance_mm, self.along, self.points[:, 1])
        return np.array([x, y])

    def tangent_at(self, distance_mm: float) -> Points:
        """Return the unit tangent of the smooth curve ``distance_mm`` along (a parabola through three points)."""
        if len(self.points) == 2:
            return _unit(self.points[1] - self.points[0])
        t = min(max(distance_mm, 0.0), self.length_mm)
        near = min(max(int(np.searchsorted(self.along, t)), 1), len(self.points) - 2)
        s0, s1, s2 = self.along[near - 1 : near + 2].tolist()
        (x0, y0), (x1, y1), (x2, y2) = self.points[near - 1 : near + 2].tolist()
        w0 = (2.0 * t - s1 - s2) / ((s0 - s1) * (s0 - s2))
        w1 = (2.0 * t - s0 - s2) / ((s1 - s0) * (s1 - s2))
        w2 = (2.0 * t - s0 - s1) / ((s2 - s0) * (s2 - s1))
        x, y = w0 * x0 + w1 * x1 + w2 * x2, w0 * y0 + w1 * y1 + w2 * y2
        size = math.hypot(x, y)
        return np.array([x / size, y / size])

    @property
    def start_tangent(self) -> Points:
        """Unit tangent at the first point, in the direction of travel."""
        return self.tangent_at(0.0)

    @property
    def end_tangent(self) -> Points:
        """Unit tangent at the last point, in the direction of travel."""
        return self.tangent_at(self.length_mm)

    def between(self, from_mm: float, to_mm: float) -> Curve:
        """Return the part from ``from_mm`` to ``to_mm`` along; beyond the ends it is carried on straight."""
        inside = (self.along > from_mm + SAME_POINT_MM) & (self.along < to_mm - SAME_POINT_MM)
        return Curve(frozen(np.vstack((self.at(from_mm), self.points[inside], self.at(to_mm)))))

    def moved(self, matrix: Points, shift: Points) -> Curve:
        """Return the curve with every point ``p`` at ``matrix @ p + shift``."""
        return Curve(frozen(self.points @ np.asarray(matrix).T + np.asarray(shift)))


def _unit(vector: Points) -> Points:
    return np.asarray(vector / np.hypot(vector[0], vector[1]))
