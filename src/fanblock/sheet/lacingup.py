"""How a garment is laced when it is put on: in words, and as a small picture of the lace's path.

In a spiral the two first holes are level, and so are the last ones. The lace goes level across at both ends and slants from
each hole of one row to the next of the other: hole 1 of the row whose second hole is half a space down, hole 1 of the other,
hole 2, hole 2, and so on. The ways are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from fanblock.geometry.curve import frozen
from fanblock.pattern.bones import SPIRAL, Lacing
from fanblock.pattern.model import Edge, Pattern
from fanblock.sheet import phrases
from fanblock.sheet.boning import ring
from fanblock.sheet.closing import opening_of
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.eyeletstrips import Row, strip_rows
from fanblock.sheet.setting import Items
from fanblock.sheet.squares import line
from fanblock.units import format_length

LAPPING = "hips-open"
"""The finding that tells how far skirts open over the hip: less than nought where they lap."""


def rows_of(lacing: Lacing) -> tuple[str, str]:
    """Return what the two rows of an opening are called."""
    return (lacing.panel, lacing.across) if lacing.across else ("left half", "right half")


def first_row(lacing: Lacing) -> int:
    """Return which row a spiral begins in, 0 or 1: that whose second hole is only half a space down."""
    return 0 if lacing.left_mm[1] < lacing.right_mm[1] else 1


def lacing_words(pattern: Pattern, lacing: Lacing) -> Iterator[str]:
    """Yield how an opening is laced on the body, from the first hole to the knot."""
    rows = rows_of(lacing)
    each = " Each side has a lace of its own." if lacing.times > 1 else ""
    if lacing.way == SPIRAL:
        start = first_row(lacing)
        first, second = rows[start], rows[1 - start]
        yield (
            f"To lace it: knot one end of the lace. Put the other end in from outside through hole 1 of the {first}, so that the knot "
            f"stays outside, and out through hole 1 of the {second}; then in through hole 2 of the {first}, out through hole 2 of the "
            f"{second}, and so on to the last: always in on the {first} and out on the {second}.{each}"
        )
        end = "Tie the end with half a bow to the last crossing: one pull undoes it"
    else:
        yield (
            "To lace it: put the two ends of the lace out from inside through both first holes and draw them equally long. Put each "
            f"across and out from inside through the next hole of the other row, and so on to the last.{each}"
        )
        end = "Tie the two ends in a bow: one pull undoes it"
    until = f"stand {format_length(lacing.gap_mm, pattern.body.units)} apart" if lacing.gap_mm else "meet"
    yield (
        f"Draw it close from the top down, a little at every hole and more than once, until the edges {until} at the waist. {end}. "
        f"{_kept(pattern, lacing)}"
    )
    if any(one.code == LAPPING and one.number < 0.0 for one in pattern.findings):
        yield "Where skirts lap over the hip, lay the one in front over the one behind it, on both sides alike."


def _edge(pattern: Pattern, lacing: Lacing) -> Edge:
    return pattern.by_name[lacing.panel].edge(lacing.edge)


def _kept(pattern: Pattern, lacing: Lacing) -> str:
    """Where the end of the lace is kept, so that the wearer reaches it."""
    at = opening_of(pattern, _edge(pattern, lacing)).at or phrases.center_of(_edge(pattern, lacing))
    if at == "center back":
        return "Bring the end round the waist to the front, where the wearer reaches it."
    return "Tuck the end in where the wearer reaches it."


WIDE_MM, APART_MM, EACH_MM = 62.0, 16.0, 3.2
"""Width of the picture; how far the two rows stand apart in it; room from hole to hole."""

_HOLE_MM, _KNOT_MM, _EDGE_MM, _SIZE_MM, _HEAD_MM, _NAME_MM, _BESIDE_MM, _END_MM = (
    0.6,
    1.1,
    3.0,
    2.5,
    12.0,
    3.0,
    2.0,
    6.0,
)
"""Sizes of holes and knots; how far a hole stands from its edge; size of words; room above and beside; how far the end hangs."""

CAPTION = (
    "The way of the lace, seen from outside: thick where it lies outside, dashed where it lies inside. "
    "It is not to scale."
)


def lace_pictures(pattern: Pattern) -> tuple[tuple[Lacing, Drawing], ...]:
    """Return for every lacing a picture of the way its lace goes."""
    rows = strip_rows(pattern)
    return tuple(
        (lacing, _picture((rows[2 * number], rows[2 * number + 1]))) for number, lacing in enumerate(pattern.lacings)
    )


def _picture(rows: tuple[Row, Row]) -> Drawing:
    lacing = rows[0].lacing
    step = lacing.spacing_mm
    tall = (max(lacing.left_mm[-1], lacing.right_mm[-1]) - min(lacing.left_mm[0], lacing.right_mm[0])) * EACH_MM / step
    high = tall + _HEAD_MM + _END_MM + _EDGE_MM
    top, first_mm = high - _HEAD_MM, min(lacing.left_mm[0], lacing.right_mm[0])
    at_left = 0 if rows[0].backward else 1
    middle = 0.5 * WIDE_MM
    xs = {at_left: middle - 0.5 * APART_MM, 1 - at_left: middle + 0.5 * APART_MM}
    holes = [
        [(xs[number], top - (down - first_mm) * EACH_MM / step) for down in row.down_mm]
        for number, row in enumerate(rows)
    ]
    items: Items = []
    low = min(y for row in holes for _, y in row) - _EDGE_MM
    for number, row in enumerate(rows):
        out = 1.0 if xs[number] < middle else -1.0
        edge = xs[number] + out * _EDGE_MM
        items.append(line([(edge, top + _EDGE_MM), (edge, low)], "cut", "edge"))
        anchor = "end" if out > 0.0 else "start"
        items.append(Words(row.name, xs[number] + out * _EDGE_MM, high - _NAME_MM, _SIZE_MM, anchor, bold=True))
        row_ys = [y for _, y in holes[number]]
        for count, (x, y) in enumerate(holes[number], 1):
            items.append(ring(frozen([x, y]), _HOLE_MM, f"hole {count}"))
            if _is_numbered(row_ys, count):
                items.append(Words(str(count), x - out * _BESIDE_MM, y - 0.35 * _SIZE_MM, _SIZE_MM, anchor))
    items += _spiral(holes, first_row(lacing)) if lacing.way == SPIRAL else _crossed(holes)
    return Drawing("lace", WIDE_MM, high, (Group("lace", tuple(items)),))


def _is_numbered(ys: list[float], count: int) -> bool:
    """Whether a hole has its number: the two at either end, but no inner one that is too near to the outer."""
    last = len(ys)
    if count in (1, last):
        return True
    near = {2: 1, last - 1: last}.get(count)
    return near is not None and abs(ys[count - 1] - ys[near - 1]) > _SIZE_MM


Holes = list[list[tuple[float, float]]]


def _spiral(holes: Holes, start: int) -> Iterator[Stroke | Words]:
    """In at each hole of the first row, level or slanting inside to the other, out and on over the outside to the next."""
    first, second = holes[start], holes[1 - start]
    for into, out in zip(first, second, strict=True):
        yield line([into, out], "place", "inside")
    for out, into in zip(second, first[1:], strict=False):
        yield line([out, into], "sewn", "outside")
    yield from _knot(first[0], -1.0 if first[0][0] < second[0][0] else 1.0)
    yield from _tied(second[-1], first[-1])


def _knot(hole: tuple[float, float], away: float) -> Iterator[Stroke | Words]:
    """The knot that stays outside at the first hole."""
    tip = (hole[0], hole[1] + _EDGE_MM + _KNOT_MM)
    yield line([hole, tip], "sewn", "knot")
    yield ring(frozen(tip), _KNOT_MM, "knot")
    anchor = "start" if away > 0.0 else "end"
    yield Words("knot", tip[0] + away * _BESIDE_MM, tip[1] - 0.35 * _SIZE_MM, _SIZE_MM, anchor)


def _tied(hole: tuple[float, float], other: tuple[float, float]) -> Iterator[Stroke | Words]:
    """The end that comes out of the last hole, and where it is tied."""
    middle = 0.5 * (hole[0] + other[0])
    foot = (middle, hole[1] - _END_MM)
    yield line([hole, foot], "sewn", "end")
    yield Words("tie here", middle, foot[1] - _SIZE_MM, _SIZE_MM, "middle")


def _crossed(holes: Holes) -> Iterator[Stroke | Words]:
    """Inside across the first pair, then each end out at a hole, over the gap and under the other edge to its next hole."""
    left, right = holes
    yield line([left[0], right[0]], "place", "inside")
    for row, other in ((left, right), (right, left)):
        toward = 1.0 if row[0][0] < other[0][0] else -1.0
        for (x, y), (to_x, to_y) in zip(row, other[1:], strict=False):
            share = 1.0 - _EDGE_MM / abs(to_x - x)
            edge = (to_x - toward * _EDGE_MM, y + share * (to_y - y))
            yield line([(x, y), edge], "sewn", "outside")
            yield line([edge, (to_x, to_y)], "place", "inside")
    yield from _tied(left[-1], right[-1])
    yield from list(_tied(right[-1], left[-1]))[:1]
