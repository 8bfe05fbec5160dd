"""The lists of bones, eyelets, lace and binding on printed pages, each page with its test square."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from fanblock.pattern.model import Pattern
from fanblock.sheet.drawing import Drawing, Group
from fanblock.sheet.listing import BONE_HEADS, tables
from fanblock.sheet.paper import Paper
from fanblock.sheet.setting import Items, heading, paragraphs, table, text_area
from fanblock.sheet.squares import square_at, square_box

FOOT_MM = 9.0
"""Room kept at the foot of a page for NOT SOUND."""

_SIZE_MM, _GAP_MM, _APART_MM = 3.2, 7.0, 5.0
"""Size of the text; room between the two columns; room before a heading."""

_BONE_WIDTHS = (0.32, 0.28, 0.1, 0.17, 0.13)
_NARROW_WIDTHS = (0.24, 0.38, 0.38)
"""Widths of columns, as shares of the width of their table."""


@dataclass(slots=True)
class _Column:
    """A column that goes on over the pages: where it stands, and what has been set in it, page by page."""

    left: float
    width: float
    top: float
    floor: float
    at: float
    pages: list[Items] = field(default_factory=lambda: [[]])

    def add(self, items: Items, low: float) -> None:
        """Put what was set at the column's place, which ends at ``low``."""
        self.pages[-1].extend(items)
        self.at = low

    def turn(self) -> None:
        """Go on at the top of the next page."""
        self.pages.append([])
        self.at = self.top


def list_pages(pattern: Pattern, paper: Paper) -> tuple[Drawing, ...]:
    """Return the pages: bones in the wide column above the square, the other lists beside them; none without a list."""
    area, room = text_area(paper), square_box()
    right, top = area.right - room.width_mm, area.top - 2.0
    foot = area.bottom + FOOT_MM - room.bottom
    wide = _Column(right, room.width_mm, top, foot + room.top + 2.0, top)
    narrow = _Column(area.left, right - area.left - _GAP_MM, top, area.bottom + FOOT_MM, top)
    for head, heads, rows, says in tables(pattern):
        bones = heads is BONE_HEADS
        _set(wide if bones else narrow, head, heads, rows, says, _BONE_WIDTHS if bones else _NARROW_WIDTHS)
    if not any((*wide.pages, *narrow.pages)):
        return ()
    count = max(len(wide.pages), len(narrow.pages))
    square = square_at(area.right - room.right, foot)
    return tuple(
        Drawing(
            "cover",
            paper.width_mm,
            paper.height_mm,
            (Group("cover words", (*_page(wide, number), *_page(narrow, number))), square),
        )
        for number in range(count)
    )


def _page(column: _Column, number: int) -> Items:
    return column.pages[number] if number < len(column.pages) else []


def _set(
    column: _Column,
    head: str,
    heads: Sequence[str],
    rows: Sequence[Sequence[str]],
    says: Sequence[str],
    shares: Sequence[float],
) -> None:
    """Set a heading, a table in as many parts as it takes, and the sentences below it."""
    widths = [share * column.width for share in shares]
    low_top = column.at - (_APART_MM if column.at < column.top else 0.0)
    items, low = heading(head, column.left, low_top, column.width)
    _, after = table([heads, *rows[:2]], column.left, low, widths, _SIZE_MM)
    if after < column.floor:
        column.turn()
        items, low = heading(head, column.left, column.at, column.width)
    column.add(items, low)
    _set_rows(column, heads, rows, widths)
    for sentence in says:
        items, low = paragraphs([sentence], column.left, column.at - 1.0, column.width, _SIZE_MM)
        if low < column.floor:
            column.turn()
            items, low = paragraphs([sentence], column.left, column.at, column.width, _SIZE_MM)
        column.add(items, low)


def _set_rows(column: _Column, heads: Sequence[str], rows: Sequence[Sequence[str]], widths: Sequence[float]) -> None:
    """Set a table, its head again at the top of every further page."""
    items, low = _head(column, heads, widths)
    column.add(items, low)
    for row in rows:
        items, low = _row(row, column, widths)
        if low < column.floor:
            column.turn()
            column.add(*_head(column, heads, widths))
            items, low = _row(row, column, widths)
        column.add(items, low)


def _head(column: _Column, heads: Sequence[str], widths: Sequence[float]) -> tuple[Items, float]:
    return table([heads], column.left, column.at, widths, _SIZE_MM)


def _row(row: Sequence[str], column: _Column, widths: Sequence[float]) -> tuple[Items, float]:
    return table([row], column.left, column.at, widths, _SIZE_MM, bold_head=False)
