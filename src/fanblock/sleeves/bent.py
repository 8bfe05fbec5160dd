"""Edges of a sleeve below the cap, bent at the elbow: straight first, then turned, in the frame of the folded sleeve.

A sleeve hangs with the arm: y down from the underarm at 0, front at the left. Bending brings the hand forward, to the left.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.roots import root
from fanblock.geometry.splines import through_points
from fanblock.problems import GeometryError, Problem

STEP_MM = 2.0
"""Distance between the points of an edge."""

DOWN = np.array([0.0, -1.0])

DART_GAP_MM = 24.0
"""From one elbow dart to the next along the seam (from memory)."""

DART_DEPTH = 0.85
"""How far an elbow dart reaches from the seam towards the back of the arm: darts end short of the point (common practice)."""

STRETCH_MM, TAIL_MM = 15.0, 30.0
"""How far the stretch of seam that holds the elbow darts runs on above the first and below the last of them."""

SHORT_TAIL_MM = 25.0
"""Less seam than this below that stretch goes with it."""

LEAST_DART_MM = 40.0
"""An elbow dart shorter than this makes a dimple instead of room (from memory)."""

LEAST_TAKE_MM, MOST_TAKE_MM = 6.0, 32.0
"""An elbow dart takes between so much at the seam: less is not worth sewing, more will not lie flat (from memory)."""


@dataclass(frozen=True, slots=True, eq=False)
class Turned:
    """A rigid turn of the plane: a point ``p`` goes to ``matrix @ p + shift``."""

    matrix: Points
    shift: Points

    def __call__(self, points: Points) -> Points:
        """Return points turned."""
        return np.asarray(np.asarray(points) @ self.matrix.T + self.shift)

    def turned_about(self, pivot: Points, turn_rad: float) -> Turned:
        """Return this turn followed by one about ``pivot``, counter-clockwise."""
        cos, sin = math.cos(turn_rad), math.sin(turn_rad)
        matrix = np.array([[cos, -sin], [sin, cos]])
        return Turned(matrix @ self.matrix, matrix @ (self.shift - pivot) + pivot)


STAYING = Turned(np.eye(2), np.zeros(2))


def side(points: list[tuple[float, float]], end: Points = DOWN, *, from_y: float) -> Curve:
    """Return the edge that runs straight down from ``from_y`` to the first of the points, then smooth through the others.

    At its lower end it runs along ``end``.
    """
    smooth = through_points(np.array(points), STEP_MM, DOWN, end)
    straight = through_points(np.array([(points[0][0], from_y), points[0]]), STEP_MM)
    return Curve.through(np.vstack((straight, smooth)))


@dataclass(frozen=True, slots=True, eq=False)
class Dart:
    """An elbow dart: the upper and the lower end of its legs on the seam, and its point."""

    upper: Points
    lower: Points
    point: Points

    @property
    def width_mm(self) -> float:
        """How wide it is at the seam."""
        return float(np.hypot(*(self.upper - self.lower)))

    @property
    def legs_mm(self) -> tuple[float, float]:
        """Lengths of the upper and the lower leg."""
        return float(np.hypot(*(self.upper - self.point))), float(np.hypot(*(self.lower - self.point)))


@dataclass(frozen=True, slots=True, eq=False)
class Darted:
    """The two edges of a sleeve's seam, both from the top down, in pieces, and what lies between them.

    ``front`` and ``back`` are (above, at the elbow, below); below is None where the elbow's stretch runs to the hem.
    ``elbow`` are the front and the back end of the elbow line.
    """

    front: tuple[Curve, Curve, Curve | None]
    back: tuple[Curve, Curve, Curve | None]
    darts: tuple[Dart, ...]
    elbow: tuple[Points, Points]


def darted(front: Curve, middle_x: float, elbow_y: float, back_x: float, count: int, take_mm: float) -> Darted:
    """Return the seam of a one-piece sleeve that is bent by elbow darts in its back edge.

    ``front`` is the straight sleeve's front edge from the top down; its back edge is the mirror image about ``middle_x``.
    Below each dart all is turned forward about the front edge, so that the back edge opens by the dart. ``back_x`` is the
    line of the back of the arm, towards which the darts point; together they take ``take_mm``. With the darts closed both
    edges are equally long.
    """
    if not LEAST_TAKE_MM <= take_mm / count <= MOST_TAKE_MM:
        what = f"each elbow dart would take {take_mm / count:.0f} mm."
        remedy = (
            f"Let each take {LEAST_TAKE_MM:.0f} to {MOST_TAKE_MM:.0f} mm: change `dart take` or the number of `darts`."
        )
        raise GeometryError([Problem("dart-take", "dart take", what, remedy)])
    back = Curve.through(front.points * (-1.0, 1.0) + (2.0 * middle_x, 0.0))
    half = DART_GAP_MM * (count - 1) / 2.0
    levels = [elbow_y + half - DART_GAP_MM * number for number in range(count)]
    stops = [_length_at(front, level) for level in levels]
    if stops[0] < 2.0 * STRETCH_MM or front.length_mm - stops[-1] < STRETCH_MM:
        what = "there is no room for the elbow darts between the underarm and the hem."
        raise GeometryError([Problem("darts-room", "darts", what, "Give fewer darts, or make the sleeve longer.")])
    turns, darts = [STAYING], []
    for stop in stops:
        pivot, end = front.at(stop), back.at(stop)
        wide = float(end[0] - pivot[0])
        depth = DART_DEPTH * float(end[0] - back_x)
        if depth < LEAST_DART_MM:
            what = f"an elbow dart would be {max(depth, 0.0) / 10.0:.1f} cm long."
            raise GeometryError(
                [Problem("dart-short", "seam ahead", what, "Let the seam stand nearer to the underarm.")]
            )
        turn = -2.0 * math.asin(take_mm / count / 2.0 / wide)
        before = turns[-1]
        after = before.turned_about(before(pivot), turn)
        halfway = before.turned_about(before(pivot), turn / 2.0)
        darts.append(Dart(before(end), after(end), halfway(end - (depth, 0.0))))
        turns.append(after)
    return _in_pieces(front, back, stops, turns, tuple(darts), elbow_y)


def _length_at(curve: Curve, level: float) -> float:
    """Return how far down a falling curve a level lies."""
    return float(np.interp(-level, -curve.points[:, 1], curve.along))


def _in_pieces(
    front: Curve, back: Curve, stops: list[float], turns: list[Turned], darts: tuple[Dart, ...], elbow_y: float
) -> Darted:
    long = front.length_mm
    first, last = stops[0] - STRETCH_MM, stops[-1] + TAIL_MM
    last = long if long - last < SHORT_TAIL_MM else last
    bend, moved = _bend(front, first, last, stops, turns)
    back_bend = np.vstack(
        [
            turn(back.between(max(first, start), min(last, end)).points)
            for turn, start, end in zip(turns, [first, *stops], [*stops, last], strict=True)
        ]
    )
    tails: tuple[Curve | None, Curve | None] = (None, None)
    if last < long:
        ends = front.between(last, long).points, back.between(last, long).points
        tails = Curve.through(turns[-1](ends[0]) + moved), Curve.through(turns[-1](ends[1]))
    at, level = len(stops) // 2, _length_at(front, elbow_y)
    return Darted(
        (front.between(0.0, first), bend, tails[0]),
        (back.between(0.0, first), Curve.through(back_bend), tails[1]),
        darts,
        (turns[at](front.at(level)), turns[at](back.at(level))),
    )


def _bend(front: Curve, first: float, last: float, stops: list[float], turns: list[Turned]) -> tuple[Curve, Points]:
    """Return the front edge where it bends, made smooth, and how far what follows is moved so that no length is lost.

    A smooth edge cuts its corners by some hundredths of a millimetre; its end and the edge below are moved on by as much.
    """
    lead = turns[-1].matrix @ front.tangent_at(last)
    start, end = front.at(first), turns[-1](front.at(last))
    kinks = [turn(front.at(stop)) for stop, turn in zip(stops, turns, strict=False)]
    middle = [(kinks[0] + kinks[-1]) / 2.0] if len(kinks) > 1 else []

    def smooth(by_mm: float) -> Curve:
        points = np.array([start, *middle, end + by_mm * lead])
        return Curve.through(through_points(points, STEP_MM, front.tangent_at(first), lead))

    by = root(lambda by_mm: smooth(by_mm).length_mm - (last - first), -STRETCH_MM, STRETCH_MM)
    return smooth(by), by * lead
