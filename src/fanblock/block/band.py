"""Bands: fans of any inner length, outer length and depth, such as collars, capes, flounces and straight strips.

A band is a part of a ring. With inner edge a, depth d and the turn θ that it makes of a circle (radians), its outer edge
is a + θd long; so of outer length and turn either may be asked and the other follows. The radius a/θ of the inner edge is
what a draughtsman sets on the pin; a band of no turn has none and is a straight strip.

The inner edge is the one that is sewn on. A band that *hangs* from it (a falling collar, a cape) has it above; one that
*stands* on it has it below. A fan's lower edge is its height 0, so the inner edge is height 1 of a hanging band and height
0 of a standing one, and every piece is drawn the way up it is worn.

A band may be deeper in its middle than at its ends, as sleeve flounces are. Its depth then swells as d + (D - d) sin²(πt)
over the share t of its length, which is level at both ends and in the middle, so that its outer edge runs smooth across
the seam of a ring and the fold of a half. Seen from the pin of the inner edge that is a circle about another point, but
for a small part of the two points' distance.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from fanblock.block.bowed import BowBlock
from fanblock.block.fan import fan
from fanblock.geometry.curve import Points
from fanblock.problems import GeometryError, Problem

FULL_CIRCLE_RAD = 2.0 * math.pi

_STEPS = 500
"""Into how many parts an outer edge is divided to sum its length: far more than so smooth a curve needs."""


@dataclass(frozen=True, slots=True)
class Band:
    """A whole band in numbers: lengths of its edges and its depth, and how it is drawn and worn.

    ``halved`` tells that one half is drawn, from centre front to centre back, and the other is its mirror image; ``hangs``
    that it falls from its inner edge. ``deepest_mm`` is the depth in its middle where that is more than at its ends; the
    outer edge of such a band is longer than ``outer_mm``, which is that of its even part.
    """

    inner_mm: float
    outer_mm: float
    depth_mm: float
    halved: bool = True
    hangs: bool = True
    deepest_mm: float | None = None

    @property
    def turn_rad(self) -> float:
        """How far the whole band turns; negative where its outer edge is the shorter one."""
        return (self.outer_mm - self.inner_mm) / self.depth_mm

    @property
    def circle_ratio(self) -> float:
        """The share of a whole circle that the band turns."""
        return self.turn_rad / FULL_CIRCLE_RAD

    @property
    def inner_radius_mm(self) -> float:
        """Radius of the inner edge, for pin and string; infinite for a straight strip."""
        return self.inner_mm / self.turn_rad if self.turn_rad else math.inf

    @property
    def drawn_ratio(self) -> float:
        """The share of the whole band that is drawn: a half or all of it."""
        return 0.5 if self.halved else 1.0

    @property
    def center_back(self) -> float:
        """The around of the centre back: the end of a half, the middle of a whole band."""
        return 1.0 if self.halved else 0.5

    def depth_at(self, share: Points) -> Points:
        """Return the depth at shares of the whole band's length, in millimetres."""
        swell = 0.0 if self.deepest_mm is None else self.deepest_mm - self.depth_mm
        return np.asarray(self.depth_mm + swell * np.sin(np.pi * np.asarray(share)) ** 2)

    @property
    def outer_edge_mm(self) -> float:
        """Length of the whole outer edge: exact where the depth is even, else by Simpson's rule."""
        if self.deepest_mm is None:
            return self.outer_mm
        share = np.linspace(0.0, 1.0, 2 * _STEPS + 1)
        rise = math.pi * (self.deepest_mm - self.depth_mm) * np.sin(2.0 * np.pi * share)
        speed = np.hypot(self.inner_mm + self.turn_rad * self.depth_at(share), rise)
        return float((speed[0] + 4.0 * speed[1::2].sum() + 2.0 * speed[2:-1:2].sum() + speed[-1]) / (6.0 * _STEPS))

    @property
    def inner_height(self) -> float:
        """The height of the inner edge on the band's fan."""
        return 1.0 if self.hangs else 0.0

    @property
    def outer_height(self) -> float:
        """The height of the outer edge on the band's fan, or of its even part."""
        return 1.0 - self.inner_height

    def outer_heights(self, around: Points) -> Points:
        """Return the heights of the outer edge on the band's fan at arounds of what is drawn."""
        deep = self.depth_at(self.drawn_ratio * np.asarray(around)) / self.depth_mm
        return np.asarray(self.inner_height + (self.outer_height - self.inner_height) * deep)


def outer_mm(inner_mm: float, depth_mm: float, circle_ratio: float) -> float:
    """Return the length of the outer edge of a band that is so large a share of a circle.

    >>> round(outer_mm(700.0, 100.0, 0.25), 3)
    857.08
    """
    return inner_mm + circle_ratio * FULL_CIRCLE_RAD * depth_mm


def inner_radius_mm(inner_mm: float, circle_ratio: float) -> float:
    """Return the radius at which the inner edge of a band is drawn with pin and string.

    >>> round(inner_radius_mm(700.0, 0.5), 2)
    222.82
    """
    return inner_mm / (circle_ratio * FULL_CIRCLE_RAD)


def band_fan(band: Band) -> BowBlock:
    """Return the fan of a band, or of its half, with the centre back upright.

    Raises :class:`GeometryError` for a length that is not over nought.
    """
    lengths = (("inner", band.inner_mm), ("outer", band.outer_mm), ("depth", band.depth_mm))
    problems = [
        Problem(
            "block-length", f"block › {name}", f"comes to {mm:.1f} mm, but must be longer than nothing.", _REMEDY[name]
        )
        for name, mm in lengths
        if not 0.0 < mm < math.inf
    ]
    if band.deepest_mm is not None and not band.depth_mm < band.deepest_mm < math.inf:
        what = f"comes to {band.deepest_mm:.1f} mm, and the depth at the ends is {band.depth_mm:.1f} mm."
        problems.append(Problem("block-length", "block › deepest", what, "Give it more, or leave it out."))
    if problems:
        raise GeometryError(problems)
    inner, outer = band.drawn_ratio * band.inner_mm, band.drawn_ratio * band.outer_mm
    block = fan(outer, inner, band.depth_mm) if band.hangs else fan(inner, outer, band.depth_mm)
    turned = block.turn_rad * band.center_back
    waist, bust = (bow.moved(turned, 0j) for bow in (block.waist, block.bust))
    return replace(block, waist=waist, bust=bust)


_REMEDY = {
    "inner": "Give it more.",
    "outer": "Give it more, or less depth.",
    "depth": "Give it more.",
}
