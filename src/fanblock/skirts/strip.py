"""Strips of cloth: straight, or a part of a ring, told by places across its upper edge and down from it.

What hangs in folds is drawn on one: the cloth of pleats beside a panel, or a whole skirt that is sewn to a waist. Lines
straight down stand square to the upper edge and to every line of one depth.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.tolerances import CHORD_MM

FINER = 3.0
"""How much finer than it must be a line across is drawn, so that its chords add up to the length they stand for."""


@dataclass(frozen=True, slots=True, eq=False)
class Strip:
    """A strip from ``head``, the first place of its upper edge, ``out`` along that edge and ``along`` straight down.

    ``out`` and ``along`` are square to each other and hold at the head; ``turn_rad`` is how far the strip turns over its
    ``width_mm``, so that it widens downward.
    """

    head: Points
    along: Points
    out: Points
    width_mm: float
    turn_rad: float

    def at(self, across_mm: float, down_mm: float) -> Points:
        """Return the place ``across_mm`` along the upper edge and ``down_mm`` straight down from there."""
        angle = self._angle(across_mm)
        out_mm = across_mm * np.sinc(angle / np.pi) + down_mm * math.sin(angle)
        half = float(np.sinc(angle / (2.0 * np.pi)))
        along_mm = down_mm * math.cos(angle) - across_mm * (angle / 2.0) * half**2
        return np.asarray(self.head + out_mm * self.out + along_mm * self.along)

    def across(self, down_mm: float, start_mm: float, end_mm: float) -> Curve:
        """Return the line of one depth from one place of the upper edge to another."""
        share = abs(end_mm - start_mm) / self.width_mm if self.width_mm else 0.0
        turn, length = share * abs(self.turn_rad), share * (self.width_mm + abs(self.turn_rad) * down_mm)
        count = max(math.ceil(FINER * math.sqrt(turn * length / (8.0 * CHORD_MM))), 1)
        return Curve.through([self.at(place, down_mm) for place in np.linspace(start_mm, end_mm, count + 1)])

    def straight_down(self, across_mm: float, down_mm: float) -> Curve:
        """Return the line straight down from a place of the upper edge."""
        return Curve(frozen([self.at(across_mm, 0.0), self.at(across_mm, down_mm)]))

    def _angle(self, across_mm: float) -> float:
        return self.turn_rad * across_mm / self.width_mm if self.width_mm else 0.0
