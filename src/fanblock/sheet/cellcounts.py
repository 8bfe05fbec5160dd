"""Counts over the cells of a page: in every rectangle of one size at once, and beside those that are taken."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry.curve import Points
from fanblock.sheet.ink import Box

Counts = NDArray[np.int64]


def sums(cells: Counts) -> Counts:
    """Return running sums, one row and column larger."""
    table = np.zeros((cells.shape[0] + 1, cells.shape[1] + 1), dtype=np.int64)
    np.cumsum(cells, axis=1, out=table[1:, 1:])
    np.cumsum(table, axis=0, out=table)
    return table


def counts(table: Counts, wide: int, high: int) -> Counts:
    """Return the sums over every window of ``wide`` by ``high`` cells, by its lower left one; empty when the area is smaller."""
    if high >= table.shape[0] or wide >= table.shape[1]:
        return np.zeros((0, 0), dtype=np.int64)
    return table[high:, wide:] - table[:-high, wide:] - table[high:, :-wide] + table[:-high, :-wide]


def spread(cells: NDArray[np.bool_], by: int) -> Counts:
    """Return the cells no further than ``by`` from one of those."""
    wide = np.pad(cells, by)
    high, across = cells.shape
    steps = range(2 * by + 1)
    level = np.any([wide[:, step : step + across] for step in steps], axis=0)
    return np.asarray(np.any([level[step : step + high] for step in steps], axis=0), dtype=np.int64)


def inside(points: Points, box: Box) -> Points:
    """Return the points that lie within a box."""
    x, y = points.T
    return np.asarray(points[(x > box.left) & (x < box.right) & (y > box.bottom) & (y < box.top)])
