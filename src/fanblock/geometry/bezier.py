"""Polylines as few cubic Béziers, within :data:`fanblock.tolerances.BEZIER_MM`, that a person can edit by
hand.

A curve is cut at its corners, which are kept sharp, and each run between them fitted by one cubic. A run that cannot
be is cut where its bend jumps, as where an arc meets a straight, and what still cannot is halved again and again, with
a common tangent at every cut; two neighbours that one cubic can carry are joined again. All curves are fitted in the
same few steps, which costs little more than one curve does.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from fanblock.geometry import bends
from fanblock.geometry.bends import Flags, Indices, Line, Plane, line_of
from fanblock.geometry.cubics import Span, cubics
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.tolerances import SAME_POINT_MM, SOLVED

_THIRDS = np.array([0.0, 1.0, 2.0, 3.0])[:, None] / 3.0


@dataclass(frozen=True, slots=True, eq=False)
class _Piece:
    """A cubic and the points it stands for."""

    first: int
    last: int
    bezier: Plane


def fit(curve: Curve) -> Points:
    """Return cubic Béziers, shape (n, 4, 2), within ``BEZIER_MM`` of ``curve`` and the curve within it of
    them.

    The first begins and the last ends exactly where the curve does; a straight curve is one straight cubic.
    """
    return fit_all((curve,))[0]


def fit_all(curves: Sequence[Curve]) -> list[Points]:
    """Return for each curve what :func:`fit` does, all fitted in one go, which is far faster."""
    if not curves:
        return []
    ends = np.cumsum([len(curve.points) for curve in curves]) - 1
    line = line_of(_plane(np.vstack([curve.points for curve in curves])), ends)
    pieces = _joined(line, _pieces(line, _runs(line, ends)))
    beziers = np.array([piece.bezier for piece in pieces])
    plane = np.stack((beziers.real, beziers.imag), axis=-1)
    bounds = np.searchsorted([piece.first for piece in pieces], ends).tolist()
    return [frozen(plane[start:end]) for start, end in itertools.pairwise([0, *bounds])]


def polyline(points: Any, closed: bool = False) -> Points:
    """Return straight cubics, shape (n, 4, 2), through ``points`` in order, and back to the first if
    ``closed``."""
    array = np.asarray(points, dtype=np.float64)
    if closed:
        array = np.vstack((array, array[:1]))
    return frozen(array[:-1, None, :] + _THIRDS * (array[1:] - array[:-1])[:, None, :])


def is_straight(beziers: Points) -> Flags:
    """Return for each of some Béziers whether both handles lie on the chord, within ``SAME_POINT_MM``, and
    between its ends."""
    chords = beziers[:, 3] - beziers[:, 0]
    lengths = np.hypot(chords[:, 0], chords[:, 1])[:, None]
    ways = chords[:, None] / np.maximum(lengths, SAME_POINT_MM)[..., None]
    offsets = beziers[:, 1:3] - beziers[:, :1]
    across = np.abs(offsets[..., 0] * ways[..., 1] - offsets[..., 1] * ways[..., 0])
    along = np.sum(offsets * ways, axis=-1)
    fine = (across <= SAME_POINT_MM) & (along >= 0.0) & (along <= lengths) & (lengths > SAME_POINT_MM)
    return np.asarray(fine.all(axis=1))


def straights(runs: Sequence[Points]) -> list[list[bool]]:
    """Return for each run of Béziers which of them are straight, looking at all runs at once."""
    if not runs:
        return []
    flags = is_straight(np.concatenate(runs)).tolist()
    ends = list(itertools.accumulate(len(run) for run in runs))
    return [flags[start:end] for start, end in itertools.pairwise([0, *ends])]


def sample(beziers: Points, step_mm: float) -> Points:
    """Return points, shape (m, 2), on a run of Béziers, at most about ``step_mm`` apart, both ends
    included."""
    return np.vstack((sample_each(beziers, step_mm)[0], beziers[-1:, 3]))


def sample_each(beziers: Points, step_mm: float) -> tuple[Points, Indices]:
    """Return points, shape (m, 2), on each of some Béziers, at most about ``step_mm`` apart, without its end;
    and on which of them each point lies."""
    legs = np.diff(beziers, axis=1)
    counts = np.maximum(1, np.ceil(np.hypot(legs[..., 0], legs[..., 1]).sum(axis=1) / step_mm)).astype(np.int64)
    owner = np.repeat(np.arange(len(counts)), counts)
    t = (np.arange(len(owner)) - (np.cumsum(counts) - counts)[owner]) / counts[owner]
    u = 1.0 - t
    shares = np.stack((u * u * u, 3.0 * u * u * t, 3.0 * u * t * t, t * t * t), axis=1)
    return np.einsum("nk,nkx->nx", shares, beziers[owner]), owner


def corners(points: Points) -> list[int]:
    """Return where the polyline has a corner: a turn over ``CORNER_DEG``, or far sharper than its
    neighbours."""
    return bends.corners(_plane(points))


def _plane(points: Points) -> Plane:
    return np.asarray(points[:, 0] + 1j * points[:, 1])


def _runs(line: Line, ends: Indices) -> list[Span]:
    """From corner to corner, but not from one curve to the next."""
    marks = np.flatnonzero(line.corner)
    inside = np.diff(np.searchsorted(ends, marks)) == 0
    return list(zip(marks[:-1][inside].tolist(), marks[1:][inside].tolist(), strict=True))


def _pieces(line: Line, runs: Sequence[Span]) -> list[_Piece]:
    """The runs in pieces that one cubic each can carry: whole, else cut at their joints, else halved again and
    again."""
    found: list[_Piece] = []
    spans, parted = list(runs), _at_joints
    while spans:
        beziers, near = cubics(line, spans)
        found += [_Piece(*span, bezier) for span, bezier, fits in zip(spans, beziers, near, strict=True) if fits]
        left = [span for span, fits in zip(spans, near, strict=True) if not fits]
        spans = [part for span in left for part in parted(line, span)]
        parted = _halves
    return sorted(found, key=lambda piece: piece.first)


def _at_joints(line: Line, span: Span) -> list[Span]:
    first, last = span
    inside = first + 1 + np.flatnonzero(line.joint[first + 1 : last])
    return list(itertools.pairwise([first, *inside.tolist(), last])) if len(inside) else _halves(line, span)


def _halves(line: Line, span: Span) -> list[Span]:
    """The span cut where half of its length and of its turning lies, so that the shorter part holds the bend."""
    first, last = span
    along = line.along[first + 1 : last] - line.along[first]
    turning = np.cumsum(np.abs(line.turns[first + 1 : last]))
    share = along / (line.along[last] - line.along[first]) + turning / max(float(turning[-1]), SOLVED)
    middle = first + 1 + min(int(np.searchsorted(share, 1.0)), last - first - 2)
    return [(first, middle), (middle, last)]


def _joined(line: Line, pieces: list[_Piece]) -> list[_Piece]:
    """The pieces with every two neighbours made one that one cubic can carry, until there are no more such."""
    failed: set[Span] = set()
    while True:
        pairs = [
            at
            for at, (one, other) in enumerate(itertools.pairwise(pieces))
            if one.last == other.first and not line.corner[one.last] and (one.first, other.last) not in failed
        ]
        if not pairs:
            return pieces
        spans = [(pieces[at].first, pieces[at + 1].last) for at in pairs]
        beziers, near = cubics(line, spans)
        failed.update(span for span, fits in zip(spans, near, strict=True) if not fits)
        taken = -1
        merged: dict[int, _Piece] = {}
        for at, span, bezier, fits in zip(pairs, spans, beziers, near, strict=True):
            if fits and at > taken:
                merged[at] = _Piece(*span, bezier)
                taken = at + 1
        pieces = [merged.get(at, piece) for at, piece in enumerate(pieces) if at - 1 not in merged]
