"""How a drawn piece lies: the turn and the shift that bring it back into the block's frame.

A piece may have been moved and turned on the sheet. Most of its lines were left alone, so every line by itself offers a
motion, and the one by which the longest run of lines falls on what was drafted is taken; then all those lines together
settle it (least squares of a rigid motion by the singular values of the covariance: W. Kabsch, Acta Crystallographica
A32, 1976, page 922).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from fanblock.adopting.strokes import Stroke
from fanblock.geometry.curve import Curve, Points
from fanblock.problems import Problem
from fanblock.units import shown

SAME_MM = 0.05
"""A line that keeps this near to what was drafted was not moved: a drawn curve may stand off by 0.02 mm, and editors round."""

KEPT_MM = 0.1
"""A point that was moved by less keeps its words: nobody sews closer."""

UNMOVED_MM = 1.0
"""A line that was not moved itself keeps its words where these draw it this near: two pencil lines."""

_PLACES = 33
"""At how many places two lines are held against each other."""

_LEAST_MM = 40.0
"""A single line shorter than this does not tell how a piece lies."""


@dataclass(frozen=True, slots=True, eq=False)
class Motion:
    """A turn and a shift: point ``p`` of the drawing lies at ``matrix @ p + shift`` on the block."""

    matrix: Points
    shift: Points

    def put(self, curve: Curve) -> Curve:
        """Return a drawn curve where it lies on the block."""
        return curve.moved(self.matrix, self.shift)


def motion_of(panel: str, strokes: Sequence[Stroke]) -> Motion | Problem:
    """Return how a piece lies, or what is wrong when nothing of it has kept its shape."""
    if not strokes:
        return Problem("drawing-lost", f"piece “{panel}”", "none of its lines is in the drawing.", "Put it back.")
    motion = _best(strokes)
    if motion is not None:
        return motion
    place = strokes[0].place
    turned = [replace(one, drawn=one.drawn.moved(np.diag([-1.0, 1.0]), np.zeros(2))) for one in strokes]
    if _best(turned) is not None:
        what = f"the piece {shown(panel)} has been turned over."
        return Problem("drawing-mirrored", "", what, "Turn it back: the wearer's left half is drawn.", place)
    what = f"of the piece {shown(panel)} no two lines lie to each other as they were drafted, so nobody can tell which moved."
    return Problem("drawing-adrift", "", what, "Leave some of its lines alone, such as its waist level.", place)


def loosely(strokes: Sequence[Stroke]) -> Motion | None:
    """Return about how a piece lies of which every edge may have changed, by the middles of its edges; None for too few."""
    edges = [stroke for stroke in strokes if stroke.edge]
    if len(edges) < LEAST_EDGES:
        return None
    drawn, old = (
        np.array([curve.at(curve.length_mm / 2.0) for curve in curves])
        for curves in ([stroke.drawn for stroke in edges], [stroke.old for stroke in edges])
    )
    return rigid(drawn, old)


LEAST_EDGES = 3
"""The middles of fewer edges lie on one line, and do not tell which way up a piece lies."""


def _best(strokes: Sequence[Stroke]) -> Motion | None:
    old = [sampled(stroke.old) for stroke in strokes]
    drawn = [(there := sampled(stroke.drawn), there[::-1]) for stroke in strokes]
    lengths = np.array([stroke.old.length_mm for stroke in strokes])
    best: tuple[float, list[tuple[int, int]]] = (0.0, [])
    for number, pair in enumerate(drawn):
        for way in pair:
            held = _held(rigid(way, old[number]), old, drawn)
            run = float(sum(lengths[index] for index, _ in held))
            if run > best[0]:
                best = (run, held)
    run, held = best
    if not held or (len(held) == 1 and (run < _LEAST_MM or len(strokes) > 2)):
        return None
    return rigid(np.vstack([drawn[index][way] for index, way in held]), np.vstack([old[index] for index, _ in held]))


def _held(motion: Motion, old: list[Points], drawn: list[tuple[Points, Points]]) -> list[tuple[int, int]]:
    """Return the lines that a motion brings back to where they were, each with the way it was run."""
    found = []
    for index, (there, pair) in enumerate(zip(old, drawn, strict=True)):
        off = [float(np.hypot(*(way @ motion.matrix.T + motion.shift - there).T).max()) for way in pair]
        if min(off) < SAME_MM:
            found.append((index, int(np.argmin(off))))
    return found


def rigid(drawn: Points, old: Points) -> Motion:
    """Return the turn and the shift that bring drawn points nearest to where they were."""
    middle, aim = drawn.mean(axis=0), old.mean(axis=0)
    left, _, right = np.linalg.svd((drawn - middle).T @ (old - aim))
    sign = np.sign(np.linalg.det(left @ right))
    matrix = (left @ np.diag([1.0, sign]) @ right).T
    return Motion(matrix, aim - matrix @ middle)


def sampled(curve: Curve) -> Points:
    """Return points of a curve in even steps, both ends among them."""
    along = np.linspace(0.0, curve.length_mm, _PLACES)
    return np.column_stack([np.interp(along, curve.along, curve.points[:, axis]) for axis in (0, 1)])
