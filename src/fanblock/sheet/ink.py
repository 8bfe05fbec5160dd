"""Where a drawing puts ink: points along every line and under every word, close enough to ask what a page
carries."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from fanblock.geometry.bezier import polyline, sample_each
from fanblock.geometry.curve import Points, frozen
from fanblock.sheet.drawing import PENS, Group, Stroke, Words
from fanblock.sheet.font import width_mm
from fanblock.tolerances import INK_STEP_MM

_RISE, _FALL = 0.75, 0.22
_FILL_STEP_MM = 5.0
_SIDES = np.array([[1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0]])
_CORNER = math.sqrt(2.0) / 4.0  # of a step: the deepest a line goes into a corner between two points


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle in millimetres."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width_mm(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height_mm(self) -> float:
        """From bottom to top."""
        return self.top - self.bottom

    def moved(self, x: float, y: float) -> Box:
        """Return the box shifted by ``x`` and ``y``."""
        return Box(self.left + x, self.bottom + y, self.right + x, self.top + y)

    def grown(self, by_mm: float) -> Box:
        """Return the box with every side moved outward."""
        return Box(self.left - by_mm, self.bottom - by_mm, self.right + by_mm, self.top + by_mm)


def ink_points(groups: Iterable[Group]) -> Points:
    """Return points, shape (n, 2), at most ``INK_STEP_MM`` apart on both sides of every line and over every
    word.

    They stand off lines by half their width and half a millimetre more, so that no corner of a page a line
    cuts off between two of them is missed.
    """
    items = [item for group in groups for item in group.items]
    strokes = [item for item in items if isinstance(item, Stroke)]
    words = [item for item in items if isinstance(item, Words)]
    return frozen(np.vstack((np.empty((0, 2)), *_lines(strokes), *_texts(words))))


def extent(points: Points) -> Box | None:
    """Return the smallest box around ``points``; nothing when there are none."""
    if not len(points):
        return None
    (left, bottom), (right, top) = points.min(axis=0).tolist(), points.max(axis=0).tolist()
    return Box(left, bottom, right, top)


def words_corners(words: Words) -> Points:
    """Return the four corners of the rectangle a line of text covers, ascenders and descenders included."""
    corner, across, up = (np.array(one) for one in _rectangle(words))
    return np.array([corner, corner + across, corner + across + up, corner + up])


def _rectangle(words: Words) -> tuple[tuple[float, float], tuple[float, float], tuple[float, float]]:
    """The lower left corner of a line of text, and its sides along the base line and upward."""
    wide = width_mm(words.text, words.size_mm, words.bold)
    turn = math.radians(words.angle_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    left = {"start": 0.0, "middle": -wide / 2.0, "end": -wide}[words.anchor]
    low, high = -_FALL * words.size_mm, (_FALL + _RISE) * words.size_mm
    corner = words.x + left * cos - low * sin, words.y + left * sin + low * cos
    return corner, (wide * cos, wide * sin), (-high * sin, high * cos)


def _texts(words: Sequence[Words]) -> list[Points]:
    """Points over the rectangles that lines of text cover."""
    if not words:
        return []
    corner, across, up = np.moveaxis(np.array([_rectangle(one) for one in words]), 1, 0)
    columns = 2 + (np.hypot(across[:, 0], across[:, 1]) / INK_STEP_MM).astype(np.int64)
    rows = 2 + (np.hypot(up[:, 0], up[:, 1]) / INK_STEP_MM).astype(np.int64)
    counts = columns * rows
    owner = np.repeat(np.arange(len(words)), counts)
    row, column = np.divmod(np.arange(len(owner)) - (np.cumsum(counts) - counts)[owner], columns[owner])
    s, t = column / (columns - 1)[owner], row / (rows - 1)[owner]
    return [corner[owner] + s[:, None] * across[owner] + t[:, None] * up[owner]]


def _lines(strokes: Sequence[Stroke]) -> list[Points]:
    """Points on both sides of every stroke, and all over those that are filled."""
    if not strokes:
        return []
    runs = [_closed(stroke) if stroke.closed else stroke.beziers for stroke in strokes]
    on_bezier, bezier = sample_each(np.concatenate(runs), INK_STEP_MM)
    every = np.arange(len(strokes))
    owner = np.concatenate((np.repeat(every, [len(run) for run in runs])[bezier], every))
    points = np.vstack((on_bezier, [run[-1, 3] for run in runs]))
    half = np.array([PENS[stroke.pen].width_mm / 2.0 for stroke in strokes]) + _CORNER * INK_STEP_MM
    parts: list[Points] = [(points + half[owner][:, None] * side) for side in _SIDES]
    parts += [_inside(points[owner == at]) for at, one in enumerate(strokes) if PENS[one.pen].fill]
    return parts


def _closed(stroke: Stroke) -> Points:
    return np.concatenate((stroke.beziers, polyline((stroke.beziers[-1, 3], stroke.beziers[0, 0]))))


def _inside(loop: Points) -> Points:
    """Points of a square grid that lie within a closed loop, by the even-odd rule."""
    low, high = loop.min(axis=0), loop.max(axis=0)
    x = np.arange(low[0] + _FILL_STEP_MM / 2.0, high[0], _FILL_STEP_MM)
    kept = [np.empty((0, 2))]
    a, b = loop, np.roll(loop, -1, axis=0)
    for y in np.arange(low[1] + _FILL_STEP_MM / 2.0, high[1], _FILL_STEP_MM).tolist():
        crossed = (a[:, 1] > y) != (b[:, 1] > y)
        start, end = a[crossed], b[crossed]
        at = np.sort(start[:, 0] + (y - start[:, 1]) / (end[:, 1] - start[:, 1]) * (end[:, 0] - start[:, 0]))
        odd = np.searchsorted(at, x) % 2 == 1
        kept.append(np.stack((x[odd], np.full(int(odd.sum()), y)), axis=1))
    return np.vstack(kept)
