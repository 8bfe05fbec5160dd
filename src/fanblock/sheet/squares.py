"""What a maker measures before cutting: the test square, rulers, and the long line that shows errors of
taping.

Home printers scale to fit unless told not to, and not always alike both ways; a square of 100 mm, and of 4
in beside it, tells at once. Errors of joining pages add up from page to page and show only in a line that
crosses several.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points
from fanblock.sheet.drawing import PAPER_BLUE, Group, Stroke, Words
from fanblock.sheet.ink import Box

SQUARE_NAME = "test square"
"""Name of the group that holds a test square."""

SQUARE_MM, SQUARE_IN_MM = 100.0, 4 * 25.4
"""Sides of the two squares."""

LONG_LINE_MM = 500.0
_WORDS_MM = 2.8
_CELL_MM, _CLEAR_MM = 2.0, 1.5
_TICK_MM, _LONG_TICK_MM = 1.5, 3.0


def line(points: Sequence[tuple[float, float]], pen: str, name: str = "", closed: bool = False) -> Stroke:
    """Return a stroke of straight pieces through ``points``."""
    return Stroke(polyline(points, closed), pen, name, closed)


def square_at(x: float, y: float) -> Group:
    """Return a square of 100 mm and one of 4 in that share their lower left corner at ``(x, y)``, ticked
    and named."""
    mm, inch = SQUARE_MM, SQUARE_IN_MM
    items: list[Stroke | Words] = [
        line([(x, y), (x + mm, y), (x + mm, y + mm), (x, y + mm)], "scale", "100 mm", closed=True),
        line([(x, y), (x + inch, y), (x + inch, y + inch), (x, y + inch)], "scale", "4 in", closed=True),
    ]
    for count in range(1, 10):
        at, tick = 10.0 * count, _LONG_TICK_MM if count == 5 else _TICK_MM
        items.append(line([(x + at, y), (x + at, y + tick)], "scale"))
        items.append(line([(x, y + at), (x + tick, y + at)], "scale"))
    for count in range(1, 4):
        at = 25.4 * count
        items.append(line([(x + at, y + inch), (x + at, y + inch + _TICK_MM)], "scale"))
        items.append(line([(x + inch, y + at), (x + inch + _TICK_MM, y + at)], "scale"))
    middle, beside = mm / 2.0, 1.5 * 25.4
    items += [
        Words("100 mm", x + middle, y + 4.2, _WORDS_MM, "middle", color=PAPER_BLUE),
        Words("100 mm", x + 6.2, y + middle, _WORDS_MM, "middle", 90.0, color=PAPER_BLUE),
        Words("4 in", x + beside, y + inch + 1.2, _WORDS_MM, "middle", color=PAPER_BLUE),
        Words("4 in", x + inch + 3.4, y + beside, _WORDS_MM, "middle", 90.0, color=PAPER_BLUE),
    ]
    return Group(SQUARE_NAME, tuple(items))


def square_box(x: float = 0.0, y: float = 0.0) -> Box:
    """Return the room :func:`square_at` at ``(x, y)`` takes, its words and line widths included."""
    return Box(x - 0.5, y - 0.5, x + SQUARE_IN_MM + 4.2, y + SQUARE_IN_MM + 4.2)


def long_line(x: float, y: float, length_mm: float = LONG_LINE_MM) -> Group:
    """Return a level line of ``length_mm`` from ``(x, y)``, ticked every 100 mm, to measure across joined
    pages."""
    items: list[Stroke | Words] = [line([(x, y), (x + length_mm, y)], "scale", f"{length_mm:g} mm line")]
    for at in np.arange(0.0, length_mm + 0.5, 100.0).tolist():
        tall = 4.0 if at in (0.0, length_mm) else 2.0
        items.append(line([(x + at, y - tall), (x + at, y + tall)], "scale"))
        if 0.0 < at < length_mm:
            items.append(Words(f"{at:g}", x + at + 0.8, y + 1.0, _WORDS_MM, color=PAPER_BLUE))
    if length_mm % 100.0:
        items.append(line([(x + length_mm, y - 4.0), (x + length_mm, y + 4.0)], "scale"))
    says = f"This line is {length_mm:g} mm long when the pages are joined: measure it before cutting."
    items.append(Words(says, x + 1.5, y - 4.2, _WORDS_MM, color=PAPER_BLUE))
    return Group("long line", tuple(items))


def rulers(x: float, y: float, length_mm: float, up_mm: float) -> Group:
    """Return two rulers from the corner ``(x, y)``, to the right and up, with centimetres on one side and
    inches on the other."""
    items: list[Stroke | Words] = []
    for total, way in ((length_mm, (1.0, 0.0)), (up_mm, (0.0, 1.0))):
        items.extend(_ruler(x, y, total, way))
    return Group("rulers", tuple(items))


def _ruler(x: float, y: float, total: float, way: tuple[float, float]) -> list[Stroke | Words]:
    along, side = np.array(way), np.array([-way[1], way[0]])
    turn = 90.0 if way[1] else 0.0
    start = np.array([x, y])

    def tick(at: float, to: float) -> Stroke:
        foot = start + at * along
        return line([tuple(foot), tuple(foot + to * side)], "scale")

    items: list[Stroke | Words] = [line([tuple(start), tuple(start + total * along)], "scale", "ruler")]
    for count in range(int(total / 10.0 + 0.001) + 1):
        items.append(tick(10.0 * count, _LONG_TICK_MM if count % 5 == 0 else _TICK_MM))
        if count and count % 5 == 0:
            foot = start + 10.0 * count * along + (_LONG_TICK_MM + 0.6) * side
            items.append(Words(f"{count} cm", foot[0], foot[1], _WORDS_MM, "middle", turn, color=PAPER_BLUE))
    for count in range(int(total / 12.7 + 0.001) + 1):
        items.append(tick(12.7 * count, -(_LONG_TICK_MM if count % 2 == 0 else _TICK_MM)))
        if count and count % 4 == 0:
            foot = start + 12.7 * count * along - (_LONG_TICK_MM + 2.6) * side
            items.append(
                Words(f"{count // 2} in", foot[0], foot[1], _WORDS_MM, "middle", turn, color=PAPER_BLUE)
            )
    return items


def free_place(points: Points, area: Box) -> tuple[float, float, int]:
    """Return where in ``area`` a test square hides least of the ink at ``points``: its x and y, and the ink
    it meets.

    The ink is counted under the outlines and words of the square, not in its empty middle, which hides
    nothing. Of equally good places the one with least ink in its middle is taken, then the lowest, then the
    leftmost.
    """
    room = square_box().grown(_CLEAR_MM)
    columns = int((area.width_mm - room.width_mm) / _CELL_MM) + 1
    rows = int((area.height_mm - room.height_mm) / _CELL_MM) + 1
    if columns < 1 or rows < 1:
        return area.left - room.left, area.bottom - room.bottom, len(points)
    wide, high = int(room.width_mm / _CELL_MM) + 1, int(room.height_mm / _CELL_MM) + 1
    edges_x = area.left + _CELL_MM * np.arange(columns + wide + 1)
    edges_y = area.bottom + _CELL_MM * np.arange(rows + high + 1)
    ink = np.histogram2d(points[:, 0], points[:, 1], (edges_x, edges_y))[0] if len(points) else None
    if ink is None:
        return area.left - room.left, area.bottom - room.bottom, 0
    total = np.pad(ink.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))

    def within(x0: int, y0: int, x1: int, y1: int) -> Points:
        """Ink in the cells from (x0, y0) up to (x1, y1), for every place of the square."""
        part: Points = (
            total[x1 : x1 + columns, y1 : y1 + rows]
            - total[x0 : x0 + columns, y1 : y1 + rows]
            - total[x1 : x1 + columns, y0 : y0 + rows]
            + total[x0 : x0 + columns, y0 : y0 + rows]
        )
        return part

    whole, hollow = within(0, 0, wide, high), within(3, 3, wide - 4, high - 4)
    met = whole - hollow
    across, up = np.indices(met.shape).reshape(2, -1)
    best = int(np.lexsort((across, up, hollow.ravel(), met.ravel()))[0])
    x, y = edges_x[across[best]] - room.left, edges_y[up[best]] - room.bottom
    return float(x), float(y), int(met.flat[best])
