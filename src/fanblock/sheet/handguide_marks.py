"""Marks and measures of the plans that a panel is drawn by: sizes of words, dots, runs of points."""

from __future__ import annotations

import math

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.region import area_mm2
from fanblock.sheet.drawing import Stroke

NUMBER_MM, LETTER_MM, SMALL_MM = 3.4, 4.6, 2.8
"""Sizes of the points' numbers, of the seams' letters and of other words, whose digits are 2 mm high."""

CAPITALS = 0.72
"""Height of capitals and digits, as a share of their size."""

DOT_MM = 0.55
"""Half the size of a numbered point."""

HEAD_MM, HEAD_RATIO = 3.0, 0.6
"""How long the head of an arrow is, and its width as a share of that."""


def outward(place: Points, ring: Points) -> tuple[float, float]:
    """Return the way out of a closed outline at the place of it that is nearest to a point."""
    near = int(np.argmin(np.hypot(*(ring - place).T)))
    before, after = ring[near] - ring[near - 1], ring[(near + 1) % len(ring)] - ring[near]
    run = before / np.hypot(*before) + after / np.hypot(*after)
    size = float(np.hypot(*run)) or 1.0
    sign = 1.0 if area_mm2(ring) > 0.0 else -1.0
    return sign * float(run[1]) / size, -sign * float(run[0]) / size


def dense(run: Points) -> Points:
    """Return a run of points at most about a millimetre apart."""
    curve = Curve.through(run)
    at = np.linspace(0.0, curve.length_mm, 1 + max(1, math.ceil(curve.length_mm)))
    return np.stack([np.interp(at, curve.along, curve.points[:, axis]) for axis in (0, 1)], axis=1)


def dot(place: Points, half: float) -> Stroke:
    """Return a point as a small filled square on its corner."""
    x, y = (float(value) for value in place)
    corners = [(x - half, y), (x, y - half), (x + half, y), (x, y + half)]
    return Stroke(polyline(frozen(corners), closed=True), "ink", "point", True)


def arrow_head(run: Points) -> Stroke:
    """Return the head of an arrow, filled, at the last point of a straight run."""
    way = (run[-1] - run[0]) / np.hypot(*(run[-1] - run[0]))
    side = 0.5 * HEAD_RATIO * HEAD_MM * np.array([-way[1], way[0]])
    back = run[-1] - HEAD_MM * way
    return Stroke(polyline(frozen([run[-1], back + side, back - side]), closed=True), "ink", "grain arrow", True)
