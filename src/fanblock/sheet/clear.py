"""Where a page is clear: the best place for what is measured on it, for the page's name, for a title.

A page is looked at on a grid of small cells. Best is clear paper: no ink there, and not inside a piece, where a
square would be taken for part of it. A page without a clear place as large as the square has two pairs of bars
instead, one level and one upright, which find room beside the pieces or at least cross few lines; where they cross some
they are drawn pale. Worst is to lie over words, then over, or close along, a line that is cut or stitched, a channel
and an eyelet among them.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from fanblock.geometry import raster
from fanblock.geometry.bezier import sample
from fanblock.geometry.curve import Points
from fanblock.sheet.cellcounts import Counts, counts, inside, spread, sums
from fanblock.sheet.drawing import Group, Stroke, Words
from fanblock.sheet.ink import Box, ink_points, words_corners
from fanblock.sheet.squares import (
    BARS_MM,
    FRAME_IN_MM,
    FRAME_OUT_MM,
    GAUGE_WORDS,
    SQUARE_NAME,
    bar_at,
    bar_box,
    gauge_at,
    gauge_box,
    square_at,
    square_box,
)
from fanblock.tolerances import INK_STEP_MM

FIRM = ("cut", "stitch", "fold", "slit")
"""Pens of the lines that are cut or stitched."""

KEPT = (*FIRM, "channel", "eyelet", "mark", "scale", "scale pale")
"""Pens of the lines that nothing measured on a page may be taken for: those, channels, eyelets, notches, other measures."""

_CELL_MM, _CLEAR_MM, _BESIDE_MM = 2.0, 1.5, 4.0
_FIRM_COSTS, _WORDS_COST = 12, 200
FINE_MM = 1.0
"""Side of a cell where each bar is placed by itself."""
_WORDS_CLEAR_MM, _OUTSIDE = 0.4, 10_000
"""Room round the words of a bar, and what words cost that reach out of the page."""


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """What a drawing puts on paper: points of all ink, of the firm lines, of the words and eyelets
    among it, rings of the pieces.

    Firm are the lines of the pens in :data:`KEPT`. A pattern is wrong where they or its words cannot be read.
    """

    ink: Points
    firm: Points
    words: Points
    grounds: tuple[Points, ...] = ()

    def moved(self, x: float, y: float) -> Held:
        """Return the same, shifted."""
        by = np.array([x, y])
        return Held(self.ink + by, self.firm + by, self.words + by, tuple(ring + by for ring in self.grounds))

    def within(self, box: Box) -> Held:
        """Return what of it lies inside a box; pieces stay whole."""
        return Held(inside(self.ink, box), inside(self.firm, box), inside(self.words, box), self.grounds)

    def with_measure(self, group: Group) -> Held:
        """Return it with something else that is measured, to be kept off as words are."""
        points = ink_points((group,))
        return replace(self, ink=np.vstack((self.ink, points)), words=np.vstack((self.words, points)))

    def with_ink(self, groups: Iterable[Group]) -> Held:
        """Return it with the ink of more groups."""
        return replace(self, ink=np.vstack((self.ink, ink_points(groups))))


def held(groups: Iterable[Group]) -> Held:
    """Return what some groups put on paper; a closed line of the cutting pen is the edge of a piece."""
    items = [item for group in groups for item in group.items]
    words = ink_points([Group("words", tuple(item for item in items if _is_told(item)))])
    firm, other = (
        ink_points(
            [Group("ink", tuple(one for one in items if isinstance(one, Stroke) and (one.pen in KEPT) is wanted))]
        )
        for wanted in (True, False)
    )
    strokes = [item for item in items if isinstance(item, Stroke)]
    grounds = tuple(sample(item.beziers, INK_STEP_MM) for item in strokes if item.closed and item.pen == "cut")
    return Held(np.vstack((firm, words, other)), firm, words, grounds)


def _is_told(item: Stroke | Words) -> bool:
    """Whether something is a word, or as small and as easily hidden."""
    return isinstance(item, Words) or item.pen == "eyelet"


def measured_on(carried: Held, area: Box) -> tuple[Group, ...]:
    """Return what is to be measured on a page, where it does least harm in ``area``: a test square, or two gauges."""
    cells = _Cells(area, carried)
    square = cells.square()
    if square is not None and square.is_clear:
        return (square_at(square.x, square.y),)
    cost, gauges = _gauges(cells, (False, True))
    if cost:
        other = _gauges(_Cells(area, carried), (True, False))
        cost, gauges = other if other[0] < cost and len(other[1]) == 2 else (cost, gauges)
    if cost:
        single = _bars(carried, area)
        gauges = single[1] if single[0] < cost and len(single[1]) == 2 else gauges
    if len(gauges) == 2:
        return gauges
    x, y, _ = square_place(carried, area)
    return (square_at(x, y),)


def _gauges(cells: _Cells, order: tuple[bool, bool]) -> tuple[int, tuple[Group, ...]]:
    """A level and an upright pair of bars, placed in an order, and what they cost where they meet ink."""
    found: list[Group] = []
    cost = 0
    for upright in order:
        room = gauge_box(upright).grown(_CLEAR_MM)
        place = cells.box(room.width_mm, room.height_mm, (cells.area.left, cells.area.bottom))
        if place is None:
            break
        cost += place.harm
        found.append(gauge_at(place.x - room.left, place.y - room.bottom, upright, pale=bool(place.met)))
        cells.fill(room.moved(place.x - room.left, place.y - room.bottom))
    return cost, tuple(found)


def _bars(carried: Held, area: Box) -> tuple[int, tuple[Group, ...]]:
    """The four bars each by itself, level and upright ones, with their words where they lie on least, and what they cost."""
    found: list[Group] = []
    cost = 0
    for upright in (False, True):
        items: list[Stroke | Words] = []
        for length in BARS_MM:
            cells = _Cells(area, carried, FINE_MM)
            room = bar_box(length, upright).grown(_CLEAR_MM)
            place = cells.box(room.width_mm, room.height_mm, (area.left, area.bottom))
            if place is None:
                return cost, ()
            x, y = place.x - room.left, place.y - room.bottom
            ways = [bar_at(length, x, y, upright, words, bool(place.met)) for words in GAUGE_WORDS]
            met = [_words_met(way, carried, area) for way in ways]
            cost += place.harm + _FIRM_COSTS * min(met)
            items += ways[met.index(min(met))]
            carried = carried.with_measure(Group(SQUARE_NAME, ways[met.index(min(met))]))
        found.append(Group(SQUARE_NAME, tuple(items)))
    return cost, tuple(found)


def _words_met(items: Iterable[Stroke | Words], carried: Held, area: Box) -> int:
    """How many points of ink the words of a bar lie on; words that reach out of the area lie on very many."""
    corners = np.vstack([words_corners(item) for item in items if isinstance(item, Words)])
    (left, bottom), (right, top) = corners.min(axis=0), corners.max(axis=0)
    box = Box(float(left), float(bottom), float(right), float(top))
    outside = left < area.left or right > area.right or bottom < area.bottom or top > area.top
    return len(inside(carried.ink, box.grown(_WORDS_CLEAR_MM))) + (_OUTSIDE if outside else 0)


def square_place(carried: Held, area: Box) -> tuple[float, float, int]:
    """Return where in ``area`` a test square does least harm: its x and y, and how much ink it then meets.

    The ink is counted under the outlines and words of the square, not in its empty middle, which hides nothing.
    """
    found = _Cells(area, carried).square()
    if found is None:
        room = square_box()
        return area.left - room.left, area.bottom - room.bottom, len(carried.ink)
    return found.x, found.y, found.met


def box_place(
    carried: Held, area: Box, width_mm: float, height_mm: float, near: tuple[float, float]
) -> tuple[float, float] | None:
    """Return the lower left corner of a clear place of that size nearest to the point ``near``.

    Clear paper comes first, then a place inside a piece that no ink is on; None when there is neither.
    """
    found = _Cells(area, carried).box(width_mm, height_mm, near)
    return None if found is None or found.met else (found.x, found.y)


@dataclass(frozen=True, slots=True)
class _Found:
    """A place: where it is, how much ink it meets and what that costs, and whether it is clear paper."""

    x: float
    y: float
    met: int
    harm: int
    is_clear: bool


class _Cells:
    """The cells of an area: how much ink is in each, what its firm ink and words cost, which lie beside a firm line or inside
    a piece.
    """

    def __init__(self, area: Box, carried: Held, cell_mm: float = _CELL_MM) -> None:
        self.area, self.cell_mm = area, cell_mm
        shape = int(area.height_mm / self.cell_mm), int(area.width_mm / self.cell_mm)
        origin = np.array([area.left, area.bottom])
        firm = raster.counted(carried.firm, origin, self.cell_mm, shape)
        ground = np.zeros(shape, dtype=np.int64)
        for ring in carried.grounds:
            if (ring.max(axis=0) > origin).all() and (ring.min(axis=0) < (area.right, area.top)).all():
                ground |= raster.filled(ring, origin, self.cell_mm, shape)
        beside = spread(firm > 0, int(_BESIDE_MM / self.cell_mm))
        ink = raster.counted(carried.ink, origin, self.cell_mm, shape)
        words = raster.counted(carried.words, origin, self.cell_mm, shape)
        harm = _FIRM_COSTS * firm + _WORDS_COST * words
        self.layers = tuple(sums(cells) for cells in (ink, harm, beside, ground))

    def fill(self, box: Box) -> None:
        """Count a box as full of words from now on."""
        low, left = (
            int((at - start) / self.cell_mm)
            for at, start in ((box.bottom, self.area.bottom), (box.left, self.area.left))
        )
        rows, columns = (
            slice(at, at + int(size / self.cell_mm) + 2) for at, size in ((low, box.height_mm), (left, box.width_mm))
        )
        filled = []
        for table, cost in zip(self.layers[:2], (1, _WORDS_COST), strict=True):
            cells = np.diff(np.diff(table, axis=0), axis=1)
            cells[rows, columns] += cost
            filled.append(sums(cells))
        self.layers = (*filled, *self.layers[2:])

    def square(self) -> _Found | None:
        """The best place for a test square, or None where the area is smaller than one."""
        room = square_box().grown(_CLEAR_MM)
        wide, high = int(room.width_mm / self.cell_mm) + 1, int(room.height_mm / self.cell_mm) + 1
        ink, costs, beside, ground = (counts(table, wide, high) for table in self.layers)
        if not ink.size:
            return None
        low, far = int(FRAME_IN_MM / self.cell_mm) + 1, int(FRAME_OUT_MM / self.cell_mm) + 1
        middles = [
            counts(table, wide - low - far, high - low - far)[low:, low:][: ink.shape[0], : ink.shape[1]]
            for table in self.layers[:3]
        ]
        met, costs, beside = (one - middle for one, middle in zip((ink, costs, beside), middles, strict=True))
        up, across = np.indices(met.shape)
        distance = up + 0.001 * across
        return self._best(met, costs, beside, ground, (middles[0], distance), room)

    def box(self, width_mm: float, height_mm: float, near: tuple[float, float]) -> _Found | None:
        """The best place for a rectangle, of equally good ones that nearest to a point; None where the area is smaller."""
        wide, high = int(width_mm / self.cell_mm) + 2, int(height_mm / self.cell_mm) + 2
        ink, costs, beside, ground = (counts(table, wide, high) for table in self.layers)
        if not ink.size:
            return None
        up, across = np.indices(ink.shape)
        x, y = self.area.left + self.cell_mm * (across + 0.5), self.area.bottom + self.cell_mm * (up + 0.5)
        distance = np.hypot(x + 0.5 * width_mm - near[0], y + 0.5 * height_mm - near[1])
        room = Box(-0.5 * self.cell_mm, -0.5 * self.cell_mm, width_mm, height_mm)
        return self._best(ink, costs, beside, ground, (distance,), room)

    def _best(
        self, met: Counts, costs: Counts, beside: Counts, ground: Counts, then: tuple[Any, ...], room: Box
    ) -> _Found:
        """The place with least harm: no ink, clear paper, off firm lines, and what else is asked for."""
        harm = np.where(met > 0, met + costs + beside, 0)
        left = np.arange(met.size)
        for key in (harm, np.where(met > 0, 0, ground), beside, *then):
            values = key.ravel()[left]
            left = left[values == values.min()]
        best = int(left[0])
        up, across = divmod(best, met.shape[1])
        x, y = self.area.left + self.cell_mm * across - room.left, self.area.bottom + self.cell_mm * up - room.bottom
        clear = not met.flat[best] and not ground.flat[best]
        return _Found(float(x), float(y), int(met.flat[best]), int(harm.flat[best]), bool(clear))
