"""Can the bones be put in and the lace drawn through? Channels are measured anew on the finished pieces."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from fanblock.checks.finding import FAILS, HOLDS, WARNS, told, within
from fanblock.finish.binding import Tight, tightest
from fanblock.finish.bonelist import is_level
from fanblock.geometry.curve import Points
from fanblock.geometry.meet import all_inside, first_hits
from fanblock.pattern.bones import BONE, SPIRAL, Channel, Lacing
from fanblock.pattern.model import ARMHOLE, HEM, NECKLINE, TOP, Finding, Panel, Pattern
from fanblock.tolerances import BONE_ENDS_MM, CHORD_MM
from fanblock.units import format_length

FAMILY = "channels"

LEAST_MM = 40.0
"""A bone shorter than this stiffens nothing and turns in its channel (from memory)."""

SLIT_CLEAR_MM, EYELET_CLEAR_MM = 3.0, 1.0
"""Least cloth between a channel and a slit, whose sides are bound, and between a channel and the edge of an eyelet (from
memory)."""


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return whether channels are straight, inside, clear and long enough, rows of eyelets level, and bindings possible."""
    boned = [panel for panel in pattern.panels if panel.channels]
    found = [finding for panel in boned for finding in _panel(panel)]
    straight = [channel for panel in boned for channel in panel.channels if channel.kind == BONE]
    if straight:
        shortest = min(channel.line.length_mm for channel in straight)
        says = f"the shortest of {len(straight)} bones a half is {format_length(shortest, pattern.body.units)} long"
        state = HOLDS if shortest >= LEAST_MM - CHORD_MM else FAILS
        found.append(Finding("channels-length", FAMILY, state, shortest, LEAST_MM, "mm", says))
        bow = max(_bow(channel) for channel in straight)
        found.append(within("channels-straight", FAMILY, bow, CHORD_MM, "mm", "every channel is straight on the flat"))
    found += [_level(lacing) for lacing in pattern.lacings]
    found += _binding(pattern)
    return tuple(found)


def _panel(panel: Panel) -> list[Finding]:
    """Whether a piece's channels lie inside it, keep clear of slits and eyelets, and end where they were asked to."""
    tag, piece = panel.name.replace(" ", "-"), f"panel {panel.number} ({panel.name})"
    loop = panel.loop()
    ring = np.vstack((loop, loop[:1]))
    bones = [channel for channel in panel.channels if channel.kind == BONE]
    outside = [channel.name for channel in panel.channels if channel.kind != BONE and not _lies_on(loop, channel)]
    crossed: list[str] = []
    short = 0.0
    if bones:
        frames = _Frames.of(bones)
        crossing, short = frames.measured(ring)
        outside += _numbers(bones, crossing | ~all_inside(loop, frames.top))
        crossed = _numbers(bones, frames.met(panel))
    says = f"the channels of {piece} lie inside it, clear of slits and eyelets"
    if outside or crossed:
        parts = [f"{', '.join(outside)} outside it"] if outside else []
        parts += [f"{', '.join(crossed)} in the way of a slit or an eyelet"] if crossed else []
        says = f"of the channels of {piece} lie {' and '.join(parts)}"
    bad = len(outside) + len(crossed)
    found = [Finding(f"channels-{tag}", FAMILY, FAILS if bad else HOLDS, bad, 0.0, "channels", says)]
    if bones:
        says = f"every bone of {piece} ends as far from the edge as was asked for"
        found.append(within(f"bone-ends-{tag}", FAMILY, short, BONE_ENDS_MM, "mm", says))
    return found


def _numbers(bones: list[Channel], which: NDArray[np.bool_]) -> list[str]:
    return [str(channel.number) for channel, is_one in zip(bones, which.tolist(), strict=True) if is_one]


def _bow(channel: Channel) -> float:
    """How far a channel's middle and its rows stand off straight lines."""
    points, (a, b) = channel.line.points, channel.line.points[[0, -1]]
    x, y = (b - a) / np.hypot(*(b - a))
    rows = channel.rows[0].points - a
    off = rows[:, 0] * -y + rows[:, 1] * x
    return max(
        float(np.abs((points - a) @ np.array([-y, x])).max()),
        float(np.abs(np.abs(off) - 0.5 * channel.width_mm).max()),
    )


def _lies_on(loop: Points, channel: Channel) -> bool:
    """Whether the rows of a busk or a curved bone lie on the piece; their ends may stand on its outline."""
    return all(bool(all_inside(loop, row.points[1:-1]).all()) for row in channel.rows)


@dataclass(frozen=True, slots=True, eq=False)
class _Frames:
    """The straight channels of a piece, one in a row: their upper ends, downward ways, lengths and half widths."""

    top: Points
    way: Points
    length: Points
    half: Points
    asked: Points

    @staticmethod
    def of(bones: list[Channel]) -> _Frames:
        """Return the frames of some channels."""
        top = np.array([channel.line.start for channel in bones])
        step = np.array([channel.line.end for channel in bones]) - top
        length = np.hypot(step[:, 0], step[:, 1])
        half = np.array([0.5 * channel.width_mm for channel in bones])
        return _Frames(top, step / length[:, None], length, half, np.array([channel.clear_mm for channel in bones]))

    @property
    def side(self) -> Points:
        """From the middle of each to one of its rows."""
        return np.asarray(self.half[:, None] * np.stack((-self.way[:, 1], self.way[:, 0]), axis=1))

    def met(self, panel: Panel) -> NDArray[np.bool_]:
        """Whether a slit or an eyelet comes too near to each."""
        found = np.zeros(len(self.top), dtype=np.bool_)
        for slit in panel.slits:
            cut = np.linspace(slit.start, slit.end, _SLIT_POINTS)
            found |= (self._off(cut) < SLIT_CLEAR_MM).any(axis=1)
        for eyelet in panel.eyelets:
            found |= self._off(np.asarray(eyelet.point)[None])[:, 0] < 0.5 * eyelet.hole_mm + EYELET_CLEAR_MM
        return found

    def _off(self, points: Points) -> Points:
        """How far each of some points is from each channel, 0 within it."""
        dx, dy = points[:, 0] - self.top[:, :1], points[:, 1] - self.top[:, 1:]
        along = dx * self.way[:, :1] + dy * self.way[:, 1:]
        across = np.abs(dx * self.way[:, 1:] - dy * self.way[:, :1])
        beyond = np.maximum(np.maximum(-along, along - self.length[:, None]), 0.0)
        return np.hypot(beyond, np.maximum(across - self.half[:, None], 0.0))

    def measured(self, ring: Points) -> tuple[NDArray[np.bool_], float]:
        """Return which rows cross the outline, and how much less than was asked for any bone keeps from it beyond its ends.

        That is measured along the bone, at both its sides and its middle.
        """
        down = self.length[:, None] * self.way
        low = self.top + down
        starts, steps = [], []
        for at in (-1.0, 0.0, 1.0):
            shift = at * self.side
            starts += [self.top + shift, self.top + shift, low + shift]
            steps += [down, -self.asked[:, :1] * self.way, self.asked[:, 1:] * self.way]
        hits = first_hits(np.vstack(starts), np.vstack(steps), ring).reshape(3, 3, len(self.top))
        missing = np.maximum(1.0 - hits[:, 1:], 0.0) * self.asked.T
        return np.asarray(np.isfinite(hits[:, 0]).any(axis=0)), float(missing.max(initial=0.0))


_SLIT_POINTS = 40
"""By how many points a slit is looked at."""


def _level(lacing: Lacing) -> Finding:
    counts = f"{len(lacing.left_mm)} eyelets on either side"
    how = "staggered for a spiral" if lacing.way == SPIRAL else "crossed"
    says = f"{counts} of the {lacing.edge}, {how}, begin and end level"
    apart = max(abs(lacing.left_mm[end] - lacing.right_mm[end]) for end in (0, -1))
    tag = lacing.edge.replace(" ", "-")
    return told(f"eyelets-level-{tag}", FAMILY, HOLDS if is_level(lacing) else FAILS, apart, "mm", says)


def _binding(pattern: Pattern) -> list[Finding]:
    """Whether the bound edges curve so gently that a binding lies flat on them."""
    if pattern.binding is None:
        return []
    every = tightest(pattern)
    tight = sorted((one for one in every if one.is_too_tight), key=lambda one: one.radius_mm)
    least = min((one.radius_mm for one in every), default=float("inf"))
    if not tight:
        return [told("binding-curves", FAMILY, HOLDS, least, "mm", "no bound edge curves too tightly to be bound")]
    units = pattern.body.units
    places = "; ".join(
        f"{where(pattern.by_name[one.panel], one)} (turns {'in' if one.inward else 'out'}ward on {format_length(one.radius_mm, units)})"
        for one in tight[:_MOST_TOLD]
    )
    more = f"; and {len(tight) - _MOST_TOLD} more" if len(tight) > _MOST_TOLD else ""
    ways = ("Outward: ease the binding round it. " * any(not one.inward for one in tight)) + (
        "Inward: clip the edge a little way in, so that it opens. " * any(one.inward for one in tight)
    )
    says = f"curves too tight to be bound neatly: {places}{more}. {ways}Or draw them rounder"
    return [Finding("binding-curves", FAMILY, WARNS, least, tight[0].least_mm, "mm", says)]


def where(panel: Panel, tight: Tight) -> str:
    """Return where a tight curve is in words that can be found on paper: the piece's number, the edge, toward which side.

    The lower edges of a piece that is cut into tabs are told by the tab, counted from its front side.
    """
    edge = panel.edge(tight.edge)
    at_mm = tight.along_ratio * edge.curve.length_mm
    x = float(np.interp(at_mm, edge.curve.along, edge.curve.points[:, 0]))
    way = -1.0 if edge.mirrored else 1.0
    ends = sorted(way * float(end[0]) for end in (edge.curve.start, edge.curve.end))
    share = (way * x - ends[0]) / max(ends[1] - ends[0], CHORD_MM)
    label = f"piece {panel.label} ({panel.name}), "
    alike = sorted(
        (one for one in panel.edges if one.kind == edge.kind),
        key=lambda one: way * float(one.curve.points[:, 0].mean()),
    )
    name = _EDGES.get(edge.kind, edge.name)
    if edge.kind == HEM and len(alike) > 1:
        name = f"{name} of its {_ORDINALS.get(alike.index(edge), f'{alike.index(edge) + 1}th')} tab"
    if share < _NEAR_END:
        return f"{label}the front corner of the {name}"
    if share > 1.0 - _NEAR_END:
        return f"{label}the back corner of the {name}"
    return f"{label}the middle of the {name}"


_EDGES = MappingProxyType({TOP: "top edge", NECKLINE: "neckline", ARMHOLE: "armhole", HEM: "lower edge"})
_ORDINALS = MappingProxyType({0: "first", 1: "second", 2: "third"})

_NEAR_END = 0.35
"""Nearer to an end than this share of an edge is its corner."""

_MOST_TOLD = 4
"""Most places that one sentence names."""
