"""Skirts of their own, sewn to the waist of a bodice: flared, pleated or gathered, in as many pieces as they need.

A skirt's upper edge is one edge for every edge of the bodice that it is sewn to, each as long as that or longer by what is
taken up on it. Its pieces are joined straight down, so that its lower edge runs smooth across the joins by itself.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from fanblock.draft.adding import with_piece, with_seam_between
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.pattern.model import CENTER, FOLD, HEM, SEAM, WAIST, Edge, Mark, Note, Panel
from fanblock.skirts.cloth import Cloth
from fanblock.skirts.strip import Strip
from fanblock.skirts.waist import Stretch, parted, within
from fanblock.tolerances import LEAST_EDGE_MM

GRAIN_INSET = 0.15
"""Share of a skirt's depth that its grain line stays from both edges."""

GRAIN_BESIDE_MM = 30.0
"""How far from the centre back a grain line stands that runs along it."""

GATHERS_MM = 6.0
"""How far below the upper edge its gathering is marked."""


@dataclass(frozen=True, slots=True, eq=False)
class Hanging:
    """What is hung from a waist.

    ``waist`` are the edges it is sewn to, from where it begins; ``cloth`` what lies over them and ``turn_rad`` how far all
    of it turns; ``depth_at`` its depth by place; ``cuts`` the places at which its pieces are joined. ``front`` and
    ``back`` tell what its two ends are: a centre line, a fold, or free.
    """

    name: str
    waist: tuple[Stretch, ...]
    cloth: Cloth
    turn_rad: float
    depth_at: Callable[[Points], Points]
    how: str
    front: Edge
    back: Edge
    cuts: tuple[float, ...] = ()
    notes: tuple[Note, ...] = ()

    @property
    def bounds(self) -> tuple[float, ...]:
        """The places at which the pieces begin and end."""
        return (0.0, *self.cuts, self.cloth.length_mm)


def hung(work: Work, hanging: Hanging) -> Work:
    """Return the work with the pieces of a skirt added and all its seams sewn."""
    for cut in hanging.cuts:
        work, waist = parted(work, hanging.waist, cut)
        hanging = replace(hanging, waist=waist)
    bounds = hanging.bounds
    names = piece_names(hanging.name, len(bounds) - 1)
    for number, name in enumerate(names):
        work = with_piece(work, _piece(hanging, names, number), () if number else hanging.notes)
        if number:
            join = f"join {number}"
            work = with_seam_between(work, f"{hanging.name} {join}", (names[number - 1], join), (name, join))
    for number, name in enumerate(names):
        for stretch in within(hanging.waist, bounds[number], bounds[number + 1]):
            upper = _upper_name(stretch)
            fullness = _over(hanging.cloth, stretch) - (stretch.end_mm - stretch.start_mm)
            taken_up = fullness > LEAST_EDGE_MM
            work = with_seam_between(
                work,
                f"{hanging.name} to {upper}",
                (name, upper),
                (stretch.panel, stretch.edge),
                fullness_mm=fullness if taken_up else 0.0,
                how=hanging.how if taken_up else "",
            )
    return work


def piece_names(name: str, count: int) -> tuple[str, ...]:
    """Return what the pieces of a skirt are called: one bears the name alone, several are numbered from the front.

    >>> piece_names("skirt", 1), piece_names("skirt", 2)
    (('skirt',), ('skirt 1', 'skirt 2'))
    """
    return (name,) if count == 1 else tuple(f"{name} {number}" for number in range(1, count + 1))


def hem_mm(
    cloth: Cloth, turn_rad: float, depth_at: Callable[[Points], Points], part: tuple[float, float] | None = None
) -> float:
    """Return how long the lower edge of a skirt is, its pleats open, or that of the part between two places of the waist."""
    first, last = _cut(cloth, part) if part else (0.0, cloth.width_mm)
    strip = _strip(last - first, turn_rad * (last - first) / cloth.width_mm)
    return _foot(strip, *_between(*cloth.foot(depth_at), first, last)).length_mm


def _cut(cloth: Cloth, part: tuple[float, float]) -> tuple[float, float]:
    """Return where in the cloth the part begins and ends that hangs from two places of the waist."""
    start, end = part
    return cloth.over(start), cloth.width_mm if end >= cloth.length_mm else cloth.over(end)


def _strip(width_mm: float, turn_rad: float) -> Strip:
    """Return a strip whose middle hangs straight down."""
    lean = -turn_rad / 2.0
    along = np.array([math.sin(lean), -math.cos(lean)])
    return Strip(np.zeros(2), along, np.array([math.cos(lean), math.sin(lean)]), width_mm, turn_rad)


def _foot(strip: Strip, across: Points, depths: Points) -> Curve:
    places = [strip.at(float(place), float(depth)) for place, depth in zip(across, depths, strict=True)]
    return Curve.through(np.array(places))


def _upper_name(stretch: Stretch) -> str:
    return f"{stretch.panel} {stretch.edge}"


def _over(cloth: Cloth, stretch: Stretch) -> float:
    """Return how much cloth lies over one edge of the waist."""
    first, last = _cut(cloth, (stretch.start_mm, stretch.end_mm))
    return last - first


def _piece(hanging: Hanging, names: tuple[str, ...], number: int) -> Panel:
    """Return one piece: hem from front to back, back end up, upper edges back to front, front end down."""
    cloth, (start, end) = hanging.cloth, hanging.bounds[number : number + 2]
    first, last = _cut(cloth, (start, end))
    strip = _strip(last - first, hanging.turn_rad * (last - first) / cloth.width_mm)
    across, depths = _between(*cloth.foot(hanging.depth_at), first, last)
    uppers = []
    for stretch in reversed(tuple(within(hanging.waist, start, end))):
        head = cloth.over(stretch.start_mm) - first
        curve = strip.across(0.0, head, head + _over(cloth, stretch))
        uppers.append(Edge(_upper_name(stretch), WAIST, curve.reversed()))
    edges = (
        Edge("hem", HEM, _foot(strip, across, depths)),
        _end(hanging.back, len(names), number + 1, strip.straight_down(strip.width_mm, depths[-1]).reversed()),
        *uppers,
        _end(hanging.front, len(names), number, strip.straight_down(0.0, depths[0])),
    )
    fold = next((edge.name for edge in edges if edge.kind == FOLD), "")
    beside_center = edges[1].kind in (CENTER, FOLD)
    at = strip.width_mm - GRAIN_BESIDE_MM if beside_center else 0.5 * strip.width_mm
    depth = float(np.interp(at, across, depths))
    grain = (frozen(strip.at(at, (1.0 - GRAIN_INSET) * depth)), frozen(strip.at(at, GRAIN_INSET * depth)))
    marks = _marks(hanging, strip, first, last, (across, depths))
    return Panel(names[number], 0, edges, grain=grain, fold=fold, marks=tuple(marks))


def _between(across: Points, depths: Points, first: float, last: float) -> tuple[Points, Points]:
    """Return the part of a lower edge between two places across the cloth, counted from the first."""
    inside = (across > first) & (across < last)
    places = np.concatenate(([first], across[inside], [last]))
    return places - first, np.interp(places, across, depths)


def _end(outer: Edge, count: int, number: int, curve: Curve) -> Edge:
    """Return an end of a piece: the skirt's own end at the outermost pieces, a join between two."""
    if number in (0, count):
        return replace(outer, curve=curve)
    return Edge(f"join {number}", SEAM, curve)


def _marks(hanging: Hanging, strip: Strip, first: float, last: float, foot: tuple[Points, Points]) -> list[Mark]:
    """Return the creases of the pleats on a piece, or the line along which it is gathered."""
    if hanging.how == "gathered":
        return [Mark("gathering", "gather", strip.across(GATHERS_MM, 0.0, strip.width_mm), "gather here")]
    found: list[Mark] = []
    for turn in hanging.cloth.turns():
        at = turn.cloth_mm - first
        if not 0.0 <= at <= last - first:
            continue
        depth = float(np.interp(at, *foot))
        name = f"fold {len(found) + 1}"
        found.append(Mark(name, "crease", strip.straight_down(at, depth), f"{name}: {turn.says}"))
    return found
