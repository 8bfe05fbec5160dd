"""How square the centre lines stand to the waist: after a tilt they lean, and a point would swing."""

from __future__ import annotations

import math

import numpy as np

from fanblock.block.ruled import Block
from fanblock.geometry.curve import Points

_CENTERS = np.array([0.0, 1.0])


def center_lean_deg(block: Block) -> tuple[float, float]:
    """Return how far centre front and centre back stand from square to the waist level, in degrees.

    Positive where the corner inside the sheet, between waist and centre line, is wider than square. An
    untilted block has nought at both.
    """
    along = block.around_slope(_CENTERS, 0.0)
    up = block.ruling_direction(_CENTERS)
    front, back = _corner_deg(along[0], up[0]), _corner_deg(-along[1], up[1])
    return front - 90.0, back - 90.0


def _corner_deg(one: Points, other: Points) -> float:
    cross = abs(float(one[0] * other[1] - one[1] * other[0]))
    return math.degrees(math.atan2(cross, float(one @ other)))
