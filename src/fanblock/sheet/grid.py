"""A fine grid over a piece, to say on the body where something lies, and to draw a mended toile on plain paper."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.meet import crossings, points_at
from fanblock.pattern.model import Panel
from fanblock.sheet.drawing import Group, Stroke
from fanblock.sheet.piece import Piece

GRID_MM, GRID_IN_MM = 20.0, 25.4
"""How far apart the lines stand, for those who measure in centimetres and for those who do not."""


def gridded(pieces: Iterable[Piece], units: str) -> tuple[Piece, ...]:
    """Return the pieces with a grid under everything else, along their grain and square to it, out to their cut lines.

    One line of it lies on the grain arrow and one goes through the waist, so that it can be counted from there.
    """
    step = GRID_IN_MM if units == "in" else GRID_MM
    return tuple(replace(one, group=Group(one.group.name, (*_lines(one, step), *one.group.items))) for one in pieces)


def _lines(piece: Piece, step: float) -> list[Stroke]:
    ring = np.vstack((piece.ground, piece.ground[:1]))
    origin = _origin(piece.panel)
    found = []
    for column, name in ((0, "upright"), (1, "level")):
        low, high = float(ring[:, column].min()), float(ring[:, column].max())
        first = origin[column] + step * np.ceil((low - origin[column]) / step)
        for at in np.arange(first, high, step).tolist():
            ends = points_at(ring, crossings(ring, column, at))
            ends = ends[np.argsort(ends[:, 1 - column])]
            pairs = zip(ends[0::2], ends[1::2], strict=False)
            found += [Stroke(polyline(frozen([start, end])), "square cm", f"grid {name}") for start, end in pairs]
    return found


def _origin(panel: Panel) -> Points:
    """Where two lines of the grid cross: on the grain, at the height of the waist."""
    x, y = panel.loop().min(axis=0).tolist()
    if panel.grain is not None:
        x, y = panel.grain[0].tolist()
    waist = [part for part in panel.levels.get("waist", ()) if len(part.points)]
    if waist:
        y = float(waist[0].at(0.5 * waist[0].length_mm)[1])
    return frozen([x, y])
