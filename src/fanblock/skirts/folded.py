"""Panels as they are when their pleats lie folded: without the cloth that is let into their seams."""

from __future__ import annotations

from dataclasses import replace

from fanblock.geometry.curve import Curve, frozen
from fanblock.pattern.model import CENTER, HEM, PLEAT_HEAD, SEAM, Edge, Panel


def folded(panel: Panel) -> Panel:
    """Return the panel with the cloth of its pleats folded away: it ends at the line of the seam below their heads.

    That line bears the name and the letter of the edge at which the pleats' cloth is sewn; creases are left out.
    """
    edges = list(panel.edges)
    heads = [edge.name for edge in edges if edge.kind == PLEAT_HEAD]
    for name in heads:
        at = next(number for number, edge in enumerate(edges) if edge.name == name)
        edges = edges[at:] + edges[:at]  # the head comes first
        if edges[2].kind == HEM and edges[1].kind in (SEAM, CENTER):  # the loop runs down here
            edges = [_line(edges[1], edges[0].curve.start, edges[2].curve.end), *edges[3:]]
        else:
            edges = [_line(edges[-1], edges[-2].curve.start, edges[0].curve.end), *edges[1:-2]]
    if not heads:
        return panel
    return replace(panel, edges=tuple(edges), marks=tuple(mark for mark in panel.marks if mark.kind != "crease"))


def _line(edge: Edge, start: object, end: object) -> Edge:
    return replace(edge, kind=SEAM, curve=Curve(frozen([start, end])))
