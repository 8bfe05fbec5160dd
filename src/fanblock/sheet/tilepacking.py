"""Where each piece lies on pages that are to be joined: few pages, and few joins across a piece."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry import raster, region
from fanblock.geometry.curve import Points
from fanblock.sheet.laying import CELL_MM, GAP_MM, Cell, Cost, Packing, Shift, Table, proved
from fanblock.sheet.orders import orders

GROUND_MM = 2.0
"""Side of the cells by which the pages that a piece lies on are told."""
TRIED = 10
"""How many orders of laying are tried."""
FRESH, JOIN = 1_000_000.0, 10_000.0
"""What a page more and a page join across a piece cost, against 1 for every cell that a piece lies further off."""

Pages = frozenset[tuple[int, int]]
"""Pages by column and row."""


@dataclass(frozen=True, slots=True)
class Tiling:
    """Pages side by side: their joins lie at ``lap_mm`` plus whole steps, across and up from the lower left
    corner.
    """

    step_x_mm: float
    step_y_mm: float
    lap_mm: float = 0.0

    def touched(self, low: Any, high: Any, step: float) -> tuple[Any, Any]:
        """Return the first and the last page in one direction that something from ``low`` to ``high`` lies on, for
        numbers or arrays of them.
        """
        first = np.maximum(np.floor((low - self.lap_mm) / step), 0.0).astype(np.int64)
        return first, np.maximum(np.ceil((high - self.lap_mm) / step).astype(np.int64) - 1, first)

    def pages(self, outline: Points) -> Pages:
        """Return the (column, row) of every page that some of ``outline`` lies on."""
        return _Ground.of(outline).pages(0.0, 0.0, self)

    def edges(self, first: int, last: int, step: float) -> Points:
        """Return where pages ``first`` to ``last`` begin in one direction, but for the first."""
        return np.asarray(self.lap_mm + step * np.arange(first + 1, last + 1))


def pack_on_tiles(outlines: Sequence[Points], tiling: Tiling, gap_mm: float = GAP_MM) -> Packing:
    """Return where the outlines lie so that few pages carry ink and, among such, few page joins cross a
    piece.
    """
    table = Table(tuple(outlines), gap_mm)
    grounds = [_Ground.of(outline) for outline in outlines]

    @cache
    def pages(index: int, x: float, y: float) -> Pages:
        return grounds[index].pages(x, y, tiling)

    cost = _page_cost(table, tiling, pages)
    area = sum(abs(region.area_mm2(outline)) for outline in outlines)
    least = max(int(tiling.touched(0.0, np.ptp(outline[:, 0]), tiling.step_x_mm)[1]) for outline in outlines) + 1
    likely = int(np.sqrt(area) / tiling.step_x_mm) + 1
    width = max(least, likely) * tiling.step_x_mm + tiling.lap_mm
    best: tuple[tuple[int, int, float], tuple[Shift, ...]] | None = None
    for order in orders(outlines)[:TRIED]:
        shifts = table.laid(order, width, cost)
        each = [pages(index, *shift) for index, shift in enumerate(shifts)]
        score = (
            len(frozenset().union(*each)),
            sum(len(some) - 1 for some in each),
            sum(x + y for x, y in shifts),
        )
        if best is None or score < best[0]:
            best = (score, shifts)
    if best is None:
        return Packing((), tiling.step_x_mm, tiling.step_y_mm)
    ends = [np.max(outline + shift, axis=0) for outline, shift in zip(outlines, best[1], strict=True)]
    return proved(outlines, best[1], float(np.max(ends, axis=0)[0]))


@dataclass(frozen=True, slots=True, eq=False)
class _Ground:
    """Where an outline has ground: its low and high corner, and the running sums of the cells within it."""

    low: Points
    high: Points
    table: NDArray[np.int32]

    @staticmethod
    def of(outline: Points) -> _Ground:
        low, high = outline.min(axis=0), outline.max(axis=0)
        columns, rows = np.ceil((high - low) / GROUND_MM).astype(np.int64).tolist()
        return _Ground(low, high, raster.sums(raster.filled(outline, low, GROUND_MM, (rows, columns))))

    def pages(self, x: float, y: float, tiling: Tiling) -> Pages:
        """The pages that some of the ground lies on when the outline is shifted by (``x``, ``y``)."""
        shift = np.array([x, y])
        low, high = self.low + shift, self.high + shift
        columns = tiling.touched(low[0], high[0], tiling.step_x_mm)
        rows = tiling.touched(low[1], high[1], tiling.step_y_mm)
        cuts = [
            self._cells(tiling.edges(*span, step) - begin, count)
            for span, step, begin, count in (
                (rows, tiling.step_y_mm, low[1], self.table.shape[0] - 1),
                (columns, tiling.step_x_mm, low[0], self.table.shape[1] - 1),
            )
        ]
        counts = np.diff(np.diff(self.table[np.ix_(*cuts)], axis=0), axis=1)
        return frozenset((int(columns[0] + c), int(rows[0] + r)) for r, c in np.argwhere(counts))

    @staticmethod
    def _cells(edges: Points, count: int) -> NDArray[np.int64]:
        """How many of ``count`` cells in a row have their middles before each edge; first none, last all."""
        inner = np.ceil(edges / GROUND_MM - 0.5).astype(np.int64).clip(0, count)
        return np.concatenate(([0], inner, [count]))


def _page_cost(table: Table, tiling: Tiling, pages: Callable[[int, float, float], Pages]) -> Cost:
    """Return the cost of laying a piece anywhere: new pages first, then page joins crossed, then far from
    the corner.
    """

    def cost(index: int, shape: tuple[int, int], done: Sequence[tuple[int, Cell]]) -> NDArray[np.float64]:
        wide, high = np.ptp(table.outlines[index], axis=0)
        rows, columns = (np.arange(count) for count in shape)
        left, right = tiling.touched(columns * CELL_MM, columns * CELL_MM + wide, tiling.step_x_mm)
        low, top = tiling.touched(rows * CELL_MM, rows * CELL_MM + high, tiling.step_y_mm)
        clean = np.ones((int(top.max()) + 1, int(right.max()) + 1), dtype=np.bool_)
        for other, corner in done:
            for column, row in pages(other, *table.shift(other, corner)):
                clean[row : row + 1, column : column + 1] = False
        sums = raster.sums(clean)
        fresh = FRESH * (sums[top + 1] - sums[low])
        upward = (JOIN * (top - low) + 1.0 * rows)[:, None]
        alike = np.flatnonzero(np.diff(left + right, prepend=-1))  # columns from here to the next touch the same pages
        left, right = left[alike], right[alike]
        few = fresh[:, right + 1] - fresh[:, left] + upward + JOIN * (right - left)
        costs = np.repeat(few, np.diff(alike, append=len(columns)), axis=1)
        costs += 0.9 * columns
        return np.asarray(costs)

    return cost
