"""Cutting the outline of a layer short: off along a line across the block, or inward of its edges by a width."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from fanblock.draft.model import AROUND, HEIGHT
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.meet import crossings, meetings, part, point_at
from fanblock.pattern.model import Edge
from fanblock.tolerances import CORNER_CLEAR_MM, SAME_POINT_MM

SMOOTH_RAD = math.radians(8.0)
"""Two edges that turn less than this where they meet run on in one line: their moved lines end side by side there."""

CUSP_RAD = math.radians(150.0)
"""Two edges that turn back by more than this where they meet, as two tabs do at a slit, part when they are drawn in."""

CARRY_RATIO = 3.0
"""How far, in widths, moved lines are carried on to find where they meet."""

STUB_MM = 3.0
"""What is left of an edge shorter than this, where a layer is cut off, is left out: truing moves the ends of seams so far."""

LINE_STEPS = 40
"""Into how many steps the line a layer is cut off along is divided."""


@dataclass(frozen=True, slots=True, eq=False)
class Placed:
    """An edge with its places on the block, one for each of its points: around, height."""

    edge: Edge
    places: Points


def cut_off(sides: list[Placed], height_of: Callable[[Points], Points], hem: str, kind: str) -> list[Placed] | None:
    """Return a loop without what lies below a line that is a height for every around; None where nothing is left.

    Each run below the line gives way to an edge along it, called ``hem`` and numbered where there are several. Its curve is
    left to be drawn.
    """
    pieces: list[tuple[Placed, bool]] = []
    for side in sides:
        pieces += _parted(side, height_of)
    if all(above for _, above in pieces):
        return sides
    if not any(above for _, above in pieces):
        return None
    first = next(number for number, (_, above) in enumerate(pieces) if above and not pieces[number - 1][1])
    loop: list[Placed] = []
    for piece, above in (*pieces[first:], *pieces[:first]):
        if above:
            loop.append(piece)
        elif loop[-1].edge.kind != _GAP:
            loop.append(replace(piece, edge=replace(piece.edge, kind=_GAP)))
    gaps = [number for number, side in enumerate(loop) if side.edge.kind == _GAP]
    for count, number in enumerate(gaps, start=1):
        name = hem if len(gaps) == 1 else f"{hem} {count}"
        start, end = loop[number - 1].places[-1], loop[(number + 1) % len(loop)].places[0]
        around = np.linspace(start[AROUND], end[AROUND], LINE_STEPS + 1)
        edge = Edge(name, kind, loop[number].edge.curve)
        loop[number] = Placed(edge, np.column_stack((around, height_of(around))))
    return loop


_GAP = "gap"


def _parted(side: Placed, height_of: Callable[[Points], Points]) -> list[tuple[Placed, bool]]:
    """Return an edge in parts, each with whether it lies above a line."""
    over = side.places[:, HEIGHT] - height_of(side.places[:, AROUND])
    run = np.column_stack((over, side.places))
    at = [0.0, *crossings(run, 0, 0.0).tolist(), float(len(run) - 1)]
    found = []
    for start, end in pairwise(at):
        if end - start < SAME_POINT_MM:
            continue
        middle = point_at(run, (start + end) / 2.0)
        along = np.interp([start, end], np.arange(len(run)), side.edge.curve.along)
        waist, long = side.edge.waist_at_mm, float(along[1] - along[0])
        if waist is not None:
            kept = along[0] - STUB_MM <= waist <= along[1] + STUB_MM
            waist = min(max(float(waist - along[0]), 0.0), long) if kept else None
        edge = replace(side.edge, curve=side.edge.curve.between(*along.tolist()), waist_at_mm=waist)
        above = bool(middle[0] > -SAME_POINT_MM) and (len(at) == 2 or long > STUB_MM)
        found.append((Placed(edge, part(side.places, start, end)), above))
    return found


def drawn_in(edges: list[Edge], widths: Mapping[str, float]) -> list[Edge]:
    """Return a loop whose edges are moved inward by widths given by name, outward by widths below 0.

    Neighbours are cut, or carried on straight, to where they then meet; marks of the waist stay where they are.
    """
    if not any(widths.get(edge.name, 0.0) for edge in edges):
        return edges
    lines = [_moved(edge.curve, widths.get(edge.name, 0.0)) for edge in edges]
    reach = CARRY_RATIO * max(abs(mm) for mm in widths.values())
    joints = []
    for number, line in enumerate(lines):
        after = (number + 1) % len(lines)
        joints.append(_joint(edges[number], line, edges[after], lines[after], reach))
    moved = [
        _between(edge, line, joints[number - 1][1], joints[number][0])
        for number, (edge, line) in enumerate(zip(edges, lines, strict=True))
    ]
    return _stepped(moved, widths)


def _stepped(edges: list[Edge], widths: Mapping[str, float]) -> list[Edge]:
    """Return a loop closed by a step where an edge that was moved runs on in one that was not, or parts from another."""
    result = list(edges)
    for number, edge in enumerate(edges):
        after = (number + 1) % len(edges)
        end, start = result[number].curve.end, result[after].curve.start
        if np.hypot(*(start - end)) <= CORNER_CLEAR_MM:
            continue
        if widths.get(edge.name, 0.0):
            result[number] = replace(
                result[number], curve=Curve.through(np.vstack((result[number].curve.points, start)))
            )
        else:
            result[after] = replace(result[after], curve=Curve.through(np.vstack((end, result[after].curve.points))))
    return result


def _moved(curve: Curve, by_mm: float) -> Curve:
    """Return a curve of a counter-clockwise loop moved inward: to its left."""
    if not by_mm:
        return curve
    curve = clear_of_corners(curve)
    steps = np.diff(curve.points, axis=0)
    steps /= np.hypot(*steps.T)[:, None]
    tangents = np.vstack((curve.start_tangent, steps[:-1] + steps[1:], curve.end_tangent))
    tangents /= np.hypot(*tangents.T)[:, None]
    return Curve.through(_loopless(curve.points + by_mm * np.column_stack((-tangents[:, 1], tangents[:, 0]))))


def _loopless(points: Points) -> Points:
    """Return a line without the loops it makes where it was moved towards the middle of a bend tighter than that."""
    while True:
        loops = [hit for hit in meetings(points, points) if hit[1] - hit[0] > 1.0 + SAME_POINT_MM]
        if not loops:
            return points
        start, end = loops[0]
        points = np.vstack((part(points, 0.0, start)[:-1], part(points, end, len(points) - 1.0)))


Joint = tuple[float, float]
"""How far along the first line it ends, and how far along the second that begins; either may lie beyond the line."""


def _joint(one: Edge, line: Curve, other: Edge, next_line: Curve, reach_mm: float) -> Joint:
    """Return where two moved neighbours meet; where they run on in one line, at the ends they have."""
    leaving, joining = one.curve.end_tangent, other.curve.start_tangent
    turn = math.atan2(leaving[0] * joining[1] - leaving[1] * joining[0], leaving @ joining)
    if abs(turn) < SMOOTH_RAD or turn < -CUSP_RAD:
        return line.length_mm, 0.0
    longer, next_longer = (
        line.between(0.0, line.length_mm + reach_mm),
        next_line.between(-reach_mm, next_line.length_mm),
    )
    found = meetings(longer.points, next_longer.points)
    if not found:
        return line.length_mm, 0.0
    corner = one.curve.end
    on_line, on_next = min(found, key=lambda hit: float(np.hypot(*(point_at(longer.points, hit[0]) - corner))))
    return _along(longer, on_line), _along(next_longer, on_next) - reach_mm


def _along(curve: Curve, place: float) -> float:
    return float(np.interp(place, np.arange(len(curve.points)), curve.along))


def _between(edge: Edge, line: Curve, start_mm: float, end_mm: float) -> Edge:
    """Return an edge along its moved line from one joint to the next."""
    held = edge.waist_at_mm
    if held is not None:
        held = min(max(held * line.length_mm / edge.curve.length_mm, start_mm), end_mm) - start_mm
    return replace(edge, curve=clear_of_corners(line.between(start_mm, end_mm)), waist_at_mm=held)


def clear_of_corners(curve: Curve) -> Curve:
    """Return a curve without inner points so near its ends that they would spoil the tangents there."""
    along = curve.along
    keep = (along > CORNER_CLEAR_MM) & (along < curve.length_mm - CORNER_CLEAR_MM)
    keep[[0, -1]] = True
    return Curve.through(curve.points[keep])
