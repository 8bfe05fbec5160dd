"""A block that somebody has already: two lines traced from it, waist and bust, and the straight rulings between them.

Around is share of arc along both lines. Between and beyond them it is not, so lengths along the levels are measured: the
speed dP/du is known everywhere, and is added up in fixed stretches by Gauss-Legendre quadrature.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from fanblock.block.bow import Complex
from fanblock.block.ruled import Block
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.splines import SmoothLine, smooth_line
from fanblock.wearer.model import Tilt

STRETCHES = 160
"""In how many stretches a traced line is kept, and lengths are added up: under 5 mm each on the largest bust."""

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(4)
_KNOTS = frozen(np.linspace(0.0, 1.0, STRETCHES + 1))


@dataclass(frozen=True, eq=False)
class TracedLine:
    """A traced waist or bust, from centre front to centre back: a smooth line run at one speed."""

    length_mm: float
    line: SmoothLine

    def at(self, around: Points) -> Complex:
        """Return the points at ``around``."""
        return np.asarray(self.line.at(around))

    def place(self, around: float) -> complex:
        """Return one point."""
        return complex(self.line.at(around))

    def slope(self, around: Points) -> Complex:
        """Return the derivative by around."""
        return np.asarray(self.line.slope(around))

    def bend(self, around: Points) -> Complex:
        """Return the second derivative by around."""
        return np.asarray(self.line.bend(around))

    @property
    def turn_rad(self) -> float:
        """Clockwise turn from around 0 to 1."""
        headings = np.unwrap(np.angle(self.slope(_KNOTS)))
        return float(headings[0] - headings[-1])


def traced_line(curve: Curve) -> TracedLine:
    """Return a curve, run from centre front to centre back, as the waist or the bust of a block."""
    along = _KNOTS * curve.length_mm
    points = np.stack([np.interp(along, curve.along, curve.points[:, axis]) for axis in (0, 1)], axis=1)
    return TracedLine(curve.length_mm, smooth_line(_KNOTS, points))


@dataclass(frozen=True, eq=False)
class TracedBlock(Block):
    """A block of two traced lines, its centre front upright on the origin, its side where the wearer's is."""

    waist: TracedLine
    bust: TracedLine
    traced_from: str
    side_ratio: float = 0.5
    corrections: tuple[Tilt, ...] = ()
    _pieces = STRETCHES

    def _speed(self, around: Points, height: Points) -> Points:
        return np.abs(self._slope(around, height))

    def _from_side(self, around: Points, height: Points) -> Points:
        around, height = np.broadcast_arrays(np.asarray(around, float), np.asarray(height, float))
        heights, number = np.unique(height, return_inverse=True)
        sums = self._sums(heights)[number.reshape(height.shape)]
        length: Points = self._run(around, height, sums) - self._run(
            np.full_like(around, self.side_ratio), height, sums
        )
        return length

    @cached_property
    def _squares(self) -> tuple[Points, Points, Points]:
        """At every node of every stretch: waist' squared, waist' times bust', bust' squared."""
        middles = 0.5 * (_KNOTS[:-1] + _KNOTS[1:])
        nodes = middles[:, np.newaxis] + 0.5 / STRETCHES * _NODES
        waist, bust = self.waist.slope(nodes), self.bust.slope(nodes)
        return np.abs(waist) ** 2, (waist * bust.conj()).real, np.abs(bust) ** 2

    def _sums(self, heights: Points) -> Points:
        """Lengths of levels from the centre front to every knot: shape (heights, knots)."""
        waist, both, bust = self._squares
        v = heights[:, np.newaxis, np.newaxis]
        squared = (1.0 - v) ** 2 * waist + 2.0 * v * (1.0 - v) * both + v**2 * bust
        stretches = 0.5 / STRETCHES * np.sum(_WEIGHTS * np.sqrt(np.maximum(squared, 0.0)), axis=-1)
        return np.concatenate((np.zeros((len(heights), 1)), np.cumsum(stretches, axis=1)), axis=1)

    def _run(self, around: Points, height: Points, sums: Points) -> Points:
        """Signed length from the centre front to ``around``; beyond both ends the lines are straight."""
        inside = np.clip(around, 0.0, 1.0)
        knot = np.minimum((inside * STRETCHES).astype(np.intp), STRETCHES - 1)
        rest = inside - _KNOTS[knot]
        nodes = _KNOTS[knot][..., np.newaxis] + 0.5 * rest[..., np.newaxis] * (1.0 + _NODES)
        part = 0.5 * rest * np.sum(_WEIGHTS * self._speed(nodes, height[..., np.newaxis]), axis=-1)
        whole: Any = np.take_along_axis(sums, knot[..., np.newaxis], axis=-1)[..., 0]
        beyond: Points = (around - inside) * self._speed(inside, height)
        return np.asarray(whole + part + beyond)
