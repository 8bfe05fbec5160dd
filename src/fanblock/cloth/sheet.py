"""A cloth's layout as a drawing, not at true scale: where every piece lies, how far up the cloth, and what is left."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np

from fanblock.cloth.laying import Lay
from fanblock.cloth.nesting import Laid
from fanblock.cloth.words import lay_sentences
from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.meet import crossings, points_at
from fanblock.geometry.region import inner_point, thinned
from fanblock.pattern.model import Pattern
from fanblock.sheet import phrases
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.font import fitted
from fanblock.sheet.paper import Paper
from fanblock.sheet.setting import Items, heading, paragraphs, text_area
from fanblock.sheet.squares import line
from fanblock.sheet.upright import moved_group
from fanblock.tolerances import BEZIER_MM
from fanblock.units import UNITS, format_length

_SIZE_MM, _HEAD_MM, _FOOT_MM, _SIDE_MM = 3.1, 5.0, 9.0, 14.0
"""Size of the text and of headings; room below the cloth for its ruler, and beside it for words."""

_NUMBER_MM, _LEAST_NUMBER_MM, _NAME_RATIO = 5.0, 2.2, 0.45
"""Largest and smallest number on a piece, and how large its name is against that."""

_LEAST_NAME_MM = 1.4
"""A name that would be smaller is left out: the number says which piece it is."""

_ARROW_SHARE, _ARROW_MM = 0.38, 6.0
"""Half the length of a grain arrow: a share of the room beside the words, and at most."""


Put = Callable[[Points], Points]
"""From places on the cloth to places on the page."""


def lay_drawing(lay: Lay, width_mm: float, most_mm: float, units: str) -> Drawing:
    """Return a cloth with its pieces, its length along the page's width, no higher than ``most_mm``."""
    room = width_mm - _SIDE_MM - 2.0
    scale = min(room / lay.length_mm, (most_mm - _FOOT_MM - 4.0) / lay.width_mm)
    height = scale * lay.width_mm + _FOOT_MM + 4.0
    shift = np.array([_SIDE_MM, _FOOT_MM])

    def put(points: Points) -> Points:
        return frozen(np.asarray(points) * scale + shift)

    groups = [Group("cloth", tuple(_cloth(lay, put, units)))]
    groups += [Group(f"piece {number}", tuple(_piece(laid, put))) for number, laid in enumerate(_placed(lay), 1)]
    return Drawing(f"{lay.layer} cloth", width_mm, height, tuple(groups))


def _placed(lay: Lay) -> tuple[Laid, ...]:
    """The pieces where they lie, from the lower edge of the cloth: folded cloth lies with its fold below."""
    free = 0.0 if lay.cloth.folded else lay.cloth.selvedge_mm
    doubled = [laid.moved(0.0, free) for laid in lay.doubled]
    single = [laid.moved(0.0, lay.cloth.selvedge_mm) for laid in lay.single]
    return (*doubled, *single)


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
    low, high = put(np.array([(0.0, 0.0), (0.0, parts[0][2])]))
    says = "folded" if lay.doubled else format_length(lay.width_mm, units)
    yield Words(says, float(low[0]) - 1.5, float(low[1] + high[1]) / 2.0, 2.8, "middle", 90.0)
    step = 9.0 * UNITS["in"] if units == "in" else 100.0
    for number in range(int(lay.length_mm / step) + 1):
        (x, y), *_ = put(np.array([(number * step, 0.0)]))
        tall = 2.2 if number % (2 if units == "in" else 5) == 0 else 1.1
        yield line([(float(x), float(y) - 0.6), (float(x), float(y) - 0.6 - tall)], "scale")
        if tall > 2.0:
            yield Words(format_length(number * step, units), float(x), float(y) - 6.0, 2.4, "middle")


def _piece(laid: Laid, put: Put) -> Iterator[Stroke | Words]:
    """A piece, its number and name, and its grain with its head at the top of the piece."""
    ring = put(laid.ring)
    yield Stroke(polyline(thinned(np.vstack((ring, ring[:1])), BEZIER_MM)), "mini", "cut line", True)
    (x, y), (long, wide) = (float(at) for at in inner_point(ring)), np.ptp(ring, axis=0)
    size = max(min(_NUMBER_MM, 0.3 * float(wide), 0.3 * float(long)), _LEAST_NUMBER_MM)
    half = "R" if laid.shape.mirrored else "L"
    number = f"{laid.shape.number}{half}" if laid.shape.paired else str(laid.shape.number)
    yield Words(number, x, y - 0.3 * size, size, "middle", bold=True)
    if _NAME_RATIO * size >= _LEAST_NAME_MM:
        name = fitted(laid.shape.name, _NAME_RATIO * size, 0.6 * float(long))
        yield Words(name, x, y - 0.95 * size, _NAME_RATIO * size, "middle")
    yield from _arrow(ring, x, y, 1.2 * size, -1.0 if laid.turned else 1.0)


def _arrow(ring: Points, x: float, y: float, clear_mm: float, way: float) -> Iterator[Stroke]:
    """A grain arrow beside the words at ``(x, y)``, on the side where the piece has more room."""
    closed = np.vstack((ring, ring[:1]))
    cuts = points_at(closed, crossings(closed, 1, y))[:, 0]
    left = max((cut for cut in cuts.tolist() if cut < x), default=x)
    right = min((cut for cut in cuts.tolist() if cut > x), default=x)
    start, end = (x + clear_mm, right) if right - x > x - left else (left, x - clear_mm)
    reach = way * min(_ARROW_SHARE * (end - start), _ARROW_MM)
    middle = 0.5 * (start + end)
    tail, tip = middle - reach, middle + reach
    yield line([(tail, y), (tip, y)], "grain", "grain")
    yield line([(tip - way * 1.6, y + 0.7), (tip, y), (tip - way * 1.6, y - 0.7)], "grain", "grain arrow")


def cloth_pages(pattern: Pattern, lays: Sequence[Lay], paper: Paper) -> tuple[Drawing, ...]:
    """Return a page for every cloth: what it is, how its pieces lie on it, what to buy and what is left."""
    return tuple(_page(pattern, lay, paper) for lay in lays)


def _page(pattern: Pattern, lay: Lay, paper: Paper) -> Drawing:
    area = text_area(paper)
    garment, stamp = phrases.identity(pattern.title)
    items: Items = []
    more, top = heading(
        f"{lay.layer}: how the pieces lie on the cloth", area.left, area.top - 2.0, area.width_mm, _HEAD_MM
    )
    items += more
    more, top = paragraphs(
        [f"{garment} · {stamp}", *lay_sentences(lay, pattern.body.units)], area.left, top, area.width_mm, _SIZE_MM
    )
    items += more
    drawing = lay_drawing(lay, area.width_mm, top - area.bottom - 4.0, pattern.body.units)
    moved = tuple(moved_group(group, (area.left, top - 4.0 - drawing.height_mm)) for group in drawing.groups)
    return Drawing("cover", paper.width_mm, paper.height_mm, (Group("cover words", tuple(items)), *moved))
