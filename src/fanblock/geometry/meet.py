"""Where two polylines meet, in any plane. Places on a polyline are counted in points: 2.25 is a quarter past the third."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry.curve import Points


def meetings(first: Points, second: Points) -> list[tuple[float, float]]:
    """Return every (place on first, place on second) at which the polylines cross, in order along the first."""
    near_first, near_second = _stretches(first, second), _stretches(second, first)
    a, c = first[:-1][near_first], second[:-1][near_second]
    b, d = first[1:][near_first] - a, second[1:][near_second] - c
    apart = c[None] - a[:, None]
    cross = b[:, None, 0] * d[None, :, 1] - b[:, None, 1] * d[None, :, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        s = (apart[..., 0] * d[None, :, 1] - apart[..., 1] * d[None, :, 0]) / cross
        t = (apart[..., 0] * b[:, None, 1] - apart[..., 1] * b[:, None, 0]) / cross
        hits = np.argwhere((s >= 0.0) & (s < 1.0) & (t >= 0.0) & (t < 1.0))
    return sorted((float(near_first[i] + s[i, j]), float(near_second[j] + t[i, j])) for i, j in hits)


def _stretches(line: Points, other: Points) -> NDArray[np.intp]:
    """Return the numbers of the stretches of ``line`` whose boxes touch the box of ``other``."""
    low, high = other.min(axis=0), other.max(axis=0)
    a, b = line[:-1], line[1:]
    return np.flatnonzero(np.all((np.minimum(a, b) <= high) & (np.maximum(a, b) >= low), axis=1))


def point_at(line: Points, place: float) -> Points:
    """Return the point at a place counted in points."""
    index = min(int(place), len(line) - 2)
    return np.asarray(line[index] + (place - index) * (line[index + 1] - line[index]))


def points_at(line: Points, places: Points) -> Points:
    """Return the points at several places counted in points, one in a row."""
    index = np.minimum(places.astype(int), len(line) - 2)  # a place may round up to the very last point
    return np.asarray(line[index] + (places - index)[:, None] * (line[index + 1] - line[index]))


def part(line: Points, start: float, end: float) -> Points:
    """Return the run of points from one place to a later one, both ends included."""
    first, last = int(np.floor(start)) + 1, int(np.ceil(end))
    middle = line[first:last]
    return np.vstack((point_at(line, start), middle, point_at(line, end)))


def crossings(line: Points, column: int, value: float) -> Points:
    """Return the places at which one coordinate of the polyline passes ``value``, in order."""
    offset = line[:, column] - value
    sides = offset >= 0.0
    index = np.flatnonzero(sides[:-1] != sides[1:])
    return np.asarray(index + offset[index] / (offset[index] - offset[index + 1]), dtype=np.float64)


def contains(loop: Points, point: Points) -> bool:
    """Return whether a closed loop of points, the first not repeated, holds ``point`` (crossing count)."""
    a, b = loop, np.roll(loop, -1, axis=0)
    spans = (a[:, 1] > point[1]) != (b[:, 1] > point[1])
    a, b = a[spans], b[spans]
    x = a[:, 0] + (point[1] - a[:, 1]) / (b[:, 1] - a[:, 1]) * (b[:, 0] - a[:, 0])
    return bool(np.count_nonzero(x > point[0]) % 2)


def foot(line: Points, point: Points) -> tuple[float, float]:
    """Return how far a point is from a polyline, and the place on it, counted in points, that is nearest."""
    starts, steps = line[:-1], np.diff(line, axis=0)
    share = np.clip(np.sum((point - starts) * steps, axis=1) / np.sum(steps * steps, axis=1), 0.0, 1.0)
    off = np.hypot(*(starts + share[:, None] * steps - point).T)
    best = int(np.argmin(off))
    return float(off[best]), best + float(share[best])


def first_hits(starts: Points, steps: Points, line: Points) -> Points:
    """Return for each straight step from a start the share of it at which it first crosses a polyline; infinity if never.

    ``starts`` and ``steps`` have shape (n, 2).
    """
    a, b = line[:-1], np.diff(line, axis=0)
    apart = a[None] - starts[:, None]
    cross = steps[:, None, 0] * b[None, :, 1] - steps[:, None, 1] * b[None, :, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        s = (apart[..., 0] * b[None, :, 1] - apart[..., 1] * b[None, :, 0]) / cross
        t = (apart[..., 0] * steps[:, None, 1] - apart[..., 1] * steps[:, None, 0]) / cross
        hit = (s >= 0.0) & (s <= 1.0) & (t >= 0.0) & (t <= 1.0)
    return np.asarray(np.where(hit, s, np.inf).min(axis=1, initial=np.inf))


def all_inside(loop: Points, points: Points) -> NDArray[np.bool_]:
    """Return for each point whether a closed loop of points, the first not repeated, holds it (crossing count)."""
    a, b = loop, np.roll(loop, -1, axis=0)
    x, y = points[:, :1], points[:, 1:]
    spans = (a[:, 1] > y) != (b[:, 1] > y)
    at = a[:, 0] + (y - a[:, 1]) / np.where(spans, b[:, 1] - a[:, 1], 1.0) * (b[:, 0] - a[:, 0])
    return np.asarray(np.count_nonzero(spans & (at > x), axis=1) % 2 == 1)
