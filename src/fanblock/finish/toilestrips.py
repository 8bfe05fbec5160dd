"""Strips of eyelets by which a toile is laced: pieces of their own, to be used again for the next toile."""

from __future__ import annotations

import math
from collections.abc import Iterator
from types import MappingProxyType

import numpy as np

from fanblock.geometry.curve import Curve, frozen
from fanblock.geometry.meet import foot
from fanblock.pattern.bones import BOTH, Eyelet
from fanblock.pattern.model import FREE, LACING, TOILE, Edge, Mark, Panel, Pattern

STRIP_MM = 40.0
"""Width of a strip when it is folded: room for the eyelets, a bone on each side of them, and the seam that holds it."""

SPACING_MM, FROM_EDGE_MM, HOLE_MM = 25.0, 12.0, 4.0
"""How the eyelets stand where the recipe plans none: an inch apart, as far from the edge as they usually are (common
practice, no source)."""

HELD = "sewn inside a lacing edge"
"""How a strip is held."""


def strips_of(pattern: Pattern, after: int) -> tuple[Panel, ...]:
    """Return one strip for every lacing edge of the half, numbered from ``after`` on, each as long as its edge.

    A strip lies folded, its fold on the lacing line, so that the gap is the garment's own. Its eyelets stand where the
    garment's will.
    """
    edges = list(_lacing_edges(pattern))
    return tuple(
        _strip(panel, edge, name, after + number) for number, (name, panel, edge) in enumerate(_named(edges), start=1)
    )


def _lacing_edges(pattern: Pattern) -> Iterator[tuple[Panel, Edge]]:
    for panel in sorted(pattern.panels, key=lambda panel: panel.number):
        if not panel.layer:
            yield from ((panel, edge) for edge in panel.edges if edge.kind == LACING)


def _named(edges: list[tuple[Panel, Edge]]) -> Iterator[tuple[str, Panel, Edge]]:
    """Each lacing edge with the name of its strip: with its panel's where there are several."""
    if len(edges) == 1:
        yield "lacing strip", *edges[0]
        return
    panels = [panel.name for panel, _ in edges]
    for panel, edge in edges:
        alone = panels.count(panel.name) == 1
        yield f"lacing strip {panel.name if alone else f'{panel.name} {edge.name}'}", panel, edge


def _strip(panel: Panel, edge: Edge, name: str, number: int) -> Panel:
    """A strip in its own frame: the fold upright in the middle, the top up."""
    high = edge.curve.length_mm
    corners = [(0.0, high), (0.0, 0.0), (2.0 * STRIP_MM, 0.0), (2.0 * STRIP_MM, high)]
    edges = tuple(
        Edge(side, FREE, Curve(frozen([corners[at], corners[(at + 1) % len(corners)]])))
        for at, side in enumerate(("front side", "lower end", "back side", "upper end"))
    )
    fold = Curve(frozen([(STRIP_MM, 0.0), (STRIP_MM, high)]))
    grain_x, third = 1.5 * STRIP_MM, high / 3.0
    return Panel(
        name,
        number,
        edges,
        grain=(frozen([grain_x, third]), frozen([grain_x, 2.0 * third])),
        cut_line=Curve(frozen(np.array(corners))),
        allowances=MappingProxyType(dict.fromkeys([one.name for one in edges], 0.0)),
        cuts=((TOILE, 2),),
        marks=(Mark("fold", "crease", fold, "fold, and lay it on the lacing line"),),
        eyelets=_eyelets(panel, edge, high),
        added=True,
        loose=HELD,
    )


def _eyelets(panel: Panel, edge: Edge, high: float) -> tuple[Eyelet, ...]:
    """The garment's own eyelets of that edge, or evenly spaced ones, on the side of the strip's fold that is laced."""
    own = [eyelet for eyelet in panel.eyelets if eyelet.edge == edge.name]
    if own:
        off = [foot(edge.curve.points, one.point)[0] for one in own]
        rows = [(one.half, one.number, one.at_mm, away, one.hole_mm) for one, away in zip(own, off, strict=True)]
    else:
        count = max(math.floor((high - 2.0 * FROM_EDGE_MM) / SPACING_MM) + 1, 2)
        places = np.linspace(FROM_EDGE_MM, high - FROM_EDGE_MM, count).tolist()
        rows = [(BOTH, number, at, FROM_EDGE_MM, HOLE_MM) for number, at in enumerate(places, start=1)]
    return tuple(
        Eyelet("front side", half, number, at, frozen([STRIP_MM - away, high - at]), hole)
        for half, number, at, away, hole in rows
    )
