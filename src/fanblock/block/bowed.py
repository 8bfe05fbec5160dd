"""A block made from measures: waist and bust are bows, so lengths along every level follow from formulas.

Along a level dP/du = (1 − v)·waist′(u) + v·bust′(u), two directions of fixed lengths. Where both bows
turn at the same rate the angle β between them is fixed and so is the speed: around is share of arc
exactly, and ℓ(v)² = ((1−v)w)² + (vb)² + 2v(1−v)wb·cos β. Where they do not (bent behind the side), the
speed is integrated by Gauss-Legendre quadrature from the side, which for such turns is exact to the last
digits.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from typing import Any

import numpy as np

from fanblock.block.bow import Bow
from fanblock.block.ruled import Block
from fanblock.geometry.curve import Points
from fanblock.wearer.model import Tilt

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(12)


@dataclass(frozen=True, eq=False)
class BowBlock(Block):
    """A block of two bows.

    Of its ``corrections`` those that run to the side come last, and ``unbent`` is the block without them, if there are any.
    """

    waist: Bow
    bust: Bow
    corrections: tuple[Tilt, ...] = ()
    unbent: BowBlock | None = None

    @property
    def side_ratio(self) -> float:
        """The around of the side."""
        return self.waist.side_ratio

    @property
    def is_even(self) -> bool:
        """Whether around is share of arc at every level: both bows turn at the same rates."""
        return (
            self.waist.front_turn_rad == self.bust.front_turn_rad
            and self.waist.back_turn_rad == self.bust.back_turn_rad
        )

    def with_bows(self, waist: Bow, bust: Bow, correction: Tilt, unbent: BowBlock | None = None) -> BowBlock:
        """Return the block with another waist bow and the correction behind it, set upright again."""
        return BowBlock(waist, bust, (*self.corrections, correction), unbent).upright()

    def upright(self) -> BowBlock:
        """Return the block moved as a whole so that its centre front stands upright on the origin."""
        foot = complex(self.waist.at(np.asarray(0.0)))
        turn = math.pi / 2.0 - cmath.phase(complex(self._ruling(np.asarray(0.0))))
        waist, bust = (bow.moved(turn, foot, -foot) for bow in (self.waist, self.bust))
        return BowBlock(waist, bust, self.corrections, self.unbent)

    def _speed(self, around: Points, height: Points) -> Points:
        """Length of dP/du, from the angle between the two bows, which is linear in around on either half."""
        low, high = (1.0 - height) * self.waist.length_mm, height * self.bust.length_mm
        angle: Any = self.waist.heading_rad - self.bust.heading_rad
        if not self.is_even:
            from_side = around - self.side_ratio
            front = self.bust.front_turn_rad - self.waist.front_turn_rad
            back = self.bust.back_turn_rad - self.waist.back_turn_rad
            angle = angle + from_side * np.where(from_side < 0.0, front, back)
        # the square of the sum less 4·low·high·sin²(angle/2): no digits are lost where the angle is nought
        squared = (low + high) ** 2 - 4.0 * low * high * np.sin(0.5 * angle) ** 2
        speed: Points = np.sqrt(np.maximum(squared, 0.0))
        return speed

    def _further(self, around: Points, height: Points, distance_mm: Points) -> Points:
        if self.is_even:
            even: Points = around + distance_mm / self._speed(around, height)
            return even
        return super()._further(around, height, distance_mm)

    def _from_side(self, around: Points, height: Points) -> Points:
        """Signed length along levels from the side to ``around``."""
        from_side = around - self.side_ratio
        if self.is_even:
            even: Points = from_side * self._speed(around, height)
            return even
        nodes = self.side_ratio + 0.5 * from_side[..., np.newaxis] * (1.0 + _NODES)
        speeds = self._speed(nodes, height[..., np.newaxis])
        length: Points = 0.5 * from_side * np.sum(_WEIGHTS * speeds, axis=-1)
        return length
