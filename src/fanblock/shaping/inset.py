"""The outline of a piece that is let in: two sides of given lengths from one point, and an outer edge that runs on.

The sides spread so far that the piece is as wide as asked at given distances along them. They may swell beyond straight, for
a round breast, and keep their lengths. The outer edge leaves either side at the angle at which the cloth beside it does, so
that the edge runs on without a corner when the piece is sewn in; it may rise in its middle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.tolerances import CHORD_MM, SAME_POINT_MM

WIDEST_RAD = math.radians(100.0)
"""Most that the two sides of a piece may spread: a wider one is no wedge any more and is cut as a panel (from memory)."""

OUTER_STEP_MM = 1.0
"""Distance between the points of the outer edge: a curve this tight is nowhere near a millimetre in radius."""

_ROUNDS = 60


@dataclass(frozen=True, slots=True, eq=False)
class Beside:
    """The cloth beside one side of the piece: the direction outward along the side there, and that of the edge (unit vectors).

    The edge's direction is that of its loop.
    """

    outward: Points
    edge: Points


@dataclass(frozen=True, slots=True, eq=False)
class Wedge:
    """A piece between its two sides: ``first`` runs from the point outward, ``outer`` on from there, ``last`` back."""

    first: Curve
    outer: Curve
    last: Curve


def bowed(length_mm: float, swell_mm: float) -> Points:
    """Return points of an arc from the origin, its chord along x, so long and standing off its chord by ``swell_mm``.

    It stands off to the right of its way (y below 0) where the swell is more than nothing. Raises ValueError for a swell of
    more than a third of the length.
    """
    if abs(swell_mm) > length_mm / 3.0:
        raise ValueError("swell")
    if abs(swell_mm) < CHORD_MM:
        count = max(int(length_mm / OUTER_STEP_MM), 2)
        return frozen(np.column_stack((np.linspace(0.0, length_mm, count + 1), np.zeros(count + 1))))
    low, high = 0.0, math.pi
    for _ in range(_ROUNDS):  # swell / length = (1 - cos(turn/2)) / turn grows with the turn
        turn = 0.5 * (low + high)
        short = (1.0 - math.cos(0.5 * turn)) * length_mm < abs(swell_mm) * turn
        low, high = (turn, high) if short else (low, turn)
    radius = length_mm / turn
    count = max(math.ceil(turn / (2.0 * math.acos(1.0 - CHORD_MM / radius))), 8)
    angles = np.linspace(-0.5 * turn, 0.5 * turn, count + 1)
    arc = radius * np.column_stack((np.sin(angles) + math.sin(0.5 * turn), math.cos(0.5 * turn) - np.cos(angles)))
    arc *= length_mm / float(np.hypot(*np.diff(arc, axis=0).T).sum())
    return frozen(arc * np.array([1.0, math.copysign(1.0, swell_mm)]))


def wedge(
    point: Points,
    way: Points,
    lengths_mm: tuple[float, float],
    *,
    width_mm: float,
    at_mm: tuple[float, float],
    swell_mm: float,
    rise_mm: float,
    beside: tuple[Beside, Beside],
) -> Wedge:
    """Return the piece whose point lies at ``point`` and whose middle runs outward along ``way`` (a unit vector).

    Its first side lies to the right of that way. Both sides are straight or swell outward by ``swell_mm``; the distance
    between their places ``at_mm``, along them from the point, is ``width_mm``. The outer edge rises by ``rise_mm`` in its
    middle beyond running straight on. Raises ValueError when no such piece spreads less than 100°.
    """
    bows = [bowed(lengths_mm[0], swell_mm), bowed(lengths_mm[1], swell_mm) * np.array([1.0, -1.0])]
    half = _half_spread(bows, at_mm, width_mm)
    first, second = (
        Curve.through(point + _turned(bow, way, spread)) for bow, spread in zip(bows, (-half, half), strict=True)
    )
    outer = _outer(first, second, beside, rise_mm)
    return Wedge(first, outer, second.reversed())


def _half_spread(bows: list[Points], at_mm: tuple[float, float], width_mm: float) -> float:
    """Return half the angle between two sides whose places lie so far apart."""
    places = [Curve.through(bow).at(at) for bow, at in zip(bows, at_mm, strict=True)]
    ahead = np.array([1.0, 0.0])

    def apart(half: float) -> float:
        one, other = (
            _turned(place[None], ahead, spread)[0] for place, spread in zip(places, (-half, half), strict=True)
        )
        return float(np.hypot(*(one - other)))

    low, high = 0.0, 0.5 * WIDEST_RAD
    if not apart(low) <= width_mm <= apart(high):
        raise ValueError("width")
    for _ in range(_ROUNDS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if apart(middle) < width_mm else (low, middle)
    return 0.5 * (low + high)


def _turned(points: Points, way: Points, by_rad: float) -> Points:
    """Return points whose x runs along ``way``, turned by an angle about the origin."""
    cos, sin = math.cos(by_rad), math.sin(by_rad)
    x = np.array([cos * way[0] - sin * way[1], sin * way[0] + cos * way[1]])
    return np.asarray(points[:, :1] * x + points[:, 1:] * np.array([-x[1], x[0]]))


def _outer(first: Curve, second: Curve, beside: tuple[Beside, Beside], rise_mm: float) -> Curve:
    """Return the outer edge: a cubic from the end of one side to that of the other, along the edges beside them."""
    start, end = first.end, second.end
    leave = _carried(beside[0].edge, beside[0].outward, first.end_tangent)
    arrive = _carried(beside[1].edge, beside[1].outward, second.end_tangent)
    chord = float(np.hypot(*(end - start)))
    t = np.linspace(0.0, 1.0, max(int(chord / OUTER_STEP_MM), 12) + 1)[:, None]
    run = (
        (2 * t**3 - 3 * t**2 + 1) * start
        + (t**3 - 2 * t**2 + t) * chord * leave
        + (3 * t**2 - 2 * t**3) * end
        + (t**3 - t**2) * chord * arrive
    )
    if abs(rise_mm) > SAME_POINT_MM:
        out = np.array([(end - start)[1], -(end - start)[0]]) / chord
        run = run + 16.0 * rise_mm * (t * (1.0 - t)) ** 2 * out
    return Curve.through(run)


def _carried(edge: Points, outward: Points, side: Points) -> Points:
    """Return the direction of an edge turned as the side it stands on is, from its place on the panel to its own."""
    turn = complex(side[0], side[1]) / complex(outward[0], outward[1])
    found = complex(edge[0], edge[1]) * turn / abs(turn)
    return np.array([found.real, found.imag])
