"""What stands on a page besides the drawing: its name, where to cut it, what it joins, and the test square.

All of it is drawn with the same primitives as the drawing, in millimetres from the lower left corner of the
paper. A joint carries two marks, a diamond and a disc, and its number beside both; either page has one half
of each, and the halves close to whole figures when the pages lie right.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.sheet.clear import Held, box_place, measured_on
from fanblock.sheet.drawing import PAPER_BLUE, Group, Stroke, Words
from fanblock.sheet.font import fitted, width_mm
from fanblock.sheet.ink import Box, words_corners
from fanblock.sheet.paper import Paper
from fanblock.sheet.squares import line
from fanblock.sheet.tiles import HEADER_MM, TRIM_MM, Joint, Tile, TilePlan, field_on, printable, window_on
from fanblock.sheet.writing import plain

SMALL_MM = 2.6
"""Smallest words on a page."""

_HEAD_MM, _NAME_MM, _PALE_MM = 3.0, 4.6, 13.0
_PALE = "#c9d6df"
_HALF_MM = 4.0
_ROUND = 0.5522847498
SCALE_WORDS = "print at 100 %, no scaling"


def header(paper: Paper, wide_mm: float, top_mm: float, name: str, words: Sequence[str], count: str) -> Group:
    """Return the band of words at the top: the page's name, then ``words``, then how to print and ``count``.

    The longest of ``words`` is shortened when they do not fit.
    """
    left, right = paper.margin_mm, wide_mm - paper.margin_mm
    base = top_mm - HEADER_MM + 1.9
    tail = " · ".join(part for part in (SCALE_WORDS, count) if part)
    head = left + width_mm(name, _NAME_MM, True) + (3.0 if name else 0.0)
    room = right - width_mm(tail, _HEAD_MM) - 5.0 - head
    items: list[Stroke | Words] = [Words(tail, right, base, _HEAD_MM, "end")]
    if name:
        items.insert(0, Words(name, left, base, _NAME_MM, bold=True))
    said = _shortened([plain(word) for word in words if plain(word)], room)
    if said:
        items.append(Words(said, head, base, _HEAD_MM))
    return Group("header", tuple(items))


def _shortened(words: list[str], room: float) -> str:
    said = " · ".join(words)
    over = width_mm(said, _HEAD_MM) - room
    if over > 0.0 and words:
        longest = max(range(len(words)), key=lambda index: width_mm(words[index], _HEAD_MM))
        words[longest] = fitted(words[longest], _HEAD_MM, width_mm(words[longest], _HEAD_MM) - over)
        said = fitted(" · ".join(words), _HEAD_MM, room)
    return said


def tile_page(
    plan: TilePlan, tile: Tile, carried: Held, words: Sequence[str], count: str
) -> tuple[list[Group], list[Group]]:
    """Return what lies under the drawing on the page of ``tile``, and what lies over it.

    ``carried`` is what the drawing puts on paper, in the drawing's own frame; the test square and the page's name keep
    clear of it.
    """
    paper = plan.paper
    field = field_on(paper)
    x, y = plan.shift(tile)
    joints = [joint for joint in plan.joints if tile in (joint.over, joint.under)]
    shown = carried.within(window_on(paper).moved(-x, -y)).moved(x, y)
    marks = Group("joints", tuple(item for joint in joints for item in _joint(joint, tile, plan, shown)))
    here = shown.with_ink([marks])
    measured = measured_on(here, _free_sides(tile, plan))
    under = Group("page name", (_pale(tile, field, here.with_ink(measured)),))
    top = printable(paper).top
    over = [header(paper, paper.width_mm, top, tile.name, words, count), marks, *measured]
    return [under], over


def _free_sides(tile: Tile, plan: TilePlan) -> Box:
    """Where the test square may stand: the page's own field, and the strips beside it that join no page."""
    field, window = field_on(plan.paper), window_on(plan.paper)
    beside = {
        (row, column): (tile.row + row, tile.column + column) in plan.by_place
        for row, column in ((0, -1), (0, 1), (-1, 0), (1, 0))
    }
    return Box(
        field.left if beside[0, -1] else window.left,
        field.bottom if beside[1, 0] else field.bottom - TRIM_MM,
        field.right if beside[0, 1] else field.right + TRIM_MM,
        field.top if beside[-1, 0] else window.top,
    )


def _pale(tile: Tile, field: Box, here: Held) -> Words:
    """The page's name, large and pale, on clear paper nearest the upper left corner; it stays when the edges are cut
    off and covered.
    """
    high = 0.75 * _PALE_MM
    corner = field.left + 6.0, field.top - 6.0 - high
    wide = width_mm(tile.name, _PALE_MM, True)
    near = corner[0] + 0.5 * wide, corner[1] + 0.5 * high
    x, y = box_place(here, field.grown(-4.0), wide, high, near) or corner
    return Words(tile.name, x, y, _PALE_MM, bold=True, color=_PALE)


def _joint(joint: Joint, tile: Tile, plan: TilePlan, shown: Held) -> list[Stroke | Words]:
    """One joint as it stands on the page of ``tile``: its line, its two half marks, its words."""
    window = window_on(plan.paper)
    x, y = plan.shift(tile)
    over = tile == joint.over
    inward = -1.0 if over == joint.upright else 1.0
    items: list[Stroke | Words] = []
    pen = "trim" if over else "meet"
    if joint.upright:
        at = joint.at_mm + x
        items.append(line([(at, window.bottom), (at, window.top)], pen))
        marks = [(at, mark + y) for mark in joint.marks_mm]
        way = (inward, 0.0)
    else:
        at = joint.at_mm + y
        items.append(line([(window.left, at), (window.right, at)], pen))
        marks = [(mark + x, at) for mark in joint.marks_mm]
        way = (0.0, inward)
    for place, half in zip(marks, (_half_diamond, _half_disc), strict=True):
        items.append(half(place, way))
        items.append(_mark_number(joint.number, place, way))
    items.append(_joint_words(joint, over, plan, at, shown))
    return items


def _joint_words(joint: Joint, over: bool, plan: TilePlan, at: float, shown: Held) -> Words:
    """What a page says along a joint: beyond the line where it is cut off, in the strip that is covered where it is laid under."""
    field = field_on(plan.paper)
    every: tuple[str, ...]
    if over:
        every = (f"cut here · joins {joint.under.name}, lies over it", f"cut here · joins {joint.under.name}")
    else:
        under = f"joins {joint.over.name}, which lies over this strip"
        every = (f"{under}, its cut edge on the line", under, f"joins {joint.over.name}, laid under")
    if joint.upright:
        off, low, high = at + TRIM_MM - 3.2 if over else at - 2.2, field.bottom, field.top
        turn = -90.0 if over else 90.0
    else:
        off, low, high = at - TRIM_MM + 0.9 if over else at + 1.6, field.left, field.right
        turn = 0.0
    found = []
    for says in every:
        reach = 0.5 * width_mm(says, SMALL_MM)
        for share in _WORDS_SHARES:
            place = low + share * (high - low)
            if place - reach >= low and place + reach <= high:
                x, y = (off, place) if joint.upright else (place, off)
                found.append(Words(says, x, y, SMALL_MM, "middle", turn, color=PAPER_BLUE))
    axis = 0 if joint.upright else 1
    near = [points[np.abs(points[:, axis] - at) < 2.0 * TRIM_MM] for points in (shown.firm, shown.words)]
    return min(found, key=lambda words: _met(words, near))


_WORDS_SHARES = tuple(sorted((0.025 * share for share in range(3, 38)), key=lambda share: (abs(share - 0.5), share)))
"""Where along a joint the middle of its words may stand, in order of liking."""


def _met(words: Words, near: Sequence[Points]) -> int:
    """How many points of firm lines and words of the pattern a line of text lies on, those of words counted most."""
    low, high = words_corners(words).min(axis=0), words_corners(words).max(axis=0)
    firm, told = (int(((points > low) & (points < high)).all(axis=1).sum()) for points in near)
    return firm + 10 * told


def _half_diamond(place: tuple[float, float], way: tuple[float, float]) -> Stroke:
    across, (x, y) = (way[1], way[0]), place
    corners = [
        (x + _HALF_MM * across[0], y + _HALF_MM * across[1]),
        (x + _HALF_MM * way[0], y + _HALF_MM * way[1]),
        (x - _HALF_MM * across[0], y - _HALF_MM * across[1]),
    ]
    return Stroke(polyline(corners), "join")


def _half_disc(place: tuple[float, float], way: tuple[float, float]) -> Stroke:
    out, across, middle = np.array(way), np.array((way[1], way[0])), np.array(place)
    r, k = _HALF_MM, _HALF_MM * _ROUND
    quarters = [
        [r * across, r * across + k * out, r * out + k * across, r * out],
        [r * out, r * out - k * across, -r * across + k * out, -r * across],
    ]
    return Stroke(frozen(np.array(quarters) + middle), "join")


def _mark_number(number: int, place: tuple[float, float], way: tuple[float, float]) -> Words:
    gap = _HALF_MM + 1.2
    x, y = place[0] + gap * way[0], place[1] + gap * way[1]
    if way[0]:
        return Words(str(number), x, y - 1.0, 3.0, "start" if way[0] > 0 else "end", color=PAPER_BLUE)
    return Words(str(number), x, y if way[1] > 0 else y - 2.1, 3.0, "middle", color=PAPER_BLUE)
