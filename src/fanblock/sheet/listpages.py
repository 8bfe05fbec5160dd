"""The lists of bones, eyelets, lace and binding on printed pages, each page with bars to measure it by."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import count

from fanblock.pattern.model import Pattern
from fanblock.sheet.columns import APART_MM, GAP_MM, Column, Room, Setting, off_bars, read_page
from fanblock.sheet.drawing import Drawing
from fanblock.sheet.eyeletstrips import strip_pages
from fanblock.sheet.lacingup import CAPTION, lace_pictures
from fanblock.sheet.listing import BINDING_HEADS, BONE_HEADS, HOLE, tables
from fanblock.sheet.paper import Paper
from fanblock.sheet.setting import Items, heading, paragraph, paragraphs, table
from fanblock.sheet.upright import moved_group

SIZES_MM = (3.2, 3.0, 2.8)
"""Sizes of the text, the first of those that take fewest pages."""

WIDE_MM = 105.0
"""Width of the column of bones."""

BINDING_MM = 50.0
"""The list of binding stands below that of bones on the first page if so much room is left there."""

_BONE_WIDTHS = (0.28, 0.23, 0.13, 0.21, 0.15)
_NARROW_WIDTHS = (0.24, 0.38, 0.38)
"""Widths of columns, as shares of the width of their table."""


def list_pages(pattern: Pattern, paper: Paper) -> tuple[Drawing, ...]:
    """Return the pages: bones in the wide column at the right, the other lists beside them, then strips to prick eyelets
    by; none without a list.
    """
    ways = [_listed(pattern, paper, size) for size in SIZES_MM]
    return (*min(ways, key=len), *strip_pages(pattern, paper))


def _listed(pattern: Pattern, paper: Paper, size_mm: float) -> tuple[Drawing, ...]:
    """The pages of lists with text of a size."""
    area, lists = off_bars(paper), tuple(tables(pattern))
    right = area.right - WIDE_MM
    beside = Room(0, area.left, area.width_mm - WIDE_MM - GAP_MM, area.bottom, area.top)
    narrow = Column((replace(beside, page=page) for page in count()), size_mm)
    pictures = iter(lace_pictures(pattern))
    for head, heads, rows, says in lists:
        if heads[0] == HOLE:
            _set(narrow, head, heads, rows, says, _NARROW_WIDTHS)
            narrow.put(_lace_setting(next(pictures)[1], size_mm), APART_MM)
    taken = frozenset((0, *narrow.pages))
    lefts = ((page, right if page in taken else area.left) for page in count())
    wide = Column((Room(page, left, WIDE_MM, area.bottom, area.top) for page, left in lefts), size_mm)
    for head, heads, rows, says in lists:
        if heads is BONE_HEADS:
            _set(wide, head, heads, rows, says, _BONE_WIDTHS)
    for head, heads, rows, says in lists:
        if heads is BINDING_HEADS:
            _set(
                wide if wide.room.page == 0 and wide.at - wide.floor > BINDING_MM else narrow,
                head,
                heads,
                rows,
                says,
                _NARROW_WIDTHS,
            )
    return tuple(
        read_page(paper, [*wide.pages.get(page, ()), *narrow.pages.get(page, ())])
        for page in range(1 + max((*wide.pages, *narrow.pages), default=-1))
    )


def _lace_setting(picture: Drawing, size_mm: float) -> Setting:
    """The way of a lace as something to be set in a column, its caption below it."""

    def setting(left: float, top: float, width: float) -> tuple[Items, float]:
        low = top - picture.height_mm
        shift = left + 0.5 * (width - picture.width_mm)
        items = [item for group in picture.groups for item in moved_group(group, (shift, low)).items]
        words, low = paragraph(CAPTION, left, low - 1.0, width, size_mm)
        return [*items, *words], low

    return setting


def _set(
    column: Column,
    head: str,
    heads: Sequence[str],
    rows: Sequence[Sequence[str]],
    says: Sequence[str],
    shares: Sequence[float],
) -> None:
    """Set a heading, a table in as many parts as it takes, and the sentences below it."""
    low_top = column.at - (APART_MM if column.at < column.top else 0.0)
    items, low = heading(head, column.left, low_top, column.width)
    _, after = table([heads, *rows[:2]], column.left, low, _widths(column, shares), column.size_mm)
    if after < column.floor:
        column.turn()
        items, low = heading(head, column.left, column.at, column.width)
    column.add(items, low)
    _set_rows(column, heads, rows, shares)
    for sentence in says:
        items, low = paragraphs([sentence], column.left, column.at - 1.0, column.width, column.size_mm)
        if low < column.floor:
            column.turn()
            items, low = paragraphs([sentence], column.left, column.at, column.width, column.size_mm)
        column.add(items, low)


def _set_rows(column: Column, heads: Sequence[str], rows: Sequence[Sequence[str]], shares: Sequence[float]) -> None:
    """Set a table, its head again at the top of every further box."""
    column.add(*_row(heads, column, shares, bold=True))
    for row in rows:
        items, low = _row(row, column, shares)
        if low < column.floor:
            column.turn()
            column.add(*_row(heads, column, shares, bold=True))
            items, low = _row(row, column, shares)
        column.add(items, low)


def _row(row: Sequence[str], column: Column, shares: Sequence[float], *, bold: bool = False) -> tuple[Items, float]:
    return table([row], column.left, column.at, _widths(column, shares), column.size_mm, bold_head=bold)


def _widths(column: Column, shares: Sequence[float]) -> list[float]:
    return [share * column.width for share in shares]
