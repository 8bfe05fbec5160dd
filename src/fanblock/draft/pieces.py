"""A band divided into equal pieces, joined end to end: everything a pattern needs of it, without any truing.

All cuts run straight from edge to edge, so that mates are equally long and edges run smooth across them by themselves.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from fanblock.block.band import Band
from fanblock.block.ruled import Block
from fanblock.draft.model import Draft
from fanblock.draft.work import SeamRecord, Work
from fanblock.geometry.curve import Curve, frozen
from fanblock.pattern.model import CENTER, FOLD, HEM, SEAM, TOP, Edge, EdgeName, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import SAME_POINT_MM

INNER, OUTER = "inner edge", "outer edge"

MOST_TURN_RAD = math.radians(330.0)
"""Most one piece may turn when it lies open: its ends need room between them for their allowances (from memory)."""

MOST_PIECES = 24
"""More pieces than this are a mistake in a length."""

FINER = 3
"""How much finer than other levels a band's edges are drawn, so that their chords add up to their lengths."""

STEP_MM = 1.0
"""Distance between the points of an outer edge that is no part of a ring."""

ALLOWANCES = MappingProxyType({INNER: 10.0, OUTER: 10.0})
"""Cloth beyond the long edges where a recipe says nothing, in millimetres (common practice, no source)."""

FRONT, BACK = "center front", "center back"
FIRST, LAST = "first end", "last end"
RING = "ring seam"


@dataclass(frozen=True, slots=True)
class Division:
    """How a band is to be cut: the pieces' name, the least count, the longest piece, and what its ends are.

    ``fold`` is the centre that lies on a fold, if any; ``ring`` tells that the ends of a whole band are sewn together.
    """

    name: str
    least: int = 1
    longest_mm: float = math.inf
    fold: str = ""
    ring: bool = False


def divided(draft: Draft, division: Division) -> Work:
    """Return the pieces of a draft's band, ready to be finished; GeometryError when there would be too many."""
    band = draft.band
    if band is None:
        raise GeometryError([Problem("block-missing", "pieces", "there is no band to divide.", "Add `block: {…}`.")])
    count = piece_count(band, division)
    names = [division.name] if count == 1 else [f"{division.name} {number}" for number in range(1, count + 1)]
    panels = tuple(_panel(draft.block, band, division, names, number) for number in range(count))
    folded = panels[0] if division.fold == FRONT else panels[-1]
    return Work(
        draft=draft,
        panels=panels,
        seams=tuple(_seams(division, names)),
        lines=MappingProxyType({name: _edge(draft.block, band, name, 0.0, 1.0) for name in (INNER, OUTER)}),
        takes=(),
        traces=MappingProxyType({}),
        grains=MappingProxyType({folded.name: division.fold} if division.fold else {}),
        allowance_by_name=ALLOWANCES,
        layers=(("outer", 2 if band.halved else 1),),
    )


def piece_count(band: Band, division: Division) -> int:
    """Return into how many equal pieces a band, or its half, is cut: as few as turn, cloth and recipe allow.

    A piece on a fold opens to twice its size, so where there is one all are cut to half of what they might be.
    """
    opened = 2.0 if division.fold else 1.0
    turn = opened * band.drawn_ratio * abs(band.turn_rad) / MOST_TURN_RAD
    length = opened * band.drawn_ratio * max(band.inner_mm, band.outer_edge_mm) / division.longest_mm
    count = max(1, division.least, *(math.ceil(many - SAME_POINT_MM) for many in (turn, length)))
    if count > MOST_PIECES:
        what = f"{count} pieces would be needed."
        raise GeometryError(
            [Problem("pieces-many", "pieces", what, f"Up to {MOST_PIECES} are drawn: shorten the band.")]
        )
    return count


def _panel(block: Block, band: Band, division: Division, names: list[str], number: int) -> Panel:
    """Return one piece: lower edge from front to back, back end up, upper edge, front end down."""
    count = len(names)
    start, end = number / count, (number + 1) / count
    upper, lower = (INNER, OUTER) if band.hangs else (OUTER, INNER)
    edges = (
        Edge(lower, HEM, _edge(block, band, lower, start, end)),
        _end(block, band, division, names, number, back=True),
        Edge(upper, TOP, _edge(block, band, upper, end, start)),
        _end(block, band, division, names, number, back=False),
    )
    fold = next((edge.name for edge in edges if edge.kind == FOLD), "")
    return Panel(names[number], number + 1, edges, fold=fold)


def _edge(block: Block, band: Band, name: str, start: float, end: float) -> Curve:
    """Return a part of one long edge of a band."""
    height = band.inner_height if name == INNER else band.outer_height
    steps = FINER * (len(block.level(height, start, end).points) - 1)
    if name == INNER or band.deepest_mm is None:
        return Curve(frozen(block.at(np.linspace(start, end, steps + 1), height)))
    steps = max(steps, math.ceil(abs(end - start) * band.drawn_ratio * band.outer_edge_mm / STEP_MM))
    around = np.linspace(start, end, steps + 1)
    return Curve(frozen(block.at(around, band.outer_heights(around))))


def _end(block: Block, band: Band, division: Division, names: list[str], number: int, *, back: bool) -> Edge:
    """Return the end of a piece: a centre line or the band's own end at the outermost pieces, a seam between two."""
    around = (number + 1) / len(names) if back else number / len(names)
    outer = float(band.outer_heights(np.array(around)))
    heights = np.array(sorted((band.inner_height, outer), reverse=not back))
    curve = Curve(frozen(block.at(around, heights)))
    other = number + 1 if back else number - 1
    if 0 <= other < len(names):
        name = join_name(min(number, other))
        return Edge(name, SEAM, curve, EdgeName(names[other], name), reversed=True)
    if band.halved:
        name = BACK if back else FRONT
        return Edge(name, FOLD if division.fold == name else CENTER, curve)
    name, mate = (LAST, FIRST) if back else (FIRST, LAST)
    if division.ring:
        return Edge(name, SEAM, curve, EdgeName(names[0] if back else names[-1], mate), reversed=True)
    return Edge(name, CENTER, curve)


def join_name(number: int) -> str:
    """Return the name of the seam behind the piece of this number, counted from 0.

    >>> join_name(0)
    'join 1'
    """
    return f"join {number + 1}"


def _seams(division: Division, names: list[str]) -> list[SeamRecord]:
    found = [
        SeamRecord(name, name, number + 1, (names[number], name), (names[number + 1], name), None, None)
        for number, name in enumerate(join_name(number) for number in range(len(names) - 1))
    ]
    if division.ring:
        found.append(SeamRecord(RING, RING, len(names), (names[-1], LAST), (names[0], FIRST), None, None))
    return found
