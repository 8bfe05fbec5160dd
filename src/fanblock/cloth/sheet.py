"""A cloth's layout as a drawing, not at true scale: where every piece lies, how far up the cloth, and what is left."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import numpy as np

from fanblock.cloth.laying import Lay
from fanblock.cloth.places import HEADS, Place, place_rows, place_words, places_of
from fanblock.cloth.words import lay_sentences
from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.meet import crossings, points_at
from fanblock.geometry.region import inner_point, thinned
from fanblock.pattern.model import Pattern
from fanblock.sheet import phrases
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.font import width_mm
from fanblock.sheet.paper import Paper
from fanblock.sheet.setting import Items, heading, paragraphs, table, text_area
from fanblock.sheet.squares import line
from fanblock.sheet.upright import moved_group
from fanblock.tolerances import BEZIER_MM
from fanblock.units import UNITS, format_length

_SIZE_MM, _HEAD_MM, _FOOT_MM, _SIDE_MM = 3.1, 5.0, 9.0, 14.0
"""Size of the text and of headings; room below the cloth for its ruler, and beside it for words."""

_RULER_MM = 16.0
"""Room at the far end of the cloth for the ruler across it."""

_BESIDE_MM, _LEAST_TABLE_MM = 4.0, 115.0
"""Room between the cloth and a table that stands beside it, and the least width of such a table."""

_INSET_MM = 1.2
"""How far the drawn grain line keeps from the outline of its piece, on the page."""

_NUMBER_MM, _LEAST_NUMBER_MM = 5.0, 2.2
"""Largest and smallest mark on a piece; its name stands in the table."""

_HEAD_LONG_MM, _HEAD_WIDE_MM, _CLEAR_MM = 2.0, 0.8, 0.7
"""How long and half how wide the head of a grain arrow is; room on either side of words that stand on a grain line."""

_DASH_MM, _DOT_MM = 3.0, 1.0
"""Dashes of the line that keeps pieces off the selvedge, and of a fold that was opened out, each with as much free."""

_TABLE_MM, _LEAST_DRAWING_MM = 2.6, 80.0
"""Size of the table of places; a drawing that would be lower has its table on a page of its own."""

_SHARES = (0.09, 0.21, 0.17, 0.15, 0.14, 0.13, 0.11)
_NARROW_SHARES = (0.09, 0.19, 0.16, 0.14, 0.14, 0.14, 0.14)
"""Widths of its columns, as shares of the page's, or of the room beside the cloth."""

Put = Callable[[Points], Points]
"""From places on the cloth to places on the page."""


def lay_drawing(lay: Lay, wide_mm: float, most_mm: float, units: str) -> Drawing:
    """Return a cloth with its pieces, its length along the page's width, no higher than ``most_mm``; ``wide_mm`` is the page's."""
    room = wide_mm - _SIDE_MM - _RULER_MM
    high = lay.width_mm / 2.0 if lay.doubled and not lay.single else lay.width_mm
    scale = min(room / lay.length_mm, (most_mm - _FOOT_MM - 4.0) / high)
    height = scale * high + _FOOT_MM + 4.0
    shift = np.array([_SIDE_MM, _FOOT_MM])

    def put(points: Points) -> Points:
        return frozen(np.asarray(points) * scale + shift)

    groups = [Group("cloth", tuple(_cloth(lay, put, units)))]
    groups += [Group(f"piece {number}", tuple(_piece(place, put))) for number, place in enumerate(places_of(lay), 1)]
    return Drawing(f"{lay.layer} cloth", wide_mm, height, tuple(groups))


def _cloth(lay: Lay, put: Put, units: str) -> Iterator[Stroke | Words]:
    """The cloth's edges, its fold, its selvedges in words, and a ruler below."""
    parts = [(0.0, lay.doubled_mm, lay.width_mm / 2.0)] if lay.doubled else []
    if lay.single or not lay.doubled:
        parts.append((lay.doubled_mm, lay.length_mm, lay.width_mm))
    elif lay.doubled:
        parts = [(0.0, lay.length_mm, lay.width_mm / 2.0)]
    for start, end, wide in parts:
        corners = put(np.array([(start, 0.0), (end, 0.0), (end, wide), (start, wide)]))
        yield Stroke(polyline(corners, closed=True), "paper", "cloth", True)
        yield from _kept_free(lay, start, end, wide, put)
    low, high = put(np.array([(0.0, 0.0), (0.0, parts[0][2])]))
    yield from _edge_names(lay, low, high)
    says = "folded" if lay.doubled else format_length(lay.width_mm, units)
    yield Words(says, float(low[0]) - 1.5, float(low[1] + high[1]) / 2.0, 2.8, "middle", 90.0)
    yield from _rulers(lay, parts[-1][1:], put, units)


def _rulers(lay: Lay, far: tuple[float, float], put: Put, units: str) -> Iterator[Stroke | Words]:
    """A ruler below, from the cut end on, and one at the far end, from the lower edge up."""
    step, each = (4.5 * UNITS["in"], 4) if units == "in" else (100.0, 5)
    for axis, long in ((0, lay.length_mm), (1, far[1])):
        named = each if long >= 2 * each * step else each // 2
        for number in range(int(long / step) + 1):
            place = (number * step, 0.0) if axis == 0 else (far[0], number * step)
            x, y = put(np.array([place]))[0].tolist()
            tall, says = (2.2 if number % named == 0 else 1.1), format_length(number * step, units)
            ends = [(x, y - 0.6), (x, y - 0.6 - tall)] if axis == 0 else [(x + 0.6, y), (x + 0.6 + tall, y)]
            yield line(ends, "scale")
            if number % named == 0:
                at = (x, y - 6.0) if axis == 0 else (x + 3.6, y - 0.8)
                yield Words(says, *at, 2.4, "middle" if axis == 0 else "start")


def _kept_free(lay: Lay, start: float, end: float, wide: float, put: Put) -> Iterator[Stroke]:
    """The lines that pieces keep to beside the selvedges; beside a fold there is none."""
    kept = lay.cloth.selvedge_mm
    if kept:
        doubled = bool(lay.doubled) and start < lay.doubled_mm
        for y in (wide - kept,) if doubled else (kept, wide - kept):
            yield from _dashed(put(np.array([(start, y), (end, y)])), _DASH_MM, "kept free")


def _dashed(points: Points, dash_mm: float, name: str) -> Iterator[Stroke]:
    """A straight line in dashes."""
    (a, b), long = points, float(np.hypot(*(points[1] - points[0])))
    count = max(int(long / (2.0 * dash_mm)), 1)
    for number in range(count):
        ends = [a + (b - a) * share / (2.0 * count) for share in (2 * number, 2 * number + 1)]
        yield line([(float(x), float(y)) for x, y in ends], "guide", name)


def _edge_names(lay: Lay, low: Points, high: Points) -> Iterator[Words]:
    """What the lower and the upper edge of the cloth are, at its left end, and which way a nap lies."""
    below = "fold" if lay.doubled else "selvedge"
    yield Words(below, float(low[0]) - 1.0, float(low[1]) + 0.3, 2.4, "end")
    yield Words("selvedge" if not lay.doubled else "selvedges", float(low[0]) - 1.0, float(high[1]) - 1.8, 2.4, "end")
    if lay.cloth.nap:
        yield Words("nap: all tops ▶", float(low[0]) + 0.5, float(high[1]) + 0.9, 2.4)


def _piece(place: Place, put: Put) -> Iterator[Stroke | Words]:
    """A piece with its mark, and its grain line where it lies, with its head at the top of the piece."""
    shape, ring = place.laid.shape, put(place.laid.ring)
    yield Stroke(polyline(thinned(np.vstack((ring, ring[:1])), BEZIER_MM)), "mini", "cut line", True)
    if shape.fold is not None:
        yield from _dashed(put(place.laid.put(shape.fold)), _DOT_MM, "opened fold")
    foot, tip = _inside(put(place.laid.grain), ring)
    (x, y), (long, wide) = (float(at) for at in inner_point(ring)), np.ptp(ring, axis=0)
    size = max(min(_NUMBER_MM, 0.3 * float(wide), 0.3 * float(long)), _LEAST_NUMBER_MM)
    half = 0.5 * width_mm(place.mark, size, True) + _CLEAR_MM
    if abs(y - float(foot[1])) < size:
        x, y = (float(at) for at in 0.5 * (foot + tip))
    yield Words(place.mark, x, y - 0.35 * size, size, "middle", bold=True)
    yield from _arrow(foot, tip, (x - half, x + half) if y == float(foot[1]) else None)


def _inside(grain: Points, ring: Points) -> tuple[Points, Points]:
    """The longest part of a level grain line that lies well within a piece; all of it where none does."""
    foot, tip = grain
    closed = np.vstack((ring, ring[:1]))
    at = np.sort(points_at(closed, crossings(closed, 1, float(foot[1])))[:, 0])
    low, high = sorted((float(foot[0]), float(tip[0])))
    parts = [
        (max(low, start + _INSET_MM), min(high, end - _INSET_MM))
        for start, end in zip(at[0::2], at[1::2], strict=False)
    ]
    start, end = max(parts, key=lambda part: part[1] - part[0], default=(low, high))
    if end - start < 2.0 * _HEAD_LONG_MM:
        start, end = low, high
    y = float(foot[1])
    ends = (start, end) if foot[0] < tip[0] else (end, start)
    return frozen([ends[0], y]), frozen([ends[1], y])


def _arrow(foot: Points, tip: Points, words: tuple[float, float] | None) -> Iterator[Stroke]:
    """A grain line with its head at the top of the piece, broken for ``words`` that stand on it from here to there."""
    y, start, end = float(foot[1]), float(foot[0]), float(tip[0])
    way = 1.0 if end > start else -1.0
    low, high = sorted((start, end))
    parts = [(low, high)] if words is None else [(low, words[0]), (words[1], high)]
    for left, right in parts:
        if right > left:
            yield line([(left, y), (right, y)], "grain", "grain")
    head = [(end - way * _HEAD_LONG_MM, y + up) for up in (_HEAD_WIDE_MM, -_HEAD_WIDE_MM)]
    yield line([head[0], (end, y), head[1]], "grain", "grain arrow")


def cloth_pages(pattern: Pattern, lays: Sequence[Lay], paper: Paper) -> tuple[Drawing, ...]:
    """Return the pages of every cloth: what it is, how its pieces lie on it, what to buy, and where to lay each piece."""
    return tuple(page for lay in lays for page in _pages(pattern, lay, paper))


def _beside(lay: Lay, rows: Sequence[Sequence[str]], wide: float, most: float, units: str) -> Drawing | None:
    """The drawing of a cloth that leaves room for its table at its right, as wide as the cloth; None where that has none."""
    drawing = lay_drawing(lay, wide - _LEAST_TABLE_MM - _BESIDE_MM, most, units)
    width = drawn_width_mm(drawing)
    left = wide - width - _BESIDE_MM
    _, low = table(rows, 0.0, 0.0, [share * left for share in _NARROW_SHARES], _TABLE_MM)
    return replace(drawing, width_mm=width) if -low <= most else None


def drawn_width_mm(drawing: Drawing) -> float:
    """Return how far to the right a drawing reaches, with room for the ruler's figures."""
    strokes = [item.beziers for group in drawing.groups for item in group.items if isinstance(item, Stroke)]
    return float(max(run[..., 0].max() for run in strokes)) + _RULER_MM - 4.0


def _pages(pattern: Pattern, lay: Lay, paper: Paper) -> Iterator[Drawing]:
    area, units = text_area(paper), pattern.body.units
    garment, stamp = phrases.identity(pattern.title)
    items: Items = []
    head = f"{lay.layer}: how the pieces lie on the cloth"
    more, top = heading(head, area.left, area.top - 2.0, area.width_mm, _HEAD_MM)
    items += more
    says = [f"{garment} · {stamp}", *lay_sentences(lay, units), place_words(lay)]
    more, top = paragraphs(says, area.left, top, area.width_mm, _SIZE_MM)
    items += more
    rows = [HEADS, *place_rows(lay, units)]
    widths = [share * area.width_mm for share in _SHARES]
    _, low = table(rows, area.left, 0.0, widths, _TABLE_MM)
    most = top - area.bottom - 4.0
    below = most + low - 4.0 >= _LEAST_DRAWING_MM
    drawing = lay_drawing(lay, area.width_mm, most + (low - 4.0 if below else 0.0), units)
    beside = _beside(lay, rows, area.width_mm, most, units)
    if beside is not None and (not below or beside.height_mm > drawing.height_mm):
        drawing, right = beside, area.left + beside.width_mm + _BESIDE_MM
        shares = [share * (area.right - right) for share in _NARROW_SHARES]
        items += table(rows, right, top - 4.0, shares, _TABLE_MM)[0]
        rows = []
    foot = top - 4.0 - drawing.height_mm
    moved = tuple(moved_group(group, (area.left, foot)) for group in drawing.groups)
    if rows and below:
        items += table(rows, area.left, foot - 2.0, widths, _TABLE_MM)[0]
        rows = []
    yield Drawing("cover", paper.width_mm, paper.height_mm, (Group("cover words", tuple(items)), *moved))
    while len(rows) > 1:
        head_items, top = heading(f"{lay.layer}: where to lay each piece", area.left, area.top - 2.0, area.width_mm)
        count = len(rows)
        while count > 2 and table(rows[:count], area.left, top, widths, _TABLE_MM)[1] < area.bottom:
            count -= 1
        more, _ = table(rows[:count], area.left, top, widths, _TABLE_MM)
        yield Drawing("cover", paper.width_mm, paper.height_mm, (Group("cover words", (*head_items, *more)),))
        rows = [HEADS, *rows[count:]]
