"""What a maker measures before cutting: the test square, bars, and the long line that shows errors of
taping.

Home printers scale to fit unless told not to, and not always alike both ways; a square of 100 mm tells at once, and
so do two bars of 4 in beside it, one each way, well apart from the square so that nobody measures the wrong one.
Errors of joining pages add up from page to page and show only in a line that crosses several.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.sheet.drawing import PAPER_BLUE, Group, Stroke, Words
from fanblock.sheet.ink import Box
from fanblock.sheet.upright import moved_group, turned_group
from fanblock.units import THIRTY_SECONDS, UNITS

SQUARE_NAME = "test square"
"""Name of the group that holds a test square."""

SQUARE_MM, BAR_MM = 100.0, 4 * 25.4
"""Side of the square, and length of the bars above it and right of it."""

LONG_LINE_MM = 500.0
JOIN_LINE_NAME = "join line"
"""Name of the group that holds a shorter line across pages."""
FRAME_IN_MM, FRAME_OUT_MM = 5.5, 9.5
"""How far words and ticks reach inside the square, and the bars and theirs outside it above and at the right."""

_WORDS_MM = 2.8
_OFF_MM, _END_MM, _APART_MM = 7.0, 1.6, 6.0
_TICK_MM, _LONG_TICK_MM = 1.5, 3.0


def line(points: Sequence[tuple[float, float]], pen: str, name: str = "", closed: bool = False) -> Stroke:
    """Return a stroke of straight pieces through ``points``."""
    return Stroke(polyline(points, closed), pen, name, closed)


def square_at(x: float, y: float) -> Group:
    """Return a square of 100 mm with its lower left corner at ``(x, y)`` and two bars of 4 in, ticked and named.

    The bars begin level with that corner, one above the square and one right of it.
    """
    mm, inch = SQUARE_MM, BAR_MM
    top, right = y + mm + _OFF_MM, x + mm + _OFF_MM
    items: list[Stroke | Words] = [
        line([(x, y), (x + mm, y), (x + mm, y + mm), (x, y + mm)], "scale", "100 mm", closed=True),
        line([(x, top), (x + inch, top)], "scale", "4 in"),
        line([(right, y), (right, y + inch)], "scale", "4 in upright"),
    ]
    for count in range(1, 10):
        at, tick = 10.0 * count, _LONG_TICK_MM if count == 5 else _TICK_MM
        items.append(line([(x + at, y), (x + at, y + tick)], "scale"))
        items.append(line([(x, y + at), (x + tick, y + at)], "scale"))
    for count in range(5):
        at, half = 25.4 * count, _END_MM if count in (0, 4) else 0.5 * _END_MM
        items.append(line([(x + at, top - half), (x + at, top + half)], "scale"))
        items.append(line([(right - half, y + at), (right + half, y + at)], "scale"))
    items += [
        Words("this square: 100 mm", x + 35.0, y + 2.2, _WORDS_MM, "middle", color=PAPER_BLUE),
        Words("100 mm", x + 4.4, y + 35.0, _WORDS_MM, "middle", 90.0, color=PAPER_BLUE),
        Words("this bar: 4 in", x + 1.5 * 25.4, top - 3.4, _WORDS_MM, "middle", color=PAPER_BLUE),
        Words("this bar: 4 in", right - 1.2, y + 1.5 * 25.4, _WORDS_MM, "middle", 90.0, color=PAPER_BLUE),
    ]
    return Group(SQUARE_NAME, tuple(items))


def square_box(x: float = 0.0, y: float = 0.0) -> Box:
    """Return the room :func:`square_at` at ``(x, y)`` takes, its words and line widths included."""
    side = SQUARE_MM + _OFF_MM + _END_MM + 0.4
    return Box(x - 0.5, y - 0.5, x + side, y + side)


def gauge_at(x: float, y: float, upright: bool = False, pale: bool = False) -> Group:
    """Return two bars of 100 mm and of 4 in that stand for one side of the square where a page has no room for it.

    The room of the level one is :func:`gauge_box`; the upright one is the level one turned a quarter. Those that cross
    lines of the pattern are ``pale``.
    """
    items: list[Stroke | Words] = []
    for length, row in ((SQUARE_MM, 0.0), (BAR_MM, _APART_MM)):
        items += _bar(length, _END_MM + row, upright, GAUGE_WORDS[0])
    group = Group(SQUARE_NAME, tuple(items))
    if pale:
        group = paled(group)
    return moved_group(turned_group(group, gauge_box().height_mm) if upright else group, (x, y))


BARS_MM = (SQUARE_MM, BAR_MM)
"""Lengths of the two bars."""

GAUGE_WORDS = tuple((at, up) for up in (1.3, -3.6) for at in (62.0, 37.0, 87.0, 50.0, 75.0, 25.0, 16.0))
"""Where the words of a bar may stand: how far along it their middle, and how far above it their foot; first as usual."""


def _bar(length: float, row: float, upright: bool, words: tuple[float, float]) -> list[Stroke | Words]:
    """A level bar at a height, with its ticks and words."""
    name, step = ("100 mm", 10.0) if length == SQUARE_MM else ("4 in", 25.4)
    items: list[Stroke | Words] = [line([(0.0, row), (length, row)], "scale", f"{name} upright" if upright else name)]
    for count in range(round(length / step) + 1):
        half = _END_MM if count in (0, round(length / step)) else 0.4 * _END_MM
        items.append(line([(step * count, row - half), (step * count, row + half)], "scale"))
    items.append(Words(f"this bar: {name}", words[0], row + words[1], 2.6, "middle", color=PAPER_BLUE))
    return items


def bar_at(
    length: float, x: float, y: float, upright: bool, words: tuple[float, float], pale: bool = False
) -> tuple[Stroke | Words, ...]:
    """Return one of the two bars alone, the lower left corner of its ticks at ``(x, y)``, its words at one of
    :data:`GAUGE_WORDS`; those that cross lines of the pattern are ``pale``.
    """
    group = Group(SQUARE_NAME, tuple(_bar(length, _END_MM, upright, words)))
    group = paled(group) if pale else group
    return moved_group(turned_group(group, 2.0 * _END_MM) if upright else group, (x, y)).items


def bar_box(length: float, upright: bool) -> Box:
    """Return the room of a bar at (0, 0) without its words."""
    long, high = length + 0.4, 2.0 * _END_MM
    return Box(0.0, 0.0, high, long) if upright else Box(0.0, 0.0, long, high)


def paled(group: Group) -> Group:
    """Return lines that are measured so pale that nobody takes them for lines of the pattern they cross."""
    items = (
        replace(one, pen="scale pale") if isinstance(one, Stroke) and one.pen == "scale" else one for one in group.items
    )
    return Group(group.name, tuple(items))


def gauge_box(upright: bool = False) -> Box:
    """Return the room a gauge at (0, 0) takes, its words and line widths included."""
    long, high = BAR_MM + 0.4, _APART_MM + _END_MM + 3.8
    return Box(0.0, 0.0, high, long) if upright else Box(0.0, 0.0, long, high)


def both_lengths(mm: float) -> str:
    """Return a length in millimetres and in inches, as a ruler shows them.

    >>> both_lengths(500.0)
    '500 mm (19 11/16 in)'
    """
    return f"{mm:.0f} mm ({_inches(mm)} in)"


def _inches(mm: float) -> str:
    """Inches to the next thirty-second."""
    steps = round(mm / UNITS["in"] * THIRTY_SECONDS)
    whole, over = divmod(steps, THIRTY_SECONDS)
    part = Fraction(over, THIRTY_SECONDS)
    return f"{whole} {part}" if over else f"{whole}"


def join_line(x: float, y: float, length_mm: float) -> Group:
    """Return a level line of ``length_mm`` from ``(x, y)`` to measure across one join or two, ticked every 50 mm."""
    items: list[Stroke | Words] = [line([(x, y), (x + length_mm, y)], "scale", f"{length_mm:g} mm line")]
    for at in np.arange(0.0, length_mm + 0.5, 50.0).tolist():
        tall = 2.5 if at in (0.0, length_mm) else 1.0
        items.append(line([(x + at, y - tall), (x + at, y + tall)], "scale"))
    items.append(Words(f"across pages: {both_lengths(length_mm)}", x + 1.5, y - 3.4, _WORDS_MM, color=PAPER_BLUE))
    return Group(JOIN_LINE_NAME, tuple(items))


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
    says = f"This line is {both_lengths(length_mm)} long when the pages are joined: measure it before cutting."
    items.append(Words(says, x + 1.5, y - 4.2, _WORDS_MM, color=PAPER_BLUE))
    return Group("long line", tuple(items))
