"""A small picture of the whole drawing with the pages on it: which there are, and how they join."""

from __future__ import annotations

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import frozen
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.font import width_mm
from fanblock.sheet.ink import Box
from fanblock.sheet.squares import line
from fanblock.sheet.tiles import TilePlan, tile_name

SHOWN_PENS = ("cut", "stitch", "fold", "slit")
"""Kinds of line a map shows, as thin lines; the rest would only be specks."""

_NAME_MM, _LEAST_MM = 7.0, 2.5
_PALE = "#4d7f9f"
_ROUND_MM = 0.4
"""White round the name of a page."""
_HATCH_MM = 2.2


def page_map(plan: TilePlan, drawing: Drawing, room: Box) -> Group:
    """Return the map as large as ``room`` allows, in its upper left corner: every page's field with its name.

    Fields without a page are crossed with slanting lines.
    """
    grid, overlap = plan.grid, plan.paper.overlap_mm
    across, up = grid.width_mm / plan.columns, grid.height_mm / plan.rows
    left, top = (
        grid.left - overlap,
        grid.top + overlap,
    )  # the outermost strips belong to the pages that show them
    scale = min(room.width_mm / (grid.right - left), room.height_mm / (top - grid.bottom))
    corner, shown = np.array((room.left, room.top)), np.array((left, top))
    columns = [0.0, *((overlap + across * (count + 1)) * scale for count in range(plan.columns))]
    rows = [0.0, *((overlap + up * (count + 1)) * scale for count in range(plan.rows))]
    xs, ys = [room.left + x for x in columns], [room.top - y for y in rows]
    size = max(_LEAST_MM, min(_NAME_MM, 0.35 * up * scale, 0.35 * across * scale))
    items: list[Stroke | Words] = []
    names: list[Stroke | Words] = []
    for row in range(plan.rows):
        for column in range(plan.columns):
            cell = Box(xs[column], ys[row + 1], xs[column + 1], ys[row])
            if (row, column) in plan.by_place:
                names += _named(cell, tile_name(row, column), size)
            else:
                items.extend(_hatched(cell))
    shapes = [item for group in drawing.groups for item in group.items if isinstance(item, Stroke)]
    items += [
        Stroke(frozen((item.beziers - shown) * scale + corner), "mini", closed=item.closed)
        for item in shapes
        if item.pen in SHOWN_PENS
    ]
    items += [line([(xs[0], y), (xs[-1], y)], "map") for y in ys]
    items += [line([(x, ys[-1]), (x, ys[0])], "map") for x in xs]
    return Group("page map", (*items, *names))


def _named(cell: Box, name: str, size: float) -> list[Stroke | Words]:
    """A page's name in the middle of its cell, on a white ground that hides the lines of pieces behind it."""
    x, y = (cell.left + cell.right) / 2.0, (cell.bottom + cell.top) / 2.0
    wide, high = 0.5 * width_mm(name, size, True) + _ROUND_MM, 0.37 * size + _ROUND_MM
    ground = [(x - wide, y - high), (x + wide, y - high), (x + wide, y + high), (x - wide, y + high)]
    return [line(ground, "blank", closed=True), Words(name, x, y - 0.36 * size, size, "middle", bold=True, color=_PALE)]


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
