"""The line of 500 mm that is measured across joined pages, and where it costs no page of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fanblock.geometry import raster
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.raster import Mask
from fanblock.sheet.drawing import Group
from fanblock.sheet.squares import LONG_LINE_MM, long_line
from fanblock.sheet.tiles import TilePlan
from fanblock.sheet.upright import turned_group

CELL_MM = 2.0
OFF_JOINT_MM = 7.0
"""How far the line keeps from a joint that it runs along."""


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
    group, long, thin = long_line(1.0, 5.5), LONG_LINE_MM + 2.0, 11.0
    return Block(turned_group(group, thin), thin, long) if upright else Block(group, long, thin)


def line_on_tiles(
    obstacles: Sequence[Sequence[Points]], plan: TilePlan, size_mm: tuple[float, float]
) -> tuple[Block, tuple[float, float]] | None:
    """Return the long line, level or upright, and where its lower left corner stands; None without room.

    It keeps to the pages of the plan and within the drawing's ``size_mm``. Of the sets of ``obstacles`` it keeps off
    the first that leaves it room: all pieces, else only what is written on them, being a thin line of another colour.
    """
    for rings in obstacles:
        for upright in (False, True):
            block = long_line_block(upright)
            low = _place(block, upright, rings, plan, size_mm)
            if low is not None:
                return block, low
    return None


def _place(
    block: Block, upright: bool, obstacles: Sequence[Points], plan: TilePlan, size_mm: tuple[float, float]
) -> tuple[float, float] | None:
    origin = np.zeros(2)
    shape = (int(size_mm[1] / CELL_MM), int(size_mm[0] / CELL_MM))
    taken = ~_pages(plan, upright, origin, shape)
    for ring in obstacles:
        taken |= raster.filled(ring, origin, CELL_MM, shape)
    if obstacles:
        taken |= raster.stamped([np.vstack((ring, ring[:1])) for ring in obstacles], origin, CELL_MM, shape)
    rows, columns = (int(np.ceil(side / CELL_MM)) for side in (block.height_mm, block.width_mm))
    free = np.argwhere(raster.free_corners(raster.sums(taken), rows, columns))
    if len(free) == 0:
        return None
    row, column = free[0]
    return float(column * CELL_MM), float(row * CELL_MM)


def _pages(plan: TilePlan, upright: bool, origin: Points, shape: tuple[int, int]) -> Mask:
    """The cells that lie on a page and not close along a joint the line would run beside."""
    allowed = np.zeros(shape, dtype=np.bool_)
    x = origin[0] + (np.arange(shape[1]) + 0.5) * CELL_MM
    y = origin[1] + (np.arange(shape[0]) + 0.5) * CELL_MM
    for tile in plan.tiles:
        field = tile.field
        aside, above = (OFF_JOINT_MM, -CELL_MM) if upright else (-CELL_MM, OFF_JOINT_MM)
        across = (x > field.left + aside) & (x < field.right - aside)
        up = (y > field.bottom + above) & (y < field.top - above)
        allowed |= up[:, None] & across[None, :]
    return allowed
