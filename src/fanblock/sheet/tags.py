"""A piece that lies over several pages says on each of them which piece it is, which way is up and whose it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points
from fanblock.pattern.model import Pattern
from fanblock.sheet import phrases
from fanblock.sheet.drawing import Stroke
from fanblock.sheet.labels import UP, Wish
from fanblock.sheet.overbones import OverBones, rows_under
from fanblock.sheet.piece import Piece
from fanblock.sheet.placing import Placed, place
from fanblock.sheet.wording import LEAST_MM, Block, Line

NUMBERED = ("all", "number")


def tags(piece: Piece, windows: Sequence[tuple[Points, Points]], pattern: Pattern) -> tuple[Placed, ...]:
    """Return number, name, an up arrow and the draft's code for every window that shows the piece without them.

    A window is the lower left and upper right corner of a page's field, in the piece's own frame. Slivers of a piece
    that have no room for words stay without.
    """
    space, strip, over = piece.space, piece.strip, piece.over
    done: list[Placed] = []
    for low, high in windows:
        if any(label.name in NUMBERED and _within(label.box.x, label.box.y, low, high) for label in piece.labels):
            continue
        wish = Wish("tag", _blocks(piece, pattern), (_middle(piece, low, high),), sign=UP)
        found = place(wish, space.only(low, high)) or place(wish, strip.only(low, high))
        if found is None and over is not None:
            found = _over_channels(wish, over.only(low, high), piece)
        if found is not None:
            done.append(found)
            space, strip = space.without(found.box), strip.without(found.box)
            over = None if over is None else over.without(found.box)
    return tuple(done)


def _over_channels(wish: Wish, over: OverBones, piece: Piece) -> Placed | None:
    """Return the words over channels where there is no room between those, whose lines go on pale under them."""
    found = over.place(wish)
    if found is None:
        return None
    ground = Stroke(polyline(found.box.corners(), closed=True), "blank", "", True)
    return replace(found, items=(ground, *rows_under(piece.panel, [found.box]), *found.items))


def _blocks(piece: Piece, pattern: Pattern) -> tuple[Block, ...]:
    head = f"{piece.panel.label} · {piece.panel.name}"
    garment, stamp = phrases.identity(pattern.title)
    found = []
    for size, small in ((5.0, 3.1), (4.0, 3.1), (4.0, 2.6), (3.0, LEAST_MM)):
        found.append(Block((Line(head, size, True), Line(garment, small), Line(stamp, small))))
        found.append(Block((Line(head, size, True), Line(stamp, small))))
    found += [Block((Line(head, size, True), Line(stamp, LEAST_MM)), 90.0) for size in (4.0, 3.0)]
    found += [Block((Line(head, LEAST_MM, True),), angle) for angle in (0.0, 90.0)]
    return tuple(found)


def _middle(piece: Piece, low: Points, high: Points) -> tuple[float, float]:
    ring = piece.ground
    bottom, top = np.maximum(low, ring.min(axis=0)), np.minimum(high, ring.max(axis=0))
    x, y = 0.5 * (bottom + top)
    return float(x), float(y)


def _within(x: float, y: float, low: Points, high: Points) -> bool:
    return bool(low[0] <= x <= high[0] and low[1] <= y <= high[1])
