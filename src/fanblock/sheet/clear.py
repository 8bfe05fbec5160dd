"""Where a page is clear: the best place for what is measured on it, for the page's name, for a title.

A page is looked at on a grid of small cells. Best is clear paper: no ink there, and not inside a piece, where a
square would be taken for part of it. A page without a clear place as large as the square has two pairs of bars
instead, one level and one upright, which find room beside the pieces. Failing that too, a square may lie inside a
piece, and only then over ink; worst of all it lies over or close along a line that is cut or stitched.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry import raster
from fanblock.geometry.bezier import sample
from fanblock.geometry.curve import Points
from fanblock.sheet.drawing import Group, Stroke
from fanblock.sheet.ink import Box, ink_points
from fanblock.sheet.squares import FRAME_IN_MM, FRAME_OUT_MM, gauge_at, gauge_box, square_at, square_box
from fanblock.tolerances import INK_STEP_MM

FIRM = ("cut", "stitch", "fold", "slit")
"""Pens of the lines that are cut or stitched; a pattern is wrong where they cannot be read."""

_CELL_MM, _CLEAR_MM, _BESIDE_MM = 2.0, 1.5, 4.0
_FIRM_COSTS = 12

Counts = NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """What a drawing puts on paper: points of all ink, points of the firm lines among it, rings of the pieces."""

    ink: Points
    firm: Points
    grounds: tuple[Points, ...] = ()

    def moved(self, x: float, y: float) -> Held:
        """Return the same, shifted."""
        by = np.array([x, y])
        return Held(self.ink + by, self.firm + by, tuple(ring + by for ring in self.grounds))

    def within(self, box: Box) -> Held:
        """Return what of it lies inside a box; pieces stay whole."""
        return Held(_inside(self.ink, box), _inside(self.firm, box), self.grounds)

    def with_ink(self, groups: Iterable[Group]) -> Held:
        """Return it with the ink of more groups."""
        return Held(np.vstack((self.ink, ink_points(groups))), self.firm, self.grounds)


def held(groups: Iterable[Group]) -> Held:
    """Return what some groups put on paper; a closed line of the cutting pen is the edge of a piece."""
    groups = tuple(groups)
    strokes = [item for group in groups for item in group.items if isinstance(item, Stroke) and item.pen in FIRM]
    firm = ink_points([Group("firm", tuple(strokes))])
    grounds = tuple(sample(item.beziers, INK_STEP_MM) for item in strokes if item.closed and item.pen == "cut")
    return Held(ink_points(groups), firm, grounds)


def measured_on(carried: Held, area: Box) -> tuple[Group, ...]:
    """Return what is to be measured on a page, where it does least harm in ``area``: a test square, or two gauges."""
    x, y, met = square_place(carried, area)
    square = square_at(x, y)
    if not met and not _over_piece(carried, area, square_box(x, y)):
        return (square,)
    for paper_only in (True, False):
        gauges = _gauges(carried, area, paper_only)
        if gauges:
            return gauges
    return (square,)


def _over_piece(carried: Held, area: Box, box: Box) -> bool:
    grid = _Grid(area, carried)
    low_x, low_y = int((box.left - area.left) / _CELL_MM), int((box.bottom - area.bottom) / _CELL_MM)
    wide, high = int(box.width_mm / _CELL_MM), int(box.height_mm / _CELL_MM)
    return bool(grid.ground[low_y : low_y + high, low_x : low_x + wide].any())


def _gauges(carried: Held, area: Box, paper_only: bool) -> tuple[Group, ...]:
    """A level and an upright gauge near the lower left, apart from one another; nothing where one finds no room."""
    found: list[Group] = []
    for upright in (False, True):
        room = gauge_box(upright)
        place = box_place(
            carried.with_ink(found), area, room.width_mm, room.height_mm, (area.left, area.bottom), paper_only
        )
        if place is None:
            return ()
        found.append(gauge_at(*place, upright))
    return tuple(found)


def square_place(held: Held, area: Box) -> tuple[float, float, int]:
    """Return where in ``area`` a test square does least harm: its x and y, and how much ink it then meets.

    The ink is counted under the outlines and words of the square, not in its empty middle, which hides nothing.
    """
    room = square_box().grown(_CLEAR_MM)
    wide, high = int(room.width_mm / _CELL_MM) + 1, int(room.height_mm / _CELL_MM) + 1
    columns, rows = int(area.width_mm / _CELL_MM) - wide + 1, int(area.height_mm / _CELL_MM) - high + 1
    if columns < 1 or rows < 1:
        return area.left - room.left, area.bottom - room.bottom, len(held.ink)
    grid = _Grid(area, held)
    inner, outer = int(FRAME_IN_MM / _CELL_MM), int(FRAME_OUT_MM / _CELL_MM)
    inner, outer = inner + 1, outer + 1
    hollow = (inner, inner, wide - inner - outer, high - inner - outer)
    ink = grid.counts(grid.ink, wide, high)
    middle = grid.counts(grid.ink, *hollow[2:], offset=hollow[:2])[:rows, :columns]
    met = ink - middle
    firm = grid.counts(grid.firm, wide, high) - grid.counts(grid.firm, *hollow[2:], offset=hollow[:2])[:rows, :columns]
    near = grid.counts(grid.beside, wide, high) - grid.counts(grid.beside, *hollow[2:], offset=hollow[:2])[:rows, :columns]
    ground = grid.counts(grid.ground, wide, high)
    harm = np.where(met > 0, met + _FIRM_COSTS * firm + near, 0)
    up, across = np.indices(met.shape).reshape(2, -1)
    best = int(np.lexsort((across, up, middle.ravel(), near.ravel(), ground.ravel(), harm.ravel()))[0])
    x, y = area.left + _CELL_MM * across[best] - room.left, area.bottom + _CELL_MM * up[best] - room.bottom
    return float(x), float(y), int(met.flat[best])


def box_place(
    held: Held,
    area: Box,
    width_mm: float,
    height_mm: float,
    near: tuple[float, float],
    paper_only: bool = False,
) -> tuple[float, float] | None:
    """Return the lower left corner of a clear place of that size nearest to the point ``near``.

    Clear paper comes first, then, unless ``paper_only``, a place inside a piece that no ink is on; None when there is
    neither.
    """
    wide, high = int(width_mm / _CELL_MM) + 2, int(height_mm / _CELL_MM) + 2
    if wide > int(area.width_mm / _CELL_MM) or high > int(area.height_mm / _CELL_MM):
        return None
    grid = _Grid(area, held)
    free = grid.counts(grid.ink, wide, high) == 0
    clean = free & (grid.counts(grid.ground, wide, high) == 0)
    for places in (clean,) if paper_only else (clean, free):
        up, across = np.nonzero(places)
        if len(up):
            x, y = area.left + _CELL_MM * (across + 0.5), area.bottom + _CELL_MM * (up + 0.5)
            best = int(np.argmin(np.hypot(x + 0.5 * width_mm - near[0], y + 0.5 * height_mm - near[1])))
            return float(x[best]), float(y[best])
    return None


class _Grid:
    """The cells of an area: how much ink and firm ink is in each, which lie beside a firm line or inside a piece."""

    def __init__(self, area: Box, held: Held) -> None:
        shape = int(area.height_mm / _CELL_MM), int(area.width_mm / _CELL_MM)
        origin = np.array([area.left, area.bottom])
        edges = area.bottom + _CELL_MM * np.arange(shape[0] + 1), area.left + _CELL_MM * np.arange(shape[1] + 1)
        self.ink = _histogram(held.ink, edges)
        self.firm = _histogram(held.firm, edges)
        self.beside = _spread(self.firm > 0, int(_BESIDE_MM / _CELL_MM))
        self.ground = np.zeros(shape, dtype=np.int64)
        for ring in held.grounds:
            self.ground |= raster.filled(ring, origin, _CELL_MM, shape)

    @staticmethod
    def counts(cells: Counts, wide: int, high: int, offset: tuple[int, int] = (0, 0)) -> Counts:
        """Sums over every window of ``wide`` by ``high`` cells, from the lower left one, shifted by ``offset``."""
        table = np.pad(cells.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
        part = table[high:, wide:] - table[:-high, wide:] - table[high:, :-wide] + table[:-high, :-wide]
        return np.asarray(part[offset[1] :, offset[0] :], dtype=np.int64)


def _histogram(points: Points, edges: tuple[NDArray[np.float64], NDArray[np.float64]]) -> Counts:
    if not len(points):
        return np.zeros((len(edges[0]) - 1, len(edges[1]) - 1), dtype=np.int64)
    return np.asarray(np.histogram2d(points[:, 1], points[:, 0], edges)[0], dtype=np.int64)


def _spread(cells: NDArray[np.bool_], by: int) -> Counts:
    """The cells no further than ``by`` from one of those."""
    wide = np.pad(cells, by)
    high, across = cells.shape
    steps = range(2 * by + 1)
    level = np.any([wide[:, step : step + across] for step in steps], axis=0)
    return np.asarray(np.any([level[step : step + high] for step in steps], axis=0), dtype=np.int64)


def _inside(points: Points, box: Box) -> Points:
    kept = np.all((points > (box.left, box.bottom)) & (points < (box.right, box.top)), axis=1)
    return points[kept]
