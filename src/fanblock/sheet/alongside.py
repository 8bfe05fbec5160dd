"""Lines that run along a join between two pages: hard to cut and to stitch by, since the pages' own line hides them."""

from __future__ import annotations

import itertools
import math
from collections.abc import Container, Iterable, Sequence
from typing import TYPE_CHECKING

import numpy as np

from fanblock.geometry import region
from fanblock.geometry.bezier import polyline, sample, sample_each
from fanblock.geometry.curve import Points, frozen
from fanblock.sheet.clear import FIRM
from fanblock.sheet.drawing import Group, Stroke
from fanblock.sheet.ink import Box

if TYPE_CHECKING:
    from fanblock.sheet.tiles import TilePlan

NEAR_MM, RUN_MM = 3.0, 15.0
"""A line runs along a join where it stays nearer than this for longer than that."""

PEN_MM = 1.0
"""Room for the width of pens about an outline."""

APART_MM = 3.5
"""How near pieces may come to one another when one is moved off a join."""

Shift = tuple[float, float]

_STEP_MM = 1.5
_SIDEWAYS = (0.0, 3.0, -3.0, 5.0, -5.0, 8.0, -8.0, 12.0, -12.0)
_STEPS = sorted(itertools.product(_SIDEWAYS, repeat=2), key=lambda step: math.hypot(*step))[1:]


def firm_runs(groups: Iterable[Group], pens: Container[str] = FIRM) -> Points:
    """Return close points along every line of these pens, those that are cut or stitched, a row of NaN after each line."""
    items = [item for group in groups for item in group.items]
    runs = [item.beziers for item in items if isinstance(item, Stroke) and item.pen in pens]
    if not runs:
        return np.empty((0, 2))
    points, bezier = sample_each(np.concatenate(runs), _STEP_MM)
    owner = np.repeat(np.arange(len(runs)), [len(run) for run in runs])[bezier]
    found = np.full((len(points) + 2 * len(runs), 2), np.nan)
    found[np.arange(len(points)) + 2 * owner] = points
    found[np.cumsum(np.bincount(owner)) + 2 * np.arange(len(runs))] = [run[-1, 3] for run in runs]
    return frozen(found)


def alongside_mm(runs: Points, grid: Box, rows: int, columns: int) -> float:
    """Return how much of the lines in ``runs`` (see :func:`firm_runs`) runs along inner joins of a table of pages."""
    if not len(runs):
        return 0.0
    steps = step_lengths(runs)
    across = stretches_mm(runs[:, 0] - grid.left, grid.width_mm / columns, columns, steps)
    return across + stretches_mm(grid.top - runs[:, 1], grid.height_mm / rows, rows, steps)


def step_lengths(runs: Points) -> Points:
    """Return how far it is from each point of ``runs`` to the next, 0 where a line ends."""
    steps = np.diff(runs, axis=0, append=runs[-1:])
    return np.nan_to_num(np.hypot(steps[:, 0], steps[:, 1]))


def stretches_mm(at: Points, side_mm: float, count: int, steps: Points) -> float:
    """Return the length of all stretches near one of the joins between ``count`` pages that are long enough to matter.

    ``at`` is how far each point lies from the start of the pages, which are ``side_mm`` each.
    """
    if count < 2 or not len(at):
        return 0.0
    with np.errstate(invalid="ignore"):
        nearest = np.clip(np.round(at / side_mm), 1, count - 1)
        near = np.abs(at - nearest * side_mm) < NEAR_MM
    ends = np.flatnonzero(np.diff(near, prepend=False, append=False))
    run = np.concatenate(([0.0], np.cumsum(steps)))
    lengths = run[np.maximum(ends[1::2] - 1, 0)] - run[ends[::2]]
    return float(lengths[lengths > RUN_MM].sum())


def nudged(
    rings: Sequence[Points], runs: Sequence[Points], shifts: Sequence[Shift], plan: TilePlan, size_mm: Shift
) -> tuple[Shift, ...]:
    """Return the shifts of pieces, each that has a line along a join moved a little, to where least of it is so.

    ``rings`` are the pieces' outlines and ``runs`` their lines, before the shift. A piece keeps within the drawing and
    within what the plan's pages show, on pages there are anyway, and ``APART_MM`` from its neighbours; where that cannot
    be, it stays.
    """
    found = [np.array(shift) for shift in shifts]
    for index, (ring, run) in enumerate(zip(rings, runs, strict=True)):
        least = along_mm(run + found[index], plan)
        if not least:
            continue
        others = [other + at for number, (other, at) in enumerate(zip(rings, found, strict=True)) if number != index]
        best = found[index]
        for step in _STEPS:
            at = found[index] + np.array(step)
            moved = ring + at
            inside = moved.min() >= 0.0 and (moved.max(axis=0) <= size_mm).all() and _shown(moved, plan)
            left = along_mm(run + at, plan)
            if not inside or left >= least or not _on_pages(moved, plan):
                continue
            if all(region.gap_mm(moved, other) >= APART_MM for other in others):
                least, best = left, at
                if not left:
                    break
        found[index] = best
    return tuple((float(x), float(y)) for x, y in found)


def along_mm(runs: Points, plan: TilePlan) -> float:
    """Return how much of the lines in ``runs`` runs along joins of a plan."""
    return alongside_mm(runs, plan.grid, plan.rows, plan.columns)


def _shown(ring: Points, plan: TilePlan) -> bool:
    """Whether all of a ring, and the pen round it, lies within what the pages of a plan show together."""
    grid, over = plan.grid, plan.paper.overlap_mm
    (left, bottom), (right, top) = ring.min(axis=0) - PEN_MM, ring.max(axis=0) + PEN_MM
    level = grid.left - over <= left and right <= grid.right
    return bool(level and grid.bottom <= bottom and top <= grid.top + over)


def _on_pages(ring: Points, plan: TilePlan) -> bool:
    """Whether a ring lies on pages of the plan alone."""
    grid = plan.grid
    dense = sample(polyline(ring, closed=True), _STEP_MM)
    column = np.clip((dense[:, 0] - grid.left) * plan.columns // grid.width_mm, 0, plan.columns - 1).astype(int)
    row = np.clip((grid.top - dense[:, 1]) * plan.rows // grid.height_mm, 0, plan.rows - 1).astype(int)
    return all(place in plan.by_place for place in set(zip(row.tolist(), column.tolist(), strict=True)))
