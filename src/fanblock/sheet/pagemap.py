"""A small picture of the whole drawing with the pages on it: which there are, and how they join."""

from __future__ import annotations

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import frozen
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.ink import Box
from fanblock.sheet.squares import line
from fanblock.sheet.tiles import TilePlan, tile_name

SHOWN_PENS = ("cut", "stitch", "fold", "slit")
"""Kinds of line a map shows, as thin lines; the rest would only be specks."""

_NAME_MM, _LEAST_MM = 7.0, 2.5
_PALE = "#8fb0c5"
_HATCH_MM = 2.2


def page_map(plan: TilePlan, drawing: Drawing, room: Box) -> Group:
    """Return the map as large as ``room`` allows, in its upper left corner: every page's field with its name.

    Fields without a page are crossed with slanting lines.
    """
    grid = plan.grid
    scale = min(room.width_mm / grid.width_mm, room.height_mm / grid.height_mm)

    def placed(x: float, y: float) -> tuple[float, float]:
        return room.left + (x - grid.left) * scale, room.top + (y - grid.top) * scale

    across, up = grid.width_mm / plan.columns * scale, grid.height_mm / plan.rows * scale
    items: list[Stroke | Words] = []
    for row in range(plan.rows):
        for column in range(plan.columns):
            left, top = room.left + column * across, room.top - row * up
            cell = Box(left, top - up, left + across, top)
            if (row, column) in plan.by_place:
                size = max(_LEAST_MM, min(_NAME_MM, 0.35 * up, 0.35 * across))
                middle = left + across / 2.0, top - up / 2.0 - 0.33 * size
                name = tile_name(row, column)
                items.append(Words(name, *middle, size, "middle", bold=True, color=_PALE))
            else:
                items.extend(_hatched(cell))
    for group in drawing.groups:
        for item in group.items:
            if isinstance(item, Stroke) and item.pen in SHOWN_PENS:
                small = frozen((item.beziers - (grid.left, grid.top)) * scale + (room.left, room.top))
                items.append(Stroke(small, "mini", closed=item.closed))
    for row in range(plan.rows + 1):
        y = grid.top - row * grid.height_mm / plan.rows
        items.append(line([placed(grid.left, y), placed(grid.right, y)], "map"))
    for column in range(plan.columns + 1):
        x = grid.left + column * grid.width_mm / plan.columns
        items.append(line([placed(x, grid.bottom), placed(x, grid.top)], "map"))
    return Group("page map", tuple(items))


def _hatched(cell: Box) -> list[Stroke | Words]:
    """Slanting lines across a cell, rising to the right."""
    lines: list[Stroke | Words] = []
    wide, high = cell.width_mm, cell.height_mm
    count = int((wide + high) / _HATCH_MM)
    for step in range(1, count + 1):
        total = step * _HATCH_MM
        x0, y0 = max(0.0, total - high), min(high, total)
        x1, y1 = min(wide, total), max(0.0, total - wide)
        ends = [(cell.left + x0, cell.top - high + y0), (cell.left + x1, cell.top - high + y1)]
        lines.append(Stroke(polyline(ends), "map"))
    return lines
