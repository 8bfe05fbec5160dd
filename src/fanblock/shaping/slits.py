"""Where a slit lies on a panel: its inner end, and the place on an edge where it opens."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from fanblock.draft.places import height_on, place_of
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.meet import contains, foot, meetings
from fanblock.pattern.model import LET_IN, Panel
from fanblock.problems import GeometryError, Problem, nearest
from fanblock.shaping.edges import FREE_KINDS, LOWER_KINDS, base_name
from fanblock.terms import Height, Position
from fanblock.units import format_length

CLEAR_MM = 12.0
"""A slit's end needs so much cloth around it, or it cannot be reinforced (from memory)."""

SHORTEST_MM = 20.0
"""A slit shorter than this lets nothing in that could be sewn (from memory)."""

BEYOND_MM = 80.0
"""How far a slit drawn between two places is carried on to find the edge: truing may have moved that a little."""


@dataclass(frozen=True, slots=True)
class SlitPlace:
    """Where a slit is asked for: through two places of the block, from an edge inward, or at a share of a panel's edge.

    ``at`` counts from the front; the slit then runs along the ruling, ``depth_mm`` long or as far as the height ``to``.
    """

    panel: str
    edge: str = ""
    at: float | None = None
    depth_mm: float = 0.0
    through: tuple[Position, ...] = ()
    to: Height | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Cut:
    """A slit on a panel: its inner end, and the number of the edge it opens at with the distance along that."""

    inner: Points
    edge: int
    at_mm: float
    is_low: bool


def cut_of(work: Work, panel: Panel, place: SlitPlace, where: str) -> Cut:
    """Return where a slit lies; GeometryError when it does not run from a free edge into the cloth, clear of all else."""
    inner, outer = _ends(work, panel, place, where)
    if not contains(panel.loop(), inner):
        what = f"on this body the slit's end lies off panel “{panel.name}”."
        raise GeometryError([Problem("slit-off", where, what, "Make it shorter, or move it.")])
    along = (outer - inner) / np.hypot(*(outer - inner))
    line = np.vstack((inner, outer + BEYOND_MM * along))
    hits = [
        (on_slit, number, on_edge)
        for number, edge in enumerate(panel.edges)
        for on_slit, on_edge in meetings(line, edge.curve.points)
    ]
    share, number, on_edge = min(hits)
    edge = panel.edges[number]
    if edge.kind == LET_IN:
        what = f"on this body it crosses the slit for “{edge.mate.panel if edge.mate else edge.name}”."
        raise GeometryError([Problem("slit-crossing", where, what, "Move one of the two.")])
    if edge.kind not in FREE_KINDS or (place.edge and base_name(edge) != place.edge):
        asked = f", not {place.edge}" if place.edge and edge.kind in FREE_KINDS else ""
        what = f"on this body the slit opens at {edge.name} of panel “{panel.name}”{asked}."
        raise GeometryError([Problem("slit-off", where, what, "Move it to the edge it shall open at.")])
    long = share * float(np.hypot(*(line[1] - line[0])))
    _check_room(work, panel, inner, line[0] + share * (line[1] - line[0]), long, number, where)
    at_mm = float(np.interp(on_edge, np.arange(len(edge.curve.points)), edge.curve.along))
    return Cut(inner, number, at_mm, edge.kind in LOWER_KINDS)


def _ends(work: Work, panel: Panel, place: SlitPlace, where: str) -> tuple[Points, Points]:
    """Return the inner end of a slit and a place near its outer end."""
    if place.through:
        outer, inner = (work.block.at(*place_of(work.draft, position)) for position in place.through)
        return inner, outer
    parts = [edge for edge in panel.edges if base_name(edge) == place.edge and edge.kind in FREE_KINDS]
    if not parts:
        names = sorted({base_name(edge) for edge in panel.edges if edge.kind in FREE_KINDS})
        what = f"panel “{panel.name}” has no free edge “{place.edge}”."
        raise GeometryError([Problem("edge-unknown", f"{where} › edge", what, nearest(place.edge, names))])
    low = parts[0].kind in LOWER_KINDS
    run = Curve.through(np.vstack([edge.curve.points for edge in parts]))
    share = place.at if place.at is not None else 0.5
    outer = run.at((share if low else 1.0 - share) * run.length_mm)
    around, _ = work.block.where(outer)
    if place.to is not None:
        return work.block.at(float(around), height_on(work.draft, place.to, float(around))), outer
    up = work.block.ruling_direction(float(around))
    return outer + (place.depth_mm if low else -place.depth_mm) * up, outer


def _check_room(
    work: Work, panel: Panel, inner: Points, outer: Points, long_mm: float, number: int, where: str
) -> None:
    """Refuse a slit that is too short, ends too near something, or crosses a dart or another slit."""
    units = work.body.units
    if long_mm < SHORTEST_MM:
        what = f"on this body the slit is {format_length(long_mm, units)} long; {format_length(SHORTEST_MM, units)} is the least."
        raise GeometryError([Problem("slit-short", where, what, "Make it longer.")])
    near = [(foot(edge.curve.points, inner)[0], edge.name) for place, edge in enumerate(panel.edges) if place != number]
    off, name = min(near)
    if off < CLEAR_MM:
        what = f"on this body the slit ends {format_length(off, units)} from {name}; it needs {format_length(CLEAR_MM, units)}."
        raise GeometryError([Problem("slit-near", where, what, "Make it shorter, or move it away.")])
    line = np.vstack((inner, outer))
    lines = [(f"the dart “{mark.name}”", mark.curve.points) for mark in panel.marks if mark.kind == "dart"]
    lines += [("a slit between tabs", np.vstack((slit.start, slit.end))) for slit in panel.slits if not slit.name]
    crossed = [name for name, points in lines if meetings(line, points)]
    if crossed:
        what = f"on this body it crosses {crossed[0]}."
        raise GeometryError([Problem("slit-crossing", where, what, "Move one of the two.")])


def with_closed_slits(panel: Panel) -> Panel:
    """Return the panel as it is cut out: the edge on either side of a slit for a piece one edge again.

    The slit itself is cut afterwards, and what is turned in along it belongs to the panel until then.
    """
    edges = list(panel.edges)
    while (at := next((number for number, edge in enumerate(edges) if edge.kind == LET_IN), None)) is not None:
        before, after = edges[at - 1], edges[at + 2]
        curve = Curve.through(np.vstack((before.curve.points, after.curve.points)))
        edges[at - 1 : at + 3] = [replace(before, curve=curve)]
    return replace(panel, edges=tuple(edges))
