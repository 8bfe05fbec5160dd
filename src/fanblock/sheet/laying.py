"""Laying pieces one after another, by their true outlines, on a grid of cells.

For every two pieces the shifts at which they would meet are worked out once; after that an order of laying costs
next to nothing, so many orders can be tried and the best kept.
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

CELL_MM = 4.0
GAP_MM = 6.0
SHARED_MM2 = 0.01

Cell = tuple[int, int]
"""A cell of the grid by row and column."""
Shift = tuple[float, float]
"""How far something moves, to the right and up."""
Cost = Callable[[int, tuple[int, int], Sequence[tuple[int, Cell]]], NDArray[np.float64]]
"""What it costs to lay an outline with its corner at each cell of a grid of so many rows and columns, when other
outlines already lie with their corners where they do.
"""


@dataclass(frozen=True, slots=True)
class Packing:
    """How far each outline moves, in the order given, and the rectangle from (0, 0) that then holds them
    all.
    """

    shifts: tuple[tuple[float, float], ...]
    width_mm: float
    height_mm: float


@dataclass(frozen=True, eq=False)
class Table:
    """The outlines as masks, and for every two of them the shifts at which they meet."""

    outlines: tuple[Points, ...]
    gap_mm: float

    @cached_property
    def origins(self) -> tuple[Points, ...]:
        """The lower left corner of the box around each outline."""
        return tuple(outline.min(axis=0) for outline in self.outlines)

    @cached_property
    def masks(self) -> tuple[Mask, ...]:
        """The cells of each outline, grown by half the gap."""
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
        """For (laid, next): where the next one's corner may not be, its center cell being the laid one's corner."""
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

    def shift(self, index: int, corner: Cell) -> Shift:
        """Return how far an outline moves when its corner comes to a cell (row, column)."""
        x, y = self.origins[index]
        return corner[1] * CELL_MM - float(x), corner[0] * CELL_MM - float(y)

    def laid(self, order: Sequence[int], width_mm: float, cost: Cost) -> tuple[Shift, ...]:
        """Return the shift of every outline when they are laid in ``order`` on a strip ``width_mm`` wide, each where
        ``cost`` is least.
        """
        columns = int(np.floor((width_mm + 0.5 * self.gap_mm) / CELL_MM)) + 1
        done: list[tuple[int, Cell]] = []
        rows = 0
        for index in order:
            high = self.masks[index].shape[0]
            last = int(np.floor((width_mm - float(np.ptp(self.outlines[index][:, 0]))) / CELL_MM))
            room = np.ones((rows + 1, max(1, min(last + 1, columns))), dtype=np.bool_)
            for other, corner in done:
                _block(room, self.meeting[other, index], corner, self.masks[index].shape)
            costs = cost(index, room.shape, done)
            costs[~room] = np.inf
            row, column = divmod(int(np.argmin(costs)), room.shape[1])
            done.append((index, (row, column)))
            rows = max(rows, row + high)
        corners = dict(done)
        return tuple(self.shift(index, corners[index]) for index in range(len(self.outlines)))


def _block(room: Mask, met: Mask, corner: Cell, shape: tuple[int, ...]) -> None:
    """Strike from ``room`` the corners at which the next piece would meet the one whose corner is at
    ``corner``.
    """
    top, left = corner[0] - shape[0] + 1, corner[1] - shape[1] + 1
    row, column = max(top, 0), max(left, 0)
    end_row, end_column = min(top + met.shape[0], room.shape[0]), min(left + met.shape[1], room.shape[1])
    if row < end_row and column < end_column:
        room[row:end_row, column:end_column] &= ~met[row - top : end_row - top, column - left : end_column - left]


def proved(outlines: Sequence[Points], shifts: Sequence[Shift], width_mm: float) -> Packing:
    """Return the packing after proving that no two outlines share ground; anything else is our own fault."""
    moved = [outline + np.array(shift) for outline, shift in zip(outlines, shifts, strict=True)]
    shared = [pair for pair in region.overlaps(moved) if pair[2] > SHARED_MM2]
    if shared:
        first, second, area = shared[0]
        raise AssertionError(f"pieces {first} and {second} were laid {area:.1f} mm² over one another")
    return Packing(tuple(shifts), width_mm, max(float(ring[:, 1].max()) for ring in moved))
