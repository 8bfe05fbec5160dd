"""The line of 500 mm that is measured across joined pages, and where it costs no page of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry import raster
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.meet import crossings, points_at
from fanblock.geometry.raster import Mask
from fanblock.sheet.drawing import Group, Stroke
from fanblock.sheet.ink import Box, extent, ink_points
from fanblock.sheet.squares import JOIN_LINE_NAME, LONG_LINE_MM, join_line, long_line, paled
from fanblock.sheet.tiles import Joint, TilePlan
from fanblock.sheet.upright import moved_group, turned_group
from fanblock.tolerances import SAME_POINT_MM

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


LINES = ("long line", JOIN_LINE_NAME)
"""Names of the groups that hold a line across pages."""
JOIN_LENGTHS_MM = (400.0, 300.0, 250.0, 200.0, 150.0, 100.0)
"""Lengths of the lines across joins that the long line does not reach, in order of liking."""
BEFORE_MM, AFTER_MM = 45.0, 25.0
"""How far such a line reaches at least before a join, where its words stand, and beyond it."""
MARK_ROOM_MM = 8.0
"""How far it keeps from the marks of joins."""


def long_line_block(upright: bool = False) -> Block:
    """Return the long line, level or upright."""
    return _block(long_line(END_MM, 5.5), LONG_LINE_MM, 11.0, upright)


def join_line_block(length_mm: float, upright: bool = False) -> Block:
    """Return a shorter line across pages, level or upright."""
    return _block(join_line(END_MM, 4.5, length_mm), length_mm, 8.0, upright)


def _block(group: Group, length_mm: float, thin: float, upright: bool) -> Block:
    long = length_mm + 2.0 * END_MM
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


def join_lines(
    grounds: Sequence[Points],
    words: Sequence[Points],
    plan: TilePlan,
    size_mm: tuple[float, float],
    lines: Sequence[Group],
) -> tuple[Group, ...]:
    """Return shorter lines across the joins that cut a piece and that ``lines`` do not cross, as long as there is room for.

    They keep to clear paper, off the pieces' ``grounds`` and the marks of joins. Where a join leaves none, its line is pale,
    lies on as little of the pieces as can be, for :data:`OVER_SHARE` of its length at most, and off the ``words`` on them; else
    the join goes without.
    """
    shape = _shape(size_mm)
    pieces = _stamped(grounds, shape)
    off = _stamped([_mark_ring(joint, at) for joint in plan.joints for at in joint.marks_mm], shape)
    off |= _stamped([_ring(group) for group in lines], shape)
    pages = {upright: ~_pages(plan, upright, np.zeros(2), shape) for upright in (False, True)}
    told = _stamped(words, shape)
    found: list[Group] = []
    for joint in plan.joints:
        crossed = any(_group_crosses(group, joint) for group in (*lines, *found))
        if crossed or not any(_is_cut(ring, joint) for ring in grounds):
            continue
        taken = off | pages[not joint.upright]
        line = _join_line(joint, plan, taken | pieces, pieces) or _join_line(joint, plan, taken | told, pieces)
        if line is not None:
            found.append(line)
            off |= _stamped((_ring(line),), shape)
    return tuple(found)


OVER_SHARE = 0.5
"""How much of a line across pages may lie on pieces."""


def _join_line(joint: Joint, plan: TilePlan, taken: Mask, pieces: Mask) -> Group | None:
    """The longest line across one join off the cells that are ``taken``, where it lies on as little of the pieces as it can."""
    table = raster.sums(pieces)
    for length in JOIN_LENGTHS_MM:
        block = join_line_block(length, not joint.upright)
        corners = _corners(taken, block, length, plan, not joint.upright)
        row, column = corners[_across(CELL_MM * corners, joint, block, length)].T
        if not len(row):
            continue
        rows, columns = (int(np.ceil(side / CELL_MM)) for side in (block.height_mm, block.width_mm))
        over = (
            table[row + rows, column + columns]
            - table[row, column + columns]
            - table[row + rows, column]
            + table[row, column]
        )
        best = int(np.argmin(over))
        if over[best] <= OVER_SHARE * rows * columns:
            group = paled(block.group) if over[best] else block.group
            return moved_group(group, (float(column[best] * CELL_MM), float(row[best] * CELL_MM)))
    return None


def _is_cut(ring: Points, joint: Joint) -> bool:
    """Whether a join runs through a piece."""
    closed = np.vstack((ring, ring[:1]))
    axis, field = (0 if joint.upright else 1), joint.over.field
    first, last = (field.bottom, field.top) if joint.upright else (field.left, field.right)
    met = points_at(closed, crossings(closed, axis, joint.at_mm))[:, 1 - axis]
    return bool(((met > first) & (met < last)).any())


def crosses(start: Points, end: Points, joint: Joint) -> bool:
    """Tell whether a level or upright line runs across a join."""
    along, other = (0, 1) if joint.upright else (1, 0)
    low, high = sorted((float(start[along]), float(end[along])))
    level = abs(float(start[other] - end[other])) < SAME_POINT_MM
    field = joint.over.field
    first, last = (field.bottom, field.top) if joint.upright else (field.left, field.right)
    return level and low < joint.at_mm < high and first < float(start[other]) < last


def _group_crosses(group: Group, joint: Joint) -> bool:
    return any(
        crosses(item.beziers[0, 0], item.beziers[-1, 3], joint)
        for item in group.items
        if isinstance(item, Stroke) and item.name.endswith(" mm line")
    )


def _mark_ring(joint: Joint, at: float) -> Points:
    x, y = (joint.at_mm, at) if joint.upright else (at, joint.at_mm)
    return _square(x - MARK_ROOM_MM, y - MARK_ROOM_MM, x + MARK_ROOM_MM, y + MARK_ROOM_MM)


def _ring(group: Group) -> Points:
    box = extent(ink_points((group,)))
    return frozen(np.empty((0, 2))) if box is None else _square(box.left, box.bottom, box.right, box.top)


def _square(left: float, bottom: float, right: float, top: float) -> Points:
    return frozen([[left, bottom], [right, bottom], [right, top], [left, top]])


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


def _ends_off(low: NDArray[Any], along: int, plan: TilePlan, length_mm: float = LONG_LINE_MM) -> Flags:
    """Whether lines that begin there have both ends off the edges of fields, in the direction they run."""
    grid = plan.grid
    start, side = (grid.bottom, grid.height_mm / plan.rows) if along else (grid.left, grid.width_mm / plan.columns)
    clear = np.ones(len(low), dtype=np.bool_)
    for end in (low + END_MM, low + END_MM + length_mm):
        into = (end - start) % side
        clear &= (into >= OFF_END_MM) & (into <= side - OFF_END_MM)
    return clear


def _shape(size_mm: tuple[float, float]) -> tuple[int, int]:
    return int(size_mm[1] / CELL_MM), int(size_mm[0] / CELL_MM)


def _stamped(rings: Sequence[Points], shape: tuple[int, int]) -> Mask:
    """The cells within some rings and on them."""
    origin = np.zeros(2)
    taken: Mask = np.zeros(shape, dtype=np.bool_)
    for ring in rings:
        taken |= raster.filled(ring, origin, CELL_MM, shape)
    if rings:
        taken |= raster.stamped([np.vstack((ring, ring[:1])) for ring in rings], origin, CELL_MM, shape)
    return taken


def _corners(taken: Mask, block: Block, length_mm: float, plan: TilePlan, upright: bool) -> NDArray[np.int64]:
    """The rows and columns of lower left corners at which a line lies free, both its ends whole on a page."""
    rows, columns = (int(np.ceil(side / CELL_MM)) for side in (block.height_mm, block.width_mm))
    free = np.argwhere(raster.free_corners(raster.sums(taken), rows, columns))
    return free[_ends_off(CELL_MM * free[:, 0 if upright else 1], int(upright), plan, length_mm)]


def _place(
    upright: bool, obstacles: Sequence[Points], firm: Points, plan: TilePlan, size_mm: tuple[float, float]
) -> tuple[int, tuple[float, float]] | None:
    block, shape, origin = long_line_block(upright), _shape(size_mm), np.zeros(2)
    taken = _stamped(obstacles, shape) | ~_pages(plan, upright, origin, shape)
    free = _corners(taken, block, LONG_LINE_MM, plan, upright)
    if len(free) == 0:
        return None
    rows, columns = (int(np.ceil(side / CELL_MM)) for side in (block.height_mm, block.width_mm))
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


def _across(corners: NDArray[Any], joint: Joint, block: Block, length_mm: float) -> Flags:
    """Whether lines with those lower left corners, given as rows and columns, run well across a join."""
    up, right = corners.T
    along, other, thin = (right, up, block.height_mm) if joint.upright else (up, right, block.width_mm)
    field = joint.over.field
    first, last = (field.bottom, field.top) if joint.upright else (field.left, field.right)
    start = along + END_MM
    within = (other >= first) & (other + thin <= last)
    return np.asarray(within & (start + BEFORE_MM <= joint.at_mm) & (start + length_mm >= joint.at_mm + AFTER_MM))


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
