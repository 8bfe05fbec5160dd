"""Allowances: the cut line around a panel, each edge with its own width.

Every edge is moved outward by its width and carried on to meet its neighbours. Where the allowance of a seam, a centre or
a lacing edge ends on a crossing edge (top, hem), its end is the mirror image of that edge, so that it lies under the panel
when it is pressed back, if the crossing edge is long enough for it. Where two edges run on in one line with different
widths, the wider ends square.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.meet import meetings, part, point_at
from fanblock.geometry.rings import united
from fanblock.pattern.model import ARMHOLE, CENTER, HEM, NECKLINE, OPEN_KINDS, SEAM, SHOULDER, TOP, WAIST, Edge, Panel

FOLDED_KINDS = frozenset({SEAM, CENTER, SHOULDER, *OPEN_KINDS})
CROSSING_KINDS = frozenset({TOP, HEM, WAIST, ARMHOLE, NECKLINE})

STRAIGHT_DEG = 15.0
"""Below this turn two edges run on in one line; a mitre there would run far out."""

SHORT_OF = 0.45
"""Most that an edge's outer line may stop short of its corner, as a share of the edge: its middle keeps its own width."""

REACH = 2.0
"""Most a corner may run along or beyond its edge, in widths; past it the corner is cut square."""


@dataclass(frozen=True, slots=True, eq=False)
class _Side:
    """An edge and its line moved outward."""

    edge: Edge
    width_mm: float
    moved: Points


def cut_line(panel: Panel, widths: dict[str, float]) -> Curve:
    """Return the closed cut line, counter-clockwise, its first point not repeated.

    ``widths`` gives millimetres by edge name. Raises ValueError when the result is not one ring that holds the panel.
    """
    if not any(widths.values()):
        return _ring(panel.loop())
    sides = [_Side(edge, widths[edge.name], _moved(edge.curve, widths[edge.name])) for edge in panel.edges]
    joints = [_joint(side, sides[(number + 1) % len(sides)]) for number, side in enumerate(sides)]
    ring = []
    for number, side in enumerate(sides):
        (_, _, start), (end, corner, _) = joints[number - 1], joints[number]
        last = float(len(side.moved) - 1)
        start, end = max(start, 0.0), min(end, last)
        ring.append(part(side.moved, start, end) if end > start else side.moved[-1:])
        ring.append(corner)
    return _ring(united(Curve.through(np.vstack(ring)).points, panel.loop()))


def _ring(points: Points) -> Curve:
    """Return closed points as a curve without repeated points, the last and the first included."""
    return Curve(frozen(Curve.through(np.vstack((points, points[:1]))).points[:-1]))


def _moved(curve: Curve, width_mm: float) -> Points:
    """Return the curve's points moved to its right by a width; where it bends, so far that both sides of the bend have it."""
    if not width_mm:
        return curve.points
    steps = np.diff(curve.points, axis=0)
    steps /= np.hypot(*steps.T)[:, None]
    bends = (steps[:-1] + steps[1:]) / 2.0
    bends /= np.maximum(np.sum(bends**2, axis=1), 1.0 / REACH**2)[:, None]
    ways = np.vstack((curve.start_tangent, bends, curve.end_tangent))
    return curve.points + width_mm * np.column_stack((ways[:, 1], -ways[:, 0]))


Joint = tuple[float, Points, float]
"""Where the first line ends, in points; the points of the corner; where the second line starts."""


def _joint(first: _Side, second: _Side) -> Joint:
    last = float(len(first.moved) - 1)
    corner = first.edge.curve.end
    if not first.width_mm and not second.width_mm:
        return last, np.array([corner]), 0.0
    leaving, joining = first.edge.curve.end_tangent, second.edge.curve.start_tangent
    turn = math.degrees(math.atan2(leaving[0] * joining[1] - leaving[1] * joining[0], leaving @ joining))
    if abs(turn) < STRAIGHT_DEG or abs(turn) > 180.0 - STRAIGHT_DEG:
        return last, np.array([corner] if abs(turn) > 90.0 else [first.moved[-1], second.moved[0]]), 0.0
    if turn > 0.0 and _crosses(second.edge) and _folds(first.edge) and first.width_mm and _has_room(turn, second):
        return _mirrored(first, second, leaving, corner, turn)
    if turn > 0.0 and _crosses(first.edge) and _folds(second.edge) and second.width_mm and _has_room(turn, first):
        return _mirrored_before(first, second, joining, corner, turn)
    if turn < 0.0:
        return _inner(first, second, last)
    return _mitre(first, second, leaving, joining, corner)


def _crosses(edge: Edge) -> bool:
    """Return whether an edge runs across the seams that end on it, as one on a level seam does."""
    return edge.kind in CROSSING_KINDS or bool(edge.across)


def _folds(edge: Edge) -> bool:
    return edge.kind in FOLDED_KINDS and not edge.across


def _mirrored(folded: _Side, crossing: _Side, along: Points, corner: Points, turn: float) -> Joint:
    """Return the joint after a folded edge: its end mirrors the crossing edge, which may have a width of its own."""
    reach = _mirror_reach(folded, turn, crossing.width_mm)
    last = float(len(folded.moved) - 1)
    on_seam = corner + _seam_rise(turn, crossing.width_mm) * along
    place = _place_from_end(folded.moved, -reach) if reach < 0.0 else last
    end = point_at(folded.moved, place) if reach < 0.0 else folded.moved[-1] + reach * along
    behind_mm = _behind_seam(turn, crossing)
    if behind_mm <= 0.0:
        return place, np.array([end, on_seam, crossing.moved[0]]), 0.0
    since = float(len(crossing.moved) - 1) - _place_from_end(crossing.moved[::-1], behind_mm)
    return place, np.array([end, on_seam]), since


def _mirrored_before(crossing: _Side, folded: _Side, along: Points, corner: Points, turn: float) -> Joint:
    """Return the joint before a folded edge, the mirror image of :func:`_mirrored`."""
    reach = _mirror_reach(folded, turn, crossing.width_mm)
    on_seam = corner - _seam_rise(turn, crossing.width_mm) * along
    last = float(len(folded.moved) - 1)
    place = last - _place_from_end(folded.moved[::-1], -reach) if reach < 0.0 else 0.0
    start = point_at(folded.moved, place) if reach < 0.0 else folded.moved[0] - reach * along
    behind_mm = _behind_seam(turn, crossing)
    if behind_mm <= 0.0:
        return float(len(crossing.moved) - 1), np.array([crossing.moved[-1], on_seam, start]), place
    return _place_from_end(crossing.moved, behind_mm), np.array([on_seam, start]), place


def _behind_seam(turn: float, crossing: _Side) -> float:
    """Return how much of the crossing edge's outer line lies outside the seam: what the mirror image takes the place of."""
    return crossing.width_mm / math.tan(math.radians(turn))


def _has_room(turn: float, crossing: _Side) -> bool:
    """Return whether the mirror image leaves the middle of the crossing edge its own width.

    On a short edge that goes on nearly as the seam does it would lie over all of it: both are then carried on to meet.
    """
    return _behind_seam(turn, crossing) <= SHORT_OF * crossing.edge.curve.length_mm


def _place_from_end(line: Points, back_mm: float) -> float:
    """Return the place, counted in points, that lies a length before the end of a line."""
    along = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))))
    return float(np.interp(along[-1] - back_mm, along, np.arange(len(line))))


def _mirror_reach(folded: _Side, turn: float, crossing_mm: float) -> float:
    """Return how far beyond the corner a folded edge's outer line runs when its end mirrors the crossing edge.

    Where it runs short of the corner it leaves the middle of a short edge its full width.
    """
    width_mm, interior = folded.width_mm, math.radians(180.0 - turn)
    shortest = -min(REACH * width_mm, SHORT_OF * folded.edge.curve.length_mm)
    lean = (
        -width_mm / math.tan(interior)
        if abs(math.tan(interior)) > 0.1
        else math.copysign(width_mm * 10, -math.cos(interior))
    )
    farthest = math.sqrt((REACH * max(width_mm, crossing_mm)) ** 2 - width_mm**2)
    return min(float(max(lean, shortest)) + _seam_rise(turn, crossing_mm), farthest)


def _seam_rise(turn: float, crossing_mm: float) -> float:
    """Return how far beyond the corner, along the seam, the crossing edge's own outer line passes."""
    return float(min(crossing_mm / max(math.sin(math.radians(abs(turn))), 0.1), REACH * crossing_mm))


def _inner(first: _Side, second: _Side, last: float) -> Joint:
    """Return the joint at an inward corner: where the two moved lines cross."""
    found = meetings(first.moved, second.moved)
    if not found:
        return last, np.array([first.edge.curve.end]), 0.0
    on_first, on_second = found[-1]
    index = min(int(on_first), len(first.moved) - 2)
    point = first.moved[index] + (on_first - index) * (first.moved[index + 1] - first.moved[index])
    return on_first, np.array([point]), on_second


def _mitre(first: _Side, second: _Side, leaving: Points, joining: Points, corner: Points) -> Joint:
    """Return the joint where both moved lines, carried on straight, meet; cut square where that lies far out.

    Where their widths differ the lines may meet within one of them: that one is then cut there, not carried on, but no further
    in than leaves its middle its own width.
    """
    last = float(len(first.moved) - 1)
    end, start = first.moved[-1], second.moved[0]
    cross = leaving[0] * joining[1] - leaving[1] * joining[0]
    gap = start - end
    reach = (gap[0] * joining[1] - gap[1] * joining[0]) / cross
    within_second = (gap[0] * leaving[1] - gap[1] * leaving[0]) / cross
    point = end + reach * leaving
    if np.hypot(*(point - corner)) > REACH * max(first.width_mm, second.width_mm):
        return last, np.array([end, start]), 0.0
    if within_second > 0.0:
        behind_mm = min(within_second, SHORT_OF * second.edge.curve.length_mm)
        since = float(len(second.moved) - 1) - _place_from_end(second.moved[::-1], behind_mm)
        met = point_at(second.moved, since)
        return last, np.array([met] if behind_mm == within_second else [end, met]), since
    if reach < 0.0:
        before_mm = min(-reach, SHORT_OF * first.edge.curve.length_mm)
        until = _place_from_end(first.moved, before_mm)
        met = point_at(first.moved, until)
        return until, np.array([met] if before_mm == -reach else [met, start]), 0.0
    return last, np.array([point]), 0.0
