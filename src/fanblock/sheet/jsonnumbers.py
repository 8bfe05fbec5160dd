"""Numbers and points as they stand in a pattern's JSON: fixed decimals, no minus zero, null for what is not finite."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any

import numpy as np

from fanblock.geometry.curve import Points

DECIMALS = 4


def points_of(points: Points | Iterable[Any]) -> list[list[float]]:
    """Return points as pairs of numbers."""
    array = np.round(np.asarray(points if isinstance(points, np.ndarray) else list(points), dtype=np.float64), DECIMALS)
    return [[x + 0.0, y + 0.0] for x, y in array.tolist()]


def number_of(value: float, decimals: int = DECIMALS) -> float | None:
    """Return a number with fixed decimals and no minus zero; None for what is not finite."""
    return round(float(value), decimals) + 0.0 if math.isfinite(value) else None
