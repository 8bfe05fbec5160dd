"""Which seams a note may change: those of a region that reach a level, or else the nearest one that does."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fanblock.fitting.sentences import ALL, BUST, FRONT, MIDDLE, REGIONS, SIDE, TOP, WAIST
from fanblock.geometry.curve import Points
from fanblock.pattern.model import Pattern
from fanblock.terms import Height, Share

HEIGHTS = {WAIST: 0.0, MIDDLE: 0.5, BUST: 1.0}
"""The levels as shares of the way from waist to bust; the top is wherever a seam ends."""

TERMS = {
    WAIST: Height(landmark="waist"),
    MIDDLE: Height(share=Share(0.5)),
    BUST: Height(share=Share(1.0)),
    TOP: Height(landmark="top edge"),
}
"""The levels as a garment file writes them."""

NEAR = 0.05
"""A seam that ends so near a level, as a share of waist to bust, still reaches it."""


@dataclass(frozen=True, slots=True, eq=False)
class SeamCourse:
    """A seam as it runs: arounds by rising heights."""

    name: str
    around: Points
    height: Points

    def reaches(self, level: str, at: str = ALL) -> bool:
        """Tell whether the seam may take at a level.

        At the top it must end at the bust or above it, or for the side under the arm; of those all round only the ones that
        end well above it, so that the bust keeps its own girth.
        """
        if level == TOP:
            least = {SIDE: HEIGHTS[MIDDLE], ALL: HEIGHTS[BUST] + 2.0 * NEAR}.get(at, HEIGHTS[BUST])
            return bool(self.height[-1] > least - NEAR)
        return bool(self.height[0] - NEAR <= HEIGHTS[level] <= self.height[-1] + NEAR)

    def around_at(self, level: str) -> float:
        """Return where the seam passes a level, or ends nearest to it."""
        at = float(self.height[-1]) if level == TOP else HEIGHTS[level]
        return float(np.interp(at, self.height, self.around))

    @property
    def hangs(self) -> bool:
        """Tell whether the seam runs on below the waist, where it may spring."""
        return bool(self.height[0] < -NEAR)


def courses(pattern: Pattern) -> tuple[SeamCourse, ...]:
    """Return every seam cut along the block, from front to back."""
    names = dict.fromkeys(seam.line or seam.name for seam in pattern.seams)
    found = []
    for name in names:
        if name not in pattern.lines:
            continue
        around, height = pattern.block.where(pattern.lines[name].points)
        order = np.argsort(height, kind="stable")
        found.append(SeamCourse(name, around[order], height[order]))
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
