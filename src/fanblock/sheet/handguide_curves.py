"""Curves told by a few offsets from their chords, or by a pin and a string; all numbers as they are read off a ruler."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fanblock.block.guide import FARTHEST_PIN_MM
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.lath import apart_mm, lath
from fanblock.geometry.region import thinned
from fanblock.tolerances import STRAIGHT_MM
from fanblock.units import UNITS

DRAWN_MM = 0.7
"""Most that a line drawn by rounded numbers may stand off the true one; the rest of a millimetre is the pencil's."""

LEAST_OFFSETS, MOST_OFFSETS = 3, 9
"""How few offsets a curve is drawn by, and how many before it is rather drawn in two parts."""

LEAST_SWUNG_MM = 80.0
"""A shorter curve is sooner drawn along a lath than swung from a pin."""

ROUND_MM = 0.1
"""A curve that keeps this near to a circle is part of one."""

LATH_STEP_MM = 2.0
"""How finely a lath is followed when it is compared with the true line."""

_BEND_MM = 60.0
"""A turn of one radian counts for as much as so much length when points are spread along a curve."""


@dataclass(frozen=True, slots=True)
class Rule:
    """What lengths are measured by: the side of the grid's squares, and the least step of the ruler."""

    units: str
    grid_mm: float
    least_mm: float

    def rounded(self, mm: float) -> float:
        """Return a length as it is read off the ruler; never minus zero."""
        return round(mm / self.least_mm) * self.least_mm + 0.0


IN_INCHES = Rule("in", UNITS["in"], UNITS["in"] / 32.0)
"""Squares of an inch, and half of a sixteenth: a sixteenth alone would put a corner out by more than a millimetre."""

IN_CENTIMETRES = Rule("cm", 20.0, 0.5)
"""Squares of 2 cm, and half millimetres."""


def rule_for(units: str) -> Rule:
    """Return what a wearer who measures in ``units`` draws by."""
    return IN_INCHES if units == "in" else IN_CENTIMETRES


@dataclass(frozen=True, slots=True)
class Offset:
    """A point of a curve: so far along the chord from its first point, so far out to its right (below nought: left)."""

    along_mm: float
    out_mm: float


@dataclass(frozen=True, slots=True)
class Swing:
    """A pin, and the string from it, that draw a curve which is part of a circle."""

    x_mm: float
    y_mm: float
    string_mm: float


def offsets_of(curve: Curve, start: Points, end: Points, rule: Rule) -> tuple[Offset, ...] | None:
    """Return the fewest offsets that give a curve back, at equal steps of the chord where that will do; None if too many."""
    true = thinned(curve.points, STRAIGHT_MM)
    if apart_mm(np.array([start, end]), true) <= DRAWN_MM:
        return ()
    for count in range(LEAST_OFFSETS, MOST_OFFSETS + 1):
        for feet in (_even_feet(curve, count), _bent_feet(curve, count)):
            offsets = tuple(_offset(foot, start, end, rule) for foot in feet)
            alongs = [0.0, *(offset.along_mm for offset in offsets), float(np.hypot(*(end - start)))]
            if alongs == sorted(alongs) and apart_mm(drawn_by(start, end, offsets), true) <= DRAWN_MM:
                return offsets
    return None


def swing_of(curve: Curve, rule: Rule) -> Swing | None:
    """Return the pin and string of a curve that is part of a circle, or None where it is not or a string would be too long.

    The circle is the one of least algebraic error: x² + y² is linear in its middle and in what remains.
    """
    if curve.length_mm < LEAST_SWUNG_MM:
        return None
    points = curve.points
    columns = np.column_stack((2.0 * points, np.ones(len(points))))
    x, y, rest = np.linalg.lstsq(columns, np.sum(points * points, axis=1), rcond=None)[0].tolist()
    string = float(np.sqrt(max(rest + x * x + y * y, 0.0)))
    swing = Swing(rule.rounded(x), rule.rounded(y), rule.rounded(string))
    astray = float(np.abs(np.hypot(*(points - (x, y)).T) - string).max())
    off = float(np.abs(np.hypot(*(points - (swing.x_mm, swing.y_mm)).T) - swing.string_mm).max())
    return swing if string <= FARTHEST_PIN_MM and astray <= ROUND_MM and off <= DRAWN_MM else None


def _even_feet(curve: Curve, count: int) -> Points:
    """Points of the curve over equal steps of its chord; none where it turns back on itself."""
    way = curve.end - curve.start
    along = (curve.points - curve.start) @ way / float(way @ way)
    if np.any(np.diff(along) <= 0.0):
        return np.empty((0, 2))
    shares = np.arange(1, count + 1) / (count + 1)
    return np.stack([np.interp(shares, along, curve.points[:, axis]) for axis in (0, 1)], axis=1)


def _bent_feet(curve: Curve, count: int) -> Points:
    """Points of the curve that stand closer where it bends more."""
    shares, before = np.arange(1, count + 1) / (count + 1), weights(curve)
    return np.stack([np.interp(shares, before, curve.points[:, axis]) for axis in (0, 1)], axis=1)


def weights(curve: Curve) -> Points:
    """Return how much of a curve's length and bending lies before each of its points, as a share of all."""
    steps = np.diff(curve.points[:, 0] + 1j * curve.points[:, 1])
    turns = np.abs(np.angle(steps[1:] / steps[:-1]))
    bending = np.concatenate(([0.0], np.cumsum(turns), [float(np.sum(turns))]))
    before = curve.along + _BEND_MM * bending
    return np.asarray(before / before[-1])


def _offset(point: Points, start: Points, end: Points, rule: Rule) -> Offset:
    way = (end - start) / np.hypot(*(end - start))
    x, y = point - start
    return Offset(rule.rounded(float(x * way[0] + y * way[1])), rule.rounded(float(x * way[1] - y * way[0])))


def drawn_by(start: Points, end: Points, offsets: tuple[Offset, ...]) -> Points:
    """Return what a lath draws from point to point through the offsets."""
    way = (end - start) / np.hypot(*(end - start))
    right = np.array([way[1], -way[0]])
    held = [start, *(start + offset.along_mm * way + offset.out_mm * right for offset in offsets), end]
    return lath(np.array(held), LATH_STEP_MM)
