"""From trued rims to panels: their edges named and mated, their traces on the block, and the levels inside them."""

from __future__ import annotations

from types import MappingProxyType

import numpy as np

from fanblock.block.stand import ON_WAIST_AND_BUST
from fanblock.draft.mates import MatePair, Rim
from fanblock.draft.model import Draft
from fanblock.draft.slicing import Loop, Side, inside_at, laid_on
from fanblock.geometry.curve import Curve
from fanblock.pattern.model import LOWER, OPEN_KINDS, UPPER, Edge, EdgeName, Panel
from fanblock.tolerances import ALONG_MM


def panels_of(names: tuple[str, ...], rims: list[list[Rim]], pairs: tuple[MatePair, ...]) -> tuple[Panel, ...]:
    """Return the panels that rims make, in their order, every sewn edge naming its mate."""
    mates = {}
    for pair in pairs:
        mates[pair.front], mates[pair.back] = pair.back, pair.front
    panels = []
    for number, (name, panel) in enumerate(zip(names, rims, strict=True)):
        edges = []
        for index, rim in enumerate(panel):
            place = mates.get((number, index))
            mate = None if place is None else EdgeName(names[place[0]], rims[place[0]][place[1]].name)
            edges.append(_edge(rim, mate))
        panels.append(Panel(name, number + 1, tuple(edges)))
    return tuple(panels)


def _edge(rim: Rim, mate: EdgeName | None) -> Edge:
    across = "" if not rim.level else LOWER if rim.face == "front" else UPPER
    opens_at = rim.seam if rim.kind in OPEN_KINDS else ""
    return Edge(
        rim.name,
        rim.kind,
        rim.curve,
        mate,
        reversed=mate is not None,
        waist_at_mm=rim.waist_at_mm,
        pointed=rim.pointed,
        across=across,
        opens_at=opens_at,
    )


def traced(draft: Draft, rims: list[Rim]) -> Loop:
    """Return a panel's loop in around and height."""
    around, height = draft.block.where(np.vstack([rim.curve.points for rim in rims]))
    places = np.column_stack((around, height))
    ends = np.cumsum([len(rim.curve.points) for rim in rims])[:-1]
    return tuple(
        Side(rim.name, rim.kind, points, rim.seam, rim.face, rim.pointed, rim.part, rim.level)
        for rim, points in zip(rims, np.split(places, ends), strict=True)
    )


def levels_in(draft: Draft, loop: Loop) -> MappingProxyType[str, tuple[Curve, ...]]:
    """Return the parts of the waist and bust levels, and of those the block stands on, that lie inside a loop.

    They run from stitch line to stitch line.
    """
    levels = dict.fromkeys((*ON_WAIST_AND_BUST.levels, *draft.stand.levels))
    hair = ALONG_MM / draft.block.center_front_mm
    return MappingProxyType(
        {
            level.name: tuple(
                draft.block.level(level.height, *stretch)
                for stretch in inside_at(laid_on(loop, level.height, hair, seams=True), level.height)
            )
            for level in levels
        }
    )
