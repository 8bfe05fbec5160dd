"""Rounding the corner between two curves."""

from __future__ import annotations

import math

import numpy as np

from fanblock.geometry.curve import Curve, Points
from fanblock.tolerances import CHORD_MM


def rounded(corner_in: Curve, corner_out: Curve, reach_mm: float) -> Points:
    """Return points of the arc that leaves one curve ``reach_mm`` before its end and joins the next as far after its start.

    The two curves meet in a corner; the arc is tangent to both. Where both are straight it is a circle's arc of radius
    ``reach_mm`` x tan(half the angle between them), drawn by the usual cubic with handles 4/3 tan(turn/4).
    """
    start_mm = corner_in.length_mm - reach_mm
    start, end = corner_in.at(start_mm), corner_out.at(reach_mm)
    leaving, joining = corner_in.tangent_at(start_mm), corner_out.tangent_at(reach_mm)
    turn = abs(math.atan2(leaving[0] * joining[1] - leaving[1] * joining[0], leaving @ joining))
    radius = reach_mm / math.tan(max(turn, 0.05) / 2.0)
    handle = 4.0 / 3.0 * math.tan(turn / 4.0) * radius
    count = 2 + math.ceil(turn / (2.0 * math.acos(1.0 - CHORD_MM / max(radius, 2 * CHORD_MM))))
    t = np.linspace(0.0, 1.0, max(count, 6))[:, None]
    first, second = start + handle * leaving, end - handle * joining
    return (1 - t) ** 3 * start + 3 * (1 - t) ** 2 * t * first + 3 * (1 - t) * t**2 * second + t**3 * end
