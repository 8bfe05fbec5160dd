"""Bows: curves of an exact length that turn evenly, at one rate before the side and at another behind it.

Both long edges of a block are bows. A bow is held at the side, so that bending it behind the side leaves
everything in front of it where it was. There is no radius in it: a straight bow is one whose turn is
nought.

Points are complex numbers here, x + iy, in millimetres. A positive turn is clockwise, so the edges of a
fan whose bust is wider than its waist turn positively from front to back.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry.curve import Points

Complex = NDArray[np.complex128]

_TINY = float(np.finfo(np.float64).tiny)


@dataclass(frozen=True, slots=True)
class Bow:
    """A curve over around 0..1 of constant speed ``length_mm``, carried on beyond both ends.

    ``side_ratio`` is the around at which it is held, ``side`` the point there and ``heading_rad`` its
    direction there (anticlockwise from x). ``front_turn_rad`` and ``back_turn_rad`` are clockwise turns
    for one whole unit of around before and behind the side.
    """

    length_mm: float
    side_ratio: float
    side: complex
    heading_rad: float
    front_turn_rad: float
    back_turn_rad: float

    def at(self, around: Points) -> Complex:
        """Return the points at ``around``: chords of length ℓ·sin t / t, turned half as far as the arc."""
        from_side = around - self.side_ratio
        half = 0.5 * self._turns(from_side) * from_side
        half = np.where(half == 0.0, _TINY, half)
        sine = np.sin(half)
        chord = from_side * sine / half
        toward = self.length_mm * cmath.rect(1.0, self.heading_rad)
        return self.side + toward * (chord * np.cos(half) - 1j * chord * sine)

    def place(self, around: float) -> complex:
        """Return one point: :meth:`at` without arrays, for the many single places a draft asks for."""
        from_side = around - self.side_ratio
        turns = self.front_turn_rad if from_side < 0.0 else self.back_turn_rad
        half = 0.5 * turns * from_side or _TINY
        chord = self.length_mm * from_side * math.sin(half) / half
        return self.side + cmath.rect(chord, self.heading_rad - half)

    def slope(self, around: Points) -> Complex:
        """Return the derivative by around: ``length_mm`` long, along the curve."""
        from_side = around - self.side_ratio
        turned = self._turns(from_side) * from_side
        toward = self.length_mm * cmath.rect(1.0, self.heading_rad)
        return toward * (np.cos(turned) - 1j * np.sin(turned))

    def bend(self, around: Points) -> Complex:
        """Return the second derivative by around."""
        turns = self._turns(around - self.side_ratio)
        return -1j * turns * self.slope(around)

    @property
    def turn_rad(self) -> float:
        """Clockwise turn from around 0 to 1."""
        return self.front_turn_rad * self.side_ratio + self.back_turn_rad * (1.0 - self.side_ratio)

    def moved(self, turn_rad: float, about: complex, shift: complex = 0j) -> Bow:
        """Return the bow turned anticlockwise by ``turn_rad`` about a point, then shifted."""
        side = about + cmath.rect(1.0, turn_rad) * (self.side - about) + shift
        return Bow(
            self.length_mm,
            self.side_ratio,
            side,
            self.heading_rad + turn_rad,
            self.front_turn_rad,
            self.back_turn_rad,
        )

    def bent(self, front_by_rad: float = 0.0, back_by_rad: float = 0.0) -> Bow:
        """Return the bow with its turns before and behind the side changed; the side stays in place."""
        return Bow(
            self.length_mm,
            self.side_ratio,
            self.side,
            self.heading_rad,
            self.front_turn_rad + front_by_rad,
            self.back_turn_rad + back_by_rad,
        )

    def _turns(self, from_side: Points) -> Points | float:
        if self.front_turn_rad == self.back_turn_rad:
            return self.front_turn_rad
        return np.where(from_side < 0.0, self.front_turn_rad, self.back_turn_rad)


def bow_from_front(start: complex, length_mm: float, turn_rad: float, side_ratio: float) -> Bow:
    """Return the bow that leaves ``start`` along x at around 0 and turns evenly by ``turn_rad``."""
    at_front = Bow(length_mm, 0.0, start, 0.0, turn_rad, turn_rad)
    side = complex(at_front.at(np.asarray(side_ratio)))
    return Bow(length_mm, side_ratio, side, -turn_rad * side_ratio, turn_rad, turn_rad)
