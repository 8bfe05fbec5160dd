"""What laying channels needs to know of a panel and a plan, and lines tried on it with how far each may run."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fanblock.draft.plans import ChannelPlan
from fanblock.finish.clearing import AT_HEM, AT_LIMIT, Ground
from fanblock.finish.families import Family, waist_on
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.strips import Free, Obstacles, free_stretches
from fanblock.pattern.bones import BONE, Channel

LEAST_MM = 40.0
"""A bone shorter than this stiffens nothing and turns in its channel (from memory)."""

TOO_SHORT = f"it would be shorter than {LEAST_MM / 10.0:.0f} cm"
"""Why a bone was left out."""

PAST_WAIST_MM = 20.0
"""A bone that ends less than this below the waist digs in there (bones go 2 to 4 cm below it, from memory)."""

WHOLE_RATIO = 0.02
"""Share of a channel by which room may fall short of one more and yet be taken for it: rounding."""


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """Channels of one plan, and what was left out: how many and why."""

    channels: tuple[Channel, ...]
    left_out: tuple[tuple[int, str], ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Lines:
    """Some lines of a family with the free stretch of each and whether it is as a bone should be."""

    low: Points
    way: Points
    free: Free
    good: NDArray[np.bool_]

    def picked(self, which: NDArray[np.bool_]) -> Lines:
        """Return some of them."""
        return Lines(self.low[which], self.way[which], self.free.picked(which), self.good[which])


@dataclass(frozen=True, slots=True, eq=False)
class Layer:
    """What laying one plan needs to know: the ground, the plan, and all that its bones must keep clear of."""

    ground: Ground
    plan: ChannelPlan
    obstacles: Obstacles

    @property
    def pitch_mm(self) -> float:
        """From channel to channel where they touch."""
        return self.plan.width_mm

    def tried(self, family: Family, places_mm: Points, more: tuple[Obstacles, ...] = ()) -> Lines:
        """Return the lines at some places of a family, with their free stretches."""
        low, way = family.lines(places_mm)
        every = Obstacles.joined([self.obstacles, *more]) if more else self.obstacles
        free = free_stretches(low, way, 0.5 * self.plan.width_mm, every)
        return Lines(low, way, free, self._good(low, way, free))

    def _good(self, low: Points, way: Points, free: Free) -> NDArray[np.bool_]:
        """Whether each runs down into the skirts or to a lower edge."""
        waist = waist_on(self.ground, low, way)
        down = np.isin(free.low_kinds, (AT_HEM, AT_LIMIT)) | (free.low_mm < waist - PAST_WAIST_MM)
        good: NDArray[np.bool_] = down & (free.length_mm >= LEAST_MM)
        return good

    def channels(self, lines: Lines) -> tuple[Channel, ...]:
        """Return channels along lines, from their upper ends down."""
        half = 0.5 * self.plan.width_mm
        top = lines.low + lines.free.high_mm[:, None] * lines.way
        foot = lines.low + lines.free.low_mm[:, None] * lines.way
        side = half * np.stack((-lines.way[:, 1], lines.way[:, 0]), axis=1)
        rings = np.stack((top + side, foot + side, foot - side, top - side, top + side), axis=1)
        clear = np.stack((lines.free.high_clear_mm, lines.free.low_clear_mm), axis=1).tolist()
        return tuple(
            Channel(
                BONE,
                self.plan.bone,
                self.plan.width_mm,
                Curve(frozen([top[at], foot[at]])),
                (Curve(frozen(rings[at])),),
                (clear[at][0], clear[at][1]),
            )
            for at in range(len(top))
        )


def only(count: int, number: int) -> NDArray[np.bool_]:
    """Return which of some lines is the one of a number."""
    one: NDArray[np.bool_] = np.arange(count) == number
    return one
