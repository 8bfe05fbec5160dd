"""Edges on level seams: what they are called, and the line from which a panel's skirt hangs."""

from __future__ import annotations

import re

import numpy as np

from fanblock.geometry.curve import Curve
from fanblock.pattern.model import UPPER, Edge, Panel


def waistline_of(panel: Panel) -> tuple[Curve, ...]:
    """Return the waist level inside a panel or, where there is none, its upper edges on level seams; empty without either.

    Both run from the front to the back; edges of one seam that lie end to end are one line.
    """
    if panel.levels.get("waist"):
        return panel.levels["waist"]
    first = next((at for at, edge in enumerate(panel.edges) if edge.across != UPPER), 0)
    runs: list[list[Edge]] = [[]]
    for edge in (*panel.edges[first:], *panel.edges[:first]):
        if edge.across == UPPER:
            runs[-1].append(edge)
        elif runs[-1]:
            runs.append([])
    lines = [Curve.through(np.vstack([edge.curve.points for edge in run])).reversed() for run in runs if run]
    return tuple(lines[::-1])


def level_name(edge: Edge) -> str:
    """Return the name of the level seam that an edge lies on: its own, without the number of its piece."""
    return re.sub(r" \d+$", "", edge.name)
