"""Pieces that are not cut from the block, added to the panels that are: numbered, joined, and their edges split to fit."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from types import MappingProxyType

import numpy as np

from fanblock.draft.slicing import Loop
from fanblock.draft.work import SeamRecord, Work
from fanblock.geometry.meet import part
from fanblock.pattern.model import Edge, EdgeName, Note, Panel
from fanblock.problems import GeometryError, Problem, nearest
from fanblock.tolerances import LEAST_EDGE_MM

Place = tuple[str, str]
"""A panel's name and an edge's name."""


def panel_of(work: Work, name: str, where: str = "panel") -> Panel:
    """Return the panel called ``name``; GeometryError, told at ``where``, when there is none."""
    for panel in work.panels:
        if panel.name == name:
            return panel
    what = f"there is no panel “{name}”."
    raise GeometryError([Problem("panel-unknown", where, what, nearest(name, [panel.name for panel in work.panels]))])


def edge_of(panel: Panel, name: str, where: str = "edge") -> Edge:
    """Return the edge called ``name`` of a panel; GeometryError, told at ``where``, when there is none."""
    for edge in panel.edges:
        if edge.name == name:
            return edge
    what = f"panel “{panel.name}” has no edge “{name}”."
    raise GeometryError([Problem("edge-unknown", where, what, nearest(name, [edge.name for edge in panel.edges]))])


def with_panel(work: Work, panel: Panel) -> Work:
    """Return the work with a panel put in the place of the one of the same name."""
    return replace(work, panels=tuple(panel if one.name == panel.name else one for one in work.panels))


def with_piece(work: Work, piece: Panel, notes: Iterable[Note] = ()) -> Work:
    """Return the work with one more piece, added after the others and numbered so; ``notes`` tell how it is sewn on."""
    if any(panel.name == piece.name for panel in work.panels):
        what = f"there is a panel “{piece.name}” already."
        raise GeometryError([Problem("name-twice", "name", what, "Give every piece a name of its own.")])
    numbered = replace(piece, number=len(work.panels) + 1, added=True)
    return replace(work, panels=(*work.panels, numbered), notes=(*work.notes, *notes))


def with_seam_between(
    work: Work, name: str, front: Place, back: Place, *, fullness_mm: float = 0.0, how: str = "", line: str = ""
) -> Work:
    """Return the work with two edges named each other's mates, and the seam between them numbered after the others.

    The front edge is longer than the back one by ``fullness_mm``, taken up as ``how`` tells. The seam gets the fewest notch
    ticks that no other seam of the two panels has. Seams of one ``line``, the pieces of a seam that is joined in stretches,
    have one number, letter and count of ticks.
    """
    for (panel, edge), mate in ((front, back), (back, front)):
        held = panel_of(work, panel)
        mated = replace(edge_of(held, edge), mate=EdgeName(*mate), reversed=True)
        work = with_panel(work, replace(held, edges=tuple(mated if one.name == edge else one for one in held.edges)))
    begun = next((seam for seam in work.seams if line and seam.line == line), None)
    if begun is not None:
        more = replace(begun, name=name, front=front, back=back, fullness_mm=fullness_mm, how=how)
        return replace(work, seams=(*work.seams, more))
    here = {front[0], back[0]}
    taken = {seam.ticks or seam.number for seam in work.seams if here & {seam.front[0], seam.back[0]}}
    ticks = next(count for count in range(1, len(taken) + 2) if count not in taken)
    number = max((seam.number for seam in work.seams), default=0) + 1
    record = SeamRecord(name, line or name, number, front, back, fullness_mm=fullness_mm, how=how, ticks=ticks)
    return replace(work, seams=(*work.seams, record))


def with_split_edge(work: Work, place: Place, at_mm: float, names: tuple[str, str]) -> Work:
    """Return the work with an edge split in two at a length from its first point; both keep its kind, neither has a mate.

    The panel's trace on the block, if it has one, is split at the same share of its points. GeometryError when next to
    nothing would be left of one of the two.
    """
    panel = panel_of(work, place[0])
    edge = edge_of(panel, place[1])
    length = edge.curve.length_mm
    if not LEAST_EDGE_MM < at_mm < length - LEAST_EDGE_MM:
        what = f"only {max(min(at_mm, length - at_mm), 0.0):.1f} mm would be left of {edge.name} on one side."
        raise GeometryError([Problem("edge-tiny", f"panel “{panel.name}”", what, "Split it nearer to its middle.")])
    first, second = edge.curve.between(0.0, at_mm), edge.curve.between(at_mm, length)
    halves = (
        replace(edge, name=names[0], curve=first, mate=None, waist_at_mm=None),
        replace(edge, name=names[1], curve=second, mate=None, waist_at_mm=None),
    )
    edges = tuple(each for one in panel.edges for each in (halves if one.name == edge.name else (one,)))
    work = with_panel(work, replace(panel, edges=edges))
    if panel.name not in work.traces:
        return work
    traces = {**work.traces, panel.name: _split_trace(work.traces[panel.name], edge, at_mm, names)}
    return replace(work, traces=MappingProxyType(traces))


def _split_trace(loop: Loop, edge: Edge, at_mm: float, names: tuple[str, str]) -> Loop:
    """Return a panel's trace with one side split where its edge is: their points correspond."""
    sides = []
    for side in loop:
        if side.name != edge.name:
            sides.append(side)
            continue
        along = edge.curve.along
        last = float(len(side.points) - 1)
        place = float(np.interp(at_mm, along, np.linspace(0.0, last, len(along))))
        sides.append(replace(side, name=names[0], points=part(side.points, 0.0, place)))
        sides.append(replace(side, name=names[1], points=part(side.points, place, last)))
    return tuple(sides)
