"""Falls: one side of a panel from the waist, or a little below it, down to the corner of its hem.

A skirt that is cut in one with its panel is altered at its falls: a fall is taken out of the panel, drawn anew and put
back together with the hem. It is looked at from above: ``down`` runs from its head to the corner, ``hem`` from the corner
inward.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np

from fanblock.draft.adding import Place, edge_of, panel_of
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import CENTER, HEM, OPEN_KINDS, Edge, Panel
from fanblock.problems import GeometryError, Problem, nearest
from fanblock.tolerances import LEAST_EDGE_MM

STEP_MM = 4.0
"""How closely an edge is followed whose own points may lie far apart."""


@dataclass(frozen=True, slots=True, eq=False)
class Fall:
    """One side of a panel below a place ``head_mm`` along its edge; ``rising`` is the side that the loop runs up."""

    panel: Panel
    edge: Edge
    hem_edge: Edge
    rising: bool
    head_mm: float
    down: Curve
    hem: Curve

    @property
    def depth_mm(self) -> float:
        """How far it goes down, along the edge."""
        return self.down.length_mm

    def outward(self, along: Points) -> Points:
        """Return the direction square to a downward one that leads out of the panel."""
        x, y = along
        return np.array([-y, x]) if self.rising else np.array([y, -x])

    @property
    def upper(self) -> Curve | None:
        """What is left of the edge above the head, in loop order; None when the fall is all of it."""
        length = self.edge.curve.length_mm
        if self.rising:
            return self.edge.curve.between(self.head_mm, length) if self.head_mm < length - LEAST_EDGE_MM else None
        return self.edge.curve.between(0.0, self.head_mm) if self.head_mm > LEAST_EDGE_MM else None

    def in_loop(self, curve: Curve) -> Curve:
        """Return a curve that runs down, or inward along the hem, as the panel's loop runs it, and the reverse."""
        return curve.reversed() if self.rising else curve


def falls_at(work: Work, name: str, below_mm: float, where: str) -> tuple[Fall, ...]:
    """Return the two falls of the seam called ``name``, front one first, or the one of a centre line of that name.

    ``below_mm`` is how far below the waist they begin. GeometryError, told at ``where``, when there is neither, or it does
    not go down from there to a hem.
    """
    seams = [seam for seam in work.seams if name in (seam.name, seam.line)]
    if seams:
        lowest = [(seam.front, seam.back) for seam in seams if _has_hem(work, seam.front) and _has_hem(work, seam.back)]
        if not lowest:
            raise _no_skirt(name, where)
        return tuple(_fall(work, place, name, below_mm, where) for place in lowest[0])
    places = [
        (panel.name, edge.name)
        for panel in work.panels
        for edge in panel.edges
        if edge.name == name and edge.kind in {CENTER, *OPEN_KINDS} and not panel.added
    ]
    if not places:
        centers = [edge.name for panel in work.panels for edge in panel.edges if edge.kind in {CENTER, *OPEN_KINDS}]
        known = sorted({*(seam.line for seam in work.seams), *centers})
        what = f"there is no seam and no centre line “{name}”."
        raise GeometryError([Problem("seam-unknown", where, what, nearest(name, known))])
    return (_fall(work, places[0], name, below_mm, where),)


def _beside(panel: Panel, edge: Edge, step: int) -> Edge:
    at = next(number for number, one in enumerate(panel.edges) if one.name == edge.name)
    return panel.edges[(at + step) % len(panel.edges)]


def _has_hem(work: Work, place: Place) -> bool:
    panel = panel_of(work, place[0])
    edge = edge_of(panel, place[1])
    return any(_beside(panel, edge, step).kind == HEM for step in (-1, 1))


def _fall(work: Work, place: Place, name: str, below_mm: float, where: str) -> Fall:
    panel = panel_of(work, place[0])
    edge = edge_of(panel, place[1])
    before, after = _beside(panel, edge, -1), _beside(panel, edge, 1)
    waist = edge.waist_at_mm if edge.waist_at_mm is not None else _waist_on(panel, edge)
    rising = before.kind == HEM and float(edge.curve.end[1]) > float(edge.curve.start[1])
    hem = before if rising else after
    length = edge.curve.length_mm
    if hem.kind != HEM or waist is None or panel.slits or (waist if rising else length - waist) < LEAST_EDGE_MM:
        raise _no_skirt(name, where)
    head = waist - below_mm if rising else waist + below_mm
    if (head if rising else length - head) < LEAST_EDGE_MM:
        what = f"begins {below_mm:.0f} mm below the waist, where “{name}” has ended."
        raise GeometryError([Problem("skirt-short", where, what, "Begin higher, or lower the hem.")])
    down = edge.curve.between(0.0, head).reversed() if rising else edge.curve.between(head, length)
    return Fall(panel, edge, hem, rising, head, down, hem.curve.reversed() if rising else hem.curve)


def _no_skirt(name: str, where: str) -> GeometryError:
    what = f"“{name}” does not go on below the waist to a hem that is sewn all the way."
    remedy = "Draw the hem below the waist, let the seam run down to it, and say `below waist: sewn`."
    return GeometryError([Problem("skirt-missing", where, what, remedy)])


def _waist_on(panel: Panel, edge: Edge) -> float | None:
    """Return where the waist level meets an edge, along it; None where it does not."""
    ends = [point for part in panel.levels.get("waist", ()) for point in (part.start, part.end)]
    found = [_foot(edge.curve, point) for point in ends]
    near = [along for away, along in found if away < LEAST_EDGE_MM]
    return near[0] if near else None


def _foot(curve: Curve, point: Points) -> tuple[float, float]:
    """Return how far a point is from a curve, and how far along it the nearest place lies."""
    start, chord = curve.points[:-1], np.diff(curve.points, axis=0)
    share = np.clip(np.sum((point - start) * chord, axis=1) / np.sum(chord**2, axis=1), 0.0, 1.0)
    away = np.hypot(*(start + share[:, None] * chord - point).T)
    at = int(np.argmin(away))
    return float(away[at]), float(curve.along[at] + share[at] * np.hypot(*chord[at]))


def with_fall(fall: Fall, down: Curve, hem: Curve) -> Panel:
    """Return the panel with a fall drawn anew: ``down`` from the same head, and the whole ``hem`` from its end inward."""
    lower, upper = fall.in_loop(down), fall.upper
    parts = [lower] if upper is None else [lower, followed(upper)] if fall.rising else [followed(upper), lower]
    curve = parts[0] if len(parts) == 1 else Curve.through(np.vstack((parts[0].points, parts[1].points[1:])))
    waist = fall.edge.waist_at_mm
    if waist is not None and fall.rising:
        waist += down.length_mm - fall.depth_mm
    edges = {
        fall.edge.name: replace(fall.edge, curve=curve, waist_at_mm=waist),
        fall.hem_edge.name: replace(fall.hem_edge, curve=fall.in_loop(hem)),
    }
    return replace(fall.panel, edges=tuple(edges.get(edge.name, edge) for edge in fall.panel.edges))


def followed(curve: Curve) -> Curve:
    """Return a curve with further points where its own lie far apart.

    A straight line is two points; bent at one end it needs more, or the bend would be felt at the other.
    """
    count = int(curve.length_mm / STEP_MM) + 2
    along = np.union1d(curve.along, np.linspace(0.0, curve.length_mm, count))
    points = [np.interp(along, curve.along, curve.points[:, axis]) for axis in (0, 1)]
    return Curve.through(np.column_stack(points))


def retraced(work: Work, panel: Panel) -> Work:
    """Return the work with a panel's trace on the block drawn again from its edges, none of which is new."""
    sides = {side.name: side for side in work.traces[panel.name]}
    around, height = work.block.where(np.vstack([edge.curve.points for edge in panel.edges]))
    ends = np.cumsum([len(edge.curve.points) for edge in panel.edges])[:-1]
    runs = np.split(np.column_stack((around, height)), ends)
    loop = tuple(replace(sides[edge.name], points=run) for edge, run in zip(panel.edges, runs, strict=True))
    return replace(work, traces=MappingProxyType({**work.traces, panel.name: loop}))
