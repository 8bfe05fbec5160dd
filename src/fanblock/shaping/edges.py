"""Cutting an edge of a panel open: what stands in its place, what its parts are called, and the panel measured anew."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import replace
from types import MappingProxyType

import numpy as np

from fanblock.block.stand import ON_WAIST_AND_BUST
from fanblock.draft.adding import with_panel
from fanblock.draft.slicing import Loop, Side, stretches_at
from fanblock.draft.takes import dart_takes_of
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import ARMHOLE, HEM, NECKLINE, TOP, WAIST, Edge, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.shaping.stretches import Stretch, dart_stretches, darts_on, without
from fanblock.tolerances import ALONG_MM, LEAST_EDGE_MM

FREE_KINDS = frozenset({TOP, ARMHOLE, NECKLINE, HEM, WAIST})
"""The kinds of edges that a dart or a slit may open at."""

LOWER_KINDS = frozenset({HEM, WAIST})


def base_name(edge: Edge) -> str:
    """Return the name of an edge without the number that tells its parts from one another.

    >>> base_name(Edge("top edge 2", TOP, Curve.through([[0.0, 0.0], [1.0, 0.0]])))
    'top edge'
    """
    return re.sub(r" \d+$", "", edge.name)


def with_open_edge(
    panel: Panel, number: int, parts: tuple[Curve, Curve], between: tuple[Edge, ...], where: str
) -> Panel:
    """Return the panel with an edge cut open: its two ``parts``, and ``between`` them other edges, in loop order.

    The parts of what was one edge are numbered from the front. GeometryError, told at ``where``, when next to nothing would
    be left of a part, or the edge is sewn to something already.
    """
    edge = panel.edges[number]
    base = base_name(edge)
    if any(one.mate is not None for one in panel.edges if base_name(one) == base and one.kind == edge.kind):
        what = f"{edge.name} of panel “{panel.name}” is sewn to something already."
        raise GeometryError([Problem("edge-sewn", where, what, "Put this step before the one that sews to it.")])
    if min(part.length_mm for part in parts) < LEAST_EDGE_MM:
        what = f"it would leave next to nothing of {edge.name} beside it."
        raise GeometryError([Problem("edge-tiny", where, what, "Move it away from the corner.")])
    halves = tuple(replace(edge, curve=part) for part in parts)
    edges = [*panel.edges[:number], halves[0], *between, halves[1], *panel.edges[number + 1 :]]
    at = [place for place, one in enumerate(edges) if base_name(one) == base and one.kind == edge.kind]
    if edge.kind not in LOWER_KINDS:  # a loop runs along the top from the back to the front
        at.reverse()
    for count, place in enumerate(at, start=1):
        edges[place] = replace(edges[place], name=f"{base} {count}")
    return replace(panel, edges=tuple(edges))


def renewed(work: Work, panel: Panel, folded: Collection[str] = ()) -> Work:
    """Return the work with a changed panel in place of the old one, its trace and its levels measured anew.

    ``folded`` names the edges of a dart's peak, which are folded away: together they are traced as the straight line across
    its mouth.
    """
    old = next(one for one in work.panels if one.name == panel.name)
    trace = _trace(work, old, panel, frozenset(folded))
    levelled = replace(panel, levels=levels_of(work, panel, trace))
    return replace(with_panel(work, levelled), traces=MappingProxyType({**work.traces, panel.name: trace}))


def _trace(work: Work, old: Panel, panel: Panel, folded: frozenset[str]) -> Loop:
    """Return a panel's loop in around and height; edges that did not change keep their sides.

    Tabs leave the trace as it was before they were cut: their hems are traced here.
    """
    sides = {side.name: side for side in work.traces[old.name]}
    before = {id(edge.curve): sides[edge.name] for edge in old.edges if edge.name in sides}
    found = []
    for edge in panel.edges:
        kept = before.get(id(edge.curve))
        if kept is not None:
            found.append(replace(kept, name=edge.name))
            continue
        places = places_of(work, edge.curve.points)
        if edge.name in folded:
            mouth = [end for one in panel.edges if one.name in folded for end in (one.curve.start, one.curve.end)]
            middle = places_of(work, np.array([mouth[0], mouth[-1]])).mean(axis=0)
            places = np.vstack(
                (places[0], middle) if not found or found[-1].name not in folded else (middle, places[-1])
            )
        found.append(Side(edge.name, edge.kind, places))
    return tuple(found)


def places_of(work: Work, points: Points) -> Points:
    """Return points of the plane as places on the block: around, height."""
    around, height = work.block.where(points)
    return np.column_stack((around, height))


def levels_of(work: Work, panel: Panel, trace: Loop) -> Mapping[str, tuple[Curve, ...]]:
    """Return the parts of the named levels inside a panel, from stitch line to stitch line; a dart is none of it."""
    draft = work.draft
    hair = ALONG_MM / draft.block.center_front_mm
    takes = darts_on(panel, dart_takes_of(draft))
    found: dict[str, tuple[Curve, ...]] = {}
    for level in dict.fromkeys((*ON_WAIST_AND_BUST.levels, *draft.stand.levels)):
        cloth: list[Stretch] = without(
            stretches_at(trace, level.height, hair), dart_stretches(draft, takes, level.height)
        )
        found[level.name] = tuple(draft.block.level(level.height, *stretch) for stretch in cloth)
    return MappingProxyType(found)
