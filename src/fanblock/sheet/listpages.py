"""The lists of bones, eyelets, lace and binding on printed pages, each page with its test square."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import count

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

_BONE_WIDTHS = (0.28, 0.23, 0.13, 0.21, 0.15)
_NARROW_WIDTHS = (0.24, 0.38, 0.38)
"""Widths of columns, as shares of the width of their table."""


@dataclass(frozen=True, slots=True)
class _Box:
    """A place on a page that is filled from its top down to its floor."""

    page: int
    left: float
    width: float
    floor: float


@dataclass(slots=True)
class _Column:
    """Lists set one below the other, which go on from box to box, and what stands on each page."""

    boxes: Iterator[_Box]
    top: float
    box: _Box = field(init=False)
    at: float = field(init=False)
    pages: dict[int, Items] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.turn()

    @property
    def left(self) -> float:
        """Where the column stands just now."""
        return self.box.left

    @property
    def width(self) -> float:
        """Its width just now."""
        return self.box.width

    @property
    def floor(self) -> float:
        """How far down it may go just now."""
        return self.box.floor

    def add(self, items: Items, low: float) -> None:
        """Put what was set at the column's place, which ends at ``low``."""
        self.pages.setdefault(self.box.page, []).extend(items)
        self.at = low

    def turn(self) -> None:
        """Go on at the top of the next box."""
        self.box, self.at = next(self.boxes), self.top


def list_pages(pattern: Pattern, paper: Paper) -> tuple[Drawing, ...]:
    """Return the pages: bones in the wide column above the square, the other lists beside them; none without a list."""
    area, room = text_area(paper), square_box()
    right, top = area.right - room.width_mm, area.top - 2.0
    foot = area.bottom + FOOT_MM - room.bottom
    beside = _Box(0, area.left, right - area.left - _GAP_MM, area.bottom + FOOT_MM)
    above = _Box(0, right, room.width_mm, foot + room.top + 2.0)
    lists = tuple(tables(pattern))
    narrow = _Column((replace(beside, page=page) for page in count()), top)
    for head, heads, rows, says in lists:
        if heads is not BONE_HEADS:
            _set(narrow, head, heads, rows, says, _NARROW_WIDTHS)
    taken = frozenset(narrow.pages)
    both = (replace(box, page=page) for page in count() for box in (beside, above))
    wide = _Column((box for box in both if box.left == right or (box.page and box.page not in taken)), top)
    for head, heads, rows, says in lists:
        if heads is BONE_HEADS:
            _set(wide, head, heads, rows, says, _BONE_WIDTHS)
    square = square_at(area.right - room.right, foot)
    return tuple(
        Drawing(
            "cover",
            paper.width_mm,
            paper.height_mm,
            (Group("cover words", (*wide.pages.get(page, ()), *narrow.pages.get(page, ()))), square),
        )
        for page in range(1 + max((*wide.pages, *narrow.pages), default=-1))
    )


def _set(
    column: _Column,
    head: str,
    heads: Sequence[str],
    rows: Sequence[Sequence[str]],
    says: Sequence[str],
    shares: Sequence[float],
) -> None:
    """Set a heading, a table in as many parts as it takes, and the sentences below it."""
    low_top = column.at - (_APART_MM if column.at < column.top else 0.0)
    items, low = heading(head, column.left, low_top, column.width)
    _, after = table([heads, *rows[:2]], column.left, low, _widths(column, shares), _SIZE_MM)
    if after < column.floor:
        column.turn()
        items, low = heading(head, column.left, column.at, column.width)
    column.add(items, low)
    _set_rows(column, heads, rows, shares)
    for sentence in says:
        items, low = paragraphs([sentence], column.left, column.at - 1.0, column.width, _SIZE_MM)
        if low < column.floor:
            column.turn()
            items, low = paragraphs([sentence], column.left, column.at, column.width, _SIZE_MM)
        column.add(items, low)


def _set_rows(column: _Column, heads: Sequence[str], rows: Sequence[Sequence[str]], shares: Sequence[float]) -> None:
    """Set a table, its head again at the top of every further box."""
    column.add(*_row(heads, column, shares, bold=True))
    for row in rows:
        items, low = _row(row, column, shares)
        if low < column.floor:
            column.turn()
            column.add(*_row(heads, column, shares, bold=True))
            items, low = _row(row, column, shares)
        column.add(items, low)


def _row(row: Sequence[str], column: _Column, shares: Sequence[float], *, bold: bool = False) -> tuple[Items, float]:
    return table([row], column.left, column.at, _widths(column, shares), _SIZE_MM, bold_head=bold)


def _widths(column: _Column, shares: Sequence[float]) -> list[float]:
    return [share * column.width for share in shares]
