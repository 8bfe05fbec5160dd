"""Skirts of their own in the side view: hung from the edge they are sewn to, as deep as they are there."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.meet import meetings, point_at
from fanblock.pattern.model import HEM, WAIST, Edge, Panel
from fanblock.sheet.drawing import Stroke
from fanblock.sheet.worn import HEIGHTS, Worn

PLACES = 24
"""At how many places along an edge the depth of the skirt is looked at."""

FAR_MM = 5000.0


def skirts(worn: Worn) -> Iterator[Stroke]:
    """Yield the part of every skirt that hangs from one edge of a panel, as seen from the side."""
    numbers = {panel.name: number for number, panel in enumerate(worn.panels)}
    for seam in worn.pattern.seams:
        piece = worn.pattern.by_name[seam.front.panel]
        edge = piece.edge(seam.front.edge)
        if not piece.added or piece.layer or edge.kind != WAIST or seam.back.panel not in numbers:
            continue
        index = numbers[seam.back.panel]
        waist = worn.panels[index].edge(seam.back.edge).curve
        shares = np.linspace(0.0, 1.0, PLACES)
        upper = np.array([waist.at(share * waist.length_mm) for share in shares])
        depths = np.array([_depth_mm(piece, edge, 1.0 - share) for share in shares])
        yield Stroke(polyline(_hung(worn, index, upper, depths), closed=True), "paper", piece.name, True)


def _depth_mm(piece: Panel, edge: Edge, share: float) -> float:
    """Return how far it is from a place of a skirt's upper edge square to that edge down to its hem."""
    at = share * edge.curve.length_mm
    point, (x, y) = edge.curve.at(at), edge.curve.tangent_at(at)
    line = np.vstack((point, point + FAR_MM * np.array([-y, x])))
    hem = np.vstack([one.curve.points for one in piece.edges if one.kind == HEM])
    found = [float(np.hypot(*(point_at(line, place) - point))) for place, _ in meetings(line, hem)]
    return min(found, default=float(np.min(np.hypot(*(hem - point).T))))


def _hung(worn: Worn, index: int, upper: Points, depths: Points) -> Points:
    """Return the outline of what hangs from places of a panel's lower edge."""
    around, height = worn.pattern.block.where(upper)
    length = np.interp(height, HEIGHTS, worn.lengths)
    front = np.interp(height, HEIGHTS, worn.sides[index][0])
    along = np.interp(height, HEIGHTS, worn.fronts[index]) + (around - front) * length
    share = along / np.interp(height, HEIGHTS, worn.cloth)
    low = height - depths / worn.pattern.block.ruling_length_mm(np.clip(share, 0.0, 1.0))
    return frozen(np.vstack((worn.seen(share, height), worn.seen(share, low)[::-1])))
