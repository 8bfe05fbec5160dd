"""Straight strips laid on a sheet: how far each may run before it meets something it must keep clear of.

A strip is a straight line with a width. What it must keep clear of is given as straight pieces, each with a distance that
the strip's side keeps from it (``beside``) and a distance that its ends keep from it, measured along the strip
(``beyond``). All strips and all pieces are looked at together.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry.curve import Points, frozen
from fanblock.tolerances import SAME_POINT_MM, TOUCH_MM

NO_RING, OUTLINE = -1, 0
"""Numbers of rings: of none, and of the outline within which strips lie."""

_TRIES = 6
"""How many of a strip's free stretches are looked at, the longest first, for one that lies inside the outline."""


@dataclass(frozen=True, slots=True, eq=False)
class Obstacles:
    """Straight pieces to keep clear of, one in a row of each array.

    ``kinds`` are numbers of the caller's. ``rings`` tell what closed outline each piece is of: those of :data:`OUTLINE`
    together are the one within which strips lie; of each number above it, one within which they do not; :data:`NO_RING`
    pieces are of none.
    """

    starts: Points
    ends: Points
    beside_mm: Points
    beyond_mm: Points
    kinds: NDArray[np.int64]
    rings: NDArray[np.int64]

    @staticmethod
    def along(points: Any, beside_mm: Any, beyond_mm: Any, kind: int, *, ring: int = NO_RING) -> Obstacles:
        """Return the pieces of a run of points, all of one kind; distances are numbers or one for each piece."""
        run = np.asarray(points, dtype=np.float64)
        count = len(run) - 1
        whole = np.ones(count)
        return Obstacles(
            frozen(run[:-1]),
            frozen(run[1:]),
            frozen(whole * beside_mm),
            frozen(whole * beyond_mm),
            np.full(count, kind),
            np.full(count, ring),
        )

    @staticmethod
    def joined(parts: list[Obstacles]) -> Obstacles:
        """Return the pieces of several in one; there must be at least one."""
        return Obstacles(
            frozen(np.vstack([part.starts for part in parts])),
            frozen(np.vstack([part.ends for part in parts])),
            frozen(np.concatenate([part.beside_mm for part in parts])),
            frozen(np.concatenate([part.beyond_mm for part in parts])),
            np.concatenate([part.kinds for part in parts]),
            np.concatenate([part.rings for part in parts]),
        )


@dataclass(frozen=True, slots=True, eq=False)
class Free:
    """How far strips may run: from ``low_mm`` to ``high_mm`` along each from its origin, and what stops them there.

    ``low_kinds`` and ``high_kinds`` are the kinds of what does, ``low_clear_mm`` and ``high_clear_mm`` what is kept free
    before it. A strip that finds no room has two equal ends and kinds of -1.
    """

    low_mm: Points
    high_mm: Points
    low_kinds: NDArray[np.int64]
    high_kinds: NDArray[np.int64]
    low_clear_mm: Points
    high_clear_mm: Points

    def picked(self, which: NDArray[np.bool_]) -> Free:
        """Return those of some strips."""
        return Free(
            self.low_mm[which],
            self.high_mm[which],
            self.low_kinds[which],
            self.high_kinds[which],
            self.low_clear_mm[which],
            self.high_clear_mm[which],
        )

    @property
    def length_mm(self) -> Points:
        """How long each may be."""
        return np.asarray(self.high_mm - self.low_mm)


def free_stretches(origins: Points, ways: Points, half_mm: float, obstacles: Obstacles) -> Free:
    """Return the longest free stretch of each strip inside the outline.

    ``origins`` and ``ways`` have shape (n, 2), the ways being unit vectors; ``half_mm`` is half the strips' width. What is
    kept free before an end is kept free of the outline over the whole width there, also where a part of the outline with
    a lesser distance of its own comes into it.
    """
    (t0, t1), (n0, n1) = _seen(origins, ways, obstacles)
    low, high = _blocked(t0, t1, n0, n1, half_mm, obstacles)
    most = int(np.count_nonzero(np.isfinite(low), axis=1).max(initial=1)) + 1
    if most < low.shape[1]:  # few pieces block a strip: only those are put in order
        few = np.argpartition(low, most, axis=1)[:, :most]
        order = np.take_along_axis(few, np.argsort(np.take_along_axis(low, few, axis=1), axis=1), axis=1)
    else:
        order = np.argsort(low, axis=1)
    start = np.take_along_axis(low, order, axis=1)
    end = np.take_along_axis(high, order, axis=1)
    reach = np.maximum.accumulate(end, axis=1)
    room = np.where(np.isfinite(start[:, 1:]), start[:, 1:] - reach[:, :-1], -np.inf)
    at = _inside_first(room, start, reach, _ring_crossings(t0, t1, n0, n1, obstacles))
    row = np.arange(len(origins))
    there = at >= 0
    at = np.maximum(at, 0)
    low_mm, high_mm = np.where(there, reach[row, at], 0.0), np.where(there, start[row, at + 1], 0.0)
    holding = np.argmax(np.where(np.arange(end.shape[1]) <= at[:, None], end, -np.inf), axis=1)
    below, above = order[row, holding], order[row, at + 1]
    clear = (obstacles.beyond_mm[below], obstacles.beyond_mm[above])
    outline = obstacles.rings == OUTLINE
    seen = (t0[:, outline], t1[:, outline], n0[:, outline], n1[:, outline])
    low_mm, high_mm = _kept_clear(seen, half_mm, (low_mm, high_mm), clear)
    return Free(
        frozen(low_mm),
        frozen(high_mm),
        np.where(there, obstacles.kinds[below], -1),
        np.where(there, obstacles.kinds[above], -1),
        frozen(clear[0]),
        frozen(clear[1]),
    )


def crossed_at(origins: Points, ways: Points, run: Points) -> Points:
    """Return how far along each straight line it first crosses a run of points; minus infinity where it does not."""
    x, y = ways[:, :1], ways[:, 1:]
    dx, dy = run[:, 0] - origins[:, :1], run[:, 1] - origins[:, 1:]
    t, n = x * dx + y * dy, x * dy - y * dx
    a, b = n[:, :-1], n[:, 1:]
    crossed = (a > 0.0) != (b > 0.0)
    at = t[:, :-1] + a / np.where(crossed, a - b, 1.0) * np.diff(t, axis=1)
    first = np.argmax(crossed, axis=1)
    row = np.arange(len(origins))
    return frozen(np.where(crossed.any(axis=1), at[row, first], -np.inf))


def _seen(origins: Points, ways: Points, obstacles: Obstacles) -> tuple[tuple[Points, Points], tuple[Points, Points]]:
    """Both ends of every piece, along every strip and across it (to its left)."""
    x, y = ways[:, :1], ways[:, 1:]
    along, across = [], []
    for points in (obstacles.starts, obstacles.ends):
        dx, dy = points[:, 0] - origins[:, :1], points[:, 1] - origins[:, 1:]
        along.append(x * dx + y * dy)
        across.append(x * dy - y * dx)
    return (along[0], along[1]), (across[0], across[1])


def _blocked(
    t0: Points, t1: Points, n0: Points, n1: Points, half_mm: float, obstacles: Obstacles
) -> tuple[Points, Points]:
    """From where to where each piece blocks each strip; from infinity to minus infinity where it does not."""
    first, last = _lapped(t0, t1, n0, n1, half_mm + obstacles.beside_mm - TOUCH_MM)
    return first - obstacles.beyond_mm, last + obstacles.beyond_mm


def _lapped(t0: Points, t1: Points, n0: Points, n1: Points, wide_mm: Points | float) -> tuple[Points, Points]:
    """From where to where each piece lies within a width either side of each strip's middle, nowhere told as in `_blocked`."""
    step = n1 - n0
    flat = np.abs(step) < SAME_POINT_MM
    steep = np.where(flat, 1.0, step)
    first, last = (-wide_mm - n0) / steep, (wide_mm - n0) / steep
    enter = np.where(flat, 0.0, np.clip(np.minimum(first, last), 0.0, 1.0))
    leave = np.where(flat, 1.0, np.clip(np.maximum(first, last), 0.0, 1.0))
    met = np.where(flat, np.abs(n0) < wide_mm, leave > enter)
    one, other = t0 + enter * (t1 - t0), t0 + leave * (t1 - t0)
    return np.where(met, np.minimum(one, other), np.inf), np.where(met, np.maximum(one, other), -np.inf)


def _kept_clear(
    outline: tuple[Points, Points, Points, Points],
    half_mm: float,
    ends_mm: tuple[Points, Points],
    clear_mm: tuple[Points, Points],
) -> tuple[Points, Points]:
    """Both ends of each strip, drawn back where the outline beyond one comes nearer than what is kept free before it."""
    (low, high), (low_clear, high_clear) = ends_mm, clear_mm
    first, last = _lapped(*outline, half_mm - TOUCH_MM)
    above = np.where(first >= high[:, None], first, np.inf).min(axis=1, initial=np.inf)
    below = np.where(last <= low[:, None], last, -np.inf).max(axis=1, initial=-np.inf)
    high = np.minimum(high, above - high_clear)
    low = np.maximum(low, below + low_clear)
    return np.minimum(low, high), high


def _ring_crossings(t0: Points, t1: Points, n0: Points, n1: Points, obstacles: Obstacles) -> list[Points]:
    """For each ring, the outline first: where the middle of every strip crosses each piece of it; infinity where not."""
    found = []
    for ring in range(int(obstacles.rings.max()) + 1):
        of_ring = obstacles.rings == ring
        a, b = n0[:, of_ring], n1[:, of_ring]
        crossed = (a > 0.0) != (b > 0.0)
        share = a / np.where(crossed, a - b, 1.0)
        found.append(np.where(crossed, t0[:, of_ring] + share * (t1[:, of_ring] - t0[:, of_ring]), np.inf))
    return found


def _inside_first(room: Points, start: Points, reach: Points, crossings: list[Points]) -> NDArray[np.int64]:
    """For each strip the number of its longest free stretch whose middle lies where it may; -1 without one."""
    row = np.arange(len(room))
    found = np.full(len(room), -1)
    left = room.copy()
    for _ in range(_TRIES):
        best = np.argmax(left, axis=1)
        any_left = (left[row, best] > 0.0) & (found < 0)
        if not any_left.any():
            break
        with np.errstate(invalid="ignore"):
            middle = 0.5 * (reach[row, best] + start[row, best + 1])
        inside = [np.count_nonzero(ring < middle[:, None], axis=1) % 2 == 1 for ring in crossings]
        lawful = inside[0] & ~np.any(inside[1:], axis=0) if len(inside) > 1 else inside[0]
        found = np.where(any_left & lawful, best, found)
        left[row, best] = -np.inf
    return found
