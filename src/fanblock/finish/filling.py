"""Filling a panel with bones that touch."""

from __future__ import annotations

import numpy as np

from fanblock.draft.plans import ChannelPlan
from fanblock.finish.clearing import channel_obstacle
from fanblock.finish.families import Family
from fanblock.finish.layer import LEAST_MM, WHOLE_RATIO, Laid, Layer
from fanblock.geometry.curve import Points
from fanblock.pattern.bones import Channel

ODD_RATIO = 0.6
"""A bone shorter than this share of the longest on its panel fills a wedge rather than running through."""

BEYOND = 3
"""How many more lines are tried on either side of a fan, where a bowed edge leaves cloth beside its chord."""


def filled(layer: Layer, family: Family) -> Laid:
    """Return a full panel: lines that touch where they stand closest, shorter ones where the others spread."""
    pitch = layer.pitch_mm
    places = _touching(family, pitch)
    places = _within(layer.plan, family, places)
    rounds = [places[::2], places[1::2]] if family.spreads else [places]
    if family.spreads and len(places) > 1:
        step = float(places[1] - places[0])
        between = int(step * family.wide_ratio / pitch + WHOLE_RATIO) - 1
        rounds += [places[:-1] + step * (number + 1) / (between + 1) for number in range(between)]
    channels: list[Channel] = []
    for some in rounds:
        if len(some):
            more = tuple(channel_obstacle(channel) for channel in channels)
            lines = layer.tried(family, some, more)
            channels += layer.channels(lines.picked(lines.free.length_mm >= LEAST_MM))
    return Laid(tuple(channels))


def odd_ones(laid: Laid) -> tuple[int, float]:
    """Return how many of a filling's bones are odd, much shorter than the longest, and, to break ties, minus their sum."""
    lengths = [channel.line.length_mm for channel in laid.channels]
    longest = max(lengths, default=0.0)
    return sum(length < ODD_RATIO * longest for length in lengths), -sum(lengths)


def _within(plan: ChannelPlan, family: Family, places: Points) -> Points:
    """Those places that lie in the part of the panel a plan is for."""
    low, high = plan.within
    first = -np.inf if low <= 0.0 else low * family.width_mm
    last = np.inf if high >= 1.0 else high * family.width_mm
    return places[(places >= first) & (places <= last)]


def _touching(family: Family, pitch_mm: float) -> Points:
    """Places for channels over all of a family and what lies beyond its two sides, in rising order."""
    if family.begin_mm is not None:
        before = int(max(family.begin_mm, 0.0) / pitch_mm)
        after = int(max(family.width_mm - family.begin_mm, 0.0) / pitch_mm)
        return np.asarray(family.begin_mm + pitch_mm * np.arange(-before, after + 1))
    count = int(family.width_mm / pitch_mm + WHOLE_RATIO) + 1
    if not family.spreads:
        rest = family.width_mm - (count - 1) * pitch_mm
        return np.asarray(0.5 * rest + pitch_mm * np.arange(count))
    step = family.width_mm / max(count - 1, 1) if count > 1 else pitch_mm
    return np.asarray(step * np.arange(-BEYOND, count + BEYOND))
