"""Pieces that are let into slits, as the side view shows them: spread over the mouth of their slit."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.meet import foot
from fanblock.pattern.model import Edge, Panel, Slit
from fanblock.shaping.slits import with_closed_slits
from fanblock.sheet.drawing import Stroke
from fanblock.sheet.worn import Worn

SIDE_STEPS = 24
"""Into how many steps the sides of a piece are divided to be laid on the form."""


def inlets(worn: Worn) -> Iterator[Stroke]:
    """Yield every piece that is let into a slit of a panel that goes round the body."""
    pieces = {panel.name: panel for panel in worn.pattern.panels}
    for index, panel in enumerate(worn.panels):
        for slit in panel.slits:
            if slit.name in pieces:
                ring = _spread(with_closed_slits(panel), slit, pieces[slit.name])
                yield Stroke(polyline(worn.place(index, ring), closed=True), "paper", slit.name, True)


def _spread(panel: Panel, slit: Slit, piece: Panel) -> Points:
    """Return a ring on the panel from the slit's inner end, as wide at its edge as the piece is."""
    edge, at = _opens_at(panel, slit)
    half = 0.5 * _outer(piece).curve.length_mm
    mouth = edge.curve.between(max(at - half, 0.0), min(at + half, edge.curve.length_mm)).points
    share = np.linspace(0.0, 1.0, SIDE_STEPS + 1)[:, None]
    go, back = (slit.start + share * (corner - slit.start) for corner in (mouth[0], mouth[-1]))
    return np.vstack((go, mouth[1:-1], back[::-1][:-1]))


def _opens_at(panel: Panel, slit: Slit) -> tuple[Edge, float]:
    """Return the edge a slit opens at, and how far along that."""
    edge = min(panel.edges, key=lambda one: foot(one.curve.points, slit.end)[0])
    return edge, _along(edge.curve, foot(edge.curve.points, slit.end)[1])


def _along(curve: Curve, place: float) -> float:
    return float(np.interp(place, np.arange(len(curve.points)), curve.along))


def _outer(piece: Panel) -> Edge:
    """Return the edge of a piece that is sewn to nothing."""
    return next((edge for edge in piece.edges if edge.mate is None), piece.edges[0])
