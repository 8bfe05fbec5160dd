"""Polylines as few cubic Béziers, within :data:`fanblock.tolerances.BEZIER_MM`, that a person can edit by
hand.

A run of points is fitted by one cubic whose ends are the run's ends. Its handles are found by Gauss-Newton
steps on the distances square to the curve, the nearest parameter of every point being found anew at each
step. A run that cannot be fitted is cut in two where half of its length and turning lies, with a common
tangent at the cut; two neighbours that one cubic can carry are joined again. Corners are cut first and kept
sharp.
"""

from __future__ import annotations

import itertools
import math
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.tolerances import BEZIER_MM, CORNER_DEG, SAME_POINT_MM, SOLVED, STRAIGHT_MM

_EVEN = 4
_STEPS, _EARLY = 12, 4
_GAIN, _FAR = 0.8, 6.0  # steps go on while the gap shrinks so; four steps on it must be near
_BETWEEN = np.array([0.25, 0.5, 0.75])
_OUTLIER_DEG, _OUTLIER_RATIO = 3.0, 4.0


def fit(curve: Curve) -> Points:
    """Return cubic Béziers, shape (n, 4, 2), within ``BEZIER_MM`` of ``curve`` and the curve within it of
    them.

    The first begins and the last ends exactly where the curve does; a straight curve is one straight cubic.
    """
    points = np.asarray(curve.points, dtype=np.float64)
    cuts = [0, *corners(points), len(points) - 1]
    pieces = [piece for a, b in itertools.pairwise(cuts) for piece in _run(points[a : b + 1])]
    return frozen(pieces)


def polyline(points: Any, closed: bool = False) -> Points:
    """Return straight cubics, shape (n, 4, 2), through ``points`` in order, and back to the first if
    ``closed``."""
    array = np.asarray(points, dtype=np.float64)
    if closed:
        array = np.vstack((array, array[:1]))
    return frozen(_straight(array[:-1], array[1:]))


def is_straight(bezier: Points) -> bool:
    """Return whether both handles lie on the chord, within ``SAME_POINT_MM``, and between its ends."""
    chord = bezier[3] - bezier[0]
    length = math.hypot(chord[0], chord[1])
    if length <= SAME_POINT_MM:
        return False
    offsets = bezier[1:3] - bezier[0]
    across = (offsets[:, 0] * chord[1] - offsets[:, 1] * chord[0]) / length
    along = offsets @ chord / length
    return bool(np.all(np.abs(across) <= SAME_POINT_MM) and along.min() >= 0.0 and along.max() <= length)


def sample(beziers: Points, step_mm: float) -> Points:
    """Return points, shape (m, 2), on a run of Béziers, at most about ``step_mm`` apart, both ends
    included."""
    control = np.hypot(*np.moveaxis(np.diff(beziers, axis=1), 2, 0)).sum(axis=1)
    counts = np.maximum(1, np.ceil(control / step_mm)).astype(int)
    parts = [
        _at(bezier, np.arange(count) / count) for bezier, count in zip(beziers, counts.tolist(), strict=True)
    ]
    return np.vstack((*parts, beziers[-1:, 3]))


def corners(points: Points) -> list[int]:
    """Return where the polyline has a corner: a turn over ``CORNER_DEG``, or far sharper than its
    neighbours."""
    if len(points) < 3:
        return []
    turns = np.abs(_turns(points))
    padded = np.concatenate(([0.0], turns, [0.0]))
    around = np.maximum(padded[:-2], padded[2:])
    lone = (turns > math.radians(_OUTLIER_DEG)) & (turns > _OUTLIER_RATIO * around)
    return [int(i) + 1 for i in np.flatnonzero(lone | (turns > math.radians(CORNER_DEG)))]


def _turns(points: Points) -> Points:
    steps = np.diff(points, axis=0)
    a, b = steps[:-1], steps[1:]
    turns: Points = np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], np.sum(a * b, axis=1))
    return turns


def _straight(starts: Points, ends: Points) -> Points:
    thirds = np.array([0.0, 1.0, 2.0, 3.0])[:, None] / 3.0
    return starts[:, None, :] + thirds * (ends - starts)[:, None, :]


def _run(points: Points) -> list[Points]:
    """Fit a run without corners: with up to ``_EVEN`` even pieces, else cut again and again and joined
    again."""
    measure, tangents = _measure(points), _tangents(points)
    last = len(points) - 1
    for count in range(1, min(_EVEN, last) + 1):
        marks = measure[-1] * np.arange(1, count) / count
        cuts = [0, *np.clip(np.searchsorted(measure, marks), 1, last - 1).tolist(), last]
        pieces = _all_of(points, tangents, cuts)
        if pieces is not None:
            return pieces
    return _halved(points, measure, tangents)


def _all_of(points: Points, tangents: Points, cuts: list[int]) -> list[Points] | None:
    pieces = []
    for a, b in itertools.pairwise(cuts):
        piece = _one(points, tangents, a, b) if a < b else None
        if piece is None:
            return None
        pieces.append(piece)
    return pieces


def _halved(points: Points, measure: Points, tangents: Points) -> list[Points]:
    failed: set[tuple[int, int]] = set()
    pieces = _cut(points, measure, tangents, 0, len(points) - 1, failed)
    at = 0
    while at + 1 < len(pieces):
        a, b = pieces[at][0], pieces[at + 1][1]
        joined = None if (a, b) in failed else _one(points, tangents, a, b)
        if joined is None:
            at += 1
        else:
            pieces[at : at + 2] = [(a, b, joined)]
    return [piece[2] for piece in pieces]


def _cut(
    points: Points, measure: Points, tangents: Points, a: int, b: int, failed: set[tuple[int, int]]
) -> list[tuple[int, int, Points]]:
    whole = _one(points, tangents, a, b)
    if whole is not None:
        return [(a, b, whole)]
    failed.add((a, b))
    half = (measure[a] + measure[b]) / 2.0
    middle = int(np.clip(np.searchsorted(measure, half), a + 1, b - 1))
    return [
        *_cut(points, measure, tangents, a, middle, failed),
        *_cut(points, measure, tangents, middle, b, failed),
    ]


def _measure(points: Points) -> Points:
    """Half length, half turning, so that a bend at the end of a long straight is cut off near the bend."""
    length = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))))
    if len(points) < 3:
        return np.asarray(length)
    turning = np.concatenate(([0.0], np.cumsum(np.abs(_turns(points)))))
    turning = np.concatenate((turning, turning[-1:]))
    return np.asarray(length / length[-1] + turning / max(float(turning[-1]), SOLVED))


def _tangents(points: Points) -> Points:
    """Unit tangents at inner points, by the parabola through each and its neighbours; the ends' are not
    used."""
    if len(points) < 3:
        return np.zeros_like(points)
    steps = np.diff(points, axis=0)
    lengths = np.hypot(steps[:, 0], steps[:, 1])[:, None]
    slopes = steps / lengths
    inner = (slopes[:-1] * lengths[1:] + slopes[1:] * lengths[:-1]) / (lengths[:-1] + lengths[1:])
    inner /= np.hypot(inner[:, 0], inner[:, 1])[:, None]
    return np.vstack((slopes[:1], inner, slopes[-1:]))


def _one(points: Points, tangents: Points, a: int, b: int) -> Points | None:
    """One cubic for the points from ``a`` to ``b``, or nothing when none was found near enough.

    Where the run ends the polyline the direction of the handle is free; elsewhere it is the tangent there.
    """
    run = points[a : b + 1]
    if len(run) == 2 or _is_flat(run):
        return np.asarray(_straight(run[:1], run[-1:])[0])
    at_start = tangents[a][None, :] if a > 0 else np.eye(2)
    at_end = -tangents[b][None, :] if b < len(points) - 1 else np.eye(2)
    return _fitted(run, at_start, at_end)


def _is_flat(run: Points) -> bool:
    chord = run[-1] - run[0]
    length = math.hypot(chord[0], chord[1])
    if length <= SAME_POINT_MM:
        return False
    offsets = run - run[0]
    across = np.abs(offsets[:, 0] * chord[1] - offsets[:, 1] * chord[0]) / length
    along = offsets @ chord
    return bool(across.max() <= STRAIGHT_MM and np.all(np.diff(along) > 0.0))


def _fitted(run: Points, at_start: Points, at_end: Points) -> Points | None:
    steps = np.hypot(*np.diff(run, axis=0).T)
    along = np.concatenate(([0.0], np.cumsum(steps)))
    t = along / along[-1]
    weights = (steps[:-1] + steps[1:])[:, None]
    bezier = _first_guess(run, at_start, at_end, float(along[-1]))
    directions = np.zeros((len(at_start) + len(at_end), 2, 2))
    directions[: len(at_start), 0] = at_start
    directions[len(at_start) :, 1] = at_end
    last = math.inf
    for step in range(_STEPS):
        t = _nearest(bezier, run, t)
        gap = _gap(bezier, run, t)
        if gap <= BEZIER_MM:
            return bezier
        if step and (gap > last * _GAIN or (step >= _EARLY and gap > _FAR * BEZIER_MM)):
            return None
        last = gap
        inner = t[1:-1]
        slope = _slope(bezier, inner)
        normal = np.stack((-slope[:, 1], slope[:, 0]), axis=1)
        normal /= np.maximum(np.hypot(normal[:, 0], normal[:, 1]), SOLVED)[:, None]
        shares = np.stack((3 * inner * (1 - inner) ** 2, 3 * inner**2 * (1 - inner)), axis=1)
        columns = np.einsum("nk,dkx,nx->nd", shares, directions, normal)
        misses = np.sum((run[1:-1] - _at(bezier, inner)) * normal, axis=1)
        weighted = columns * weights
        try:
            change = np.linalg.solve(columns.T @ weighted, weighted.T @ misses)
        except np.linalg.LinAlgError:
            return None
        moved = bezier.copy()
        moved[1:3] += np.einsum("d,dkx->kx", change, directions)
        bezier = moved
    return None


def _first_guess(run: Points, at_start: Points, at_end: Points, length: float) -> Points:
    first = at_start[0] if len(at_start) == 1 else (run[1] - run[0]) / math.dist(run[1], run[0])
    last = at_end[0] if len(at_end) == 1 else (run[-2] - run[-1]) / math.dist(run[-2], run[-1])
    third = length / 3.0
    return np.stack((run[0], run[0] + third * first, run[-1] + third * last, run[-1]))


def _at(bezier: Points, t: NDArray[np.float64]) -> Points:
    u = 1.0 - t
    shares = np.stack((u**3, 3 * u * u * t, 3 * u * t * t, t**3), axis=1)
    return shares @ bezier


def _slope(bezier: Points, t: NDArray[np.float64]) -> Points:
    u = 1.0 - t
    return np.stack((3 * u * u, 6 * u * t, 3 * t * t), axis=1) @ np.diff(bezier, axis=0)


def _nearest(bezier: Points, run: Points, t: NDArray[np.float64]) -> NDArray[np.float64]:
    """Parameters of the points of the Bézier nearest to ``run``, by a Newton step from ``t``; they never go
    back."""
    bends = np.diff(bezier, n=2, axis=0)
    off = _at(bezier, t) - run
    slope = _slope(bezier, t)
    bend = 6 * np.stack((1 - t, t), axis=1) @ bends
    speed = np.einsum("nx,nx->n", slope, slope)
    curved = speed + np.einsum("nx,nx->n", off, bend)
    step = np.where(curved > 0.25 * speed, curved, np.maximum(speed, SOLVED))
    t = np.maximum.accumulate(np.clip(t - np.einsum("nx,nx->n", off, slope) / step, 0.0, 1.0))
    t[0], t[-1] = 0.0, 1.0
    return t


def _gap(bezier: Points, run: Points, t: NDArray[np.float64]) -> float:
    """How far the Bézier and the polyline stand apart: at the points, and along every chord between them."""
    at_points = float(np.hypot(*(_at(bezier, t) - run).T).max())
    if at_points > BEZIER_MM:
        return at_points
    between = (t[:-1, None] + np.diff(t)[:, None] * _BETWEEN).ravel()
    on_curve = _at(bezier, between).reshape(len(run) - 1, len(_BETWEEN), 2)
    chords = np.diff(run, axis=0)
    offsets = on_curve - run[:-1, None, :]
    shares = np.einsum("nkx,nx->nk", offsets, chords) / np.sum(chords * chords, axis=1)[:, None]
    apart = offsets - np.clip(shares, 0.0, 1.0)[..., None] * chords[:, None, :]
    return max(at_points, float(np.hypot(apart[..., 0], apart[..., 1]).max()))
