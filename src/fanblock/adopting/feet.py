"""Points held against a line: the nearest place on it, how far off, and whether that lies between its ends."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry.curve import Curve, Points

STEP_MM = 1.0
"""How closely a drawn line is followed: a bend as tight as a thumb stays within 0.01 mm of such chords."""

EXTENDED_MM = 60.0
"""How far a line is carried on straight when something is held against it beyond its end."""


@dataclass(frozen=True, slots=True, eq=False)
class Feet:
    """For each point: the nearest point of the line, how far along it, how far off, and how far beyond its ends (0 within)."""

    foot: Points
    along: Points
    off: Points
    beyond: Points


def feet(points: Points, line: Curve) -> Feet:
    """Return the feet of points on a line that is carried on straight beyond both ends."""
    ends = np.vstack((line.at(-EXTENDED_MM), line.at(line.length_mm + EXTENDED_MM)))
    run = np.vstack((ends[:1], line.points, ends[1:]))
    starts, steps = run[:-1], np.diff(run, axis=0)
    away = points[:, None] - starts[None]
    share = np.clip(np.sum(away * steps, axis=2) / np.sum(steps * steps, axis=1), 0.0, 1.0)
    off = np.hypot(*np.moveaxis(away - share[..., None] * steps, 2, 0))
    best = np.argmin(off, axis=1)
    rows = np.arange(len(points))
    part = share[rows, best]
    lengths = np.hypot(*steps.T)
    along = np.concatenate(([0.0], np.cumsum(lengths)))[best] + part * lengths[best] - EXTENDED_MM
    beyond = np.maximum(np.maximum(-along, along - line.length_mm), 0.0)
    return Feet(starts[best] + part[:, None] * steps[best], along, off[rows, best], beyond)


def followed(curve: Curve, step_mm: float = STEP_MM) -> Points:
    """Return points of a curve in even steps, both ends among them."""
    count = max(2, int(np.ceil(curve.length_mm / step_mm)) + 1)
    along = np.linspace(0.0, curve.length_mm, count)
    return np.column_stack([np.interp(along, curve.along, curve.points[:, axis]) for axis in (0, 1)])


def sorted_unique(at: Points, values: Points) -> tuple[Points, Points]:
    """Return values by rising places, those at one place averaged."""
    order = np.argsort(at, kind="stable")
    at, values = at[order], values[order]
    starts: NDArray[np.intp] = np.flatnonzero(np.concatenate(([True], np.diff(at) > 0.0)))
    counts = np.diff(np.append(starts, len(at)))
    shape = (-1, *([1] * (values.ndim - 1)))
    return at[starts], np.add.reduceat(values, starts, axis=0) / counts.reshape(shape)
