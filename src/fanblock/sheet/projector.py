"""A pattern for a projector: one page at true size to be thrown on the cloth, with thick lines and nothing that is for paper.

Above the pieces stands what the projector is set by: squares of 10 cm, or of 4 in, in one large square with both its
diagonals. A projector that stands aslant makes it a trapezium, and its diagonals unlike. The same squares lie under the
whole page, in a layer that can be turned off.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from fanblock.geometry.curve import Points, frozen
from fanblock.pattern.model import Pattern
from fanblock.sheet import phrases
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.font import fitted, width_mm
from fanblock.sheet.ink import Box
from fanblock.sheet.layout import not_sound_over
from fanblock.sheet.packing import pack
from fanblock.sheet.paper import PROJECTOR
from fanblock.sheet.pdf import Sheets
from fanblock.sheet.pdf_content import LAYERS
from fanblock.sheet.pdf_file import Page
from fanblock.sheet.piece import Piece
from fanblock.sheet.squares import line, square_at, square_box
from fanblock.sheet.upright import moved_group
from fanblock.units import UNITS, format_length

THICK = 3.0
"""How many times as thick as on paper lines are: a projected line must show on cloth in a dim room."""

SQUARES = 4
"""How many squares the large one has each way."""

APART_MM, EDGE_MM = 30.0, 20.0
"""Clear cloth between two pieces, and around all."""

MOST_WORDS_MM = 560.0
"""Longest line of words."""

_TITLE_MM, _TEXT_MM, _LEADING = 16.0, 9.0, 1.4
_SQUARES = {"in": ("square in", 4.0 * UNITS["in"], "4 in"), "cm": ("square cm", 100.0, "10 cm")}

Laid = tuple[Sequence[Group], Points]
"""Groups that are moved together, and the ring that keeps others off them."""


def projector_sheets(pattern: Pattern, pieces: Sequence[Piece]) -> Sheets:
    """Return the page with all pieces of a pattern."""
    title = pattern.title
    lines = [f"{title.garment} · {title.wearer}", phrases.stamp(title)]
    laid: list[Laid] = [((piece.group,), piece.outline) for piece in pieces]
    return _sheets(laid, lines, pattern.body.units, pattern.sound)


def projector_sheet(drawing: Drawing, lines: Sequence[str], units: str) -> Sheets:
    """Return the page with one drawing, such as a block; ``lines`` say what it is."""
    wide, high = drawing.width_mm, drawing.height_mm
    ring = frozen([[0.0, 0.0], [wide, 0.0], [wide, high], [0.0, high]])
    return _sheets([(drawing.groups, ring)], lines, units, True)


def _sheets(laid: Sequence[Laid], lines: Sequence[str], units: str, sound: bool) -> Sheets:
    own, other = ("in", "cm") if units == "in" else ("cm", "in")
    every = [_setting(own), _words(own, lines), *laid]
    rings = [ring for _, ring in every]
    wide = max(PROJECTOR.width_mm, max(float(np.ptp(ring[:, 0])) for ring in rings) + 2.0 * EDGE_MM + 1.0)
    packing = pack([ring * (1.0, -1.0) for ring in rings], wide - 2.0 * EDGE_MM, APART_MM, as_given=True)
    high = packing.height_mm + 2.0 * EDGE_MM
    groups = [
        moved_group(group, (x + EDGE_MM, high - EDGE_MM - y))
        for (those, _), (x, y) in zip(every, packing.shifts, strict=True)
        for group in those
    ]
    under = [_squares(unit, wide, high) for unit in (own, other)]
    if not sound:
        under.append(not_sound_over(wide, high))
    drawing = Drawing(lines[0], wide, high, (*under, *groups))
    page = Page(wide, high, window=Box(0.0, 0.0, wide, high))
    return Sheets(PROJECTOR, drawing, (page,), THICK, frozenset({LAYERS[_SQUARES[other][0]]}))


def _squares(unit: str, wide: float, high: float) -> Group:
    """Squares under the whole page, in one with those the projector is set by."""
    pen, side, name = _SQUARES[unit]
    upright = [line([(at, 0.0), (at, high)], pen) for at in np.arange(EDGE_MM, wide, side).tolist()]
    level = [line([(0.0, high - at), (wide, high - at)], pen) for at in np.arange(EDGE_MM, high, side).tolist()]
    return Group(f"squares of {name}", (*upright, *level))


def _setting(unit: str) -> Laid:
    """The large square with its squares and both diagonals."""
    side = _SQUARES[unit][1]
    whole = SQUARES * side
    items = [line([(0.0, 0.0), (whole, 0.0), (whole, whole), (0.0, whole)], "scale", "large square", closed=True)]
    for at in (count * side for count in range(1, SQUARES)):
        items += [line([(at, 0.0), (at, whole)], "scale"), line([(0.0, at), (whole, at)], "scale")]
    for start, end in ((0.0, whole), (whole, 0.0)):
        items.append(line([(0.0, start), (whole, end)], "scale", "diagonal"))
    return (Group("setting", tuple(items)),), frozen([[0.0, 0.0], [whole, 0.0], [whole, whole], [0.0, whole]])


def _words(unit: str, lines: Sequence[str]) -> Laid:
    """What this is and how the projector is set, with the test square under it."""
    _, side, name = _SQUARES[unit]
    whole, slant = (
        format_length(length, unit).replace(".0 ", " ") for length in (SQUARES * side, math.sqrt(2.0) * SQUARES * side)
    )
    texts = (
        *((text, _TITLE_MM if at == 0 else _TEXT_MM, True) for at, text in enumerate(lines)),
        (f"Set the projector until each square is {name} both ways,", _TEXT_MM, False),
        (f"the large one {whole}, and both its diagonals {slant}.", _TEXT_MM, False),
        ("Unlike diagonals: it stands aslant. Measure on the cloth.", _TEXT_MM, False),
    )
    room = square_box()
    y = high = room.height_mm + _TEXT_MM + sum(_LEADING * size for _, size, _ in texts)
    items: list[Stroke | Words] = []
    for text, size, bold in texts:
        y -= _LEADING * size
        items.append(Words(fitted(text, size, MOST_WORDS_MM, bold), 0.0, y, size, bold=bold))
    wide = max(
        room.width_mm, *(width_mm(item.text, item.size_mm, item.bold) for item in items if isinstance(item, Words))
    )
    ring = frozen([[0.0, 0.0], [wide, 0.0], [wide, high], [0.0, high]])
    return (Group("title", tuple(items)), square_at(-room.left, -room.bottom)), ring
