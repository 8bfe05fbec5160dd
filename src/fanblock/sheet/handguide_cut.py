"""The cutting line as a hand can follow it: its corners, and beside which edge it runs from each to the next.

An allowance ends otherwise at every corner: mirrored at top and hem, square, or carried on to meet its neighbour. The corners
tell all of it, without a rule for each.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from fanblock.geometry.bezier import corners
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.region import off_lines_mm, thinned
from fanblock.pattern.model import Panel
from fanblock.sheet.handguide_curves import Rule
from fanblock.sheet.handguide_model import CutCorner
from fanblock.tolerances import STRAIGHT_MM

BESIDE_MM = 0.15
"""A cutting line that keeps its distance from an edge so nearly runs beside it."""

BENT_MM = 0.25
"""A part that runs beside no edge is told by so many points that straight lines between them stay so near."""

CARRIED = 3.0
"""How far, in widths, an edge is carried on straight for what runs on beyond its corner."""

CARRIED_MM = 3.0
"""A curved edge is carried on for no more than this: where it points to at its end is drawn by eye."""

LEAST_RUN_MM, NEAR_MM = 8.0, 1.5
"""What runs beside an edge for less than the one does not follow it; a corner as near as the other to where it ends is its end."""

STEP_MM = 0.5
"""How finely the cutting line is followed."""


@dataclass(frozen=True, slots=True, eq=False)
class _Beside:
    """A part of an edge without corners, carried on straight at both ends, and how far outside it the cutting line runs."""

    edge: str
    run: Points
    width_mm: float


def cut_corners(panel: Panel, rule: Rule) -> tuple[CutCorner, ...]:
    """Return the corners of a panel's cutting line in the order of its loop; none where nothing lies beyond the stitch line."""
    if panel.cut_line is None or not any(width > 0.0 for width in panel.allowances.values()):
        return ()
    ring, sharp = _ring(panel.cut_line.points)
    sides = [
        side for edge in panel.edges for side in _sides(edge.name, edge.curve, panel.allowances.get(edge.name, 0.0))
    ]
    middles = 0.5 * (ring[:-1] + ring[1:])
    near = np.array([np.abs(off_lines_mm(middles, [side.run]) - side.width_mm) <= BESIDE_MM for side in sides])
    found: list[CutCorner] = []
    for first, last, at in _stretches(near, sharp):
        side = sides[at] if at >= 0 else None
        run = ring[first : last + 1] if side is None else ring[[first, last]]
        for point in (thinned(run, BENT_MM) if side is None else run)[:-1]:
            x, y = (rule.rounded(float(value)) for value in point)
            found.append(CutCorner(x, y, "" if side is None else side.edge, 0.0 if side is None else side.width_mm))
    return tuple(_apart(found))


def _ring(points: Points) -> tuple[Points, list[int]]:
    """A closed line in small steps from its upper left corner round to it again, and which of its points are corners."""
    count = len(points)
    at = [corner - 1 for corner in corners(np.vstack((points[-1:], points, points[:1])))]
    kept = [corner % count for corner in at] or [0]
    first = max(kept, key=lambda corner: float(points[corner, 1] - points[corner, 0]))
    turned = Curve.through(np.vstack((np.roll(points, -first, axis=0), points[first : first + 1])))
    steps = np.maximum(1, np.ceil(np.diff(turned.along) / STEP_MM).astype(int))
    fine = [turned.points[:1]]
    for start, end, parts in zip(turned.points[:-1], turned.points[1:], steps.tolist(), strict=True):
        fine.append(start + (end - start) * (np.arange(1, parts + 1) / parts)[:, None])
    before = np.concatenate(([0], np.cumsum(steps)))
    sharp = sorted({int(before[(corner - first) % count]) for corner in kept} | {int(before[-1])})
    return np.vstack(fine), sharp


def _sides(name: str, curve: Curve, width_mm: float) -> Iterator[_Beside]:
    """The parts of an edge between its corners."""
    cuts = sorted({0, *corners(curve.points), len(curve.points) - 1})
    for first, last in itertools.pairwise(cuts):
        run = curve.points[first : last + 1]
        ends = (run[0] - run[1], run[-1] - run[-2])
        bent = len(thinned(run, STRAIGHT_MM)) > 2
        far = min(CARRIED * width_mm, CARRIED_MM) if bent else CARRIED * width_mm
        before, after = (far * way / np.hypot(*way) for way in ends)
        carried = [run[0] + before, *run, run[-1] + after] if width_mm > 0.0 else [*run]
        yield _Beside(name, np.array(carried), width_mm)


def _stretches(near: Points, sharp: Sequence[int]) -> Iterator[tuple[int, int, int]]:
    """From which step to which the line runs beside which side, the one it follows longest; beside none: -1."""
    end = near.shape[1]
    least, close = int(LEAST_RUN_MM / STEP_MM), int(NEAR_MM / STEP_MM)
    at = since = 0
    while at < end:
        reach = [_reach(row, at) for row in near]
        best = int(np.argmax(reach))
        if reach[best] - at < least:
            at += 1
            continue
        stop = min(sharp, key=lambda corner: abs(corner - reach[best]))
        stop = stop if abs(stop - reach[best]) <= close and stop > at else reach[best]
        if at - since >= close:
            yield since, at, -1
            since = at
        yield since, stop, best
        at = since = stop
    if since < end:
        yield since, end, -1


def _reach(row: Points, at: int) -> int:
    """Up to which step a row of yes and no stays yes from a step on."""
    ends = np.flatnonzero(row[at:] == 0.0)
    return at + int(ends[0]) if len(ends) else len(row)


def _apart(found: Sequence[CutCorner]) -> Iterator[CutCorner]:
    """Corners that do not fall on the one before them."""
    for at, corner in enumerate(found):
        after = found[(at + 1) % len(found)]
        if (corner.x_mm, corner.y_mm) != (after.x_mm, after.y_mm):
            yield corner
