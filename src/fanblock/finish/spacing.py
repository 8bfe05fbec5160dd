"""Setting bones apart: groups with bare cloth between, each bone slid so that it runs into one tab."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from fanblock.finish.clearing import AT_SLIT, channel_obstacle
from fanblock.finish.families import Family
from fanblock.finish.layer import LEAST_MM, TOO_SHORT, WHOLE_RATIO, Laid, Layer, Lines, only
from fanblock.geometry.curve import Points
from fanblock.geometry.strips import Obstacles
from fanblock.pattern.bones import Channel

SEARCH_MM = 4.0
"""How far apart lines are tried when looking where on a panel bones run far enough."""

FINE_MM = 0.5
"""Steps in which the first and the last of these places are found."""

SLIDE_MM = 2.0
"""Steps in which a bone that would meet a slit is slid sideways into one tab."""

MOST_SLIDE_MM = 24.0

LONG_RATIO = 0.45
"""Where bones are set apart, those at least this share of the longest are laid, so that none ends in a corner."""

TRIED_FEW = 0.1
"""Where fewer of the lines tried than this run into the skirts, the family is taken for a diagonal one."""

NO_ROOM, SLIT_IN_WAY = "there is no room beside the others", "a slit is in the way"
"""Why a bone was left out."""


def spaced(layer: Layer, family: Family) -> Laid:
    """Return groups of bones with bare cloth between, each slid so that it runs into one tab."""
    usable = _usable(layer, family)
    places, crowded = _groups(layer, usable)
    lines = layer.tried(family, places)
    channels: list[Channel] = []
    taken: list[float] = []
    left = {NO_ROOM: crowded} if crowded else {}
    for number, place in enumerate(places.tolist()):
        line = lines.picked(only(len(places), number))
        if family.spreads and channels:
            layer = replace(layer, obstacles=Obstacles.joined([layer.obstacles, channel_obstacle(channels[-1])]))
            line = layer.tried(family, np.array([place]))
        found = _slid(layer, family, place, line, taken, usable)
        if isinstance(found, str):
            left[found] = left.get(found, 0) + 1
            continue
        taken.append(found[0])
        channels += layer.channels(found[1])
    return Laid(tuple(channels), tuple((count, why) for why, count in sorted(left.items())))


def _groups(layer: Layer, usable: tuple[float, float]) -> tuple[Points, int]:
    """The places of all bones of a plan, the groups evenly spread, and how many of them have no room at all."""
    plan, pitch = layer.plan, layer.pitch_mm
    wide = usable[1] - usable[0]
    low, high = usable[0] + plan.within[0] * wide, usable[0] + plan.within[1] * wide
    group = (plan.group - 1) * pitch
    if plan.spacing_mm is not None:
        count = int(max(high - low - group, 0.0) / plan.spacing_mm + WHOLE_RATIO) + 1
        spread = (count - 1) * plan.spacing_mm
        firsts = low + 0.5 * (high - low - group - spread) + plan.spacing_mm * np.arange(count)
    elif plan.count == 1:
        firsts = np.array([low + 0.5 * (high - low - group)])
    else:
        firsts = np.linspace(low, high - group, plan.count or 1)
    places = (firsts[:, None] + pitch * np.arange(plan.group)).ravel()
    fitting = int((high - low) / pitch + WHOLE_RATIO) + 1
    if len(places) <= fitting:
        return places, 0
    return np.linspace(low, high, fitting), len(places) - fitting


def _slid(
    layer: Layer, family: Family, place: float, line: Lines, taken: list[float], usable: tuple[float, float]
) -> tuple[float, Lines] | str:
    """Return a bone's place and line, slid where a slit is in its way or another bone lies there; or why it has none."""
    pitch = layer.pitch_mm

    def is_free(at: float) -> bool:
        return all(abs(at - other) > pitch * (1.0 - WHOLE_RATIO) for other in taken)

    stopped = _cut_short(line)[0]
    if not stopped and is_free(place) and line.free.length_mm[0] >= LEAST_MM:
        return place, line
    reach = np.arange(SLIDE_MM, MOST_SLIDE_MM + SLIDE_MM, SLIDE_MM)
    places = place + np.stack((reach, -reach), axis=1).ravel()
    places = places[(places >= usable[0]) & (places <= usable[1])]
    if len(places):
        tried = layer.tried(family, places)
        fit = tried.good
        if not (line.good[0] or fit.any()):
            fit = (tried.free.length_mm >= LEAST_MM) & ~_cut_short(tried)
        for number in np.flatnonzero(fit).tolist():
            if is_free(float(places[number])):
                return float(places[number]), tried.picked(only(len(places), number))
    if stopped:
        return SLIT_IN_WAY
    return NO_ROOM if line.free.length_mm[0] >= LEAST_MM else TOO_SHORT


def _cut_short(lines: Lines) -> NDArray[np.bool_]:
    """Whether a slit ends each above the waist, or too little below it."""
    cut: NDArray[np.bool_] = (lines.free.low_kinds == AT_SLIT) & ~lines.good
    return cut


def _usable(layer: Layer, family: Family) -> tuple[float, float]:
    """The range of places from which bones run well into the skirts; for diagonals, where they are long enough."""
    count = max(int(family.width_mm / SEARCH_MM), 2)
    places = np.linspace(0.0, family.width_mm, count + 1)
    lines = layer.tried(family, places)
    longest = float(lines.free.length_mm.max(initial=0.0))
    long = lines.free.length_mm >= max(LEAST_MM, LONG_RATIO * longest)
    diagonal = (lines.good & long).mean() < TRIED_FEW
    usable = long if diagonal else lines.good & long
    if not usable.any():
        return 0.0, family.width_mm
    step = float(places[1])
    first, last = float(places[usable][0]), float(places[usable][-1])
    before = np.arange(first - step, first, FINE_MM)
    after = np.arange(last + step, last, -FINE_MM)
    near = layer.tried(family, np.concatenate((before, after)))
    fits = (near.good | diagonal) & (near.free.length_mm >= max(LEAST_MM, LONG_RATIO * longest))
    ends = (before[fits[: len(before)]], after[fits[len(before) :]])
    return min((*ends[0].tolist(), first)), max((*ends[1].tolist(), last))
