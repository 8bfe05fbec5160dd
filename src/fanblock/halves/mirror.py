"""A panel as its mirror image: the right half as it lies when the wearer is seen from outside."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import numpy as np

from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.pattern.model import Edge, Notch, Panel

_FLIP = frozen(np.diag([-1.0, 1.0]))
_STILL = frozen(np.zeros(2))


def mirrored(panel: Panel) -> Panel:
    """Return the mirror image of a panel in the line of the centre front, x at nought; see :func:`reflected`."""
    return reflected(panel, _FLIP, _STILL)


def reflected(panel: Panel, matrix: Points, shift: Points) -> Panel:
    """Return a panel with every point ``p`` of it at ``matrix @ p + shift``; ``matrix`` turns it over.

    Its loop runs counter-clockwise again, so its edges run the other way and in the other order; what is measured along
    them is measured from their new beginnings. Levels, marks and channels run as they did, from the front backward or down.
    """
    lengths = {edge.name: edge.curve.length_mm for edge in panel.edges}

    def put(point: Points) -> Points:
        return frozen(matrix @ point + shift)

    def over(curve: Curve) -> Curve:
        return curve.moved(matrix, shift)

    def edge_of(edge: Edge) -> Edge:
        at = None if edge.waist_at_mm is None else edge.curve.length_mm - edge.waist_at_mm
        return replace(edge, curve=over(edge.curve).reversed(), waist_at_mm=at, mirrored=not edge.mirrored)

    def notch_of(notch: Notch) -> Notch:
        at = lengths[notch.edge] - notch.at_mm
        return replace(notch, at_mm=at, point=put(notch.point), inward=frozen(matrix @ notch.inward))

    return replace(
        panel,
        edges=tuple(edge_of(edge) for edge in reversed(panel.edges)),
        levels=MappingProxyType({name: tuple(over(part) for part in parts) for name, parts in panel.levels.items()}),
        slits=tuple(replace(slit, start=put(slit.start), end=put(slit.end)) for slit in panel.slits),
        grain=None if panel.grain is None else (put(panel.grain[0]), put(panel.grain[1])),
        notches=tuple(notch_of(notch) for notch in panel.notches),
        cut_line=None if panel.cut_line is None else over(panel.cut_line).reversed(),
        marks=tuple(replace(mark, curve=over(mark.curve)) for mark in panel.marks),
        channels=tuple(
            replace(channel, line=over(channel.line), rows=tuple(over(row) for row in channel.rows))
            for channel in panel.channels
        ),
        eyelets=tuple(replace(eyelet, point=put(eyelet.point)) for eyelet in panel.eyelets),
    )


def flipped(curve: Curve) -> Curve:
    """Return the mirror image of a curve in the line of the centre front, run from the same end."""
    return curve.moved(_FLIP, _STILL)
