"""The lacing edge: the line parallel to a centre line, half a gap inside it; or beside the edge of a seam that is laced."""

from __future__ import annotations

import numpy as np

from fanblock.block.ruled import Block
from fanblock.geometry.curve import Points, frozen
from fanblock.tolerances import SAME_POINT_MM

LOWEST, HIGHEST, STATIONS = -2.0, 3.0, 160
"""Heights between which lines that run up the block are drawn before the outline cuts them."""


def heights() -> Points:
    """Return the heights at which a line up the block is evaluated, from lowest to highest."""
    return np.linspace(LOWEST, HIGHEST, STATIONS)


def lacing_line(block: Block, at: str, width_mm: float) -> Points:
    """Return (around, height), rising, along the lacing edge of a gap ``width_mm`` wide at a centre line."""
    center = 1.0 if at == "center back" else 0.0
    inward = -1.0 if at == "center back" else 1.0
    foot = block.at(center, 0.0)
    up = block.ruling_direction(center)
    across = inward * np.array([up[1], -up[0]])
    v = heights()
    u = np.full(v.shape, center + inward * width_mm / 2.0 / block.half_waist_mm)
    for _ in range(30):
        miss = (block.at(u, v) - foot) @ across - width_mm / 2.0
        slope = block.around_slope(u, v) @ across
        u = u - np.clip(miss / np.where(slope == 0.0, np.inf, slope), -1.0, 1.0)  # near an apex the line runs wild
        if np.max(np.abs(miss)) < SAME_POINT_MM:
            break
    return frozen(np.column_stack((u, v)))


def moved_aside(block: Block, points: Points, aside_mm: float) -> Points:
    """Return a line up the block (around, height) moved square to itself, to the back where ``aside_mm`` is positive."""
    if not aside_mm:
        return points
    plane = block.at(points[:, 0], points[:, 1])
    along = np.gradient(plane, axis=0)
    along /= np.hypot(*along.T)[:, None]
    around, height = block.where(plane + aside_mm * np.column_stack((along[:, 1], -along[:, 0])))
    return frozen(np.column_stack((around, height)))
