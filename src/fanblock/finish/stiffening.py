"""What stiffens the front besides straight bones: the busk in its pocket, and curved bones across the inside."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from fanblock.draft.places import place_of
from fanblock.draft.plans import BuskPlan, ShapingPlan
from fanblock.draft.work import Work
from fanblock.finish.clearing import Ground
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.meet import contains, foot, meetings, part
from fanblock.geometry.splines import free_or_clamped
from fanblock.pattern.bones import BUSK, SHAPING, Channel
from fanblock.pattern.model import CENTER, FOLD, Edge
from fanblock.problems import GeometryError, Problem

STEP_MM = 4.0
"""Distance between the points of a curved bone: its bend is slight."""

SHAPING_END_MM = 6.0
"""How far a curved bone ends from a side that it does not run across, as other bones do at a side (from memory)."""

SHORTEST_MM = 10.0
"""A panel that a curved bone crosses on less than this is not crossed by it."""

SHORTEST_BUSK_MM = 100.0
"""A busk shorter than this holds nothing straight (from memory)."""


def busked(ground: Ground, plan: BuskPlan) -> Ground:
    """Return the ground with a busk's pocket at its centre front; half of it lies in the other half.

    GeometryError when the panel has no closed centre front, or the edge is too short.
    """
    edge = center_front(ground, plan.panel)
    down = edge.curve if (edge.curve.end - edge.curve.start) @ ground.up < 0.0 else edge.curve.reversed()
    length = down.length_mm - plan.shorter_mm if plan.length_mm is None else plan.length_mm
    low = plan.from_top_mm + length
    if low > down.length_mm or length < SHORTEST_BUSK_MM:
        what = f"a busk of {length:.0f} mm does not stand on a centre front of {down.length_mm:.0f} mm."
        raise GeometryError([Problem("busk-long", "busk", what, "Give it a `length` that fits, or leave that out.")])
    line = down.between(plan.from_top_mm, low)
    play = max(plan.play_mm, plan.bone.thickness_mm)
    widths = (plan.bone.width_mm + play, (plan.low_width_mm or plan.bone.width_mm) + play)
    x, y = (line.end - line.start) / np.hypot(*(line.end - line.start))
    across = np.array([y, -x])
    if (ground.panel.loop().mean(axis=0) - line.start) @ across < 0.0:
        across = -across
    row = [line.start + 0.5 * widths[0] * across, line.end + 0.5 * widths[1] * across, line.end]
    channel = Channel(
        BUSK,
        plan.bone,
        max(widths),
        line,
        (Curve(frozen(row)),),
        (plan.from_top_mm, down.length_mm - low),
        name="busk",
        at_center=True,
    )
    return ground.with_channels((channel,))


def center_front(ground: Ground, panel: str) -> Edge:
    """Return a panel's centre front that is a seam or a fold; GeometryError without one."""
    for edge in ground.panel.edges:
        if edge.kind in (CENTER, FOLD) and edge.name == "center front":
            return edge
    what = f"“{panel}” has no centre front that is closed."
    raise GeometryError([Problem("busk-place", "busk", what, "Name the panel at the centre front.")])


def shaped(work: Work, grounds: dict[str, Ground], plan: ShapingPlan, first: int) -> dict[str, Ground]:
    """Return the grounds with curved bones across their panels; ``first`` is the number of the uppermost.

    GeometryError when a bone misses a panel that it was to cross.
    """
    grounds = dict(grounds)
    for number in range(plan.count):
        whole = _curve(work, plan, number * plan.apart_mm)
        for name in plan.panels:
            channel = _on_panel(grounds[name], plan, whole, f"shaping {first + number}")
            if channel is None:
                what = f"the curved bone does not cross “{name}” on this body."
                raise GeometryError([Problem("shaping-off", "shaping bones", what, "Move it, or leave the panel out.")])
            grounds[name] = grounds[name].with_curved(channel)
    return grounds


def _curve(work: Work, plan: ShapingPlan, lower_mm: float) -> Points:
    """The middle of a bone across the block: smooth through its places, so much lower along the rulings."""
    places = np.array([place_of(work.draft, position) for position in plan.through])
    places = places[np.argsort(places[:, 0])]
    if np.any(np.diff(places[:, 0]) <= 0.0):
        what = "two of its places stand at one around on this body."
        raise GeometryError([Problem("shaping-places", "through", what, "Move them apart.")])
    height = free_or_clamped(places[:, 0], places[:, 1], None, None)
    reach = work.block.level_part_mm(float(places[:, 1].mean()), float(places[0, 0]), float(places[-1, 0]))
    around = np.linspace(places[0, 0], places[-1, 0], max(int(reach / STEP_MM), 4))
    lower = lower_mm / work.block.ruling_length_mm(around)
    return work.block.at(around, height(around) - lower)


def _on_panel(ground: Ground, plan: ShapingPlan, whole: Points, name: str) -> Channel | None:
    """The part of a bone that lies on a panel, right across it or to where the bone ends."""
    line = _inside(ground, whole)
    if line is None:
        return None
    ends = tuple(0.0 if _joins(ground, end) else SHAPING_END_MM for end in (line.start, line.end))
    width = plan.bone.width_mm + max(plan.play_mm, plan.bone.thickness_mm)
    center = any(edge.kind in (CENTER, FOLD) and _near(edge.curve, line.start) for edge in ground.panel.edges)
    rows = [_inside(ground, side) for side in _sides(whole, 0.5 * width)]
    shortened = [row.between(ends[0], row.length_mm - ends[1]) for row in (line, *rows) if row is not None]
    if min(row.length_mm for row in shortened) < SHORTEST_MM:
        return None
    return Channel(
        SHAPING, plan.bone, width, shortened[0], tuple(shortened[1:]), (0.0, 0.0), name=name, at_center=center
    )


def _inside(ground: Ground, run: Points) -> Curve | None:
    """The longest part of a run of points that lies on a panel."""
    loop = ground.panel.loop()
    ring = np.vstack((loop, loop[:1]))
    stops = sorted({0.0, float(len(run) - 1), *(at for at, _ in meetings(run, ring))})
    runs = [part(run, low, high) for low, high in pairwise(stops) if high - low > _SPECK]
    inside = [Curve.through(one) for one in runs if contains(loop, 0.5 * (one[len(one) // 2 - 1] + one[len(one) // 2]))]
    return max(inside, key=lambda curve: curve.length_mm, default=None)


_SPECK = 0.05
"""A stretch of less than this share of a step of a curve is a touch of the outline."""

_NEAR_MM = 0.5
"""A bone that ends nearer to an edge than this ends on it."""


def _joins(ground: Ground, point: Points) -> bool:
    """Whether a bone that ends here runs on into the next piece or the other half, or ends within the piece."""
    edges = [edge for edge in ground.panel.edges if _near(edge.curve, point)]
    return not edges or any(edge.mate is not None or edge.kind in (CENTER, FOLD) for edge in edges)


def _near(curve: Curve, point: Points) -> bool:
    return foot(curve.points, point)[0] < _NEAR_MM


def _sides(run: Points, half_mm: float) -> tuple[Points, Points]:
    """The rows of stitching on both sides of a curved line."""
    steps = np.gradient(run, axis=0)
    x, y = (steps / np.hypot(steps[:, 0], steps[:, 1])[:, None]).T
    side = half_mm * np.stack((-y, x), axis=1)
    return run + side, run - side
