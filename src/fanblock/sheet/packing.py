"""Where each piece lies on the sheet: upright, never overlapping, the same every time.

Pieces are laid by their true outlines on a grid of cells. For every two pieces the shifts at which they
would meet are worked out once; after that an order of laying costs next to nothing, so many orders are
tried and the best kept.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry import raster, region
from fanblock.geometry.curve import Points
from fanblock.geometry.raster import Mask
from fanblock.problems import ExportError, Problem
from fanblock.sheet.orders import orders

CELL_MM = 4.0
GAP_MM = 6.0
SHARED_MM2 = 0.01
WORTH_RATIO = 0.99
"""A later order of laying is taken only when it is shorter than this: sheets in reading order are easier to
use.
"""

Cost = Callable[[int, "Mask", Sequence[tuple[int, int]], Sequence[int]], NDArray[np.float64]]


@dataclass(frozen=True, slots=True)
class Packing:
    """How far each outline moves, in the order given, and the rectangle from (0, 0) that then holds them
    all.
    """

    shifts: tuple[tuple[float, float], ...]
    width_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True)
class Tiling:
    """Pages side by side: their joins lie at ``lap_mm`` plus whole steps, across and up from the lower left
    corner.
    """

    step_x_mm: float
    step_y_mm: float
    lap_mm: float = 0.0

    def touched(self, low: float, high: float, step: float) -> tuple[int, int]:
        """Return the first and the last page in one direction that something from ``low`` to ``high`` lies
        on.
        """
        first = max(0, int(np.floor((low - self.lap_mm) / step)))
        return first, max(first, int(np.ceil((high - self.lap_mm) / step)) - 1)

    def pages(self, outline: Points) -> frozenset[tuple[int, int]]:
        """Return the (column, row) of every page that some of ``outline`` lies on."""
        low, high = outline.min(axis=0), outline.max(axis=0)
        columns = self.touched(low[0], high[0], self.step_x_mm)
        rows = self.touched(low[1], high[1], self.step_y_mm)
        found = [(c, r) for c in range(columns[0], columns[1] + 1) for r in range(rows[0], rows[1] + 1)]
        if columns[0] == columns[1] or rows[0] == rows[1]:
            return frozenset(found)
        cell = 2.0
        origin = low - cell
        size = ((high - origin) / cell).astype(np.int64) + 2
        inked = np.argwhere(raster.filled(outline, origin, cell, (int(size[1]), int(size[0]))))
        at = origin + (inked[:, ::-1] + 0.5) * cell - self.lap_mm
        steps = np.array([self.step_x_mm, self.step_y_mm])
        c, r = np.maximum(at // steps, 0.0).astype(np.int64).T
        wide = int(c.max()) + 1
        return frozenset((int(cell % wide), int(cell // wide)) for cell in np.unique(r * wide + c))


def pack(outlines: Sequence[Points], width_mm: float, gap_mm: float = GAP_MM, as_given: bool = False) -> Packing:
    """Return where the outlines lie on a strip ``width_mm`` wide, as short as many orders of laying find.

    The strip starts at y = 0 and grows upward. ``as_given`` keeps to the order given, which reads more easily.
    Raises ExportError naming the width that would be needed when an outline is wider than the strip.
    """
    widest = max(float(np.ptp(outline[:, 0])) for outline in outlines)
    if widest > width_mm:
        what = f"the widest piece is {widest:.0f} mm and the paper offers {width_mm:.0f} mm."
        raise ExportError([Problem("sheet-narrow", "sheet", what, "Choose wider paper or tiled pages.")])
    table = _Table(tuple(outlines), gap_mm)
    columns = int(np.floor((width_mm + 0.5 * gap_mm) / CELL_MM)) + 1

    def lowest(index: int, room: Mask, *_: object) -> NDArray[np.float64]:
        rows, across = np.indices(room.shape)
        top = rows + table.masks[index].shape[0]
        return np.asarray(top * 10_000.0 + rows * 10.0 + across * 0.001, dtype=np.float64)

    best: tuple[float, tuple[tuple[float, float], ...]] | None = None
    for order in orders(outlines)[: 1 if as_given else None]:
        shifts = table.laid(order, columns, lowest, width_mm)
        tops = [shift[1] + float(outline[:, 1].max()) for shift, outline in zip(shifts, outlines, strict=True)]
        score = max(tops) + 0.001 * sum(tops)
        if best is None or score < WORTH_RATIO * best[0]:
            best = (score, shifts)
    if best is None:
        return Packing((), width_mm, 0.0)
    return _proved(outlines, best[1], width_mm)


def pack_on_tiles(outlines: Sequence[Points], tiling: Tiling, gap_mm: float = GAP_MM) -> Packing:
    """Return where the outlines lie so that few pages carry ink and, among such, few page joins cross a
    piece.
    """
    table = _Table(tuple(outlines), gap_mm)
    area = sum(abs(region.area_mm2(outline)) for outline in outlines)
    least = max(tiling.touched(0.0, float(np.ptp(outline[:, 0])), tiling.step_x_mm)[1] for outline in outlines) + 1
    likely = int(np.sqrt(area) / tiling.step_x_mm) + 1
    best: tuple[tuple[int, int, float], tuple[tuple[float, float], ...]] | None = None
    for across in sorted({max(least, likely + more) for more in (0, 1, 2, 3)}):
        width = across * tiling.step_x_mm + tiling.lap_mm
        cost = _page_cost(table, tiling)
        for order in orders(outlines)[:10]:
            shifts = table.laid(order, int(np.floor((width + 0.5 * gap_mm) / CELL_MM)) + 1, cost, width)
            each = [tiling.pages(outline + shift) for outline, shift in zip(outlines, shifts, strict=True)]
            score = (
                len(frozenset().union(*each)),
                sum(len(pages) - 1 for pages in each),
                sum(x + y for x, y in shifts),
            )
            if best is None or score < best[0]:
                best = (score, shifts)
    if best is None:
        return Packing((), tiling.step_x_mm, tiling.step_y_mm)
    ends = [np.max(outline + shift, axis=0) for outline, shift in zip(outlines, best[1], strict=True)]
    return _proved(outlines, best[1], float(np.max(ends, axis=0)[0]))


@dataclass(frozen=True, eq=False)
class _Table:
    """The outlines as masks, and for every two of them the shifts at which they meet."""

    outlines: tuple[Points, ...]
    gap_mm: float

    @cached_property
    def origins(self) -> tuple[Points, ...]:
        return tuple(outline.min(axis=0) for outline in self.outlines)

    @cached_property
    def masks(self) -> tuple[Mask, ...]:
        more = 0.5 * self.gap_mm + 0.25 * CELL_MM
        found = []
        for outline, origin in zip(self.outlines, self.origins, strict=True):
            ring = region.grown(outline, more)
            low = origin - 0.5 * self.gap_mm
            high = np.ceil((ring.max(axis=0) - low) / CELL_MM).astype(np.int64)
            found.append(raster.filled(ring, low, CELL_MM, (int(high[1]), int(high[0]))))
        return tuple(found)

    @cached_property
    def meeting(self) -> dict[tuple[int, int], Mask]:
        """For (laid, next): where the next one's corner may not be, its centre cell being the laid one's
        corner.
        """
        found: dict[tuple[int, int], Mask] = {}
        for i, first in enumerate(self.masks):
            for j in range(i + 1, len(self.masks)):
                second = self.masks[j]
                size = (first.shape[0] + second.shape[0] - 1, first.shape[1] + second.shape[1] - 1)
                product = np.fft.rfft2(first, size) * np.fft.rfft2(second[::-1, ::-1], size)
                met = np.fft.irfft2(product, size) > 0.5
                found[i, j] = met
                found[j, i] = met[::-1, ::-1]
        return found

    def laid(self, order: Sequence[int], columns: int, cost: Cost, width_mm: float) -> tuple[tuple[float, float], ...]:
        """Return the shift of every outline when they are laid in ``order``, each where ``cost`` is least."""
        corners: list[tuple[int, int]] = []
        done: list[int] = []
        rows = 0
        shifts: dict[int, tuple[float, float]] = {}
        for index in order:
            high = self.masks[index].shape[0]
            last = int(np.floor((width_mm - float(np.ptp(self.outlines[index][:, 0]))) / CELL_MM))
            room = np.ones((rows + 1, max(1, min(last + 1, columns))), dtype=np.bool_)
            for other, corner in zip(done, corners, strict=True):
                _block(room, self.meeting[other, index], corner, self.masks[index].shape)
            costs = np.where(room, cost(index, room, corners, done), np.inf)
            row, column = np.unravel_index(int(np.argmin(costs)), costs.shape)
            corners.append((int(row), int(column)))
            done.append(index)
            rows = max(rows, int(row) + high)
            origin = self.origins[index]
            shifts[index] = (float(column) * CELL_MM - origin[0], float(row) * CELL_MM - origin[1])
        return tuple(shifts[index] for index in range(len(self.outlines)))


def _block(room: Mask, met: Mask, corner: tuple[int, int], shape: tuple[int, ...]) -> None:
    """Strike from ``room`` the corners at which the next piece would meet the one whose corner is at
    ``corner``.
    """
    top, left = corner[0] - shape[0] + 1, corner[1] - shape[1] + 1
    row, column = max(top, 0), max(left, 0)
    end_row, end_column = min(top + met.shape[0], room.shape[0]), min(left + met.shape[1], room.shape[1])
    if row < end_row and column < end_column:
        room[row:end_row, column:end_column] &= ~met[row - top : end_row - top, column - left : end_column - left]


def _page_cost(table: _Table, tiling: Tiling) -> Cost:
    """Return the cost of laying a piece anywhere: new pages first, then page joins crossed, then far from
    the corner.
    """

    def spans(count: int, length: float, step: float) -> NDArray[np.int64]:
        return np.array([tiling.touched(k * CELL_MM, k * CELL_MM + length, step) for k in range(count)])

    def cost(index: int, room: Mask, corners: Sequence[tuple[int, int]], done: Sequence[int]) -> NDArray[np.float64]:
        wide, high = np.ptp(table.outlines[index], axis=0)
        across = spans(room.shape[1], float(wide), tiling.step_x_mm)
        up = spans(room.shape[0], float(high), tiling.step_y_mm)
        inked = np.zeros((int(up[:, 1].max()) + 2, int(across[:, 1].max()) + 2), dtype=np.bool_)
        for other, (row, column) in zip(done, corners, strict=True):
            moved = table.outlines[other] - table.origins[other] + np.array([column, row]) * CELL_MM
            for page_column, page_row in tiling.pages(moved):
                if page_row < inked.shape[0] and page_column < inked.shape[1]:
                    inked[page_row, page_column] = True
        clean = raster.sums(~inked)
        low, top = up[:, 0][:, None], up[:, 1][:, None] + 1
        left, right = across[:, 0][None, :], across[:, 1][None, :] + 1
        fresh = clean[top, right] - clean[low, right] - clean[top, left] + clean[low, left]
        joins = (top - low - 1) + (right - left - 1)
        rows, columns = np.indices(room.shape)
        return np.asarray(fresh * 1e6 + joins * 1e4 + rows * 1.0 + columns * 0.9, dtype=np.float64)

    return cost


def _proved(outlines: Sequence[Points], shifts: Sequence[tuple[float, float]], width_mm: float) -> Packing:
    """Return the packing after proving that no two outlines share ground; anything else is our own fault."""
    moved = [outline + np.array(shift) for outline, shift in zip(outlines, shifts, strict=True)]
    shared = [pair for pair in region.overlaps(moved) if pair[2] > SHARED_MM2]
    if shared:
        first, second, area = shared[0]
        raise AssertionError(f"pieces {first} and {second} were laid {area:.1f} mm² over one another")
    return Packing(tuple(shifts), width_mm, max(float(ring[:, 1].max()) for ring in moved))
