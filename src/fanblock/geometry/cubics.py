"""Many runs of points fitted by one cubic Bézier each, all of them in the same few array operations.

Here a point of the plane is a complex number. A run's cubic begins and ends where the run does; its handles are
found by Gauss-Newton steps on the distances square to the curve, the nearest parameter of every point being found
anew at each step. All points of all runs lie in one array; ``owner`` says to which run each belongs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from fanblock.geometry.bends import Flags, Indices, Line, Plane
from fanblock.geometry.curve import Points
from fanblock.tolerances import BEZIER_MM, DAMPING_RATIO, SAME_POINT_MM, SOLVED, STRAIGHT_MM

Span = tuple[int, int]
"""The first and the last point of a part of a line."""

_STEPS, _EARLY = 8, 3
_GAIN, _FAR = 0.8, 6.0  # steps go on while the gap shrinks so; three steps on it must be near
_BETWEEN = np.arange(1.0, 6.0) / 6.0
_Powers = tuple[Plane, Plane, Plane, Plane]


def cubics(line: Line, spans: Sequence[Span]) -> tuple[Plane, Flags]:
    """Return one cubic for each span of points, shape (n, 4), and whether it is within ``BEZIER_MM`` of its points.

    The second answer holds both ways: for the points, and for the chords between them as seen from the cubic.
    """
    first, last = np.array(spans, dtype=np.int64).T
    beziers = _straight(line.points[first], line.points[last])
    near = _flat(line, first, last)
    bent = np.flatnonzero(~near)
    if len(bent):
        beziers[bent], near[bent] = _fitted(_first_trial(line, first[bent], last[bent]))
    return beziers, near


@dataclass(frozen=True, slots=True, eq=False)
class _Trial:
    """Cubics on their way: for each run its four control points, the four directions its two handles may move in (two
    each, 0 where there is only one), its first and its last point; for each point its parameter and its weight.
    """

    beziers: Plane
    directions: Plane
    starts: Indices
    ends: Indices
    owner: Indices
    points: Plane
    t: Points
    weights: Points

    def only(self, kept: Flags) -> _Trial:
        """The runs flagged, the others left out."""
        if kept.all():
            return self
        mine = kept[self.owner]
        owner = (np.cumsum(kept) - 1)[self.owner[mine]]
        ends = np.cumsum((self.ends - self.starts + 1)[kept]) - 1
        starts = ends - (self.ends - self.starts)[kept]
        beziers, directions = self.beziers[kept], self.directions[kept]
        return _Trial(beziers, directions, starts, ends, owner, self.points[mine], self.t[mine], self.weights[mine])

    def powers(self) -> _Powers:
        """The coefficients of each point's own cubic: constant, t, t², t³."""
        a, b, c, d = self.beziers.T
        found = np.stack((a, 3.0 * (b - a), 3.0 * (a - 2.0 * b + c), d - a + 3.0 * (b - c)))[:, self.owner]
        return found[0], found[1], found[2], found[3]


def _straight(starts: Plane, ends: Plane) -> Plane:
    thirds = np.array([0.0, 1.0, 2.0, 3.0]) / 3.0
    return starts[:, None] + thirds * (ends - starts)[:, None]


def _flat(line: Line, first: Indices, last: Indices) -> Flags:
    """Whether the points of a span stand off its chord by no more than ``STRAIGHT_MM`` and never turn back."""
    index, owner, starts, ends = _spread(first, last)
    chord = line.points[last] - line.points[first]
    length = np.abs(chord)
    turned = (line.points[index] - line.points[first][owner]) / np.where(length > 0.0, chord, 1.0)[owner]
    across = np.maximum.reduceat(np.abs(turned.imag), starts) * length
    steps = np.diff(turned.real, append=0.0)
    steps[ends] = 1.0
    return (length > SAME_POINT_MM) & (across <= STRAIGHT_MM) & (np.minimum.reduceat(steps, starts) > 0.0)


def _spread(first: Indices, last: Indices) -> tuple[Indices, Indices, Indices, Indices]:
    """The indices of all points of the spans, the span each belongs to, and where among them each starts and ends."""
    counts = last - first + 1
    ends = np.cumsum(counts) - 1
    starts = ends - counts + 1
    owner = np.repeat(np.arange(len(counts)), counts)
    return np.arange(len(owner)) + (first - starts)[owner], owner, starts, ends


def _first_trial(line: Line, first: Indices, last: Indices) -> _Trial:
    """Handles of a third of the length, along the tangents."""
    index, owner, starts, ends = _spread(first, last)
    points, along = line.points[index], line.along[index]
    total = line.along[last] - line.along[first]
    weights = np.convolve(np.diff(along), (1.0, 1.0))
    weights[starts] = weights[ends] = 0.0
    ahead = np.where(line.loose[first], _unit(points[starts + 1] - points[starts]), line.tangents[first])
    back = np.where(line.loose[last], _unit(points[ends - 1] - points[ends]), -line.tangents[last])
    a, d, third = points[starts], points[ends], total / 3.0
    directions = np.zeros((len(first), 4), dtype=np.complex128)
    directions[:, 0] = np.where(line.loose[first], 1.0, ahead)
    directions[:, 1] = np.where(line.loose[first], 1.0j, 0.0)
    directions[:, 2] = np.where(line.loose[last], 1.0, back)
    directions[:, 3] = np.where(line.loose[last], 1.0j, 0.0)
    t = (along - along[starts][owner]) / total[owner]
    beziers = np.stack((a, a + third * ahead, d + third * back, d), axis=1)
    return _Trial(beziers, directions, starts, ends, owner, points, t, weights)


def _fitted(trial: _Trial) -> tuple[Plane, Flags]:
    beziers, near = trial.beziers.copy(), np.zeros(len(trial.beziers), dtype=np.bool_)
    runs = np.arange(len(beziers))
    before = np.full(len(beziers), np.inf)
    for step in range(_STEPS):
        powers = trial.powers()
        trial = replace(trial, t=_nearest(trial, powers))
        gap = _gap(trial, powers)
        met = gap <= BEZIER_MM
        beziers[runs[met]], near[runs[met]] = trial.beziers[met], True
        hopeful = ~met & (gap <= before * _GAIN)
        if step >= _EARLY:
            hopeful &= gap <= _FAR * BEZIER_MM
        if not hopeful.any():
            break
        trial, before, runs = _stepped(trial.only(hopeful)), gap[hopeful], runs[hopeful]
    return beziers, near


def _stepped(trial: _Trial) -> _Trial:
    """The handles moved by one Gauss-Newton step, lightly damped, so that few points cannot make it run wild."""
    c0, c1, c2, c3 = trial.powers()
    t = trial.t
    normal = 1.0j * _unit((3.0 * c3 * t + 2.0 * c2) * t + c1)
    misses = _dot(trial.points - (((c3 * t + c2) * t + c1) * t + c0), normal)
    u = 1.0 - t
    shares = np.stack((u, u, t, t), axis=1) * (3.0 * t * u)[:, None]
    columns = shares * _dot(trial.directions[trial.owner], normal[:, None])
    weighted = columns * trial.weights[:, None]
    squares = np.add.reduceat(columns[:, :, None] * weighted[:, None, :], trial.starts)
    right = np.add.reduceat(weighted * misses[:, None], trial.starts)
    damping = DAMPING_RATIO * np.trace(squares, axis1=1, axis2=2) + SOLVED
    squares += damping[:, None, None] * np.eye(4)
    moves = np.linalg.solve(squares, right[:, :, None])[:, :, 0] * trial.directions
    beziers = trial.beziers.copy()
    beziers[:, 1] += moves[:, 0] + moves[:, 1]
    beziers[:, 2] += moves[:, 2] + moves[:, 3]
    return replace(trial, beziers=beziers)


def _nearest(trial: _Trial, powers: _Powers) -> Points:
    """Parameters of the places nearest to the points, by a Newton step from those before; they never go back."""
    c0, c1, c2, c3 = powers
    t = trial.t
    off = ((c3 * t + c2) * t + c1) * t + c0 - trial.points
    slope = (3.0 * c3 * t + 2.0 * c2) * t + c1
    speed = np.maximum(_dot(slope, slope), SOLVED)
    curved = speed + _dot(off, 6.0 * c3 * t + 2.0 * c2)
    t = np.clip(t - _dot(off, slope) / np.where(curved > 0.25 * speed, curved, speed), 0.0, 1.0)
    t = np.maximum.accumulate(t + 2.0 * trial.owner) - 2.0 * trial.owner
    t[trial.starts], t[trial.ends] = 0.0, 1.0
    return np.asarray(t)


def _gap(trial: _Trial, powers: _Powers) -> Points:
    """How far each cubic and its points stand apart and, where that is near enough, each cubic and the chords."""
    c0, c1, c2, c3 = powers
    t = trial.t
    gap = np.maximum.reduceat(np.abs(((c3 * t + c2) * t + c1) * t + c0 - trial.points), trial.starts)
    near = gap <= BEZIER_MM
    if near.any():
        gap[near] = np.maximum(gap[near], _gap_of_chords(trial.only(near)))
    return np.asarray(gap)


def _gap_of_chords(trial: _Trial) -> Points:
    inside = np.flatnonzero(np.diff(trial.owner) == 0)
    owner, start = trial.owner[inside], trial.points[inside][:, None]
    chord = trial.points[inside + 1][:, None] - start
    c0, c1, c2, c3 = (power[inside][:, None] for power in trial.powers())
    t = trial.t[inside][:, None] + np.diff(trial.t)[inside][:, None] * _BETWEEN
    off = ((c3 * t + c2) * t + c1) * t + c0 - start
    share = np.clip(_dot(off, chord) / _dot(chord, chord), 0.0, 1.0)
    apart = np.abs(off - share * chord).max(axis=1)
    return np.asarray(np.maximum.reduceat(apart, np.flatnonzero(np.diff(owner, prepend=-1))))


def _dot(a: Any, b: Any) -> Any:
    return a.real * b.real + a.imag * b.imag


def _unit(vectors: Plane) -> Plane:
    return np.asarray(vectors / np.maximum(np.abs(vectors), SOLVED))
