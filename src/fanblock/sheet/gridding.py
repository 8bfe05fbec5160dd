"""Where the table of pages is best laid over a drawing: few pages, few lines along a join, few joins across a piece."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry.curve import Points
from fanblock.sheet.alongside import step_lengths, stretches_mm
from fanblock.sheet.ink import Box

_PLACES = (0.5, 0.25, 0.75, 0.375, 0.625, 0.125, 0.875, 0.0, 1.0)
"""Shares of the spare paper that may lie left of the drawing, and above it, best first."""

Numbers = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Laid:
    """A table of fields over a drawing, and the row and column of those that carry ink, in reading order."""

    grid: Box
    rows: int
    columns: int
    inked: tuple[tuple[int, int], ...]


def best_laid(ink: Sequence[Points], runs: Points, around: Box, field: Box, overlap_mm: float) -> Laid:
    """Return how fields as large as ``field`` are best laid over what is inked within ``around``.

    ``ink`` are the points of each group of the drawing, ``runs`` those of its cut and stitched lines (see
    :func:`fanblock.sheet.alongside.firm_runs`). Neighbouring fields show ``overlap_mm`` of one another.
    """
    wide, high = field.width_mm, field.height_mm
    columns = max(1, math.ceil((around.width_mm - overlap_mm) / wide))
    rows = max(1, math.ceil((around.height_mm - overlap_mm) / high))
    spare_x = overlap_mm + columns * wide - around.width_mm
    spare_y = overlap_mm + rows * high - around.height_mm
    across = _Ways.of([around.left - spare_x * share + overlap_mm for share in _PLACES], wide, columns)
    down = _Ways.of([-around.top - spare_y * share + overlap_mm for share in _PLACES], high, rows)
    group, level, upright = _strips(ink, down, across)
    steps = step_lengths(runs)
    along_down = [stretches_mm(-runs[:, 1] - start, high, rows, steps) for start in down.starts]
    along_across = [stretches_mm(runs[:, 0] - start, wide, columns, steps) for start in across.starts]
    best: tuple[tuple[int, float, int], Laid] | None = None
    for top, row_of, along_y in zip(down.starts, down.fields, along_down, strict=True):
        for left, column_of, along_x in zip(across.starts, across.fields, along_across, strict=True):
            carries = np.zeros((len(ink), rows * columns), dtype=np.bool_)
            carries[group, row_of[level] * columns + column_of[upright]] = True
            pages = np.flatnonzero(carries.any(axis=0)).tolist()
            score = (len(pages), along_y + along_x, int(carries.sum()))
            if best is None or score < best[0]:
                grid = Box(left, -top - rows * high, left + columns * wide, -top)
                best = score, Laid(grid, rows, columns, tuple(divmod(page, columns) for page in pages))
    assert best is not None
    return best[1]


@dataclass(frozen=True, slots=True, eq=False)
class _Ways:
    """Several ways to lay a row of fields. All their edges together cut the row into strips; ``fields`` gives, for each
    way, the field each strip belongs to. What lies outside the row belongs to the field at its end.
    """

    starts: list[float]
    edges: Points
    fields: Numbers

    @staticmethod
    def of(starts: list[float], side_mm: float, count: int) -> _Ways:
        begins = np.array(starts)
        edges = np.sort((begins[:, None] + side_mm * np.arange(1, count)).ravel())
        inside = 0.5 * (edges[:-1] + edges[1:])
        middles = np.concatenate((edges[:1] - 1.0, inside, edges[-1:] + 1.0)) if count > 1 else np.zeros(1)
        fields = np.floor((middles - begins[:, None]) / side_mm).astype(np.int64).clip(0, count - 1)
        return _Ways(starts, edges, fields)


def _strips(ink: Sequence[Points], down: _Ways, across: _Ways) -> tuple[Numbers, Numbers, Numbers]:
    """Every group with every pair of strips, level and upright, in which it has ink."""
    shape = len(ink), len(down.edges) + 1, len(across.edges) + 1
    points = np.vstack((np.empty((0, 2)), *ink))
    group = np.repeat(np.arange(len(ink)), [len(some) for some in ink])
    level = np.searchsorted(down.edges, -points[:, 1], side="right")
    upright = np.searchsorted(across.edges, points[:, 0], side="right")
    seen = np.bincount(np.ravel_multi_index((group, level, upright), shape), minlength=math.prod(shape))
    first, second, third = np.nonzero(seen.reshape(shape))
    return first, second, third
