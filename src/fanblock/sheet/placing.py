"""Finding room on a piece for its words, and what to do with those that find none."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.pattern.model import Panel
from fanblock.sheet.drawing import Stroke, Words
from fanblock.sheet.labels import LEFT, RIGHT, UP, EdgeWish, Wish, edge_wishes
from fanblock.sheet.space import Box, Space
from fanblock.sheet.wording import LEAST_MM, Block, Line, paragraphs

SIGN_GAP_MM = 1.2
UNDERLINED = ("6", "9")
UPRIGHT_DEG = (0.0, 90.0)
"""Turns of words that may be slid about for the nearest free place; others stand at one of their places or nowhere."""


@dataclass(frozen=True, slots=True)
class Placed:
    """One wish that found its place: the box it fills and what is drawn there."""

    name: str
    box: Box
    items: tuple[Stroke | Words, ...]
    block: Block


def place(wish: Wish, space: Space) -> Placed | None:
    """Return the wish at its best free place, or None when no way of setting it finds one within reach."""
    for block in wish.blocks:
        sign = _sign_mm(wish.sign, block)
        width, high = extent_mm(wish, block)
        if block.angle_deg not in UPRIGHT_DEG:
            box = space.first_free([Box(x, y, width, high, block.angle_deg) for x, y in wish.places])
            if box is not None:
                return Placed(wish.name, box, _drawn(wish.sign, block, box, sign), block)
            continue
        best: tuple[float, Box] | None = None
        for target in wish.places:
            reach = wish.reach_mm if best is None else min(wish.reach_mm, best[0] - 1.0)
            near = space.nearest(width, high, np.asarray(target), block.angle_deg, wish.weights, reach)
            best = near or best
            if best is not None and best[0] < 2.0:
                break
        if best is not None:
            return Placed(wish.name, best[1], _drawn(wish.sign, block, best[1], sign), block)
    return None


def extent_mm(wish: Wish, block: Block) -> tuple[float, float]:
    """Return the width and the height of one way of setting a wish, its sign included."""
    sign = _sign_mm(wish.sign, block)
    return block.width_mm + (sign + SIGN_GAP_MM if sign else 0.0), max(block.height_mm, sign)


def place_all(wanted: Sequence[Wish], space: Space) -> tuple[list[Placed], list[Wish], Space]:
    """Return what was placed, what was not, and the space that is left, taking the wishes in order."""
    done: list[Placed] = []
    left: list[Wish] = []
    granted: set[str] = set()
    for wish in wanted:
        if wish.name in granted:
            continue
        found = place(wish, space) if wish.places else None
        if found is None:
            left.append(wish)
        else:
            done.append(found)
            granted.update(wish.grants)
            space = space.without(found.box)
    return done, left, space


def place_along(panel: Panel, space: Space, strip: Space, units: str) -> tuple[list[Placed], Space]:
    """Return the words along the edges where there is room for them, and the space left inside the stitch line.

    ``strip`` is the space within the cut line, which holds the allowances.
    """
    done: list[Placed] = []
    for wish in edge_wishes(panel, units):
        found = _along_edge(wish, space, strip)
        if found is not None:
            block, box, outside = found
            turned = block.turned(box.angle_deg)
            done.append(Placed(wish.name, box, turned.words(box), turned))
            if outside:
                strip = strip.without(box)
            else:
                space = space.without(box)
    return done, space


INSIDE_MM, DEEP_MM = (0.9, 2.0, 3.5), (5.0, 7.0, 9.0, 12.0)
"""How far inside a stitch line the words along it stand; and how far where they find no room near it and say that an edge
has no allowance."""

ALONG_SIZES_MM = (2.7, LEAST_MM)
"""Sizes of the words along an edge."""


def _along_edge(wish: EdgeWish, space: Space, strip: Space) -> tuple[Block, Box, bool] | None:
    """The words along one edge, their box, and whether that lies in the allowance; None without room."""
    curve = wish.edge.curve
    rooms: list[tuple[Space, tuple[float, ...]]] = [(space, INSIDE_MM)]
    if wish.outside_mm:
        rooms.insert(0, (strip, (-0.5 * wish.outside_mm,)))
    feet = {at: (curve.at(at), curve.tangent_at(at)) for _, distances in wish.texts for at in distances}
    short = 1 if wish.deep else 0
    ways = [(*room, wish.texts[: len(wish.texts) - short]) for room in rooms]
    if wish.deep:
        ways += [(space, DEEP_MM, wish.texts[:-1]), (space, (*INSIDE_MM, *DEEP_MM), wish.texts[-1:])]
    for room, depths, texts in ways:
        for text, distances in texts:
            for size in ALONG_SIZES_MM:
                block = Block(tuple(Line(part, size) for part in text.split("\n")))
                for depth in depths:
                    box = room.first_free(_boxes([feet[at] for at in distances], block, depth))
                    if box is not None:
                        return block, box, room is strip
    return None


def _boxes(feet: Sequence[tuple[Points, Points]], block: Block, depth_mm: float) -> list[Box]:
    """Boxes for words at some points and tangents of an edge: so deep inside it, or, below nought, with their middle so
    far outside.
    """
    off = depth_mm if depth_mm < 0.0 else depth_mm + 1.0 + 0.5 * block.height_mm
    return [_along(point, tangent, block, off) for point, tangent in feet]


def _along(point: Points, tangent: Points, block: Block, off: float) -> Box:
    (x, y), (dx, dy) = point.tolist(), tangent.tolist()
    angle = math.degrees(math.atan2(dy, dx))
    if angle <= -89.0:
        angle += 180.0
    elif angle > 91.0:
        angle -= 180.0
    return Box(x - off * dy, y + off * dx, block.width_mm, block.height_mm, angle)


def flag(unplaced: Sequence[Wish], panel: Panel, outline: Points) -> Placed | None:
    """Return what found no room, on a flag beside the piece with a line that leads to it; None if all did."""
    texts = [" ".join(line.text for line in wish.blocks[-1].lines) for wish in unplaced if wish.needed]
    if not texts:
        return None
    block = Block(paragraphs(texts, 2.7, 36.0))
    target = np.asarray(next(wish.places[0] for wish in unplaced if wish.needed))
    band = outline[np.abs(outline[:, 1] - target[1]) < 0.5 * block.height_mm + 3.0]
    edge = float((band if len(band) else outline)[:, 0].max())
    box = Box(edge + 5.0 + 0.5 * block.width_mm, float(target[1]), block.width_mm, block.height_mm)
    inside = float(np.max(panel.loop()[:, 0][np.abs(panel.loop()[:, 1] - target[1]) < 6.0], initial=edge)) - 4.0
    leader = Stroke(polyline(frozen([[box.x - 0.5 * box.width_mm - 1.0, box.y], [inside, box.y]])), "guide", "leader")
    return Placed("flag", box, (leader, *block.words(box)), block)


def _sign_mm(sign: str, block: Block) -> float:
    if not sign:
        return 0.0
    size = block.lines[0].size_mm
    return (1.6 if sign == UP else 1.3) * size


def _drawn(sign: str, block: Block, box: Box, sign_mm: float) -> tuple[Stroke | Words, ...]:
    if not sign:
        return (*block.words(box), *_underlines(block, box))
    turn = np.radians(box.angle_deg)
    along = np.array([np.cos(turn), np.sin(turn)])
    middle = np.array([box.x, box.y])
    arrow = middle + along * (0.5 * sign_mm - 0.5 * box.width_mm)
    text = middle + along * (0.5 * (sign_mm + SIGN_GAP_MM))
    words = replace(box, x=float(text[0]), y=float(text[1]), width_mm=block.width_mm)
    return (*_arrow(sign, arrow, sign_mm), *block.words(words))


def _arrow(sign: str, middle: Points, size_mm: float) -> tuple[Stroke, ...]:
    """A filled head, with a shaft when it points up; ``left`` and ``right`` point at the centre front however words are
    turned.
    """
    half = 0.5 * size_mm
    if sign in (LEFT, RIGHT):
        way = 1.0 if sign == LEFT else -1.0
        head = middle + way * np.array([[-half, 0.0], [half, -0.7 * half], [half, 0.7 * half]])
        return (Stroke(polyline(head, closed=True), "ink", "arrow", True),)
    head = middle + np.array([[0.0, half], [-0.55 * half, 0.1 * half], [0.55 * half, 0.1 * half]])
    shaft = middle + np.array([[0.0, 0.2 * half], [0.0, -half]])
    return Stroke(polyline(head, closed=True), "ink", "arrow", True), Stroke(polyline(shaft), "mark", "arrow shaft")


def _underlines(block: Block, box: Box) -> tuple[Stroke, ...]:
    """A bar under a lone 6 or 9, which a turned piece would swap."""
    first = block.lines[0]
    if first.text.split(" ·")[0] not in UNDERLINED or block.angle_deg:
        return ()
    base = block.words(box)[0].y - 0.12 * first.size_mm
    half = 0.28 * first.size_mm
    centre = box.x if first.text in UNDERLINED else box.x - 0.5 * first.width_mm + half
    return (Stroke(polyline(frozen([[centre - half, base], [centre + half, base]])), "mark", "underline"),)
