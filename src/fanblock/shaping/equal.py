"""Making the mates of a layer equal again after its panels were moved: by hairs, at their free ends, each along itself.

The panels of a layer come from panels that were trued. Moving their sides, cutting them off lower down or short of an edge
changes the lengths of mates by less than what shows, but by more than two sides of one seam may differ.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from fanblock.draft.truing import bend
from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import Edge
from fanblock.shaping.edges import FREE_KINDS

Edges = list[list[Edge]]
"""The edges of every panel, in loop order."""

Place = tuple[int, int]
"""Number of a panel and number of an edge in it."""


def equalled(panels: Edges, pairs: list[tuple[Place, Place]]) -> Edges:
    """Return the edges with every pair of mates equal above and below the waist, where an end of it is free.

    The first of a pair rises in its loop, the second falls in its own. Edges across a seam are bent to meet it and run
    smooth from panel to panel.
    """
    result = [list(edges) for edges in panels]
    for front, back in pairs:
        one, other = _equal(panels, front, back)
        result[front[0]][front[1]], result[back[0]][back[1]] = one, other
    return _bent(panels, result, pairs)


def _edge(panels: Edges, place: Place) -> Edge:
    return panels[place[0]][place[1]]


def _across(panels: Edges, place: Place, step: int) -> Place:
    return place[0], (place[1] + step) % len(panels[place[0]])


def _crossing(panels: Edges, front: Place, back: Place, *, top: bool) -> tuple[Place, Place]:
    return _across(panels, front, 1 if top else -1), _across(panels, back, -1 if top else 1)


def _free(panels: Edges, front: Place, back: Place, *, top: bool) -> bool:
    """Return whether a pair ends on crossing edges there, so that its ends may be moved."""
    return all(_edge(panels, place).kind in FREE_KINDS for place in _crossing(panels, front, back, top=top))


def _equal(panels: Edges, front: Place, back: Place) -> tuple[Edge, Edge]:
    """Return both mates with their free ends moved to the mean."""
    one, other = _edge(panels, front), _edge(panels, back)
    top, low = (_free(panels, front, back, top=at_top) for at_top in (True, False))
    long, mate_long = one.curve.length_mm, other.curve.length_mm
    held, mate_held = one.waist_at_mm, other.waist_at_mm
    if held is None or mate_held is None or not (top and low):
        by = (mate_long - long) / 2.0
        up, down = (by, 0.0) if top else (0.0, by) if low else (0.0, 0.0)
    else:
        up = (mate_held - (long - held)) / 2.0
        down = ((mate_long - mate_held) - held) / 2.0
    mark = 0.0
    if (
        held is not None and mate_held is not None and top != low
    ):  # the mark goes where it is one distance from the held end
        apart = (mate_long - mate_held) - held
        mark = apart / 2.0 if top else apart / 2.0 - down
    return (
        replace(one, curve=one.curve.between(-down, long + up), waist_at_mm=_moved(held, down + mark)),
        replace(other, curve=other.curve.between(up, mate_long - down), waist_at_mm=_moved(mate_held, mark - up)),
    )


def _moved(waist_at_mm: float | None, by_mm: float) -> float | None:
    return None if waist_at_mm is None else waist_at_mm + by_mm


def _bent(before: Edges, panels: Edges, pairs: list[tuple[Place, Place]]) -> Edges:
    """Return the panels with each crossing edge bent to its new corners, once."""
    bends: dict[tuple[Place, bool], tuple[Points, float]] = {}
    for front, back in pairs:
        for top in (True, False):
            if not _free(before, front, back, top=top):
                continue
            places = _crossing(before, front, back, top=top)
            ends = [
                _Corner.of(panels, before, seam, place, top) for seam, place in zip((front, back), places, strict=True)
            ]
            turn = _wrapped(ends[1].angle - ends[0].angle) / 2.0
            for place, end, by in zip(places, ends, (turn, -turn), strict=True):
                bends[place, end.at_start] = (end.moved, by)
    return [
        [
            replace(edge, curve=bend(edge.curve, bends.get(((p, e), True)), bends.get(((p, e), False))))
            if ((p, e), True) in bends or ((p, e), False) in bends
            else edge
            for e, edge in enumerate(edges)
        ]
        for p, edges in enumerate(panels)
    ]


class _Corner:
    """Where a crossing edge meets a seam: how far the corner moved, and the angle between the two there."""

    def __init__(self, at_start: bool, moved: Points, angle: float) -> None:
        self.at_start, self.moved, self.angle = at_start, moved, angle

    @classmethod
    def of(cls, panels: Edges, before: Edges, seam: Place, crossing: Place, top: bool) -> _Corner:
        """Return the corner of one panel; the seam's direction is up it, whichever way its loop runs."""
        edge, line = _edge(panels, seam).curve, _edge(before, crossing).curve
        after_seam = crossing == _across(before, seam, 1)
        corner = edge.end if after_seam else edge.start
        tangent = edge.end_tangent if after_seam else edge.start_tangent
        rising = after_seam == top
        up = tangent if rising else -tangent
        old = line.start if after_seam else line.end
        along = line.start_tangent if after_seam else line.end_tangent
        return cls(after_seam, np.asarray(corner - old), _angle(up, along))


def _angle(along: Points, line: Points) -> float:
    return math.atan2(along[0] * line[1] - along[1] * line[0], along @ line)


def _wrapped(angle: float) -> float:
    return (angle + math.pi) % (2.0 * math.pi) - math.pi


def joined_ends(edges: list[Edge]) -> list[Edge]:
    """Return a loop's edges, each begun where the one before it ends: hairs between them are closed."""
    closed = []
    for number, edge in enumerate(edges):
        points = edge.curve.points.copy()
        points[0] = edges[number - 1].curve.end
        closed.append(replace(edge, curve=Curve.through(points)))
    return closed
