"""The armhole of a garment, walked from the front shoulder down under the arm and up behind, over all pieces it lies on.

Places on it are lengths from its first point. What lies over the shoulder, straps or a part that is still open, comes last.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fanblock.draft.adding import Place, panel_of, with_split_edge
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.roots import root
from fanblock.pattern.model import ARMHOLE, SHOULDER, Edge, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import SAME_POINT_MM

NEAR_MM = 20.0
"""A place nearer than this to a seam of the bodice is moved onto it: a shorter stretch is a nuisance to sew (from memory)."""


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """One edge of the armhole, run from front to back.

    ``heights`` are those of its points above the waist in mm; None where the piece is not cut from the block.
    """

    place: Place
    curve: Curve
    heights: Points | None


@dataclass(frozen=True, eq=False)
class Armhole:
    """All parts of an armhole in order, and how much of it is open over the shoulder."""

    parts: tuple[Part, ...]
    open_mm: float = 0.0

    @cached_property
    def starts(self) -> tuple[float, ...]:
        """Where each part begins, and where the last one ends."""
        lengths = [part.curve.length_mm for part in self.parts]
        return tuple(np.concatenate(([0.0], np.cumsum(lengths))).tolist())

    @cached_property
    def block_parts(self) -> tuple[Part, ...]:
        """The parts cut from the block: front shoulder to back shoulder."""
        return tuple(part for part in self.parts if part.heights is not None)

    @property
    def block_mm(self) -> float:
        """Length from the front shoulder under the arm to the back shoulder."""
        return self.starts[len(self.block_parts)]

    @property
    def over_mm(self) -> float:
        """Length over the shoulder, from the back seat of the strap to its front one; 0 where a seam closes it."""
        return self.starts[-1] - self.block_mm + self.open_mm

    @property
    def length_mm(self) -> float:
        """Length all round."""
        return self.starts[-1] + self.open_mm

    @cached_property
    def lowest_mm(self) -> float:
        """The place that lies lowest, under the arm."""
        along, heights = self._profile
        return float(along[int(np.argmin(heights))])

    @cached_property
    def _profile(self) -> tuple[Points, Points]:
        """Places along the parts cut from the block, and the heights there."""
        along = [start + part.curve.along for start, part in zip(self.starts, self.block_parts, strict=False)]
        heights = [part.heights for part in self.block_parts if part.heights is not None]
        return np.concatenate(along), np.concatenate(heights)

    def level_pair(self, apart_mm: float) -> tuple[float, float]:
        """Return the two places of one height, in front and behind, that have this length of armhole below them.

        Where one side does not reach so high, its place is the shoulder. ValueError when the armhole is shorter.
        """
        along, heights = self._profile
        lowest = int(np.argmin(heights))
        front, back = along[lowest::-1], along[lowest:]
        front_up = np.maximum.accumulate(heights[lowest::-1])
        back_up = np.maximum.accumulate(heights[lowest:])

        def pair(height: float) -> tuple[float, float]:
            return float(np.interp(height, front_up, front)), float(np.interp(height, back_up, back))

        def over(height: float) -> float:
            places = pair(height)
            return places[1] - places[0] - apart_mm

        return pair(root(over, float(heights[lowest]), float(max(front_up[-1], back_up[-1]))))

    def height_mm(self, at_mm: float) -> float:
        """Return the height above the waist at a place on the parts cut from the block."""
        along, heights = self._profile
        return float(np.interp(at_mm, along, heights))

    def on_seam(self, at_mm: float) -> float:
        """Return a place on the parts cut from the block, moved to a seam or to the shoulder where one is near."""
        joints = np.array(self.starts[: len(self.block_parts) + 1])
        nearest = float(joints[int(np.argmin(np.abs(joints - at_mm)))])
        return nearest if abs(nearest - at_mm) < NEAR_MM else at_mm

    def run(self, from_mm: float, to_mm: float) -> tuple[Points, Points]:
        """Return lengths and directions (rad) of the short stretches between two places, seams laid smooth."""
        lengths: list[Points] = []
        turns: list[Points] = []
        leaving: float | None = None
        for start, part in zip(self.starts, self.block_parts, strict=False):
            low, high = max(from_mm - start, 0.0), min(to_mm - start, part.curve.length_mm)
            if high - low < SAME_POINT_MM:
                continue
            curve = part.curve.between(low, high)
            steps = np.diff(curve.points, axis=0)
            ways = np.unwrap(np.arctan2(steps[:, 1], steps[:, 0]))
            shift = 0.0 if leaving is None else leaving - _way(curve.start_tangent)
            lengths.append(np.hypot(*steps.T))
            turns.append(ways + shift + _whole_turns(ways[0] + shift, turns[-1][-1] if turns else ways[0]))
            leaving = _way(curve.end_tangent) + shift
        return np.concatenate(lengths), np.concatenate(turns)


def _way(tangent: Points) -> float:
    return float(np.arctan2(tangent[1], tangent[0]))


def _whole_turns(way: float, before: float) -> float:
    """Return the whole turns to add to a direction so that it comes nearest to the one before."""
    return float(2.0 * np.pi * np.round((before - way) / (2.0 * np.pi)))


def armhole_of(work: Work, over_shoulder_mm: float | None = None) -> Armhole:
    """Return the armhole of a garment.

    ``over_shoulder_mm`` is what is missing over the shoulder where front and back are joined by neither a seam nor a strap.
    GeometryError when there is no armhole, when it lies in parts that no seam joins, or when what is missing over the
    shoulder is not told, or told though nothing is missing.
    """
    after = _followers(work)
    if not after:
        what = "no panel has an edge of the kind `armhole`."
        raise GeometryError([Problem("armhole-missing", "", what, "Draw one in `top edge`, or take out the sleeve.")])
    ordered, closed = _ordered(after)
    if len(ordered) < len(after):
        names = ", ".join(sorted({place[0] for place in set(after) - set(ordered)}))
        what = f"the armhole is in parts that no seam joins: {names} cannot be reached from {ordered[0][0]}."
        raise GeometryError(
            [
                Problem(
                    "armhole-parted", "", what, "Let the seams between them run up to the armhole, or sew the straps."
                )
            ]
        )
    parts = tuple(_part(work, place) for place in ordered)
    bridged = closed or any(part.heights is None for part in parts)
    if not bridged and over_shoulder_mm is None:
        what = f"the armhole is open over the shoulder, from {ordered[0][0]} to {ordered[-1][0]}, and nothing says how far."
        remedy = "Put the strap before this step, or give its length as `over shoulder`."
        raise GeometryError([Problem("over-shoulder-missing", "over shoulder", what, remedy)])
    if bridged and over_shoulder_mm is not None:
        what = "the armhole is closed over the shoulder already."
        raise GeometryError([Problem("over-shoulder-needless", "over shoulder", what, "Take it out.")])
    if closed and not any(shoulder for _, shoulder in after.values()):
        parts = _from_the_top(parts)
    block = tuple(part for part in parts if part.heights is not None)
    over = tuple(part for part in parts if part.heights is None)
    return Armhole((*block, *over), over_shoulder_mm or 0.0)


def _from_the_top(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    """Return the parts of a ring without a shoulder, beginning at the highest of their joints."""
    heights = [-np.inf if part.heights is None else float(part.heights[0]) for part in parts]
    first = int(np.argmax(heights))
    return (*parts[first:], *parts[:first])


def _followers(work: Work) -> dict[Place, tuple[Place | None, bool]]:
    """Return for every edge of an armhole the one behind it, and whether the shoulder lies between them."""
    panels = {panel.name: panel for panel in work.panels if not panel.layer and not panel.loose}
    places = [(panel.name, edge.name) for panel in panels.values() for edge in panel.edges if edge.kind == ARMHOLE]
    found: dict[Place, tuple[Place | None, bool]] = {}
    for name, edge in places:
        before = _beside(panels[name], edge, -1)
        after: Place | None = None
        if before.kind == ARMHOLE:
            after = (name, before.name)
        elif before.mate is not None:
            beyond = _beside(panels[before.mate.panel], before.mate.edge, -1)
            after = (before.mate.panel, beyond.name) if beyond.kind == ARMHOLE else None
        found[name, edge] = (after, before.kind == SHOULDER)
    return found


def _beside(panel: Panel, edge: str, step: int) -> Edge:
    number = next(number for number, each in enumerate(panel.edges) if each.name == edge)
    return panel.edges[(number + step) % len(panel.edges)]


def _ordered(after: dict[Place, tuple[Place | None, bool]]) -> tuple[list[Place], bool]:
    """Return the armhole's edges from the front shoulder on, and whether the last leads back to the first."""
    led_to = {place: shoulder for place, shoulder in after.values() if place is not None}
    starts = [place for place in after if led_to.get(place, True)]
    first = min(starts, default=min(after))
    ordered, place = [first], after[first][0]
    while place is not None and place not in ordered:
        ordered.append(place)
        place = after[place][0]
    return ordered, place == first


def _part(work: Work, place: Place) -> Part:
    panel = panel_of(work, place[0])
    curve = panel.edge(place[1]).curve.reversed()
    if panel.added:
        return Part(place, curve, None)
    around, height = work.block.where(curve.points)
    return Part(place, curve, frozen(height * work.block.ruling_length_mm(around)))


def parted(work: Work, armhole: Armhole, at_mm: Iterable[float]) -> Work:
    """Return the work with the armhole's edges split at these places, named from the front in each panel."""
    places = sorted(set(at_mm))
    for start, part in zip(armhole.starts, armhole.block_parts, strict=False):
        long = part.curve.length_mm
        cuts = [at - start for at in places if NEAR_MM / 2.0 < at - start < long - NEAR_MM / 2.0]
        panel, edge = part.place
        rest = edge
        for number, cut in enumerate(cuts, start=1):
            names = (f"{edge} {number + 1}", f"{edge} {number}")
            work = with_split_edge(work, (panel, rest), long - cut, names)
            rest = names[0]
    return work
