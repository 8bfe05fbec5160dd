"""The line of 500 mm that is measured across joined pages, and where it costs no page of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry import raster
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.raster import Mask
from fanblock.sheet.drawing import Group
from fanblock.sheet.ink import Box
from fanblock.sheet.squares import LONG_LINE_MM, long_line, paled
from fanblock.sheet.tiles import TilePlan
from fanblock.sheet.upright import turned_group

CELL_MM = 2.0
OFF_JOINT_MM = 7.0
"""How far the line keeps from a joint that it runs along."""
OFF_EDGE_MM = 2.0
"""How far it keeps from the edge of a page that joins nothing there."""
OFF_END_MM = 4.0
"""How far both ends keep from the edges of a page's field: beyond them paper is cut off, covered or not printed."""
BESIDE_CELLS = 2
"""How many cells beside the line count too when lines are counted that it meets."""
END_MM = 1.0
"""From the edge of its block to the end of the line."""

Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class Block:
    """Something laid on the sheet beside the pieces: what is drawn and the rectangle it needs."""

    group: Group
    width_mm: float
    height_mm: float

    @property
    def outline(self) -> Points:
        """The rectangle as a ring, its lower left corner at (0, 0)."""
        return frozen([[0, 0], [self.width_mm, 0], [self.width_mm, self.height_mm], [0, self.height_mm]])


def long_line_block(upright: bool = False) -> Block:
    """Return the long line, level or upright."""
    group, long, thin = long_line(END_MM, 5.5), LONG_LINE_MM + 2.0 * END_MM, 11.0
    return Block(turned_group(group, thin), thin, long) if upright else Block(group, long, thin)


def line_on_tiles(
    obstacles: Sequence[Sequence[Points]], firm: Points, plan: TilePlan, size_mm: tuple[float, float]
) -> tuple[Block, tuple[float, float]] | None:
    """Return the long line, level or upright, and where its lower left corner stands; None without room.

    It keeps to the pages of the plan and within the drawing's ``size_mm``, and both its ends stand whole on a page, off
    every edge that is cut or covered. Of the sets of ``obstacles`` it keeps off the first that leaves it room: all
    pieces, else only what is written on them, being a thin line of another colour; then it lies where it meets fewest of
    the ``firm`` points, those of lines that are cut or stitched, and is pale if it meets any.
    """
    for rings in obstacles:
        found = [_place(upright, rings, firm, plan, size_mm) for upright in (False, True)]
        places = [(met, upright, low) for upright, one in enumerate(found) if one is not None for met, low in (one,)]
        if places:
            met, upright, low = min(places)
            block = long_line_block(bool(upright))
            return (replace(block, group=paled(block.group)) if met else block), low
    return None


def ends_clear(block: Block, low: tuple[float, float], plan: TilePlan) -> bool:
    """Tell whether both end bars of a long line with that lower left corner stand whole on a page each."""
    along = 1 if block.height_mm > block.width_mm else 0
    return bool(_ends_off(np.array([low[along]]), along, plan)[0]) and all(
        any(_holds(tile.field, end) for tile in plan.tiles) for end in _ends(block, low)
    )


def _ends(block: Block, low: tuple[float, float]) -> list[Points]:
    """The middles of the two end bars."""
    middle = np.array(low) + 0.5 * np.array([block.width_mm, block.height_mm])
    way = np.array([0.0, 1.0]) if block.height_mm > block.width_mm else np.array([1.0, 0.0])
    return [middle - 0.5 * LONG_LINE_MM * way, middle + 0.5 * LONG_LINE_MM * way]


def _holds(field: Box, point: Points) -> bool:
    return bool(field.left <= point[0] <= field.right and field.bottom <= point[1] <= field.top)


def _ends_off(low: NDArray[Any], along: int, plan: TilePlan) -> Flags:
    """Whether lines that begin there have both ends off the edges of fields, in the direction they run."""
    grid = plan.grid
    start, side = (grid.bottom, grid.height_mm / plan.rows) if along else (grid.left, grid.width_mm / plan.columns)
    clear = np.ones(len(low), dtype=np.bool_)
    for end in (low + END_MM, low + END_MM + LONG_LINE_MM):
        into = (end - start) % side
        clear &= (into >= OFF_END_MM) & (into <= side - OFF_END_MM)
    return clear


def _place(
    upright: bool, obstacles: Sequence[Points], firm: Points, plan: TilePlan, size_mm: tuple[float, float]
) -> tuple[int, tuple[float, float]] | None:
    block = long_line_block(upright)
    origin = np.zeros(2)
    shape = (int(size_mm[1] / CELL_MM), int(size_mm[0] / CELL_MM))
    taken = ~_pages(plan, upright, origin, shape)
    for ring in obstacles:
        taken |= raster.filled(ring, origin, CELL_MM, shape)
    if obstacles:
        taken |= raster.stamped([np.vstack((ring, ring[:1])) for ring in obstacles], origin, CELL_MM, shape)
    rows, columns = (int(np.ceil(side / CELL_MM)) for side in (block.height_mm, block.width_mm))
    free = np.argwhere(raster.free_corners(raster.sums(taken), rows, columns))
    free = free[_ends_off(CELL_MM * free[:, 0 if upright else 1], int(upright), plan)]
    if len(free) == 0:
        return None
    near = raster.cells_at(firm, origin, CELL_MM, shape)
    table = raster.sums(np.pad(near, BESIDE_CELLS))
    row, column = free.T
    rows, columns = rows + 2 * BESIDE_CELLS, columns + 2 * BESIDE_CELLS
    met = (
        table[row + rows, column + columns]
        - table[row, column + columns]
        - table[row + rows, column]
        + table[row, column]
    )
    best = int(np.argmin(met))
    return int(met[best]), (float(column[best] * CELL_MM), float(row[best] * CELL_MM))


def _pages(plan: TilePlan, upright: bool, origin: Points, shape: tuple[int, int]) -> Mask:
    """The cells that lie on a page and not close along a joint the line would run beside."""
    allowed = np.zeros(shape, dtype=np.bool_)
    x = origin[0] + (np.arange(shape[1]) + 0.5) * CELL_MM
    y = origin[1] + (np.arange(shape[0]) + 0.5) * CELL_MM
    for tile in plan.tiles:
        field = tile.field
        ways = ((0, -1), (0, 1)) if upright else ((1, 0), (-1, 0))
        low, high = (
            OFF_JOINT_MM if (tile.row + row, tile.column + column) in plan.by_place else OFF_EDGE_MM
            for row, column in ways
        )
        left, right, bottom, top = (low, high, 0.0, 0.0) if upright else (0.0, 0.0, low, high)
        across = (x >= field.left + left) & (x <= field.right - right)
        up = (y >= field.bottom + bottom) & (y <= field.top - top)
        allowed |= up[:, None] & across[None, :]
    return allowed
