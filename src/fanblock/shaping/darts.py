"""Darts drawn on the panels: two legs of one length, and the edge they open at shaped so that it runs on when they are sewn.

The cloth between the legs stays; folded, it lies under the panel on the side it is pressed to. Its outer end is the dart's
*peak*: on that side of the fold the mirror image of the panel's edge, on the other side that edge carried on, so that raw
edge lies on raw edge.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from fanblock.draft.darts import DartTake
from fanblock.draft.takes import dart_takes_of
from fanblock.draft.truing import bend
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.meet import contains, meetings
from fanblock.pattern.model import Edge, Mark, Note, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.shaping.edges import FREE_KINDS, base_name, renewed, with_open_edge

STEP_MM = 1.5
"""Distance between the points of a dart's legs."""

BEYOND = 0.35
"""How far, as a share of bust to waist, the legs are carried on past the mouth before the edge cuts them."""


@dataclass(frozen=True, slots=True, eq=False)
class _Leg:
    """One leg, from the point to where it meets an edge: its line carried on, its length to there, the edge and the place on
    that, along it."""

    line: Curve
    length_mm: float
    edge: int
    at_mm: float


def with_darts(work: Work) -> Work:
    """Return the work with every dart of its draft on the panel it lies in.

    GeometryError when a dart runs into a seam, a corner or another dart.
    """
    for take in dart_takes_of(work.draft):
        work = _with_dart(work, take)
    return work


def _with_dart(work: Work, take: DartTake) -> Work:
    dart = take.dart
    where = f"dart “{dart.name}”"
    panel = _holding(work, take, where)
    legs = sorted((_leg(work, panel, take, side, where) for side in (-0.5, 0.5)), key=lambda leg: leg.at_mm)
    if legs[0].edge != legs[1].edge:
        names = " and ".join(sorted({panel.edges[leg.edge].name for leg in legs}))
        what = f"its mouth lies across the corner between {names}."
        raise GeometryError([Problem("dart-corner", where, what, "Move it to one side.")])
    length = (legs[0].length_mm + legs[1].length_mm) / 2.0
    lines = [leg.line.between(0.0, length) for leg in legs]
    _check_clear(panel, lines, where)
    number = legs[0].edge
    whole = panel.edges[number].curve
    parts = _joined(
        whole.between(0.0, legs[0].at_mm), whole.between(legs[1].at_mm, whole.length_mm), lines[0], lines[1]
    )
    forward = dart.around_at(dart.mouth) <= work.block.side_ratio
    under_first = forward == (dart.chain == "hem")
    name, kind = f"{base_name(panel.edges[number])} at {dart.name}", panel.edges[number].kind
    halves = _peak(parts, lines, under_first=under_first)
    peak = tuple(Edge(f"{name} {count}", kind, half) for count, half in enumerate(halves, start=1))
    opened = with_open_edge(panel, number, parts, peak, where)
    marks = tuple(
        Mark(dart.name, "dart", line.reversed(), dart.name if first else "") for first, line in enumerate(lines)
    )
    work = renewed(work, replace(opened, marks=(*panel.marks, *marks)), folded={edge.name for edge in peak})
    return replace(work, notes=(*work.notes, _note(panel, take, forward=forward)))


def _note(panel: Panel, take: DartTake, *, forward: bool) -> Note:
    center = "front" if forward else "back"
    return Note(
        "sewing first",
        f"Piece {panel.number} ({panel.name}): fold the dart “{take.dart.name}” line on line, sew it from the edge to the point "
        f"and off the fold, and press it towards the centre {center}.",
    )


def _holding(work: Work, take: DartTake, where: str) -> Panel:
    """Return the panel that holds the middle of a dart."""
    dart = take.dart
    middle = (dart.mouth + dart.point) / 2.0
    place = np.array([dart.around_at(middle), middle])
    for panel in work.panels:
        if panel.name in work.traces and contains(np.vstack([side.points for side in work.traces[panel.name]]), place):
            return panel
    raise GeometryError([Problem("dart-off", where, "its middle lies off the cloth.", "Move it within a panel.")])


def _leg(work: Work, panel: Panel, take: DartTake, side: float, where: str) -> _Leg:
    """Return one leg of a dart; GeometryError when it runs into anything but a free edge."""
    dart = take.dart
    beyond = math.copysign(BEYOND, dart.mouth - dart.point)
    ruling = work.block.ruling_length_mm(dart.around_at(dart.mouth))
    count = int(abs(dart.mouth + beyond - dart.point) * ruling / STEP_MM) + 2
    heights = np.linspace(dart.point, dart.mouth + beyond, count)
    arounds = work.block.along(dart.around_of(heights), heights, side * take(heights))
    line = Curve.through(work.block.at(arounds, heights))
    hits = [
        (on_leg, number, on_edge)
        for number, edge in enumerate(panel.edges)
        for on_leg, on_edge in meetings(line.points, edge.curve.points)
    ]
    if not hits:
        raise GeometryError([Problem("dart-off", where, "it does not reach an edge.", "Let it begin on one.")])
    on_leg, number, on_edge = min(hits)
    edge = panel.edges[number]
    if edge.kind not in FREE_KINDS:
        what = f"it runs into {edge.name} of panel “{panel.name}”."
        raise GeometryError([Problem("dart-off", where, what, "Move it within the panel, or let it take less.")])
    return _Leg(line, _distance(line, on_leg), number, _distance(edge.curve, on_edge))


def _distance(curve: Curve, place: float) -> float:
    """Return how far along a curve a place counted in points lies."""
    return float(np.interp(place, np.arange(len(curve.points)), curve.along))


def _check_clear(panel: Panel, lines: list[Curve], where: str) -> None:
    """Refuse a dart that crosses one that is there already."""
    for mark in panel.marks:
        if mark.kind == "dart" and any(meetings(line.points, mark.curve.points) for line in lines):
            what = f"it crosses the dart “{mark.name}”."
            raise GeometryError([Problem("dart-crossing", where, what, "Move one of the two.")])


def _joined(before: Curve, after: Curve, first: Curve, second: Curve) -> tuple[Curve, Curve]:
    """Return the edge's two parts bent to the mouths of the legs, so that they make one line when the dart is closed."""
    turn = (
        _wrapped(_angle(second.end_tangent, after.start_tangent) - _angle(first.end_tangent, before.end_tangent)) / 2.0
    )
    return (
        bend(before, None, (first.end - before.end, turn)),
        bend(after, (second.end - after.start, -turn), None),
    )


def _peak(parts: tuple[Curve, Curve], lines: list[Curve], *, under_first: bool) -> tuple[Curve, Curve]:
    """Return the dart's outer end on either side of its fold, from the mouth of the first leg to that of the second.

    The fold runs half way between the mouths. On the side the dart is pressed to, its edge is the mirror image, about the
    leg, of the part of the panel's edge it lies under; on the other side of the fold it is the mirror image of that again.
    """
    first, second = lines[0], lines[1]
    leg, edge = (first, parts[0].reversed()) if under_first else (second, parts[1])
    middle = (first.end + second.end) / 2.0
    fold = first.end_tangent + second.end_tangent
    fold /= np.hypot(*fold)
    under = _mirrored(_carried(edge, float(np.hypot(*(second.end - first.end)))), leg.end, leg.end_tangent)
    near = _up_to(under, middle, fold)
    far = _mirrored(near, middle, fold)[::-1]
    one, other = (near, far) if under_first else (far[::-1], near[::-1])
    return Curve.through(np.vstack((first.end, one[1:]))), Curve.through(np.vstack((other[:-1], second.end)))


def with_even_darts(edges: tuple[Edge, ...], marks: tuple[Mark, ...]) -> tuple[tuple[Edge, ...], tuple[Mark, ...]]:
    """Return edges and marks of a panel that was moved with the legs of every dart made equal again, by hairs, at its mouth."""
    legs: dict[str, list[Mark]] = {}
    for mark in marks:
        if mark.kind == "dart":
            legs.setdefault(mark.name, []).append(mark)
    for pair in legs.values():
        if len(pair) != 2:
            continue
        length = sum(leg.curve.length_mm for leg in pair) / 2.0
        for leg in pair:
            even = leg.curve.between(leg.curve.length_mm - length, leg.curve.length_mm)
            marks = tuple(replace(one, curve=even) if one is leg else one for one in marks)
            edges = tuple(_moved_end(edge, leg.curve.start, even.start) for edge in edges)
    return edges, marks


def _moved_end(edge: Edge, old: Points, new: Points) -> Edge:
    """Return an edge bent so that an end of it that lies at a place lies at another near that."""
    shift = (np.asarray(new - old), 0.0)
    at_start, at_end = (float(np.hypot(*(end - old))) < NEAR_MM for end in (edge.curve.start, edge.curve.end))
    if not at_start and not at_end:
        return edge
    return replace(edge, curve=bend(edge.curve, shift if at_start else None, shift if at_end else None))


NEAR_MM = 0.5
"""An end of an edge this near to a leg's mouth is the mouth."""


def _carried(edge: Curve, by_mm: float) -> Points:
    """Return an edge's points, carried on straight."""
    return edge.between(0.0, edge.length_mm + by_mm).points


def _mirrored(points: Points, on: Points, along: Points) -> Points:
    """Return points mirrored about the line through a point in a direction (a unit vector)."""
    off = points - on
    return np.asarray(on + 2.0 * (off @ along)[:, None] * along - off)


def _up_to(points: Points, middle: Points, fold: Points) -> Points:
    """Return a run of points up to where it crosses the fold line, or to its end if it does not."""
    side = (points - middle) @ np.array([-fold[1], fold[0]])
    crossed = np.flatnonzero(side * side[0] <= 0.0)
    if not len(crossed):
        return points
    last = int(crossed[0])
    share = side[last - 1] / (side[last - 1] - side[last])
    end = points[last - 1] + share * (points[last] - points[last - 1])
    return np.vstack((points[:last], end))


def _angle(along: Points, line: Points) -> float:
    return math.atan2(along[0] * line[1] - along[1] * line[0], along @ line)


def _wrapped(angle: float) -> float:
    return (angle + math.pi) % (2.0 * math.pi) - math.pi
