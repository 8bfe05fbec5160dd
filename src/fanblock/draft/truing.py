"""Truing: make mated edges equally long and let the edges across them run smooth from panel to panel.

Two edges drawn from one seam differ in length where the seam is curved. Both are held at the waist; above it and below
it the difference is shared between the two free ends, each lengthened or shortened along its own edge (scaling a whole
edge would move the girth at every level). Where the seam ends on another seam nothing can be moved: both edges are held at
that end instead, and their marks of the waist shifted to one distance from it. Where a level seam cuts a seam in two, its
parts are trued as the one seam they are: the corner between them is moved along both, and the level seam with it.

Then every crossing edge, and every edge of a level seam, is bent once, within :data:`fanblock.tolerances.BLEND_MM` of the
seam, its far end pinned, so that it meets the seam at the new corner and at an angle that makes a straight line with its
neighbour's. Both edges of a level seam are bent alike, so that they stay mates. One pass; a trued crossing edge belongs to
its panel.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from fanblock.draft.mates import MatePair, Rim, RimPlace
from fanblock.draft.net import Net
from fanblock.geometry.curve import Curve, Points
from fanblock.tolerances import BLEND_MM


@dataclass(frozen=True, slots=True)
class Trued:
    """What truing did to one pair: end shifts in millimetres and the lengths of that part, above and below the waist.

    One that ``is_level`` is not moved itself, only bent with the panels it joins.
    """

    pair: MatePair
    above_mm: float
    above_edge_mm: float
    below_mm: float
    below_edge_mm: float
    is_level: bool = False


def trued(panels: list[list[Rim]], pairs: tuple[MatePair, ...]) -> tuple[list[list[Rim]], tuple[Trued, ...]]:
    """Return the panels with every pair of mates equal above and below the waist, and what that took."""
    net = Net(panels, pairs)
    result = [list(rims) for rims in panels]
    records: dict[MatePair, Trued] = {}
    for chain in net.chains():
        for pair, moves in zip(chain, _settled(net, chain), strict=True):
            records[pair] = _put(net, result, pair, moves)
    return _bent(net, result), tuple(records[pair] for pair in pairs)


@dataclass(frozen=True, slots=True)
class _Moves:
    """How far the upper end of a pair's front edge, its lower end and its mark of the waist are moved up it (mm).

    The back edge's are moved down it as far.
    """

    head_mm: float
    foot_mm: float
    mark_mm: float
    from_head: bool = False


@dataclass(frozen=True, slots=True)
class _Edges:
    """A pair's lengths from the foot up: of both edges as a whole and to their marks of the waist, if they have one."""

    front_mm: float
    back_mm: float
    front_waist_mm: float
    back_waist_mm: float
    has_waist: bool

    @classmethod
    def of(cls, net: Net, pair: MatePair) -> _Edges:
        """Return the lengths of a pair; one without a waist is held at its foot."""
        front, back = net.rim(pair.front), net.rim(pair.back)
        long = back.curve.length_mm
        has_waist = front.waist_at_mm is not None
        up = long - back.waist_at_mm if back.waist_at_mm is not None else 0.0
        return cls(front.curve.length_mm, long, front.waist_at_mm or 0.0, up, has_waist)

    def from_foot(self, foot_mm: float, *, top: bool) -> _Moves:
        """Return the moves that hold the pair at its foot, moved already; the upper end may give where ``top`` says so."""
        head = (self.back_mm - self.front_mm) / 2.0 + foot_mm
        mark = (self.back_waist_mm - self.front_waist_mm) / 2.0 + foot_mm
        return _Moves(head if top else 0.0, foot_mm, mark)

    def from_head(self, head_mm: float, *, low: bool) -> _Moves:
        """Return the moves that hold the pair at its upper end, moved already; the foot may give where ``low`` says so."""
        foot = (self.front_mm - self.back_mm) / 2.0 + head_mm
        mark = foot + (self.back_waist_mm - self.front_waist_mm) / 2.0
        return _Moves(head_mm, foot if low else 0.0, mark, from_head=True)

    def from_waist(self) -> _Moves:
        """Return the moves that hold the pair at its waist; both its ends give."""
        below = (self.back_waist_mm - self.front_waist_mm) / 2.0
        return _Moves((self.back_mm - self.front_mm) / 2.0 - below, -below, 0.0)


def _settled(net: Net, chain: list[MatePair]) -> list[_Moves]:
    """Return the moves of every part of a seam, from the top down.

    It is held where an end of it cannot give, its upper one first, else at the waist, else at its foot. From there the
    parts follow one another, each taking on what its neighbour's end was moved by.
    """
    edges = [_Edges.of(net, pair) for pair in chain]
    last = len(chain) - 1
    gives_top, gives_low = net.is_free(chain[0], top=True), net.is_free(chain[last], top=False)
    tabs = net.parts_below(chain[last])
    first_waist = next((number for number, edge in enumerate(edges) if edge.has_waist), last)
    start = 0 if not gives_top else last if not gives_low else first_waist
    moves: dict[int, _Moves] = {}
    if not gives_top:
        moves[0] = edges[0].from_head(0.0, low=last > 0 or gives_low or tabs)
    elif gives_low and edges[start].has_waist:
        moves[start] = edges[start].from_waist()
    else:
        moves[start] = edges[start].from_foot(0.0, top=True)
    for number in range(start - 1, -1, -1):
        moves[number] = edges[number].from_foot(moves[number + 1].head_mm, top=True)
    for number in range(start + 1, last + 1):
        moves[number] = edges[number].from_head(moves[number - 1].foot_mm, low=number < last or gives_low or tabs)
    return [moves[number] for number in range(last + 1)]


def _put(net: Net, result: list[list[Rim]], pair: MatePair, moves: _Moves) -> Trued:
    """Put both edges of a pair, moved, into the result, and return what was done to them."""
    front, back = net.rim(pair.front), net.rim(pair.back)
    if not net.gives(pair, top=True) and net.parts_below(pair):
        for panel, number in (pair.front, pair.back):
            _slide(result[panel], number, -moves.foot_mm)
    else:
        above = front.curve.between(moves.foot_mm, front.curve.length_mm + moves.head_mm)
        behind = back.curve.between(moves.head_mm, back.curve.length_mm + moves.foot_mm)
        marks = _moved(front, moves.mark_mm - moves.foot_mm), _moved(back, moves.mark_mm - moves.head_mm)
        for (panel, number), rim, curve, mark in zip(
            (pair.front, pair.back), (front, back), (above, behind), marks, strict=True
        ):
            result[panel][number] = replace(rim, curve=curve, waist_at_mm=mark)
    edges = _Edges.of(net, pair)
    long = (edges.front_mm + edges.back_mm) / 2.0
    low = (edges.front_waist_mm + edges.back_waist_mm) / 2.0
    if pair.part and moves.from_head and not edges.has_waist:
        low = long
    up = moves.head_mm if net.gives(pair, top=True) else -moves.mark_mm
    return Trued(pair, up, long - low, -moves.foot_mm, low, front.level)


def _moved(rim: Rim, by_mm: float) -> float | None:
    return None if rim.waist_at_mm is None else rim.waist_at_mm + by_mm


def _slide(rims: list[Rim], number: int, down_mm: float) -> None:
    """Move the joint between a seam and the tab's side below it: down the seam before it, up the seam behind it."""
    rising = rims[number].face == "front"
    first, second = (number - 1, number) if rising else (number, (number + 1) % len(rims))
    whole = Curve.through(np.vstack((rims[first].curve.points, rims[second].curve.points[1:])))
    at = rims[first].curve.length_mm - down_mm
    rims[first] = replace(rims[first], curve=whole.between(0.0, at))
    rims[second] = replace(rims[second], curve=whole.between(at, whole.length_mm))
    rims[number] = replace(rims[number], waist_at_mm=0.0 if rising else rims[number].curve.length_mm)


def _bent(net: Net, panels: list[list[Rim]]) -> list[list[Rim]]:
    """Return the panels with each crossing edge bent to its new corners, once; mates on level seams are bent alike."""
    bends: dict[tuple[RimPlace, str], tuple[Points, float]] = {}
    for pair in net.pairs:
        for top in (True, False):
            if not net.is_free(pair, top=top) and not net.is_cut(pair, top=top):
                continue
            for place, end, move in _bends(net, panels, pair, top=top):
                bends.setdefault((place, end), move)
                if net.rim(place).level and place in net.mates:
                    bends.setdefault((net.mates[place], "start" if end == "end" else "end"), move)
    return [
        [
            replace(rim, curve=bend(rim.curve, bends.get(((p, r), "start")), bends.get(((p, r), "end"))))
            if ((p, r), "start") in bends or ((p, r), "end") in bends
            else rim
            for r, rim in enumerate(rims)
        ]
        for p, rims in enumerate(panels)
    ]


Bend = tuple[RimPlace, str, tuple[Points, float]]
"""An edge, which end of it is bent, how far that moves and how far it turns."""


def _bends(net: Net, panels: list[list[Rim]], pair: MatePair, *, top: bool) -> tuple[Bend, Bend]:
    """Return how the edges across a pair are bent at one of its ends."""
    front, back = (panels[panel][number].curve for panel, number in (pair.front, pair.back))
    across_front, across_back = net.crossing(pair, top=top)
    old_front, old_back = net.rim(across_front).curve, net.rim(across_back).curve
    if top:
        corners, ends = (front.end, back.start), ("start", "end")
        seams = (front.end_tangent, -back.start_tangent)
        lines = (old_front.start_tangent, old_back.end_tangent)
        old = (old_front.start, old_back.end)
    else:
        corners, ends = (front.start, back.end), ("end", "start")
        seams = (front.start_tangent, -back.end_tangent)
        lines = (old_front.end_tangent, old_back.start_tangent)
        old = (old_front.end, old_back.start)
    turn = _wrapped(_angle(seams[1], lines[1]) - _angle(seams[0], lines[0])) / 2.0
    return (
        (across_front, ends[0], (corners[0] - old[0], turn)),
        (across_back, ends[1], (corners[1] - old[1], -turn)),
    )


def bend(curve: Curve, start: tuple[Points, float] | None, end: tuple[Points, float] | None) -> Curve:
    """Return the curve with either end moved by a vector and its tangent there turned by an angle (radians).

    Both die out, in value and slope, within ``BLEND_MM`` or at the far end where that is nearer.
    """
    reach = min(BLEND_MM, curve.length_mm)
    moved = curve.points.copy()
    if start is not None:
        moved += _displaced(curve.along / reach, curve.start_tangent, *start, reach)
    if end is not None:
        shift, turn = end
        moved += _displaced((curve.length_mm - curve.along) / reach, -curve.end_tangent, shift, turn, reach)
    return Curve.through(moved)


def _displaced(share: Points, tangent: Points, shift: Points, turn: float, reach: float) -> Points:
    """Return the displacement at a share of the reach: cubic Hermite from the shift and new slope to nothing."""
    t = np.minimum(share, 1.0)[:, None]
    cos, sin = math.cos(turn), math.sin(turn)
    slope = np.array([cos * tangent[0] - sin * tangent[1], sin * tangent[0] + cos * tangent[1]]) - tangent
    return np.asarray((2 * t**3 - 3 * t**2 + 1) * shift + (t**3 - 2 * t**2 + t) * slope * reach)


def _angle(along: Points, line: Points) -> float:
    """Return the angle from one direction to another."""
    return math.atan2(along[0] * line[1] - along[1] * line[0], along @ line)


def _wrapped(angle: float) -> float:
    return (angle + math.pi) % (2.0 * math.pi) - math.pi
