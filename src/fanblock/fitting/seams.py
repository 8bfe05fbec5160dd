"""Which seams a note may change: those of a region that reach a level, or else the nearest one that does."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from fanblock.fitting.levels import heights_of
from fanblock.fitting.sentences import ALL, BUST, FRONT, MIDDLE, REGIONS, SIDE, TOP, WAIST
from fanblock.geometry.curve import Points
from fanblock.pattern.model import Pattern

NEAR = 0.05
"""A seam that ends so near a level, as a share of waist to bust, still reaches it."""


@dataclass(frozen=True, slots=True, eq=False)
class SeamCourse:
    """A seam as it runs: arounds by rising heights, and the ``levels`` of its garment; the top is wherever a seam ends."""

    name: str
    around: Points
    height: Points
    levels: Mapping[str, float]

    def reaches(self, level: str, at: str = ALL) -> bool:
        """Tell whether the seam may take at a level.

        At the top it must end at the bust or above it, or for the side under the arm; of those all round only the ones that
        end well above it, so that the bust keeps its own girth.
        """
        if level == TOP:
            least = {SIDE: self.levels[MIDDLE], ALL: self.levels[BUST] + 2.0 * NEAR}.get(at, self.levels[BUST])
            return bool(self.height[-1] > least - NEAR)
        return bool(self.height[0] - NEAR <= self.levels[level] <= self.height[-1] + NEAR)

    def around_at(self, level: str) -> float:
        """Return where the seam passes a level, or ends nearest to it."""
        at = float(self.height[-1]) if level == TOP else self.levels[level]
        return float(np.interp(at, self.height, self.around))

    @property
    def hangs(self) -> bool:
        """Tell whether the seam runs on below the waist, where it may spring."""
        return bool(self.height[0] < -NEAR)


def courses(pattern: Pattern) -> tuple[SeamCourse, ...]:
    """Return every seam cut along the block, from front to back."""
    levels = heights_of(pattern)
    names = dict.fromkeys(seam.line or seam.name for seam in pattern.seams)
    found = []
    for name in names:
        if name not in pattern.lines:
            continue
        around, height = pattern.block.where(pattern.lines[name].points)
        order = np.argsort(height, kind="stable")
        found.append(SeamCourse(name, around[order], height[order], levels))
    return tuple(sorted(found, key=lambda course: course.around_at(WAIST)))


def taking(seams: tuple[SeamCourse, ...], at: str, level: str) -> tuple[str, ...]:
    """Return the seams that take for a region, or for a seam's own name, at a level; none where no seam reaches it."""
    reaching = [seam for seam in seams if seam.reaches(level, at)]
    if not reaching and level == TOP:
        reaching = [seam for seam in seams if seam.reaches(level, FRONT)]
    if at not in REGIONS:
        return tuple(seam.name for seam in reaching if seam.name == at)
    low, high = REGIONS[at]
    within = [seam for seam in reaching if low <= seam.around_at(level) <= high]
    if not within and reaching:
        middle = 0.5 * (low + high)
        within = [min(reaching, key=lambda seam: abs(seam.around_at(level) - middle))]
    return tuple(seam.name for seam in within)


def springing(seams: tuple[SeamCourse, ...], region: str) -> tuple[str, ...]:
    """Return the seams of a region that run below the waist."""
    low, high = REGIONS[region]
    hanging = [seam for seam in seams if seam.hangs]
    within = [seam.name for seam in hanging if low <= seam.around_at(WAIST) <= high]
    return tuple(within) if within or region == ALL else tuple(seam.name for seam in hanging)
