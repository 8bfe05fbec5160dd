"""Laying channels on a panel: which lines of a family they take, and how far each may run."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fanblock.draft.plans import BESIDE, FAN, PARALLEL, SLANT, ChannelPlan
from fanblock.draft.work import Work
from fanblock.finish.clearing import (
    AT_HEM,
    AT_LIMIT,
    AT_SLIT,
    FOLDED_MM,
    Ground,
    beside_mm,
    beyond_height,
    channel_obstacle,
    eyelet_reach_mm,
    obstacles,
)
from fanblock.finish.families import Family, along, chord_of, fan, parallel, slanting, waist_on
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.strips import Free, Obstacles, free_stretches
from fanblock.pattern.bones import BONE, Channel
from fanblock.pattern.model import CENTER, FOLD, LACING, SEAM, Edge

LEAST_MM = 40.0
"""A bone shorter than this stiffens nothing and turns in its channel (from memory)."""

PAST_WAIST_MM = 20.0
"""A bone that ends less than this below the waist digs in there (bones go 2 to 4 cm below it, from memory)."""

SEARCH_MM = 4.0
"""How far apart lines are tried when looking where on a panel bones run far enough."""

SLIDE_MM = 2.0
"""Steps in which a bone that would meet a slit is slid sideways into one tab."""

MOST_SLIDE_MM = 24.0

LONG_RATIO = 0.45
"""Where bones are set apart, those at least this share of the longest are laid, so that none ends in a corner."""

TRIED_FEW = 0.1
"""Where fewer of the lines tried than this run into the skirts, the family is taken for a diagonal one."""


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """Channels of one plan, and what was left out: how many and why."""

    channels: tuple[Channel, ...]
    left_out: tuple[tuple[int, str], ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class _Lines:
    """Some lines of a family with the free stretch of each and whether it is as a bone should be."""

    low: Points
    way: Points
    free: Free
    good: NDArray[np.bool_]

    def picked(self, which: NDArray[np.bool_]) -> _Lines:
        """Return some of them."""
        return _Lines(self.low[which], self.way[which], self.free.picked(which), self.good[which])


@dataclass(frozen=True, slots=True, eq=False)
class _Layer:
    """What laying one plan needs to know: the ground, the plan, and all that its bones must keep clear of."""

    ground: Ground
    plan: ChannelPlan
    obstacles: Obstacles

    @property
    def pitch_mm(self) -> float:
        """From channel to channel where they touch."""
        return self.plan.width_mm

    def tried(self, family: Family, places_mm: Points, more: tuple[Obstacles, ...] = ()) -> _Lines:
        """Return the lines at some places of a family, with their free stretches."""
        low, way = family.lines(places_mm)
        every = Obstacles.joined([self.obstacles, *more]) if more else self.obstacles
        free = free_stretches(low, way, 0.5 * self.plan.width_mm, every)
        return _Lines(low, way, free, self._good(low, way, free))

    def _good(self, low: Points, way: Points, free: Free) -> NDArray[np.bool_]:
        """Whether each runs down into the skirts or to a lower edge."""
        waist = waist_on(self.ground, low, way)
        down = np.isin(free.low_kinds, (AT_HEM, AT_LIMIT)) | (free.low_mm < waist - PAST_WAIST_MM)
        good: NDArray[np.bool_] = down & (free.length_mm >= LEAST_MM)
        return good

    def channels(self, lines: _Lines) -> tuple[Channel, ...]:
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


def laid(work: Work, ground: Ground, plan: ChannelPlan) -> Laid:
    """Return the channels of a plan on a panel, and what of it found no place."""
    limits = tuple(
        beyond_height(work, ground, height, key)
        for height, key in ((plan.highest, "highest"), (plan.lowest, "lowest"))
        if height is not None
    )
    layer = _Layer(ground, plan, obstacles(ground, plan.clear, limits))
    if plan.way == BESIDE:
        return _beside(layer)
    families = list(_families(work, layer))
    if not plan.fully:
        return _spaced(layer, families[0])
    found = [_filled(layer, family) for family in families]
    return min(found, key=_odd)


def _odd(laid_: Laid) -> tuple[int, float]:
    """How many of a filling's bones are odd, much shorter than the longest, and, to break ties, minus their sum."""
    lengths = [channel.line.length_mm for channel in laid_.channels]
    longest = max(lengths, default=0.0)
    return sum(length < ODD_RATIO * longest for length in lengths), -sum(lengths)


ODD_RATIO = 0.6
"""A bone shorter than this share of the longest on its panel fills a wedge rather than running through."""


def _families(work: Work, layer: _Layer) -> Iterator[Family]:
    """The families a plan may be laid by; several only where it leaves the choice."""
    ground, plan = layer.ground, layer.plan
    half = 0.5 * plan.width_mm
    if plan.way == FAN:
        first, second = (ground.panel.edge(name) for name in plan.edges)
        yield fan(ground, (first, second), plan.clear, half)
    elif plan.way == SLANT:
        way = slanting(ground, *plan.slant)
        yield parallel(ground, ground.up if way is None else way)
    elif plan.way == PARALLEL:
        yield _parallel_to(work, layer, plan.edges[0])
    else:
        sides = side_edges(ground)
        yield parallel(ground, ground.up)
        yield from (along(ground, edge, plan.clear, half) for edge in sides)
        if len(sides) == 2:
            yield fan(ground, (sides[0], sides[1]), plan.clear, half)


def _parallel_to(work: Work, layer: _Layer, name: str) -> Family:
    ground, plan = layer.ground, layer.plan
    edge = next((edge for edge in ground.panel.edges if edge.name == name), None)
    if edge is not None:
        return along(ground, edge, plan.clear, 0.5 * plan.width_mm)
    if name == "center front":
        return parallel(ground, work.block.ruling_direction(0.0))
    if name == "center back":
        return parallel(ground, work.block.ruling_direction(1.0))
    return parallel(ground, ground.up)


def side_edges(ground: Ground) -> list[Edge]:
    """Return the longest edges of a panel's front and back side: seams, centre lines or lacing edges."""
    sides = [edge for edge in ground.panel.edges if edge.kind in (SEAM, CENTER, FOLD, LACING)]
    found = []
    for in_front in (True, False):
        some = [edge for edge in sides if chord_of(ground, edge).in_front == in_front]
        found += [max(some, key=lambda edge: edge.curve.length_mm)] if some else []
    return found


def _filled(layer: _Layer, family: Family) -> Laid:
    """Fill the panel: lines that touch where they stand closest, shorter ones where the others spread."""
    pitch = layer.pitch_mm
    places = _touching(family, pitch)
    places = _within(layer.plan, family, places)
    rounds = [places[::2], places[1::2]] if family.spreads else [places]
    if family.spreads and len(places) > 1:
        step = float(places[1] - places[0])
        between = int(step * family.wide_ratio / pitch + _WHOLE) - 1
        rounds += [places[:-1] + step * (number + 1) / (between + 1) for number in range(between)]
    channels: list[Channel] = []
    for some in rounds:
        if len(some):
            more = tuple(channel_obstacle(channel) for channel in channels)
            lines = layer.tried(family, some, more)
            channels += layer.channels(lines.picked(lines.free.length_mm >= LEAST_MM))
    return Laid(tuple(channels))


_WHOLE = 0.02
"""Share of a channel by which room may fall short of one more and yet be taken for it: rounding."""


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
    count = int(family.width_mm / pitch_mm + _WHOLE) + 1
    if not family.spreads:
        rest = family.width_mm - (count - 1) * pitch_mm
        return np.asarray(0.5 * rest + pitch_mm * np.arange(count))
    step = family.width_mm / max(count - 1, 1) if count > 1 else pitch_mm
    return np.asarray(step * np.arange(-_BEYOND, count + _BEYOND))


_BEYOND = 3
"""How many more lines are tried on either side of a fan, where a bowed edge leaves cloth beside its chord."""


def _spaced(layer: _Layer, family: Family) -> Laid:
    """Lay groups of bones with bare cloth between, each bone slid so that it runs into one tab."""
    usable = _usable(layer, family)
    places, crowded = _groups(layer, usable)
    lines = layer.tried(family, places)
    channels: list[Channel] = []
    taken: list[float] = []
    left = {NO_ROOM: crowded} if crowded else {}
    for number, place in enumerate(places.tolist()):
        line = lines.picked(_only(len(places), number))
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


def _groups(layer: _Layer, usable: tuple[float, float]) -> tuple[Points, int]:
    """The places of all bones of a plan, the groups evenly spread, and how many of them have no room at all."""
    plan, pitch = layer.plan, layer.pitch_mm
    wide = usable[1] - usable[0]
    low, high = usable[0] + plan.within[0] * wide, usable[0] + plan.within[1] * wide
    group = (plan.group - 1) * pitch
    if plan.spacing_mm is not None:
        count = int(max(high - low - group, 0.0) / plan.spacing_mm + _WHOLE) + 1
        spread = (count - 1) * plan.spacing_mm
        firsts = low + 0.5 * (high - low - group - spread) + plan.spacing_mm * np.arange(count)
    elif plan.count == 1:
        firsts = np.array([low + 0.5 * (high - low - group)])
    else:
        firsts = np.linspace(low, high - group, plan.count or 1)
    places = (firsts[:, None] + pitch * np.arange(plan.group)).ravel()
    fitting = int((high - low) / pitch + _WHOLE) + 1
    if len(places) <= fitting:
        return places, 0
    return np.linspace(low, high, fitting), len(places) - fitting


NO_ROOM = "there is no room beside the others"


def _only(count: int, number: int) -> NDArray[np.bool_]:
    only: NDArray[np.bool_] = np.arange(count) == number
    return only


def _slid(
    layer: _Layer, family: Family, place: float, line: _Lines, taken: list[float], usable: tuple[float, float]
) -> tuple[float, _Lines] | str:
    """Return a bone's place and line, slid where a slit is in its way or another bone lies there; or why it has none."""
    pitch = layer.pitch_mm

    def is_free(at: float) -> bool:
        return all(abs(at - other) > pitch * (1.0 - _WHOLE) for other in taken)

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
                return float(places[number]), tried.picked(_only(len(places), number))
    if stopped:
        return "a slit is in the way"
    return NO_ROOM if line.free.length_mm[0] >= LEAST_MM else f"it would be shorter than {LEAST_MM / 10.0:.0f} cm"


def _cut_short(lines: _Lines) -> NDArray[np.bool_]:
    """Whether a slit ends each above the waist, or too little below it."""
    cut: NDArray[np.bool_] = (lines.free.low_kinds == AT_SLIT) & ~lines.good
    return cut


def _usable(layer: _Layer, family: Family) -> tuple[float, float]:
    """The range of places from which bones run well into the skirts; for diagonals, where they are long enough."""
    count = max(int(family.width_mm / SEARCH_MM), 2)
    places = np.linspace(0.0, family.width_mm, count + 1)
    lines = layer.tried(family, places)
    longest = float(lines.free.length_mm.max(initial=0.0))
    long = lines.free.length_mm >= max(LEAST_MM, LONG_RATIO * longest)
    usable = lines.good & long
    if usable.mean() < TRIED_FEW:
        usable = long
    if not usable.any():
        return 0.0, family.width_mm
    return float(places[usable][0]), float(places[usable][-1])


def _beside(layer: _Layer) -> Laid:
    """A bone along an edge; where it has eyelets, one on each side of their row."""
    ground, plan = layer.ground, layer.plan
    edge = ground.panel.edge(plan.edges[0])
    half = 0.5 * plan.width_mm
    rows = [eyelet for eyelet in ground.panel.eyelets if eyelet.edge == edge.name]
    near = beside_mm(ground.panel, edge, plan.clear)
    offsets, left = [near + half], []
    if rows:
        from_edge, reach = _row_mm(edge, rows[0].point), eyelet_reach_mm(rows[0].hole_mm)
        room = from_edge - reach - FOLDED_MM
        offsets = [FOLDED_MM + 0.5 * room, from_edge + reach + half]
        if room < plan.width_mm - _WHOLE * plan.width_mm:
            offsets = offsets[1:]
            need = plan.width_mm + reach + FOLDED_MM
            left.append((1, f"between eyelets and edge there is no room: they want to be {need:.0f} mm from it"))
    chord = chord_of(ground, edge)
    family = along(ground, edge, plan.clear, half)
    begin = 0.0 if family.begin_mm is None else family.begin_mm
    away = 1.0 if chord.in_front else -1.0
    places = begin + away * (np.array(offsets) - near - half)
    lines = layer.tried(family, places)
    kept = lines.free.length_mm >= LEAST_MM
    if not kept.all():
        left.append((int((~kept).sum()), f"it would be shorter than {LEAST_MM / 10.0:.0f} cm"))
    return Laid(layer.channels(lines.picked(kept)), tuple(left))


def _row_mm(edge: Edge, point: Points) -> float:
    """How far a point lies inside an edge, from its chord."""
    along_ = edge.curve.end - edge.curve.start
    x, y = along_ / np.hypot(*along_)
    return float((point - edge.curve.start) @ np.array([-y, x]))
