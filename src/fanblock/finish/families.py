"""Families of straight lines across a panel: parallel ones, and fans between two edges.

A family is all straight lines between a first and a last one. A place in it is a distance from the first line, measured
where the lines stand closest, so that channels as far apart as they are wide never lap.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fanblock.draft.plans import Clear
from fanblock.finish.clearing import Ground, beside_mm
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.strips import crossed_at
from fanblock.pattern.model import ARMHOLE, NECKLINE, TOP, Edge


@dataclass(frozen=True, slots=True, eq=False)
class Family:
    """All lines between two: ``low`` and ``top`` hold a lower and an upper point of the first and of the last.

    ``wide_ratio`` tells how much further apart they stand where they stand furthest. ``begin_mm`` is where filling begins,
    None where it has no side to begin from. One that ``spreads`` is a fan.
    """

    low: Points
    top: Points
    width_mm: float
    wide_ratio: float = 1.0
    begin_mm: float | None = None
    spreads: bool = False

    def lines(self, places_mm: Points) -> tuple[Points, Points]:
        """Return a point and the upward unit vector of the lines at these places, each of shape (n, 2).

        Beyond the first and the last line they go on parallel to that.
        """
        places = np.asarray(places_mm, dtype=np.float64)
        between = np.clip(places, 0.0, self.width_mm)
        share = (between / max(self.width_mm, 1.0))[:, None]
        low = self.low[0] + share * (self.low[1] - self.low[0])
        top = self.top[0] + share * (self.top[1] - self.top[0])
        way = top - low
        way = way / np.hypot(way[:, 0], way[:, 1])[:, None]
        across = np.stack((way[:, 1], -way[:, 0]), axis=1)
        return low + (places - between)[:, None] * across, way


@dataclass(frozen=True, slots=True, eq=False)
class Chord:
    """The straight line that stands for a side of a panel, and how far the side bows inward from it."""

    low: Points
    top: Points
    bow_mm: float
    in_front: bool

    @property
    def way(self) -> Points:
        """The upward unit vector along it."""
        step = self.top - self.low
        return np.asarray(step / np.hypot(*step))

    def inset(self, by_mm: float) -> tuple[Points, Points]:
        """Return its two points moved into the panel, by so much beyond its bow."""
        way = self.way
        inward = np.array([way[1], -way[0]]) * (1.0 if self.in_front else -1.0)
        shift = (self.bow_mm + by_mm) * inward
        return self.low + shift, self.top + shift


def chord_of(ground: Ground, edge: Edge) -> Chord:
    """Return the chord of an edge, no further than a little below the waist where it crosses that."""
    up = edge.curve if (edge.curve.end - edge.curve.start) @ ground.up > 0.0 else edge.curve.reversed()
    if edge.waist_at_mm is not None:
        at = edge.waist_at_mm if up is edge.curve else edge.curve.length_mm - edge.waist_at_mm
        up = up.between(max(at - BELOW_WAIST_MM, 0.0), up.length_mm) if up.length_mm - at > 1.0 else up
    low, top = up.start, up.end
    way = (top - low) / np.hypot(*(top - low))
    across = np.array([way[1], -way[0]])
    offsets = (up.points - low) @ across
    in_front = float((ground.panel.loop().mean(axis=0) - low) @ across) > 0.0
    bow = float(offsets.max() if in_front else -offsets.min())
    return Chord(frozen(low), frozen(top), max(bow, 0.0), in_front)


def parallel(ground: Ground, way: Points) -> Family:
    """Return all lines along ``way`` across the whole panel."""
    across = np.array([way[1], -way[0]])
    offsets = ground.panel.loop() @ across
    low, high = float(offsets.min()), float(offsets.max())
    foot = np.array([low * across, high * across])
    return Family(frozen(foot), frozen(foot + way), high - low)


def along(ground: Ground, edge: Edge, clear: Clear, half_mm: float) -> Family:
    """Return all lines parallel to an edge's chord; filling begins beside that edge."""
    chord = chord_of(ground, edge)
    family = parallel(ground, chord.way)
    way = chord.way
    across = np.array([way[1], -way[0]])
    foot, _ = chord.inset(beside_mm(ground.panel, edge, clear) + half_mm)
    begin = float((foot - family.low[0]) @ across)
    return Family(family.low, family.top, family.width_mm, 1.0, begin)


def fan(ground: Ground, edges: tuple[Edge, Edge], clear: Clear, half_mm: float) -> Family:
    """Return the fan between the chords of two edges, each inset by its bow, its clearance and half a channel.

    Its places count between the tops of the edges and a little below the waist, where bones must still lie side by side.
    """
    sides = [(chord_of(ground, edge), edge) for edge in edges]
    sides.sort(key=lambda side: float((side[0].low + side[0].top) @ ground.back))
    lows, tops = [], []
    for chord, edge in sides:
        low, top = chord.inset(beside_mm(ground.panel, edge, clear) + half_mm)
        waist = waist_on(ground, low[None], chord.way[None])[0]
        lows.append(low + (waist - BELOW_WAIST_MM) * chord.way if np.isfinite(waist) else low)
        tops.append(top)
    low, top = np.array(lows), np.array(tops)
    middle = sides[0][0].way + sides[1][0].way
    across = np.array([middle[1], -middle[0]]) / np.hypot(*middle)
    widths = sorted((float((low[1] - low[0]) @ across), float((top[1] - top[0]) @ across)))
    narrow = max(widths[0], 0.0)
    return Family(frozen(low), frozen(top), narrow, max(widths[1] / max(narrow, 1.0), 1.0), spreads=True)


BELOW_WAIST_MM = 25.0
"""How far below the waist the bones of a fan still lie side by side (bones go 2 to 4 cm below it, from memory)."""


def waist_on(ground: Ground, low: Points, way: Points) -> Points:
    """Return how far along each line the waist lies; minus infinity where it does not cross it."""
    parts = ground.panel.levels.get("waist", ())
    return frozen(np.max([np.full(len(low), -np.inf), *(crossed_at(low, way, part.points) for part in parts)], axis=0))


def slanting(ground: Ground, top_share: float, waist_share: float) -> Points | None:
    """Return the upward way from a share of a panel's waist to a share of its upper edge; None without a waist."""
    waist = ground.panel.levels.get("waist", ())
    tops = [edge.curve for edge in ground.panel.edges if edge.kind in (TOP, NECKLINE, ARMHOLE)]
    if not waist or not tops:
        return None
    foot = _at_share(list(waist), waist_share, ground.back)
    head = _at_share(tops, top_share, ground.back)
    return np.asarray((head - foot) / np.hypot(*(head - foot)))


def _at_share(curves: list[Curve], share: float, back: Points) -> Points:
    """The point at a share of some curves, one behind the other from the front to the back."""
    ordered = sorted(
        (curve if (curve.end - curve.start) @ back > 0.0 else curve.reversed() for curve in curves),
        key=lambda curve: float(curve.points.mean(axis=0) @ back),
    )
    left = share * sum(curve.length_mm for curve in ordered)
    for curve in ordered[:-1]:
        if left <= curve.length_mm:
            return curve.at(left)
        left -= curve.length_mm
    return ordered[-1].at(left)
