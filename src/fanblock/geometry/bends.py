"""How a polyline turns: the corners and joints at which it is to be cut, and its direction at every point.

A *corner* is a turn that no smooth curve makes between points so close. A *joint* is where the bend (turn by length)
jumps, as where an arc meets a straight. Points of the plane are complex numbers.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry.curve import Points
from fanblock.tolerances import CORNER_DEG, SOLVED

Plane = NDArray[np.complex128]
Indices = NDArray[np.int64]
Flags = NDArray[np.bool_]

_OUTLIER_DEG, _OUTLIER_RATIO = 3.0, 4.0
_JUMP_DEG, _JUMP_RATIO = 0.1, 0.25
"""Least jump of the bend at a joint: in degrees a millimetre, and as a share of the bends that meet."""
_KINK_DEG = 0.25
"""A joint that turns by more than this has no direction of its own."""


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """Points to be fitted, one curve's behind the other's.

    ``along`` is the distance from the first point, ``tangents`` the unit direction at each point, ``turns`` the turn
    there. ``corner`` is set at ends and corners, ``joint`` at joints, ``loose`` where the direction does not bind.
    """

    points: Plane
    along: Points
    turns: Points
    tangents: Plane
    corner: Flags
    joint: Flags
    loose: Flags


def line_of(points: Plane, ends: Indices) -> Line:
    """Return the line of several curves' points; each curve ends at one of the indices ``ends``."""
    steps = np.diff(points)
    lengths = np.maximum(np.abs(steps), SOLVED)
    turns = _turns(steps)
    bounds = np.concatenate(([0], ends[:-1] + 1, ends))
    turns[bounds] = 0.0
    corner = _sharp(turns)
    corner[bounds] = True
    before, after = np.pad(lengths, (1, 0), mode="edge"), np.pad(lengths, (0, 1), mode="edge")
    bends = 2.0 * turns / (before + after)
    joint = _jumps(bends, corner)
    # the direction by the parabola through a point and its neighbours; at a joint by the arcs that end there
    left, right = 0.5 * before * np.roll(bends, 1), 0.5 * after * np.roll(bends, -1)
    kink = turns - left - right
    turned = np.where(joint, left + 0.5 * kink, turns * before / (before + after))
    tangents = np.pad(steps / lengths, (1, 0), mode="edge") * np.exp(1.0j * turned)
    loose = corner | (joint & (np.abs(kink) > math.radians(_KINK_DEG)))
    return Line(points, np.concatenate(([0.0], np.cumsum(lengths))), turns, tangents, corner, joint, loose)


def corners(points: Plane) -> list[int]:
    """Return where a run of points has a corner: a turn over ``CORNER_DEG``, or far sharper than its neighbours."""
    return [int(at) for at in np.flatnonzero(_sharp(_turns(np.diff(points))))]


def _turns(steps: Plane) -> Points:
    """The turn at every point of a run of steps; none at its ends."""
    turns = np.zeros(len(steps) + 1)
    turns[1:-1] = np.angle(steps[1:] * steps[:-1].conjugate())
    return turns


def _sharp(turns: Points) -> Flags:
    size = np.abs(turns)
    beside = np.pad(size, 1)
    around = np.maximum(beside[:-2], beside[2:])
    lone = (size > math.radians(_OUTLIER_DEG)) & (size > _OUTLIER_RATIO * around)
    return np.asarray(lone | (size > math.radians(CORNER_DEG)))


def _jumps(bends: Points, corner: Flags) -> Flags:
    """Where the bends before a point and those after it, each carried on to the point, differ: most of all near by."""
    if len(bends) < 5:
        return np.zeros(len(bends), dtype=np.bool_)
    left, right = 2.0 * bends[1:-3] - bends[:-4], 2.0 * bends[3:-1] - bends[4:]
    jump = np.pad(np.abs(right - left), 2)
    near = np.pad(jump, 2)
    most = np.max([near[at : at + len(jump)] for at in range(5)], axis=0)
    size = np.pad(np.abs(left) + np.abs(right), 2)
    cut = np.pad(corner, 2)
    clear = ~np.any([cut[at : at + len(jump)] for at in range(5)], axis=0)
    return np.asarray(clear & (jump == most) & (jump > math.radians(_JUMP_DEG)) & (jump > _JUMP_RATIO * size))
