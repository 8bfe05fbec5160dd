"""Outline edges with corners: a chain of named edges, each smooth in itself, from centre front to centre back.

A neckline, a shoulder, an armhole may double back in around, so they are drawn as curves in the plane and only then read
in the block's coordinates. Each edge begins where the one before it ends. Two edges may be named to be sewn to each other,
as the shoulders are.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np

from fanblock.draft.model import Draft, Line
from fanblock.draft.opening import carried_past, overlap_mm, stands_free
from fanblock.draft.places import place_of
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.splines import through_points
from fanblock.pattern.model import SHOULDER
from fanblock.problems import GeometryError, Problem, nearest
from fanblock.terms import Position

STEP_MM = 2.0
"""Distance between the points of an edge."""

OVERHANG_MM = 25.0
"""How far a chain is carried on straight beyond its two outer ends, so that the centre lines can cut it there."""

FRONT, BACK = "center front", "center back"

Kind = Literal["top", "hem", "neckline", "armhole", "shoulder", "waist"]


@dataclass(frozen=True, slots=True)
class EdgeSpec:
    """One named edge of an outline."""

    name: str = field(metadata={"for": "the name of the edge"})
    kind: Kind = field(metadata={"for": "what it is"})
    through: tuple[Position, ...] = field(
        metadata={"for": "its points from front to back; the first stands where the edge before it ends"}
    )
    straight: bool = field(default=False, metadata={"for": "whether it runs straight from point to point"})
    pointed: bool = field(default=False, metadata={"for": "whether it may meet a centre line at a point"})
    sewn_to: str = field(default="", metadata={"for": "the edge it is sewn to, as a front shoulder to a back shoulder"})


def edge_problems(specs: tuple[EdgeSpec, ...]) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with a chain of edges as (option, what, remedy)."""
    names = [spec.name for spec in specs]
    found = [
        ("edges", f"two edges are called “{name}”.", "Give every edge a name of its own.")
        for name in sorted({name for name in names if names.count(name) > 1})
    ]
    taken: list[str] = []
    for spec in (spec for spec in specs if spec.sewn_to):
        pair = [spec.name, spec.sewn_to]
        if spec.sewn_to not in names:
            what = f"“{spec.name}” is sewn to “{spec.sewn_to}”, and there is no such edge."
            found.append(("edges", what, nearest(spec.sewn_to, [name for name in names if name != spec.name])))
        elif spec.sewn_to == spec.name:
            found.append(("edges", f"“{spec.name}” is sewn to itself.", "Name the edge it is sewn to."))
        elif set(pair) & set(taken):
            what = f"“{spec.name}” and “{spec.sewn_to}” are not the only two."
            found.append(("edges", what, "Sew an edge to one other, and say so with one of them."))
        taken += pair
    return tuple(found)


def with_chain(draft: Draft, chain: str, specs: tuple[EdgeSpec, ...]) -> Draft:
    """Return the draft with an outline edge drawn as a chain of named edges, from front to back.

    GeometryError when an edge has no length on this body.
    """
    lines: list[Line] = []
    drawn: list[Points] = []
    lapped = {at: overlap_mm(draft, at) for at in (FRONT, BACK)}
    end: Points | None = None
    for number, spec in enumerate(specs):
        corners = _corners(draft, spec, end)
        first, last = number == 0, number == len(specs) - 1
        points = _drawn(draft, spec, corners, first=first, last=last)
        end = points[-1]
        drawn.append(points)
        points = _overhung(points, before=first and not lapped[FRONT], after=last and not lapped[BACK])
        seam, face = _sewn(spec, specs)
        around, height = draft.block.where(points)
        places = frozen(np.column_stack((around, height)))
        lines.append(Line(spec.name, spec.kind, places, chain, seam, face, spec.pointed))
    whole = np.vstack([drawn[0], *(points[1:] for points in drawn[1:])])
    if lapped[FRONT]:
        lines.insert(0, _past(draft, lines[0], FRONT, whole, lapped[FRONT]))
    if lapped[BACK]:
        lines.append(_past(draft, lines[-1], BACK, whole[::-1], lapped[BACK]))
    return replace(draft, lines=(*draft.lines, *lines))


def _past(draft: Draft, line: Line, at: str, inward: Points, over_mm: float) -> Line:
    """Return the line on which the outermost edge goes on past a centre line, as far as the halves lie over each other."""
    outward = carried_past(draft, at, inward, over_mm + OVERHANG_MM)
    points = outward[::-1] if at == FRONT else outward
    return Line(f"{line.name} overlap", line.kind, frozen(points), line.chain, pointed=line.pointed)


def _corners(draft: Draft, spec: EdgeSpec, start: Points | None) -> Points:
    """Return the points an edge runs through, in the plane, its first being where the edge before it ends."""
    places = np.array([place_of(draft, position) for position in spec.through])
    points = draft.block.at(places[:, 0], places[:, 1])
    if start is not None:
        points = np.vstack((start, points))
    steps = np.hypot(*np.diff(points, axis=0).T)
    if len(points) < 2 or np.any(steps < STEP_MM):
        what = f"on this body two points of “{spec.name}” fall together."
        raise GeometryError([Problem("edge-short", spec.name, what, "Move them apart, or leave one out.")])
    return points


def _drawn(draft: Draft, spec: EdgeSpec, corners: Points, *, first: bool, last: bool) -> Points:
    """Return an edge's points; a smooth one stands square to a centre line that is a fold or a seam."""
    if spec.straight:
        runs = [through_points(corners[number : number + 2], STEP_MM) for number in range(len(corners) - 1)]
        return np.vstack([runs[0], *(run[1:] for run in runs[1:])])
    start = _square(draft, 0.0) if first and not spec.pointed and not stands_free(draft, FRONT) else None
    end = _square(draft, 1.0) if last and not spec.pointed and not stands_free(draft, BACK) else None
    return through_points(corners, STEP_MM, start, end)


def _square(draft: Draft, around: float) -> Points:
    """Return the direction, from front to back, that is square to the centre line at ``around``."""
    up = draft.block.ruling_direction(around)
    return np.array([up[1], -up[0]])


def _overhung(points: Points, *, before: bool, after: bool) -> Points:
    """Return an edge's points carried on straight beyond its outer ends.

    An end itself is left out, so that a centre line on which it stands cuts the middle of a piece: where two points
    meet, rounding may let it slip through between them.
    """
    if before:
        points = np.vstack((_beyond(points[0], points[1])[::-1], points[1:]))
    if after:
        points = np.vstack((points[:-1], _beyond(points[-1], points[-2])))
    return points


def _beyond(end: Points, inner: Points) -> Points:
    """Return two points straight on beyond an end, as seen from the point before it: just past it, and the overhang's."""
    leaving = (end - inner) / np.hypot(*(end - inner))
    return np.vstack((end + 0.5 * STEP_MM * leaving, end + OVERHANG_MM * leaving))


def _sewn(spec: EdgeSpec, specs: tuple[EdgeSpec, ...]) -> tuple[str, str]:
    """Return the seam an edge belongs to and which side of it this is: the later of the two edges is its front.

    The one pair of shoulders that a bodice has makes the seam called ``shoulder``.

    In loop order the later edge of a top chain comes first, so the two are walked towards each other.
    """
    other = spec.sewn_to or next((each.name for each in specs if each.sewn_to == spec.name), "")
    if not other:
        return "", ""
    names = [each.name for each in specs]
    pair = sorted((spec.name, other), key=names.index)
    shoulders = [each for each in specs if each.sewn_to and each.kind == SHOULDER]
    seam = SHOULDER if spec.kind == SHOULDER and len(shoulders) == 1 else f"{pair[0]} to {pair[1]}"
    return seam, "front" if spec.name == pair[1] else "back"
