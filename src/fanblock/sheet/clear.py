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
from numpy.typing import NDArray

from fanblock.geometry import raster
from fanblock.geometry.bezier import sample
from fanblock.geometry.curve import Points
from fanblock.sheet.drawing import Group, Stroke, Words
from fanblock.sheet.ink import Box, ink_points
from fanblock.sheet.squares import FRAME_IN_MM, FRAME_OUT_MM, gauge_at, gauge_box, square_at, square_box
from fanblock.tolerances import INK_STEP_MM

FIRM = ("cut", "stitch", "fold", "slit")
"""Pens of the lines that are cut or stitched."""

KEPT = (*FIRM, "channel", "eyelet", "mark", "scale", "scale pale")
"""Pens of the lines that nothing measured on a page may be taken for: those, channels, eyelets, notches, other measures."""

_CELL_MM, _CLEAR_MM, _BESIDE_MM = 2.0, 1.5, 4.0
_FIRM_COSTS, _WORDS_COST = 12, 200

Counts = NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """What a drawing puts on paper: points of all ink, of the firm lines and of the words among it, rings of the pieces.

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
        return Held(_inside(self.ink, box), _inside(self.firm, box), _inside(self.words, box), self.grounds)

    def with_ink(self, groups: Iterable[Group]) -> Held:
        """Return it with the ink of more groups."""
        return replace(self, ink=np.vstack((self.ink, ink_points(groups))))


def held(groups: Iterable[Group]) -> Held:
    """Return what some groups put on paper; a closed line of the cutting pen is the edge of a piece."""
    items = [item for group in groups for item in group.items]
    words = ink_points([Group("words", tuple(item for item in items if isinstance(item, Words)))])
    firm, other = (
        ink_points(
            [Group("ink", tuple(one for one in items if isinstance(one, Stroke) and (one.pen in KEPT) is wanted))]
        )
        for wanted in (True, False)
    )
    strokes = [item for item in items if isinstance(item, Stroke)]
    grounds = tuple(sample(item.beziers, INK_STEP_MM) for item in strokes if item.closed and item.pen == "cut")
    return Held(np.vstack((firm, words, other)), firm, words, grounds)


def measured_on(carried: Held, area: Box) -> tuple[Group, ...]:
    """Return what is to be measured on a page, where it does least harm in ``area``: a test square, or two gauges."""
    cells = _Cells(area, carried)
    square = cells.square()
    if square is not None and square.is_clear:
        return (square_at(square.x, square.y),)
    cost, gauges = _gauges(cells, (False, True))
    if cost:
        other = _gauges(_Cells(area, carried), (True, False))
        gauges = other[1] if other[0] < cost and len(other[1]) == 2 else gauges
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

    def __init__(self, area: Box, carried: Held) -> None:
        self.area = area
        shape = int(area.height_mm / _CELL_MM), int(area.width_mm / _CELL_MM)
        origin = np.array([area.left, area.bottom])
        firm = raster.counted(carried.firm, origin, _CELL_MM, shape)
        ground = np.zeros(shape, dtype=np.int64)
        for ring in carried.grounds:
            if (ring.max(axis=0) > origin).all() and (ring.min(axis=0) < (area.right, area.top)).all():
                ground |= raster.filled(ring, origin, _CELL_MM, shape)
        beside = _spread(firm > 0, int(_BESIDE_MM / _CELL_MM))
        ink = raster.counted(carried.ink, origin, _CELL_MM, shape)
        words = raster.counted(carried.words, origin, _CELL_MM, shape)
        harm = _FIRM_COSTS * firm + _WORDS_COST * words
        self.layers = tuple(_sums(cells) for cells in (ink, harm, beside, ground))

    def fill(self, box: Box) -> None:
        """Count a box as full of words from now on."""
        low, left = (
            int((at - start) / _CELL_MM) for at, start in ((box.bottom, self.area.bottom), (box.left, self.area.left))
        )
        rows, columns = (
            slice(at, at + int(size / _CELL_MM) + 2) for at, size in ((low, box.height_mm), (left, box.width_mm))
        )
        filled = []
        for table, cost in zip(self.layers[:2], (1, _WORDS_COST), strict=True):
            cells = np.diff(np.diff(table, axis=0), axis=1)
            cells[rows, columns] += cost
            filled.append(_sums(cells))
        self.layers = (*filled, *self.layers[2:])

    def square(self) -> _Found | None:
        """The best place for a test square, or None where the area is smaller than one."""
        room = square_box().grown(_CLEAR_MM)
        wide, high = int(room.width_mm / _CELL_MM) + 1, int(room.height_mm / _CELL_MM) + 1
        ink, costs, beside, ground = (_counts(table, wide, high) for table in self.layers)
        if not ink.size:
            return None
        low, far = int(FRAME_IN_MM / _CELL_MM) + 1, int(FRAME_OUT_MM / _CELL_MM) + 1
        middles = [
            _counts(table, wide - low - far, high - low - far)[low:, low:][: ink.shape[0], : ink.shape[1]]
            for table in self.layers[:3]
        ]
        met, costs, beside = (one - middle for one, middle in zip((ink, costs, beside), middles, strict=True))
        up, across = np.indices(met.shape)
        distance = up + 0.001 * across
        return self._best(met, costs, beside, ground, (middles[0], distance), room)

    def box(self, width_mm: float, height_mm: float, near: tuple[float, float]) -> _Found | None:
        """The best place for a rectangle, of equally good ones that nearest to a point; None where the area is smaller."""
        wide, high = int(width_mm / _CELL_MM) + 2, int(height_mm / _CELL_MM) + 2
        ink, costs, beside, ground = (_counts(table, wide, high) for table in self.layers)
        if not ink.size:
            return None
        up, across = np.indices(ink.shape)
        x, y = self.area.left + _CELL_MM * (across + 0.5), self.area.bottom + _CELL_MM * (up + 0.5)
        distance = np.hypot(x + 0.5 * width_mm - near[0], y + 0.5 * height_mm - near[1])
        room = Box(-0.5 * _CELL_MM, -0.5 * _CELL_MM, width_mm, height_mm)
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
        x, y = self.area.left + _CELL_MM * across - room.left, self.area.bottom + _CELL_MM * up - room.bottom
        clear = not met.flat[best] and not ground.flat[best]
        return _Found(float(x), float(y), int(met.flat[best]), int(harm.flat[best]), bool(clear))


def _sums(cells: Counts) -> Counts:
    """Running sums, one row and column larger."""
    table = np.zeros((cells.shape[0] + 1, cells.shape[1] + 1), dtype=np.int64)
    np.cumsum(cells, axis=1, out=table[1:, 1:])
    np.cumsum(table, axis=0, out=table)
    return table


def _counts(table: Counts, wide: int, high: int) -> Counts:
    """Sums over every window of ``wide`` by ``high`` cells, by its lower left one; empty when the area is smaller."""
    if high >= table.shape[0] or wide >= table.shape[1]:
        return np.zeros((0, 0), dtype=np.int64)
    return table[high:, wide:] - table[:-high, wide:] - table[high:, :-wide] + table[:-high, :-wide]


def _spread(cells: NDArray[np.bool_], by: int) -> Counts:
    """The cells no further than ``by`` from one of those."""
    wide = np.pad(cells, by)
    high, across = cells.shape
    steps = range(2 * by + 1)
    level = np.any([wide[:, step : step + across] for step in steps], axis=0)
    return np.asarray(np.any([level[step : step + high] for step in steps], axis=0), dtype=np.int64)


def _inside(points: Points, box: Box) -> Points:
    x, y = points.T
    return np.asarray(points[(x > box.left) & (x < box.right) & (y > box.bottom) & (y < box.top)])
