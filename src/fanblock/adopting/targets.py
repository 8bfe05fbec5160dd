"""Where the moved lines now run on the draft: what was moved on single pieces, joined across their seams.

Panels are not the draft: each lies half a seam's take away from its neighbour, and truing has bent its edges there. So a
line is never read from the pieces as it stands. What was moved is read, piece by piece against the same piece as it was
drafted, and the draft's own line is moved by that.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fanblock.adopting.feet import EXTENDED_MM, feet, followed, sorted_unique
from fanblock.adopting.moved import DrawnEdge
from fanblock.block.ruled import Block
from fanblock.draft.model import AROUND, HEIGHT, Line, SeamLine
from fanblock.geometry.curve import Curve, Points

BIN_MM = 1.5
"""Within so much of a line what its pieces were moved by is averaged: where two of them lap, they never agree to a hair."""

LAST_STRETCH = 5
"""From how many points, a millimetre apart, the direction of a line's end is taken: one step may be all rounding."""

STEEP = 0.7
"""An edge whose direction has more than this of the ruling's is steep: it leans 45° and more from level."""

HEIGHT_STEP = 0.01
"""How closely, as a share of bust to waist, a seam is followed."""


@dataclass(frozen=True, eq=False)
class Target:
    """Where an outline line now runs: ``old`` is the draft's line, and at ``along`` it was moved by ``shift``.

    ``points`` is the line as it now runs, from front to back, in the plane.
    """

    old: Curve
    along: Points
    shift: Points
    points: Points

    @cached_property
    def curve(self) -> Curve:
        """The line as it now runs, carried on straight beyond both ends, in the direction of its last stretch there."""
        points = Curve.through(self.points).points
        ends = [_carried_on(run) for run in (points, points[::-1])]
        return Curve.through(np.vstack((ends[0][None], points, ends[1][None])))

    def held(self, points: Points) -> tuple[Points, Points]:
        """Return the feet of points on the line as it now runs, and how far off they are; nothing where it was not drawn."""
        found = feet(points, self.curve)
        drawn = (found.along > EXTENDED_MM) & (found.along < self.curve.length_mm - EXTENDED_MM)
        return found.foot, np.where(drawn, found.off, 0.0)

    def moved_at(self, point: Points) -> Points:
        """Return by how much the line was moved where a point of the old one lies."""
        at = float(feet(point[None], self.old).along[0])
        return np.array([np.interp(at, self.along, self.shift[:, axis]) for axis in (0, 1)])


def outline_target(old: Curve, edges: Sequence[DrawnEdge], corners: tuple[bool, bool]) -> Target:
    """Return where an outline line now runs, from what its edges were moved by.

    ``corners`` tells whether its front and its back end are corners of the outline, which are taken where they are drawn.
    """
    ways = [_front_to_back(edge, old) for edge in edges]
    along, shifts, corner = [], [], []
    for number, (own, new) in enumerate(ways):
        points = followed(new)
        foot, beyond = _own_feet(points, own, [one for other, (one, _) in enumerate(ways) if other != number])
        at_corner = _at_corners(beyond, own, old, corners)
        foot[at_corner < 0.0] = own.start
        foot[at_corner > 0.0] = own.end
        along.append(feet(foot, old).along)
        shifts.append(points - foot)
        corner.append(at_corner != 0.0)
    at, shift, fixed = np.concatenate(along), np.vstack(shifts), np.concatenate(corner)
    order = np.argsort(at, kind="stable")
    points = _placed(old, at[order]) + _evened(at[order], shift[order], fixed[order])
    mean_at, mean_shift = sorted_unique(np.round(at / BIN_MM) * BIN_MM, shift)
    return Target(old, mean_at, mean_shift, points)


def crossing_target(block: Block, old: Line, edges: Sequence[DrawnEdge]) -> Target:
    """Return where an edge that is one smooth curve over around now runs: raised or lowered along the rulings.

    Where an edge is steep, as at the rounded corner of a tab, its height says nothing of the line it lies on.
    """
    found: list[tuple[Points, Points]] = []
    for edge in edges:
        before, after = (_flat_run(block, curve) for curve in (edge.old, edge.new))
        if before is None or after is None:
            continue
        low, high = max(before[0][0], after[0][0]), min(before[0][-1], after[0][-1])
        inside = (after[0] >= low) & (after[0] <= high)
        around = after[0][inside]
        found.append((around, after[1][inside] - np.interp(around, *before)))
    at, up = sorted_unique(np.concatenate([one for one, _ in found]), np.concatenate([one for _, one in found]))
    heights = np.interp(at, old.points[:, AROUND], old.points[:, HEIGHT])
    was, now = block.at(at, heights), block.at(at, heights + up)
    line = Curve.through(block.at(old.points[:, AROUND], old.points[:, HEIGHT]))
    return Target(line, feet(was, line).along, now - was, now)


def _flat_run(block: Block, curve: Curve) -> tuple[Points, Points] | None:
    """Return arounds, rising, and heights of an edge where it is not steep; None where it is steep all along."""
    points = followed(curve)
    around, height = block.where(points)
    ruling = block.ruling_direction(around)
    run = np.gradient(points, axis=0)
    flat = np.abs(np.sum(run * ruling, axis=1)) < STEEP * np.hypot(*run.T)
    return sorted_unique(around[flat], height[flat]) if np.any(flat) else None


def _front_to_back(edge: DrawnEdge, old: Curve) -> tuple[Curve, Curve]:
    at = feet(np.vstack((edge.old.start, edge.old.end)), old).along
    return (edge.old, edge.new) if at[0] <= at[1] else (edge.old.reversed(), edge.new.reversed())


def _own_feet(points: Points, own: Curve, others: Sequence[Curve]) -> tuple[Points, Points]:
    """Return the feet of points on the piece they belong to, or where they lie beyond it on a neighbour; and how far beyond
    both ends they are: less than nought before the front one."""
    here = feet(points, own)
    foot = here.foot.copy()
    beyond = np.where(here.along < 0.0, here.along, np.maximum(here.along - own.length_mm, 0.0))
    for other in others:
        there = feet(points, other)
        taken = (beyond != 0.0) & (there.beyond == 0.0)
        foot[taken], beyond[taken] = there.foot[taken], 0.0
    return foot, beyond


def _at_corners(beyond: Points, own: Curve, old: Curve, corners: tuple[bool, bool]) -> Points:
    """Return for each point whether it lies beyond a corner of the outline: -1 the front one, 1 the back one, else 0."""
    start, end = feet(np.vstack((own.start, own.end)), old).along
    first = corners[0] and start < BIN_MM
    last = corners[1] and end > old.length_mm - BIN_MM
    return np.where((beyond < 0.0) & first, -1.0, np.where((beyond > 0.0) & last, 1.0, 0.0))


def _carried_on(points: Points) -> Points:
    """Return a point straight on beyond the first one, far enough for whatever the line may meet."""
    inner = points[min(LAST_STRETCH, len(points) - 1)]
    return np.asarray(points[0] + EXTENDED_MM * (points[0] - inner) / np.hypot(*(points[0] - inner)))


def _placed(old: Curve, along: Points) -> Points:
    return np.array([old.at(float(at)) for at in along])


def _evened(at: Points, shift: Points, fixed: np.ndarray) -> Points:
    """Return shifts averaged over short stretches, those at corners as they are."""
    bins = np.round(at / BIN_MM)
    found = shift.copy()
    for number in np.unique(bins[~fixed]):
        here = (bins == number) & ~fixed
        found[here] = shift[here].mean(axis=0)
    return found


@dataclass(frozen=True, slots=True, eq=False)
class SeamTarget:
    """How a seam was moved, by height: its middle by ``shift_mm`` towards the back, and ``take_mm`` more taken by it."""

    heights: Points
    shift_mm: Points
    take_mm: Points

    def shift_at(self, heights: Points) -> Points:
        """Return by how much its middle was moved at some heights; beyond those that were drawn, as much as there."""
        return np.interp(heights, self.heights, self.shift_mm)

    def take_at(self, height: float) -> float:
        """Return how much more it takes at a height."""
        return float(np.interp(height, self.heights, self.take_mm))

    def around_at(self, block: Block, seam: SeamLine, heights: Points) -> Points:
        """Return the arounds of its middle as it now runs."""
        return np.asarray(block.along(seam.around_of(heights), heights, self.shift_at(heights)))


def seam_target(block: Block, front: Sequence[DrawnEdge], back: Sequence[DrawnEdge]) -> SeamTarget:
    """Return how a seam was moved, from the edges of the panels before it and behind it."""
    faces = [_moved_by_height(block, edges) for edges in (front, back)]
    low, high = max(face[0][0] for face in faces), min(face[0][-1] for face in faces)
    heights = np.arange(low, max(high, low + HEIGHT_STEP), HEIGHT_STEP)
    moved = [np.interp(heights, *face) for face in faces]
    return SeamTarget(heights, (moved[0] + moved[1]) / 2.0, moved[1] - moved[0])


def _moved_by_height(block: Block, edges: Sequence[DrawnEdge]) -> tuple[Points, Points]:
    """Return heights, rising, and how far back along the level the edges were moved at each."""
    old, new = (
        _rising(block, np.vstack([followed(getattr(edge, which)) for edge in edges])) for which in ("old", "new")
    )
    low, high = max(old[0][0], new[0][0]), min(old[0][-1], new[0][-1])
    heights = np.linspace(low, high, max(2, int((high - low) / HEIGHT_STEP)))
    before, after = np.interp(heights, *old), np.interp(heights, *new)
    return heights, np.asarray(block.level_part_mm(heights, before, after))


def _rising(block: Block, points: Points) -> tuple[Points, Points]:
    around, height = block.where(points)
    return sorted_unique(height, around)
