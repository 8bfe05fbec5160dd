"""Strips of paper to prick eyelets by: one for each row of a lacing, at true scale, to lay on the finished edge.

The rows of a spiral lacing differ, so that each has a strip of its own. One that is longer than the page goes on in another
piece, which is pasted to the first on a line that both show.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count, pairwise

from fanblock.geometry.curve import frozen
from fanblock.pattern.bones import Lacing
from fanblock.pattern.model import Pattern
from fanblock.sheet import phrases
from fanblock.sheet.boning import ring
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.font import width_mm
from fanblock.sheet.ink import Box
from fanblock.sheet.paper import Paper
from fanblock.sheet.setting import Items, heading, paragraphs, text_area
from fanblock.sheet.squares import line, square_at, square_box
from fanblock.sheet.upright import upright
from fanblock.units import fine_length

FOOT_MM = 9.0
"""Room kept at the foot of a page for NOT SOUND."""

_TEXT_MM, _GAP_MM, _APART_MM = 3.2, 6.0, 3.0
"""Size of the text; room between the strips and the test square, and between two strips."""

_BESIDE_MM, _FREE_MM = 3.0, 1.0
"""Room for the number of a hole beside it, and between that, the hole and the rim of the strip."""

_NAME_MM, _HEAD_MM = 2.8, 3.6
"""Size of a strip's name, and how far below its upper end it stands, above the first hole."""

_SAYS_MM = 2.8
"""Size of what else stands on a strip; its figures are 2 mm high."""

_FLAP_MM = 8.0
"""How far a piece goes on below its join, to be pasted under the next one."""

_TICK_MM = 4.0
"""How far a hole's level is ticked in from the side that lies on the lacing edge."""

_ASIDE_MM = 3.5
"""How far a hole must be from a join, so that paste and paper keep off it."""


@dataclass(frozen=True, slots=True)
class Row:
    """The holes of one row: what it is called, how far down its edge each stands, and on which side of it the edge is.

    ``backward`` is true where the lacing edge is at the right of the strip as it lies on the garment, seen from outside.
    """

    lacing: Lacing
    name: str
    down_mm: tuple[float, ...]
    hole_mm: float
    backward: bool


@dataclass(frozen=True, slots=True)
class Slot:
    """A place for one piece of strip on a page."""

    page: int
    left: float
    top: float
    height_mm: float


def strip_rows(pattern: Pattern) -> tuple[Row, ...]:
    """Return the rows of every lacing, two for each, as they are seen from outside."""
    found = []
    for lacing in pattern.lacings:
        names = (lacing.panel, lacing.across) if lacing.across else ("LEFT half", "RIGHT half")
        for at, (name, down) in enumerate(zip(names, (lacing.left_mm, lacing.right_mm), strict=True)):
            panel = pattern.by_name[lacing.across if at and lacing.across else lacing.panel]
            edge = next(edge for edge in upright(panel).edges if edge.name == lacing.edge)
            holes = {one.hole_mm for one in panel.eyelets if one.edge == lacing.edge}
            mirrored = bool(at) and not lacing.across
            found.append(Row(lacing, name, down, max(holes), phrases.faces_front(edge) == mirrored))
    return tuple(found)


def strip_pages(pattern: Pattern, paper: Paper) -> tuple[Drawing, ...]:
    """Return pages of strips at true scale, each with its test square; none where nothing is laced."""
    rows = strip_rows(pattern)
    if not rows:
        return ()
    units, area = pattern.body.units, text_area(paper)
    wide = max(_width_mm(row, units) for row in rows)
    head, low = heading("Strips to prick the eyelets by", area.left, area.top - 2.0, area.width_mm)
    says, top = paragraphs(list(_sentences(rows)), area.left, low, area.width_mm, _TEXT_MM)
    room, stamp = _room(area, top, wide), phrases.stamp(pattern.title)
    pages: dict[int, Items] = {}
    for row in rows:
        for slot, piece in _pieces(row, room):
            pages.setdefault(slot.page, []).extend(piece.drawn(slot, wide, units, stamp))
    foot = area.bottom + FOOT_MM - square_box().bottom
    square = square_at(area.right - square_box().right, foot)
    return tuple(
        Drawing(
            "cover",
            paper.width_mm,
            paper.height_mm,
            (Group("cover words", (*head, *says)), Group("eyelet strips", tuple(pages.get(page, ()))), square),
        )
        for page in range(1 + max(pages))
    )


def _sentences(rows: Sequence[Row]) -> Iterator[str]:
    """How the strips are used."""
    yield (
        "Cut them out at true scale: measure the square first. Lay the thick side on the finished lacing edge, on the outside, "
        "its top line on the top of the edge, and prick every hole."
    )
    if any(row.lacing.times > 1 for row in rows):
        yield "Each strip serves both sides of the body: turn it over for the other side, the print underneath."
    yield "Where a strip goes on, paste the flap under the next piece, so that the two join lines lie on each other."


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a strip: from how far to how far down the edge it runs, and its number among how many."""

    row: Row
    start_mm: float
    end_mm: float
    number: int
    last: bool

    @property
    def holes(self) -> Iterator[tuple[int, float]]:
        """The holes on it: number from the top, and how far down the edge."""
        return (
            (number, at) for number, at in enumerate(self.row.down_mm, start=1) if self.start_mm <= at <= self.end_mm
        )

    def drawn(self, slot: Slot, wide: float, units: str, stamp: str) -> Iterator[Stroke | Words]:
        """Yield the piece as it stands in its slot, its lacing edge at the right or at the left."""
        edge_x = slot.left + wide if self.row.backward else slot.left
        way = -1.0 if self.row.backward else 1.0
        far_x, low = edge_x + way * wide, slot.top - (self.end_mm - self.start_mm)
        foot = low if self.last else low - _FLAP_MM
        yield line([(edge_x, slot.top), (far_x, slot.top), (far_x, foot), (edge_x, foot)], "mini", "strip")
        yield line([(edge_x, foot), (edge_x, slot.top)], "sewn", "strip edge")
        yield from self._ends(slot, (edge_x, far_x), low, stamp)
        for number, at in self.holes:
            y, x = slot.top - (at - self.start_mm), edge_x + way * self.row.lacing.from_edge_mm
            yield ring(frozen([x, y]), 0.5 * self.row.hole_mm, f"hole {number}")
            yield line([(edge_x, y), (edge_x + way * _TICK_MM, y)], "mini", "level")
            beside = x + way * (0.5 * self.row.hole_mm + _FREE_MM)
            says = f"{number} · {fine_length(at, units)}"
            anchor = "end" if self.row.backward else "start"
            yield Words(says, beside, y - 0.35 * _SAYS_MM, _SAYS_MM, anchor)

    def _ends(self, slot: Slot, sides: tuple[float, float], low: float, stamp: str) -> Iterator[Stroke | Words]:
        """The row's name and TOP, or the join; and at the lower end the join to the next piece, or the draft."""
        middle, head = 0.5 * sum(sides), slot.top - _HEAD_MM
        if self.number == 1:
            yield Words(f"{self.row.name} ▲ TOP", middle, head, _NAME_MM, "middle", bold=True)
        else:
            yield Words(self._joined(self.number - 1), middle, head, _SAYS_MM, "middle")
        if self.last:
            yield Words(stamp, middle, low + _FREE_MM, _SAYS_MM, "middle")
        else:
            yield line([(sides[0], low), (sides[1], low)], "cut", "join")
            yield Words(self._joined(self.number), middle, low - 3.2, _SAYS_MM, "middle")
            yield Words("paste under", middle, low - 6.4, _SAYS_MM, "middle")

    def _joined(self, number: int) -> str:
        return f"{self.row.name}: join {number}"


def _width_mm(row: Row, units: str) -> float:
    """How wide a strip is: the holes as far in as on the cloth, and beside them their numbers."""
    says = max(
        width_mm(f"{number} · {fine_length(at, units)}", _SAYS_MM) for number, at in enumerate(row.down_mm, start=1)
    )
    named = width_mm(f"{row.name} ▲ TOP", _NAME_MM, True) + 2.0 * _FREE_MM
    return max(row.lacing.from_edge_mm + 0.5 * row.hole_mm + 2.0 * _FREE_MM + says, named)


@dataclass(frozen=True, slots=True)
class Room:
    """The places of all pages: as high as the page beside the square, and lower ones above the square."""

    tall: Iterator[Slot]
    low: Iterator[Slot]
    tall_mm: float
    low_mm: float


def _room(area: Box, top: float, wide: float) -> Room:
    """Return the places for strips this wide under ``top``."""
    square, each = square_box(), wide + _APART_MM
    beside = max(int((area.width_mm - square.width_mm - _GAP_MM + _APART_MM) / each), 1)
    above = max(int((square.width_mm + _APART_MM) / each), 1)
    top -= _BESIDE_MM
    tall = top - area.bottom - FOOT_MM
    low = tall - square.height_mm - _GAP_MM
    right = area.right - square.width_mm

    def places(left: float, many: int, high: float) -> Iterator[Slot]:
        return (Slot(page, left + at * each, top, high) for page in count() for at in range(many))

    return Room(places(area.left, beside, tall), places(right, above, low), tall, low)


def _pieces(row: Row, room: Room) -> Iterator[tuple[Slot, Piece]]:
    """Yield a row cut into as many pieces as it takes, each with its place; joins lie midway between holes.

    The first stands beside the square, and so does any other that is too long for a place above it.
    """
    joins = [0.5 * (low + high) for low, high in pairwise(row.down_mm) if high - low >= 2.0 * _ASIDE_MM]
    end, start, number, last = row.down_mm[-1] + row.lacing.from_edge_mm, 0.0, 1, False
    while not last:
        slot = next(room.low if number > 1 and end - start <= room.low_mm else room.tall)
        last = end - start <= slot.height_mm
        most = start + slot.height_mm - _FLAP_MM
        stop = end if last else max((at for at in joins if start < at <= most), default=most)
        yield slot, Piece(row, start, stop, number, last)
        start, number = stop, number + 1
