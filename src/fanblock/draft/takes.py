"""What each seam takes at each height: shares of the reductions, takes of its own, and the spring below the waist.

A take is the distance along the level between a seam's two edges. At the waist the takes of one half add up to half of
what the whole garment shall be smaller than block (reduction less ease); at the bust likewise; on a block that stands on
other girths, at those instead. In between they run smoothly with level ends; where nothing else is said above the waist, a
take runs to its share of what is taken in at the bust, 0 where nothing is, and keeps that above; a seam that ends lower
runs to 0 at its own top. Where no seam comes up to the bust, as under a deep armhole, those that end on a free edge below
it take at their tops. Below the waist a take runs down to minus the spring at the hem, eased over the first third and then
straight, so that there is no kink at the waist and no whole-length curve at the hem.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from fanblock.block.stand import Level, Stand
from fanblock.draft.darts import DartTake, booked_at, dart_takes
from fanblock.draft.model import Draft, SeamLine
from fanblock.draft.seamline import NEAR
from fanblock.geometry.curve import Points
from fanblock.geometry.splines import Function, level_ended
from fanblock.problems import GeometryError, Problem

EASED = 1.0 / 3.0
"""Share of the depth below the waist over which the spring begins."""


STEEPEST = 1.0
"""Most that half a take may change per length of height: each edge then leans 45° from the seam's own line."""

SLOPE_PLACES = 40
"""At how many heights the slope of a take is looked at."""


@dataclass(frozen=True, slots=True, eq=False)
class Take:
    """One seam's take as a function of height, in millimetres, both edges together."""

    seam: SeamLine
    above: Function
    at_waist_mm: float
    spring_mm: float
    more: Function | None = None

    def more_at(self, height: float) -> float:
        """Return what a fitting added to the take at a height, the waist or above it."""
        return 0.0 if self.more is None else float(self.more(np.array([height]))[0])

    def __call__(self, heights: Points) -> Points:
        """Return the take at every one of ``heights``."""
        heights = np.asarray(heights, dtype=np.float64)
        begins = min(self.seam.top, 0.0) if self.seam.top_on else 0.0
        depth = max(begins - self.seam.low, NEAR)
        share = np.maximum(begins - heights, 0.0) / depth
        below = self.at_waist_mm - (self.at_waist_mm + self.spring_mm) * _eased(share)
        reaches = self.seam.low < -NEAR
        upper = np.maximum(heights, 0.0)
        above = self.above(upper) if self.more is None else self.above(upper) + self.more(upper)
        return np.where((heights < 0.0) & reaches, below, above)


def _eased(share: Points) -> Points:
    """Return 0 at 0 and 1 at 1: a parabola over the first third, then straight."""
    return np.where(share < EASED, share**2 / (2.0 * EASED), share - EASED / 2.0) / (1.0 - EASED / 2.0)


def takes_of(draft: Draft) -> tuple[Take, ...]:
    """Return every seam's take, with the reductions shared out.

    GeometryError when something is to be taken in and no seam carries a share of it.
    """
    stand = draft.stand
    lower = _booked_below(draft)
    by_darts = {take.dart.name: float(take(stand.upper.height)) for take in dart_takes(draft, lower)}
    upper = _shared(draft, stand.upper, (draft.upper_reduction_mm - draft.upper_ease_mm) / 2.0, by_darts)
    takes = tuple(_take(seam, stand, lower[seam.name], upper[seam.name]) for seam in draft.seams)
    _check_slopes(draft, takes)
    return takes


def dart_takes_of(draft: Draft) -> tuple[DartTake, ...]:
    """Return every dart's take, with the lower reduction shared out among seams and darts."""
    return dart_takes(draft, _booked_below(draft))


def _booked_below(draft: Draft) -> dict[str, float]:
    """Return what every seam and every dart takes at the lower level, by name."""
    level = draft.stand.lower
    darts = {dart.name: booked_at(dart, level.height) for dart in draft.darts}
    return _shared(draft, level, (draft.lower_reduction_mm - draft.lower_ease_mm) / 2.0, darts)


def _check_slopes(draft: Draft, takes: tuple[Take, ...]) -> None:
    """Refuse takes that change so fast with height that the seam's edges would lean too far from its line."""
    problems = []
    for take in takes:
        seam = take.seam
        heights = np.linspace(min(seam.low, 0.0), max(seam.top, 0.0), SLOPE_PLACES)
        ruling = draft.block.ruling_length_mm(seam.around_at((seam.low + seam.top) / 2.0))
        slopes = np.abs(np.diff(take(heights))) / (2.0 * ruling * np.diff(heights))
        worst = int(np.argmax(slopes))
        if slopes[worst] > STEEPEST:
            what = f"near {heights[worst]:.0%} of the way from waist to bust its take changes too fast for its edges to follow."
            remedy = "Let it take or spring less, or name takes further apart in height."
            problems.append(Problem("take-steep", f"seam “{seam.name}” › take", what, remedy))
    if problems:
        raise GeometryError(problems)


def _shared(draft: Draft, level: Level, total_mm: float, darts: Mapping[str, float | None]) -> dict[str, float]:
    """Return what every seam and dart takes at a level; ``darts`` are those whose take there is known, or None."""
    height = level.height
    named = {**{seam.name: _named(seam, height) for seam in draft.seams}, **darts}
    rest = total_mm - sum(mm for mm in named.values() if mm is not None)
    open_to = {
        seam.name: seam.share if seam.share is not None else 0.0
        for seam in draft.seams
        if named[seam.name] is None and _may_take(seam, height)
    }
    open_to.update({dart.name: dart.share or 0.0 for dart in draft.darts if darts[dart.name] is None})
    if not sum(open_to.values()):
        open_to = {seam.name: seam.share or 0.0 for seam in draft.seams if _ends_short(seam, height)}
    weight = sum(open_to.values())
    if not weight and abs(total_mm) > 0.0 and abs(rest) > 0.0:
        raise GeometryError(
            [
                Problem(
                    "reduction-homeless",
                    f"{level.name} reduction",
                    f"{rest:.1f} mm a half shall be taken in or let out at the {level.name}, and no seam there has a share of it.",
                    "Give one or more seams a `share`.",
                )
            ]
        )
    shares = {name: rest * share / weight if weight else 0.0 for name, share in open_to.items()}
    return {name: mm if mm is not None else shares.get(name, 0.0) for name, mm in named.items()}


def _may_take(seam: SeamLine, height: float) -> bool:
    """Return whether a seam passes a height, or ends there on a free edge; where it ends on a seam it takes nothing."""
    at_end = (seam.top_on and abs(seam.top - height) < NEAR) or (seam.low_on and abs(seam.low - height) < NEAR)
    return seam.low - NEAR <= height <= seam.top + NEAR and not at_end


def _ends_short(seam: SeamLine, height: float) -> bool:
    """Return whether a seam ends below a height on a free edge; where no seam comes so high, it takes at its top."""
    return seam.top < height - NEAR and not seam.top_on and _named(seam, seam.top) is None


def _named(seam: SeamLine, height: float) -> float | None:
    return next((mm for at, mm in seam.takes if abs(at - height) < NEAR), None)


def _take(seam: SeamLine, stand: Stand, lower_mm: float, upper_mm: float) -> Take:
    low, cap = stand.lower.height, min(stand.upper.height, seam.top)
    knots = {low: lower_mm} if seam.low < low + NEAR else {seam.low: 0.0}
    knots.update({at: mm for at, mm in seam.takes if at >= -NEAR and abs(at - low) >= NEAR})
    if not any(abs(at - cap) < NEAR for at in knots):
        knots[cap] = upper_mm
    at = np.array(sorted(knots))
    spring = seam.spring_mm if seam.low < -NEAR else 0.0
    hem = next((-mm for height, mm in seam.takes if height < -NEAR), spring)
    above, more = level_ended(at, np.array([knots[height] for height in at])), _more(seam)
    added = 0.0 if more is None else float(more(np.zeros(1))[0])
    return Take(seam, above, float(above(np.zeros(1))[0]) + added, hem, more)


def _more(seam: SeamLine) -> Function | None:
    """Return what a fitting added to a seam's takes: smooth between its heights, nothing at waist and bust unless they are
    among them, and above the highest what it is there."""
    if not seam.more:
        return None
    knots = dict(seam.more)
    for height in (max(seam.low, 0.0), min(1.0, seam.top)):
        if not any(abs(at - height) < NEAR for at in knots):
            knots[height] = 0.0
    at = np.array(sorted(knots))
    return level_ended(at, np.array([knots[height] for height in at]))
