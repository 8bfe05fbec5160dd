"""Outlines and lines on a grid of square cells, for asking quickly where something has room.

A mask is an array of booleans, rows by columns; row 0 lies lowest. Cell (row, column) has its middle at
``origin + ((column + 1/2) cell, (row + 1/2) cell)``.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry.curve import Points

Mask = NDArray[np.bool_]


def filled(outline: Points, origin: Points, cell_mm: float, shape: tuple[int, int]) -> Mask:
    """Return the mask of the cells whose middles lie within the closed ``outline`` (even-odd rule)."""
    points = (np.asarray(outline) - origin) / cell_mm - 0.5  # now cell middles are the whole numbers
    mask = np.zeros(shape, dtype=np.bool_)
    low = np.ceil(points.min(axis=0)).astype(np.int64).clip(0)
    high = (np.floor(points.max(axis=0)).astype(np.int64) + 1).clip(0, (shape[1], shape[0]))
    columns, rows = (high - low).tolist()
    if columns <= 0 or rows <= 0:
        return mask
    points -= low
    nexts = np.roll(points, -1, axis=0)
    first = np.ceil(np.minimum(points[:, 1], nexts[:, 1])).clip(0, rows).astype(np.int64)
    counts = np.ceil(np.maximum(points[:, 1], nexts[:, 1])).clip(0, rows).astype(np.int64) - first
    side = np.repeat(np.arange(len(points)), counts)
    row = np.arange(len(side)) + (first - np.cumsum(counts) + counts)[side]
    start, end = points[side], nexts[side]
    crossing = start[:, 0] + (row - start[:, 1]) * (end[:, 0] - start[:, 0]) / (end[:, 1] - start[:, 1])
    column = np.clip(np.ceil(crossing), 0, columns).astype(np.int64)
    crossed = np.bincount(row * (columns + 1) + column, minlength=rows * (columns + 1))
    toggles = (crossed % 2).astype(np.bool_).reshape(rows, columns + 1)
    window = np.logical_xor.accumulate(toggles, axis=1)[:, :columns]
    mask[low[1] : high[1], low[0] : high[0]] = window
    return mask


def stamped(runs: Sequence[Points], origin: Points, cell_mm: float, shape: tuple[int, int]) -> Mask:
    """Return the mask of the cells that the runs of points pass through."""
    starts, ends = np.vstack([run[:-1] for run in runs]), np.vstack([run[1:] for run in runs])
    steps = ends - starts
    counts = np.ceil(np.hypot(steps[:, 0], steps[:, 1]) / (0.5 * cell_mm)).astype(np.int64) + 1
    firsts = np.cumsum(counts) - counts
    owner = np.repeat(np.arange(len(counts)), counts)
    share = (np.arange(len(owner)) - firsts[owner]) / np.maximum(counts - 1, 1)[owner]
    return cells_at(starts[owner] + share[:, None] * steps[owner], origin, cell_mm, shape)


def cells_at(points: Points, origin: Points, cell_mm: float, shape: tuple[int, int]) -> Mask:
    """Return the mask of the cells that hold one of ``points``; points off the grid are left out."""
    mask = np.zeros(shape, dtype=np.bool_)
    row, column = _cells(points, origin, cell_mm, shape)
    mask[row, column] = True
    return mask


def counted(points: Points, origin: Points, cell_mm: float, shape: tuple[int, int]) -> NDArray[np.int64]:
    """Return how many of ``points`` lie in each cell; points off the grid are left out."""
    row, column = _cells(points, origin, cell_mm, shape)
    return np.bincount(row * shape[1] + column, minlength=shape[0] * shape[1]).reshape(shape)


def _cells(points: Points, origin: Points, cell_mm: float, shape: tuple[int, int]) -> tuple[Any, Any]:
    """The rows and columns of the cells that hold ``points``, without those off the grid."""
    x, y = np.asarray(points).T
    column = np.floor((x - origin[0]) / cell_mm).astype(np.int64)
    row = np.floor((y - origin[1]) / cell_mm).astype(np.int64)
    inside = (column >= 0) & (column < shape[1]) & (row >= 0) & (row < shape[0])
    return row[inside], column[inside]


def sums(mask: Mask) -> NDArray[np.int32]:
    """Return the running sums of a mask, one row and column larger, for counting cells in any rectangle."""
    table = np.zeros((mask.shape[0] + 1, mask.shape[1] + 1), dtype=np.int32)
    np.cumsum(mask, axis=1, dtype=np.int32, out=table[1:, 1:])
    np.cumsum(table, axis=0, out=table)
    return table


def free_corners(table: NDArray[np.int32], rows: int, columns: int) -> Mask:
    """Return, for every lower left corner, whether the rectangle of ``rows`` by ``columns`` above it is empty.

    ``table`` are the :func:`sums` of what is taken. The answer is empty when the rectangle is larger than the grid.
    """
    high, wide = table.shape[0] - 1, table.shape[1] - 1
    if rows > high or columns > wide:
        return np.zeros((0, 0), dtype=np.bool_)
    count = table[rows:, columns:] - table[:-rows, columns:] - table[rows:, :-columns] + table[:-rows, :-columns]
    return np.asarray(count == 0)
