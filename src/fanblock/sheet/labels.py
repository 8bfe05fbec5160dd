"""What is written on a piece, in order of importance, and where each word would like to stand.

A :class:`Wish` names some ways to set its words and some places for them; :mod:`fanblock.sheet.placing`
finds room. All places are in the frame of the upright panel.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from fanblock.geometry.curve import Curve
from fanblock.pattern.model import CENTER, FOLD, HEM, OPEN_KINDS, SEAM, SLIT, TOP, UPPER, Edge, Panel, Pattern
from fanblock.pattern.waistline import level_name
from fanblock.sheet import phrases
from fanblock.sheet.telling import half_of, telling
from fanblock.sheet.wording import LEAST_MM, Block, Line, choices, paragraphs, wrapped

UP, LEFT, RIGHT = "up", "left", "right"
LETTER_ENDS_MM = (13.0, 20.0, 28.0, 9.0, 38.0)
"""How far from the end of a seam its letter stands, in order of liking."""
MARK_REACH_MM = 12.0
"""How far from a line drawn on a piece the words may stand that say what it is."""
OFF_MM = (2.6, 3.6, 4.6)
"""How far beside such a line their middle stands at its best: words along a slanting line cannot be slid about for room."""
BODY = ("number", "cut", "half", "identity")
_WHOLE_SIZES = (
    (18.0, 7.0, 3.6, 90.0),
    (18.0, 7.0, 3.6, 68.0),
    (16.0, 6.5, 3.4, 56.0),
    (14.0, 6.0, 3.0, 46.0),
    (12.0, 5.0, 2.7, 38.0),
)
"""Sizes of number, name and text, and the width to wrap at, for setting all of a piece's words as one
block.
"""


@dataclass(frozen=True, slots=True)
class Wish:
    """Words that want a place: ways to set them, best first; places, best first; how far off is still
    right.

    ``sign`` is an arrow drawn before the words. What cannot be placed and is ``needed`` goes on a flag
    beside the piece. Once placed it also grants the wishes named in ``grants``.
    """

    name: str
    blocks: tuple[Block, ...]
    places: tuple[tuple[float, float], ...]
    reach_mm: float = np.inf
    weights: tuple[float, float] = (1.0, 1.0)
    sign: str = ""
    needed: bool = True
    grants: tuple[str, ...] = ()


def wishes(panel: Panel, pattern: Pattern) -> list[Wish]:
    """Return everything that is written on the upright ``panel`` but the allowances, most bound to its
    place first.
    """
    return [
        *_levels(panel),
        *_letters(panel),
        _top(panel),
        *_sides(panel, telling(pattern).toward),
        *_marks(panel),
        *_body(panel, pattern),
    ]


def _levels(panel: Panel) -> Iterator[Wish]:
    for name in panel.levels:
        parts = [part for part in panel.levels.get(name, ()) if part.length_mm > 3.0]
        if not parts:
            continue
        longest = sorted(parts, key=lambda part: -part.length_mm)
        places = [_above(part, ratio) for part in longest for ratio in (0.3, 0.7, 0.5, 0.2, 0.8)]
        places += [(x, y - 5.6) for x, y in places]
        blocks = tuple(Block((Line(name.upper(), size, True),)) for size in (3.4, 2.8, LEAST_MM))
        yield Wish(f"{name} level", blocks, tuple(places), 2.6, (0.2, 1.0))


def _above(part: Curve, ratio: float) -> tuple[float, float]:
    x, y = part.at(ratio * part.length_mm)
    return float(x), float(y) + 2.8


def _letters(panel: Panel) -> Iterator[Wish]:
    """The letter of each seam at both of its ends, inside the stitch line."""
    for edge in panel.edges:
        if not edge.letter:
            continue
        blocks = tuple(Block((Line(edge.letter, size, True),)) for size in (7.0, 5.5, 4.2, 3.2, LEAST_MM))
        for end in ("first", "last"):
            curve = edge.curve if end == "first" else edge.curve.reversed()
            turn = 1.0 if end == "first" else -1.0
            near = [at for at in LETTER_ENDS_MM if at < 0.48 * curve.length_mm] or [0.3 * curve.length_mm]
            places = tuple(_inside(curve, at, turn, 5.5) for at in near)
            yield Wish(f"seam {edge.letter} {edge.name} {end}", blocks, places, 4.0)


def _inside(curve: Curve, at_mm: float, turn: float, depth_mm: float) -> tuple[float, float]:
    point, (x, y) = curve.at(at_mm), curve.tangent_at(at_mm)
    return float(point[0] - turn * depth_mm * y), float(point[1] + turn * depth_mm * x)


def _top(panel: Panel) -> Wish:
    tops = [edge for edge in panel.edges if edge.kind == TOP]
    tops = tops or [edge for edge in panel.edges if edge.across == UPPER] or list(panel.edges)
    curve = max(tops, key=lambda edge: float(edge.curve.points[:, 1].mean())).curve
    places = [(float(x), float(y) - 7.0) for x, y in (curve.at(r * curve.length_mm) for r in (0.5, 0.4, 0.6, 0.3, 0.7))]
    blocks = tuple(Block((Line("TOP", size, True),)) for size in (5.0, 4.0, 3.0, LEAST_MM))
    return Wish("top", blocks, tuple(places), 9.0, (0.6, 1.0), UP)


def _sides(panel: Panel, toward: str) -> Iterator[Wish]:
    """What the front side faces, and the names of centres and lacing edges."""
    sides = [edge for edge in panel.edges if (edge.kind == SEAM and not edge.across) or edge.opens_at]
    fronts = [edge for edge in sides if phrases.faces_front(edge)]
    if fronts and not panel.added:
        edge = max(fronts, key=lambda edge: edge.curve.length_mm)
        blocks = choices([toward], (3.6, 3.0, LEAST_MM), (60.0, 26.0, 18.0, 12.0))
        level = [_inside(edge.curve, ratio * edge.curve.length_mm, 1.0, 18.0) for ratio in (0.5, 0.62, 0.38)]
        close = [_inside(edge.curve, ratio * edge.curve.length_mm, 1.0, 5.0) for ratio in (0.5, 0.6, 0.4, 0.7, 0.3)]
        yield Wish("toward center front", blocks, (*close, *level), 24.0, (1.6, 0.5), RIGHT if edge.mirrored else LEFT)
    for edge in panel.edges:
        if edge.kind in {CENTER, FOLD, *OPEN_KINDS}:
            words = phrases.side_words(edge, panel)
            upright = tuple(Block((Line(words, size),), 90.0) for size in (3.6, 3.0, LEAST_MM))
            places = tuple(_inside(edge.curve, r * edge.curve.length_mm, 1.0, 4.0) for r in (0.4, 0.5, 0.6, 0.3, 0.7))
            yield Wish(f"along {edge.name}", upright, places, 30.0, (3.0, 0.3))


def _marks(panel: Panel) -> Iterator[Wish]:
    """What each line drawn on a piece means, beside it and along it."""
    for mark in panel.marks:
        if not mark.says:
            continue
        chord = mark.curve.end - mark.curve.start
        angle = float(np.degrees(np.arctan2(chord[1], chord[0])))
        angle = angle if -90.0 < angle <= 90.0 else angle - float(np.copysign(180.0, angle))
        turns = dict.fromkeys((angle, 0.0))
        blocks = tuple(Block((Line(mark.says, size),), turn) for turn in turns for size in (3.0, 2.7, LEAST_MM))
        ratios = (0.5, 0.35, 0.65, 0.2, 0.8)
        places = [
            _inside(mark.curve, r * mark.curve.length_mm, turn, off)
            for off in OFF_MM
            for turn in (1.0, -1.0)
            for r in ratios
        ]
        yield Wish(f"mark {mark.name}", blocks, tuple(places), MARK_REACH_MM, needed=False)


def _body(panel: Panel, pattern: Pattern) -> Iterator[Wish]:
    """Number and name, what to cut, which half, and what tells two printings apart: as one block or,
    failing that, four.
    """
    middle = _middle(panel)
    cutting = (*phrases.cutting(panel), *phrases.boned(panel))
    garment, stamp = phrases.identity(pattern.title)
    below = (middle[0], middle[1] - 20.0)
    wide = (64.0, 48.0, 36.0, 27.0, 20.0)
    yield Wish("all", tuple(_whole(panel, pattern)), (middle,), needed=False, grants=BODY)
    yield Wish("number", tuple(_number(panel)), (middle,))
    yield Wish("cut", choices(cutting, (3.6, 3.0, LEAST_MM), wide, True), (below,), weights=(1.0, 0.8))
    yield Wish("half", choices([half_of(panel, pattern)], (3.0, 2.7, LEAST_MM), wide), (below,), weights=(1.0, 0.8))
    yield Wish("identity", choices([garment, stamp], (3.0, 2.7, LEAST_MM), wide), (below,), weights=(1.0, 0.8))
    yield Wish(
        "grain",
        tuple(Block((Line("grain", s),), 90.0) for s in (3.0, LEAST_MM)),
        _beside_grain(panel),
        3.0,
        (1.5, 0.2),
        needed=False,
    )


def _whole(panel: Panel, pattern: Pattern) -> Iterator[Block]:
    garment, stamp = phrases.identity(pattern.title)
    for number, name, text, width in _WHOLE_SIZES:
        head = (Line(panel.label, number, True), Line(panel.name, name, True))
        cutting = paragraphs((*phrases.cutting(panel), *phrases.boned(panel)), 1.1 * text, width, True)
        half = wrapped(half_of(panel, pattern), text, width)
        end = paragraphs((garment, stamp), text, width)
        yield Block(
            (
                *head,
                Line(" ", 0.4 * text),
                *cutting,
                Line(" ", 0.3 * text),
                *half,
                Line(" ", 0.3 * text),
                *end,
            )
        )


def _beside_grain(panel: Panel) -> tuple[tuple[float, float], ...]:
    if panel.grain is None:
        return ()
    start, end = panel.grain
    return tuple(
        (float(start[0]) + side, float(start[1] + ratio * (end[1] - start[1])))
        for ratio in (0.85, 0.75, 0.65, 0.15, 0.25)
        for side in (-2.8, 2.8)
    )


def _middle(panel: Panel) -> tuple[float, float]:
    """A place half way between waist and top, in the middle of the panel."""
    loop = panel.loop()
    waist = [part.points for part in panel.levels.get("waist", ())]
    low = float(np.vstack(waist)[:, 1].mean()) if waist else float(loop[:, 1].min())
    high = float(loop[:, 1].max())
    upper = loop[loop[:, 1] > low]
    return float(0.5 * (upper[:, 0].min() + upper[:, 0].max())), low + 0.5 * (high - low)


def _number(panel: Panel) -> Iterator[Block]:
    for angle in (0.0, 90.0):
        for number, name in ((18.0, 7.0), (14.0, 6.0), (11.0, 4.5), (8.0, 3.6), (6.0, 3.0), (4.0, LEAST_MM)):
            stacked = Block((Line(panel.label, number, True), Line(panel.name, name, True)), angle)
            yield stacked
            if angle == 90.0 or number <= 11.0:
                yield Block((Line(f"{panel.label} · {panel.name}", min(number, 1.6 * name), True),), angle)


@dataclass(frozen=True, slots=True)
class EdgeWish:
    """Words that want to stand along an edge: ways to say them, best first, each with distances along the edge where
    its middle may stand; ``outside_mm`` is how wide the allowance is in which they may stand, 0 for inside. Those that are
    ``deep`` may stand far inside rather than nowhere.
    """

    name: str
    edge: Edge
    texts: tuple[tuple[str, tuple[float, ...]], ...]
    outside_mm: float
    deep: bool = False


def edge_wishes(panel: Panel, units: str) -> list[EdgeWish]:
    """Return for each edge what its allowance is in words, and where an allowance ends at a waist bar what to do.

    The words stand in the allowance where it is ``WIDE_MM`` wide, else inside the stitch line. The longest top and lower
    edge also say which edge they are, and so do the edges on a level seam.
    """
    named = {max(some, key=lambda edge: edge.curve.length_mm).name for some in _ends_of(panel) if some}
    found = [_bar_end(panel, edge, at_start) for edge, at_start in _open_ends(panel)]
    for edge in panel.edges:
        says = phrases.allowance(edge, panel, units)
        which = {TOP: "top edge", HEM: "lower edge"}.get(edge.kind, "") if edge.name in named else ""
        which = level_name(edge) if edge.across else which
        distances = tuple(ratio * edge.curve.length_mm for ratio in _RATIOS)
        texts = tuple((text, distances) for text in (*((f"{which} · {says}",) if which else ()), says))
        bare = says.startswith("no allowance")
        if bare:
            texts += tuple((text, distances) for text in (says.replace(": ", ":\n"), says.rpartition(": ")[2]))
        found.append(EdgeWish(f"allowance {edge.name}", edge, texts, _outside(panel, edge), bare))
    return found


WIDE_MM = 8.0
"""An allowance at least this wide has room for its own words."""

_RATIOS = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9)


def _ends_of(panel: Panel) -> tuple[list[Edge], list[Edge]]:
    """The top and the lower edges."""
    tops, hems = ([edge for edge in panel.edges if edge.kind == kind] for kind in (TOP, HEM))
    return tops, hems


def _outside(panel: Panel, edge: Edge) -> float:
    width = panel.allowances.get(edge.name, 0.0)
    return width if width >= WIDE_MM else 0.0


def _open_ends(panel: Panel) -> Iterator[tuple[Edge, bool]]:
    """Seam edges that end at the waist where an open slit edge goes on, and whether they begin there."""
    for at, edge in enumerate(panel.edges):
        before, after = panel.edges[at - 1], panel.edges[(at + 1) % len(panel.edges)]
        if edge.kind == SEAM and _outside(panel, edge) and SLIT in (before.kind, after.kind):
            yield edge, before.kind == SLIT


def _bar_end(panel: Panel, edge: Edge, at_start: bool) -> EdgeWish:
    """What is done with the allowance where it ends at a waist bar, just above the bar."""
    texts = []
    for text in ("ends at the bar, press back", "ends at the bar", "ends here"):
        steps = [3.0 + 0.5 * Line(text, LEAST_MM).width_mm + more for more in (0.0, 2.0, 4.0, 8.0)]
        long = edge.curve.length_mm
        texts.append((text, tuple(step if at_start else long - step for step in steps if step < long)))
    return EdgeWish(f"bar {edge.name}", edge, tuple(texts), _outside(panel, edge))
