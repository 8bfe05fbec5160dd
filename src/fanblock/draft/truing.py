"""Truing: make mated edges equally long and let the edges across them run smooth from panel to panel.

Two edges drawn from one seam differ in length where the seam is curved. Both are held at the waist; above it and below
it the difference is shared between the two free ends, each lengthened or shortened along its own edge (scaling a whole
edge would move the girth at every level). Where the seam ends on another seam nothing can be moved: both edges are held at
that end instead, and their marks of the waist shifted to one distance from it. Then every crossing edge is bent once, within
:data:`fanblock.tolerances.BLEND_MM` of the seam, its far end pinned, so that it meets the seam at the new corner and at an
angle that makes a straight line with its neighbour's. One pass; a trued crossing edge belongs to its panel.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from fanblock.draft.mates import MatePair, Rim, RimPlace
from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import HEM, SLIT, TOP
from fanblock.tolerances import BLEND_MM

CROSSING_KINDS = (TOP, HEM, "armhole", "neckline", "waist")


@dataclass(frozen=True, slots=True)
class Trued:
    """What truing did to one pair: end shifts in millimetres and the lengths of that part, above and below the waist."""

    pair: MatePair
    above_mm: float
    above_edge_mm: float
    below_mm: float
    below_edge_mm: float


def trued(panels: list[list[Rim]], pairs: tuple[MatePair, ...]) -> tuple[list[list[Rim]], tuple[Trued, ...]]:
    """Return the panels with every pair of mates equal above and below the waist, and what that took."""
    result = [list(rims) for rims in panels]
    records = []
    for pair in pairs:
        front, back = _rim(panels, pair.front), _rim(panels, pair.back)
        new_front, new_back, record = _equal(panels, pair, front, back)
        for (panel, number), new in ((pair.front, new_front), (pair.back, new_back)):
            result[panel][number] = new
        if not _free(panels, pair, top=True) and _parts_below(panels, pair):
            for panel, number in (pair.front, pair.back):
                result[panel][number] = panels[panel][number]
                _slide(result[panel], number, record.below_mm)
        records.append(record)
    return _bent(panels, result, pairs), tuple(records)


def _rim(panels: list[list[Rim]], place: RimPlace) -> Rim:
    return panels[place[0]][place[1]]


def _neighbour(panels: list[list[Rim]], place: RimPlace, step: int) -> RimPlace:
    return place[0], (place[1] + step) % len(panels[place[0]])


def _equal(panels: list[list[Rim]], pair: MatePair, front: Rim, back: Rim) -> tuple[Rim, Rim, Trued]:
    """Return both mates with their free ends moved to the mean, measured from where they are held."""
    held_front, held_back = _held(front), _held(back)
    front_above, back_above = front.curve.length_mm - held_front, held_back
    front_below, back_below = held_front, back.curve.length_mm - held_back
    up, down = (back_above - front_above) / 2.0, (back_below - front_below) / 2.0
    top, low = (_free(panels, pair, top=at_top) for at_top in (True, False))
    mark = 0.0 if top and low else -down if top else up
    moved_up = up - mark if top else 0.0
    moved_down = down + mark if low or _parts_below(panels, pair) else 0.0
    new_front = front.curve.between(-moved_down, front.curve.length_mm + moved_up)
    new_back = back.curve.between(moved_up, back.curve.length_mm - moved_down)
    record = Trued(
        pair, moved_up if top else mark, (front_above + back_above) / 2.0, moved_down, (front_below + back_below) / 2.0
    )
    return (
        replace(front, curve=new_front, waist_at_mm=_moved(front.waist_at_mm, moved_down - mark)),
        replace(back, curve=new_back, waist_at_mm=_moved(back.waist_at_mm, -moved_up - mark)),
        record,
    )


def _parts_below(panels: list[list[Rim]], pair: MatePair) -> bool:
    """Return whether a pair's two panels part as tabs below it."""
    return all(_rim(panels, place).kind == SLIT for place in _crossing(panels, pair, top=False))


def _slide(rims: list[Rim], number: int, down_mm: float) -> None:
    """Move the joint between a seam and the tab's side below it: down the seam before it, up the seam behind it."""
    rising = rims[number].face == "front"
    first, second = (number - 1, number) if rising else (number, (number + 1) % len(rims))
    whole = Curve.through(np.vstack((rims[first].curve.points, rims[second].curve.points[1:])))
    at = rims[first].curve.length_mm - down_mm
    rims[first] = replace(rims[first], curve=whole.between(0.0, at))
    rims[second] = replace(rims[second], curve=whole.between(at, whole.length_mm))
    rims[number] = replace(rims[number], waist_at_mm=0.0 if rising else rims[number].curve.length_mm)


def _moved(waist_at_mm: float | None, by_mm: float) -> float | None:
    return None if waist_at_mm is None else waist_at_mm + by_mm


def _held(rim: Rim) -> float:
    """Return where a rim is held, along it: at the waist, or else at the foot of the piece."""
    if rim.waist_at_mm is not None:
        return rim.waist_at_mm
    return 0.0 if rim.face == "front" else rim.curve.length_mm


def _crossing(panels: list[list[Rim]], pair: MatePair, *, top: bool) -> tuple[RimPlace, RimPlace]:
    """Return the edges that cross the seam at one end, in the panel before it and in the panel behind it."""
    return _neighbour(panels, pair.front, 1 if top else -1), _neighbour(panels, pair.back, -1 if top else 1)


def _free(panels: list[list[Rim]], pair: MatePair, *, top: bool) -> bool:
    """Return whether a pair ends on crossing edges there, so that its ends may be moved."""
    return all(_rim(panels, place).kind in CROSSING_KINDS for place in _crossing(panels, pair, top=top))


def _bent(before: list[list[Rim]], panels: list[list[Rim]], pairs: tuple[MatePair, ...]) -> list[list[Rim]]:
    """Return the panels with each crossing edge bent to its new corners, once."""
    bends: dict[tuple[RimPlace, str], tuple[Points, float]] = {}
    for pair in pairs:
        front, back = _rim(panels, pair.front).curve, _rim(panels, pair.back).curve
        for top in (True, False):
            if not _free(before, pair, top=top):
                continue
            across_front, across_back = _crossing(before, pair, top=top)
            old_front, old_back = _rim(before, across_front).curve, _rim(before, across_back).curve
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
            bends[across_front, ends[0]] = (corners[0] - old[0], turn)
            bends[across_back, ends[1]] = (corners[1] - old[1], -turn)
    return [
        [
            replace(rim, curve=bend(rim.curve, bends.get(((p, r), "start")), bends.get(((p, r), "end"))))
            if ((p, r), "start") in bends or ((p, r), "end") in bends
            else rim
            for r, rim in enumerate(rims)
        ]
        for p, rims in enumerate(panels)
    ]


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
