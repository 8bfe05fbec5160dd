"""Room for words: which places inside a piece are still free of lines and of other words.

The piece is looked at on a grid of small cells. A cell is taken when it lies outside, when a line passes through it
or when words stand on it. Boxes are upright or turned; asking for the best place of an upright box looks at all
places at once.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry import raster
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.raster import Mask

CELL_MM = 1.0
"""Side of a cell unless a small picture asks for finer ones."""
CLEAR_MM = 0.9
"""How far words keep from lines and from one another."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle about (``x``, ``y``), ``width_mm`` along its own turned base line and ``height_mm`` across it."""

    x: float
    y: float
    width_mm: float
    height_mm: float
    angle_deg: float = 0.0

    def corners(self) -> Points:
        """Return the four corners, counter-clockwise from the lower left of the unturned box."""
        half = 0.5 * np.array([self.width_mm, self.height_mm])
        return self._placed(np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * half)

    def dense(self, step_mm: float, more_mm: float = 0.0) -> Points:
        """Return points all over the box grown by ``more_mm``, at most ``step_mm`` apart."""
        wide, high = self.width_mm + 2 * more_mm, self.height_mm + 2 * more_mm
        columns, rows = max(1, math.ceil(wide / step_mm)), max(1, math.ceil(high / step_mm))
        points = np.empty((rows + 1, columns + 1, 2))
        points[..., 0] = (np.arange(columns + 1) / columns - 0.5) * wide
        points[..., 1] = ((np.arange(rows + 1) / rows - 0.5) * high)[:, None]
        return self._placed(points.reshape(-1, 2))

    def _placed(self, points: Points) -> Points:
        turn = math.radians(self.angle_deg)
        cos, sin = math.cos(turn), math.sin(turn)
        return np.asarray(points @ np.array([[cos, sin], [-sin, cos]]) + (self.x, self.y))


@dataclass(frozen=True, eq=False)
class Space:
    """What is free inside one outline."""

    origin: Points
    taken: Mask
    cell_mm: float = CELL_MM

    @staticmethod
    def within(outline: Points, lines: Sequence[Points], cell_mm: float = CELL_MM) -> Space:
        """Return the space inside ``outline`` that keeps clear of its own line and of ``lines``."""
        origin = outline.min(axis=0) - 2.0 * cell_mm
        size = np.ceil((outline.max(axis=0) - origin) / cell_mm).astype(np.int64) + 2
        shape = (int(size[1]), int(size[0]))
        taken = ~raster.filled(outline, origin, cell_mm, shape)
        taken |= raster.stamped((np.vstack((outline, outline[:1])), *lines), origin, cell_mm, shape)
        return Space(frozen(origin), taken, cell_mm)

    def first_free(self, boxes: Sequence[Box]) -> Box | None:
        """Return the first of some boxes that is free with its clearance; None if none is. All are of one size."""
        x, y = Box(0.0, 0.0, boxes[0].width_mm, boxes[0].height_mm).dense(0.7 * self.cell_mm, CLEAR_MM).T
        places = np.array([[box.x - self.origin[0], box.y - self.origin[1], box.angle_deg] for box in boxes])
        cos, sin = np.cos(np.radians(places[:, 2:])), np.sin(np.radians(places[:, 2:]))
        column = np.floor((places[:, :1] + cos * x - sin * y) / self.cell_mm).astype(np.int64)
        row = np.floor((places[:, 1:2] + sin * x + cos * y) / self.cell_mm).astype(np.int64)
        rows, columns = self.taken.shape
        inside = ((column >= 0) & (column < columns) & (row >= 0) & (row < rows)).all(axis=1)
        for at in np.flatnonzero(inside).tolist():
            if not self.taken[row[at], column[at]].any():
                return boxes[at]
        return None

    def without(self, box: Box) -> Space:
        """Return the space that is left when words stand in the box."""
        mask = raster.cells_at(box.dense(0.5 * self.cell_mm), self.origin, self.cell_mm, self.taken.shape)
        return replace(self, taken=self.taken | mask)

    def stamped(self, lines: Sequence[Points]) -> Mask:
        """Return the cells that more lines pass through."""
        return raster.stamped(lines, self.origin, self.cell_mm, (self.taken.shape[0], self.taken.shape[1]))

    def less(self, mask: Mask) -> Space:
        """Return the space that is left when these cells are taken too."""
        return replace(self, taken=self.taken | mask)

    def outside(self, outline: Points) -> Space:
        """Return the space that is left outside of an outline."""
        return self.less(raster.filled(outline, self.origin, self.cell_mm, (self.taken.shape[0], self.taken.shape[1])))

    def only(self, low: Points, high: Points) -> Space:
        """Return the space within the upright rectangle from ``low`` to ``high``."""
        start = np.ceil((low - self.origin) / self.cell_mm).astype(np.int64).clip(0)
        end = np.floor((high - self.origin) / self.cell_mm).astype(np.int64).clip(0)
        return replace(
            self,
            origin=frozen(self.origin + start * self.cell_mm),
            taken=self.taken[start[1] : end[1], start[0] : end[0]],
        )

    @cached_property
    def _sums(self) -> NDArray[np.int32]:
        return raster.sums(self.taken)

    def nearest(
        self,
        width_mm: float,
        height_mm: float,
        to: Points,
        angle_deg: float,
        weights: tuple[float, float] = (1.0, 1.0),
        reach_mm: float = np.inf,
    ) -> tuple[float, Box] | None:
        """Return the free place for a box nearest to the point ``to``, and how far off it is; None if there is none.

        ``angle_deg`` is 0 or 90. ``weights`` say how much a step sideways and a step up or down count. Places further
        off than ``reach_mm`` are not looked at.
        """
        wide, high = (width_mm, height_mm) if angle_deg == 0.0 else (height_mm, width_mm)
        cells = np.ceil((np.array([wide, high]) + 2 * CLEAR_MM) / self.cell_mm).astype(np.int64)
        low = np.zeros(2, dtype=np.int64)
        ends = np.array(self.taken.shape[::-1]) - cells + 1  # one past the last corner, in columns and rows
        if np.isfinite(reach_mm):
            aim = (to - self.origin) / self.cell_mm - 0.5 * cells
            reach = reach_mm / np.array(weights) / self.cell_mm
            low = np.maximum(low, np.ceil(aim - reach).astype(np.int64))
            ends = np.minimum(ends, np.floor(aim + reach).astype(np.int64) + 1)
        if (ends <= low).any():
            return None
        table = self._sums[low[1] : ends[1] + cells[1], low[0] : ends[0] + cells[0]]
        rows, columns = np.nonzero(raster.free_corners(table, int(cells[1]), int(cells[0])))
        if len(rows) == 0:
            return None
        x = self.origin[0] + (low[0] + columns + 0.5 * cells[0]) * self.cell_mm
        y = self.origin[1] + (low[1] + rows + 0.5 * cells[1]) * self.cell_mm
        off = np.hypot((x - to[0]) * weights[0], (y - to[1]) * weights[1])
        best = int(np.argmin(off))
        if off[best] > reach_mm:
            return None
        return float(off[best]), Box(float(x[best]), float(y[best]), width_mm, height_mm, angle_deg)
