"""Pages to read: texts set one below the other in columns, beside bars to measure each page by.

The test square stands on the first page and on pages with pieces; here two pairs of bars do, in the lower right corner.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import count

from fanblock.sheet.drawing import Drawing, Group, Words
from fanblock.sheet.ink import Box
from fanblock.sheet.paper import Paper
from fanblock.sheet.setting import Items, heading, paragraph, text_area
from fanblock.sheet.squares import gauge_at, gauge_box
from fanblock.sheet.wording import RISE

SIZE_MM, GAP_MM, APART_MM = 3.2, 7.0, 5.0
"""Size of the text as a rule; room between two columns; room before a heading."""

OFF_BARS_MM = 3.0
"""How far text keeps from the bars, and they from each other."""

_INDENT, _WIDE_INDENT, _FEW = 1.3, 1.8, 10
"""How far text is hung in behind its mark, in sizes: with numbers below ten, and with more."""

Setting = Callable[[float, float, float], tuple[Items, float]]
"""Sets something at a left and a top within a width, and tells how low it reaches."""


@dataclass(frozen=True, slots=True)
class Room:
    """A place on a page that is filled from its top down to its floor."""

    page: int
    left: float
    width: float
    floor: float
    top: float


@dataclass(slots=True)
class Column:
    """What is set one below the other and goes on from room to room; what stands on each page, and how low it reaches."""

    rooms: Iterator[Room]
    size_mm: float = SIZE_MM
    room: Room = field(init=False)
    at: float = field(init=False)
    pages: dict[int, Items] = field(default_factory=dict)
    lows: dict[int, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.turn()

    @property
    def top(self) -> float:
        """From where down it goes just now."""
        return self.room.top

    @property
    def left(self) -> float:
        """Where the column stands just now."""
        return self.room.left

    @property
    def width(self) -> float:
        """Its width just now."""
        return self.room.width

    @property
    def floor(self) -> float:
        """How far down it may go just now."""
        return self.room.floor

    def add(self, items: Items, low: float) -> None:
        """Put what was set at the column's place, which ends at ``low``."""
        page = self.room.page
        self.pages.setdefault(page, []).extend(items)
        self.lows[page] = min(low, self.lows.get(page, low))
        self.at = low

    def turn(self) -> None:
        """Go on at the top of the next room."""
        self.room = next(self.rooms)
        self.at = self.top

    def holds(self, setting: Setting) -> bool:
        """Tell whether something finds room where the column stands just now."""
        return setting(self.left, self.at, self.width)[1] >= self.floor

    def put(self, setting: Setting, before_mm: float = 0.0) -> None:
        """Put something that is not to be broken, some room before it unless it stands at the top; turn first if need be."""
        top = self.at - (before_mm if self.at < self.top else 0.0)
        items, low = setting(self.left, top, self.width)
        if low < self.floor and self.at < self.top:  # at the top of a room there is no more to be had
            self.turn()
            items, low = setting(self.left, self.at, self.width)
        self.add(items, low)


def bars_on(paper: Paper) -> tuple[Group, Group]:
    """Return the bars of a page to read: a level pair and an upright one, in its lower right corner."""
    area, level, upright = text_area(paper), gauge_box(), gauge_box(upright=True)
    right = area.right - upright.width_mm
    return (
        gauge_at(right - OFF_BARS_MM - level.width_mm, area.bottom),
        gauge_at(right, area.bottom, upright=True),
    )


def off_bars(paper: Paper) -> Box:
    """Return the part of a page to read that the bars leave to its text."""
    area = text_area(paper)
    low, right = gauge_box().height_mm + OFF_BARS_MM, gauge_box(upright=True).width_mm + OFF_BARS_MM
    return Box(area.left, area.bottom + low, area.right - right, area.top - 2.0)


def column_on(paper: Paper, abreast: int, size_mm: float = SIZE_MM, short: tuple[int, float] | None = None) -> Column:
    """Return a column that goes on through so many of equal width on every page, and whose text is so large.

    On the page named in ``short`` it is only so high.
    """
    area = off_bars(paper)
    wide = (area.width_mm - GAP_MM * (abreast - 1)) / abreast
    floors = {} if short is None else {short[0]: area.top - short[1]}
    rooms = (
        Room(page, area.left + at * (wide + GAP_MM), wide, floors.get(page, area.bottom), area.top)
        for page in count()
        for at in range(abreast)
    )
    return Column(rooms, size_mm)


def column_from(paper: Paper, page: int, top: float) -> Column:
    """Return a column as wide as the page that begins on a page at a height, and goes on over the pages after it."""
    area = off_bars(paper)
    rooms = (Room(at, area.left, area.width_mm, area.bottom, top if at == page else area.top) for at in count(page))
    return Column(rooms)


def set_text(column: Column, head: str, lines: Sequence[str], mark: str = "–") -> None:
    """Set sentences under a heading, each with ``mark`` hung before it, a 1 in which counts; none without a sentence.

    The heading is never parted from the first of them.
    """
    size = column.size_mm
    indent = (_INDENT if len(lines) < _FEW else _WIDE_INDENT) * size

    def sentence(number: int) -> Setting:
        def setting(left: float, top: float, width: float) -> tuple[Items, float]:
            items, low = paragraph(lines[number], left + indent, top, width - indent, size)
            sign = Words(mark.replace("1", str(number + 1)), left, top - RISE * size, size)
            return [sign, *items], low

        return setting

    for number in range(len(lines)):
        page, setting = column.room.page, sentence(number)
        if number and not column.holds(setting):
            column.turn()
            if column.room.page != page:
                setting = headed(f"{head}{GOES_ON}", setting)
        if number == 0:
            setting = headed(head, setting)
        column.put(setting, 0.0 if number else APART_MM)


def headed(head: str, setting: Setting) -> Setting:
    """Return the setting of something under a heading, which it is not parted from."""

    def both(left: float, top: float, width: float) -> tuple[Items, float]:
        items, low = heading(head, left, top, width)
        more, low = setting(left, low, width)
        return items + more, low

    return both


GOES_ON = ", going on"
"""Behind a heading that is told again where its text goes on over the page."""


def read_page(paper: Paper, items: Items) -> Drawing:
    """Return a page to read with its bars."""
    words = Group("cover words", tuple(items))
    return Drawing("cover", paper.width_mm, paper.height_mm, (words, *bars_on(paper)))
