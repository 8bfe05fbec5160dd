"""Binding: which edges are bound, how long they are, and where they curve too tightly to be bound neatly."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import ARMHOLE, HEM, NECKLINE, SLIT, TOP, Edge, Panel, Pattern

BOUND = {TOP: "top edge", NECKLINE: "neckline", ARMHOLE: "armholes", HEM: "lower edge", SLIT: "lower edge"}
"""The kinds of edge that are bound where they have no allowance, and under which name their lengths are told."""

CONVEX_MM, CONCAVE_MM = 8.0, 15.0
"""Tightest curves that can be bound neatly: outward 8 mm, inward 15 mm (from memory of the trade). A slit's upper end is
exempt: it is bound with a whipped turn."""

SPAN_MM, STEP_MM = 2.5, 1.0
"""A curve's radius is read from three points this far apart, at every step of it."""


@dataclass(frozen=True, slots=True)
class Bound:
    """The bound edges of one name in the whole garment: their length, and in how many runs."""

    name: str
    length_mm: float
    runs: int


@dataclass(frozen=True, slots=True)
class Tight:
    """The tightest place of one edge, outward or inward: the radius there, the least that can be bound, and where it is.

    ``along_ratio`` tells how far along the edge, run in loop order, it is: from 0 at its first point to 1.
    """

    panel: str
    number: int
    edge: str
    inward: bool
    radius_mm: float
    least_mm: float
    along_ratio: float = 0.5

    @property
    def is_too_tight(self) -> bool:
        """Whether it cannot be bound neatly."""
        return self.radius_mm < self.least_mm


def bound(pattern: Pattern) -> tuple[Bound, ...]:
    """Return what is bound, by name; both sides of every slit count to the lower edge."""
    lengths: dict[str, float] = {}
    runs: dict[str, int] = {}
    for panel in _outermost(pattern):
        times = 1 if panel.single else 2
        for edge in panel.edges:
            if is_bound(panel, edge):
                name = BOUND[edge.kind]
                lengths[name] = lengths.get(name, 0.0) + times * edge.curve.length_mm
                runs[name] = runs.get(name, 0) + times
        if panel.slits and any(edge.kind == HEM and is_bound(panel, edge) for edge in panel.edges):
            both = 2.0 * sum(float(np.hypot(*(slit.end - slit.start))) for slit in panel.slits if not slit.name)
            lengths[BOUND[HEM]] = lengths.get(BOUND[HEM], 0.0) + times * both
    return tuple(Bound(name, lengths[name], runs[name]) for name in dict.fromkeys(BOUND.values()) if name in lengths)


def _outermost(pattern: Pattern) -> list[Panel]:
    """Return the panels in order, without those of layers that have outlines of their own: the binding takes them in."""
    return sorted((panel for panel in pattern.panels if not panel.layer), key=lambda panel: panel.number)


def is_bound(panel: Panel, edge: Edge) -> bool:
    """Return whether an edge is bound: free, and without an allowance."""
    return edge.kind in BOUND and edge.mate is None and not panel.allowances.get(edge.name, 0.0) > 0.0


def tightest(pattern: Pattern) -> tuple[Tight, ...]:
    """Return the tightest place of every bound edge that curves, outward and inward."""
    found = []
    for panel in sorted(pattern.panels, key=lambda panel: panel.number):
        for edge in panel.edges:
            if is_bound(panel, edge):
                radii = radii_mm(edge.curve)
                for inward, least in ((False, CONVEX_MM), (True, CONCAVE_MM)):
                    turning = radii[radii < 0.0] if inward else radii[radii > 0.0]
                    radius = float(np.abs(turning).min(initial=np.inf))
                    if np.isfinite(radius):
                        at = (int(np.argmin(np.abs(np.abs(radii) - radius))) + 0.5) / len(radii)
                        found.append(Tight(panel.name, panel.number, edge.name, inward, radius, least, at))
    return tuple(found)


def radii_mm(curve: Curve) -> Points:
    """Return the radius of a curve at every step of it: of the circle through three points of it.

    It is positive where the curve turns left, as a loop does round a panel, and infinite where it is straight.
    """
    length = curve.length_mm
    if length < 2.0 * SPAN_MM + STEP_MM:
        return np.full(1, np.inf)
    at = np.arange(SPAN_MM, length - SPAN_MM, STEP_MM)
    before, middle, after = (
        np.column_stack([np.interp(at + step, curve.along, curve.points[:, column]) for column in (0, 1)])
        for step in (-SPAN_MM, 0.0, SPAN_MM)
    )
    one, two, across = middle - before, after - middle, after - before
    turn = one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0]
    sizes = np.hypot(*one.T) * np.hypot(*two.T) * np.hypot(*across.T)
    with np.errstate(divide="ignore"):
        return np.asarray(np.where(turn == 0.0, np.inf, sizes / (2.0 * np.where(turn == 0.0, 1.0, turn))))
