"""The ground that channels are laid on: one panel, which way is up on it, and what bones must keep clear of there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from fanblock.draft.places import height_on
from fanblock.draft.plans import Clear
from fanblock.draft.work import Work
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.region import thinned
from fanblock.geometry.strips import OUTLINE, Obstacles
from fanblock.pattern.bones import Channel, Eyelet
from fanblock.pattern.model import ARMHOLE, HEM, NECKLINE, SLIT, TOP, WAIST, Edge, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Height
from fanblock.tolerances import LAID_MM

AT_TOP, AT_HEM, AT_SIDE, AT_SLIT, AT_EYELET, AT_CHANNEL, AT_LIMIT = range(7)
"""What stops a bone: an upper edge, a lower edge, a seam or another side, a slit, an eyelet, another channel, a height that
the recipe names."""

UNDER_ARM_FROM, UNDER_ARM_TO = 0.28, 0.68
"""Where along the top edge the arm is: it falls steeply from 28 % around and is a back edge again from 68 % (from memory)."""

CENTER_MM = 3.0
"""How near to a centre seam or fold a channel may lie: beside the pressed allowance (from memory)."""

FOLDED_MM = 1.0
"""How near to a folded lacing edge: the fold is nearly the row of stitching (from memory)."""

BOUND_MM = 3.0
"""How far a channel's side keeps from a bound edge: the binding takes that much (from memory)."""

SLIT_MM, SLIT_END_MM = 5.0, 8.0
"""How far a channel's side keeps from a slit, and a bone's end from a slit's: both its sides are bound, and above it 3 to
4 mm stay whole for the stay-stitch (common practice, no source)."""

WORKED_MM = 1.5
"""Width of the stitches round a worked eyelet (from memory)."""

APART_MM = 3.0
"""How far bones that meet end to end keep apart, and bones from eyelets: room for the bars of stitching between them."""

TICK_MM = 0.5
"""How far channels keep from the ends of notch ticks."""


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """A panel that channels are laid on.

    ``up`` points up along its grain and ``back`` from its front side to its back side, square to that. ``runs`` are its
    edges by name, with as few points as they can be drawn by; ``arounds`` gives for the pieces of each upper edge where
    around the body they are, and is empty for a panel that is not cut from the block. ``taken`` are channels and eyelets
    that lie on it already.
    """

    panel: Panel
    up: Points
    back: Points
    runs: Mapping[str, Points]
    arounds: Mapping[str, Points]
    taken: tuple[Obstacles, ...] = ()

    def with_channels(self, channels: tuple[Channel, ...]) -> Ground:
        """Return the ground with more channels to keep clear of."""
        panel = replace(self.panel, channels=(*self.panel.channels, *channels))
        return replace(self, panel=panel, taken=(*self.taken, *(channel_obstacle(channel) for channel in channels)))

    def with_curved(self, channel: Channel) -> Ground:
        """Return the ground with a curved bone across the inside, which no other bone needs to keep clear of."""
        return replace(self, panel=replace(self.panel, channels=(*self.panel.channels, channel)))

    def with_eyelets(self, eyelets: tuple[Eyelet, ...]) -> Ground:
        """Return the ground with eyelets to keep clear of."""
        panel = replace(self.panel, eyelets=(*self.panel.eyelets, *eyelets))
        return replace(self, panel=panel, taken=(*self.taken, *(_hole(eyelet) for eyelet in eyelets)))


def channel_obstacle(channel: Channel) -> Obstacles:
    """Return what other bones must keep clear of where a channel lies; its side may be shared."""
    return Obstacles.along(channel.line.points, 0.5 * channel.width_mm, APART_MM, AT_CHANNEL)


def eyelet_reach_mm(hole_mm: float) -> float:
    """Return how far round the middle of an eyelet nothing else is stitched."""
    return 0.5 * hole_mm + WORKED_MM


def ground_of(work: Work, panel: Panel) -> Ground:
    """Return the ground of a panel whose grain is known."""
    if panel.grain is None:
        raise TypeError(f"panel “{panel.name}” has no grain yet")
    foot, head = panel.grain
    up = (head - foot) / np.hypot(*(head - foot))
    runs = {edge.name: thinned(edge.curve.points, LAID_MM) for edge in panel.edges}
    arounds: dict[str, Points] = {}
    if not panel.added and work.draft.band is None:
        tops = [edge.name for edge in panel.edges if edge.kind in (TOP, NECKLINE)]
        middles = [0.5 * (runs[name][:-1] + runs[name][1:]) for name in tops]
        around = work.block.where(np.vstack(middles))[0] if tops else np.empty(0)
        ends = np.cumsum([len(one) for one in middles])
        arounds = dict(zip(tops, np.split(around, ends[:-1]), strict=False))
    return Ground(panel, frozen(up), frozen([up[1], -up[0]]), runs, arounds)


def obstacles(ground: Ground, clear: Clear, limits: tuple[Points, ...] = ()) -> Obstacles:
    """Return all that bones with these clearances must keep clear of on a panel."""
    panel = ground.panel
    parts = [_edge(ground, edge, clear) for edge in panel.edges]
    parts += [Obstacles.along([slit.start, slit.end], SLIT_MM, SLIT_END_MM, AT_SLIT) for slit in panel.slits]
    parts += [Obstacles.along(limit, 0.0, 0.0, AT_LIMIT, ring=ring) for ring, limit in enumerate(limits, OUTLINE + 1)]
    return Obstacles.joined([*parts, *ground.taken])


def beside_mm(panel: Panel, edge: Edge, clear: Clear) -> float:
    """Return how far the side of a channel keeps from an edge."""
    ticks = [notch.tick_mm + TICK_MM for notch in panel.notches if notch.edge == edge.name and notch.kind == "seam"]
    match edge.kind:
        case "center" | "fold":
            return min(clear.beside_seam_mm, CENTER_MM)
        case "lacing" | "opening":
            return FOLDED_MM
        case "slit":
            return SLIT_MM
        case "top" | "neckline" | "armhole" | "hem":
            return BOUND_MM
        case _:
            return max(clear.beside_seam_mm, *ticks, 0.0)


def _edge(ground: Ground, edge: Edge, clear: Clear) -> Obstacles:
    beside = beside_mm(ground.panel, edge, clear)
    if edge.kind in (TOP, NECKLINE, ARMHOLE):
        return Obstacles.along(ground.runs[edge.name], beside, _beyond_top(ground, edge, clear), AT_TOP, ring=OUTLINE)
    if edge.kind in (HEM, WAIST):
        return Obstacles.along(ground.runs[edge.name], beside, clear.hem_mm, AT_HEM, ring=OUTLINE)
    kind = AT_SLIT if edge.kind == SLIT else AT_SIDE
    return Obstacles.along(ground.runs[edge.name], beside, clear.seam_mm, kind, ring=OUTLINE)


def _beyond_top(ground: Ground, edge: Edge, clear: Clear) -> Points | float:
    """How far bones end below each piece of an upper edge: by where it lies, in front, under the arm or behind."""
    if edge.kind == ARMHOLE:
        return clear.under_arm_mm
    around = ground.arounds.get(edge.name)
    if around is None:
        return clear.top_front_mm
    return np.where(
        around < UNDER_ARM_FROM,
        clear.top_front_mm,
        np.where(around < UNDER_ARM_TO, clear.under_arm_mm, clear.top_back_mm),
    )


def _hole(eyelet: Eyelet) -> Obstacles:
    reach = eyelet_reach_mm(eyelet.hole_mm)
    return Obstacles.along([eyelet.point, eyelet.point], reach, reach + APART_MM, AT_EYELET)


def beyond_height(work: Work, ground: Ground, height: Height, key: str) -> Points:
    """Return a closed run round all of a panel that lies above a height, or below it for the key ``lowest``.

    GeometryError for a panel that is not cut from the block.
    """
    panel = ground.panel
    if panel.added or work.draft.band is not None:
        what = f"a height means nothing on “{panel.name}”, which is not cut from the block."
        raise GeometryError([Problem("no-heights", key, what, "Leave it out.")])
    around = work.block.where(np.vstack([edge.curve.start for edge in panel.edges]))[0]
    places = np.linspace(float(around.min()) - _OVER, float(around.max()) + _OVER, _PLACES)
    heights = np.array([height_on(work.draft, height, u) for u in places.tolist()])
    line = work.block.at(places, heights)
    far = line + (_FAR_MM if key == "highest" else -_FAR_MM) * ground.up
    return np.vstack((line, far[::-1], line[:1]))


_OVER, _PLACES = 0.05, 15
"""How far a height's line is carried on beyond a panel, as a share of the half girth, and by how many places it is drawn."""

_FAR_MM = 5000.0
"""Further off than any panel reaches."""
