"""Laying the channels of a plan: by which lines, all of them touching, some apart, or beside an edge."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fanblock.draft.plans import BESIDE, FAN, PARALLEL, SLANT, ChannelPlan
from fanblock.draft.work import Work
from fanblock.finish.clearing import FOLDED_MM, Ground, beside_mm, beyond_height, eyelet_reach_mm, obstacles
from fanblock.finish.families import Family, along, chord_of, fan, parallel, slanting
from fanblock.finish.filling import filled, odd_ones
from fanblock.finish.layer import LEAST_MM, TOO_SHORT, WHOLE_RATIO, Laid, Layer
from fanblock.finish.spacing import spaced
from fanblock.geometry.curve import Points
from fanblock.pattern.model import CENTER, FOLD, OPEN_KINDS, SEAM, Edge


def laid(work: Work, ground: Ground, plan: ChannelPlan) -> Laid:
    """Return the channels of a plan on a panel, and what of it found no place."""
    limits = tuple(
        beyond_height(work, ground, height, key)
        for height, key in ((plan.highest, "highest"), (plan.lowest, "lowest"))
        if height is not None
    )
    layer = Layer(ground, plan, obstacles(ground, plan.clear, limits))
    if plan.way == BESIDE:
        return _beside(layer)
    families = list(_families(work, layer))
    if not plan.fully:
        return spaced(layer, families[0])
    found = [filled(layer, family) for family in families]
    return min(found, key=odd_ones)


def _families(work: Work, layer: Layer) -> Iterator[Family]:
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


def _parallel_to(work: Work, layer: Layer, name: str) -> Family:
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
    sides = [edge for edge in ground.panel.edges if edge.kind in {SEAM, CENTER, FOLD, *OPEN_KINDS}]
    found = []
    for in_front in (True, False):
        some = [edge for edge in sides if chord_of(ground, edge).in_front == in_front]
        found += [max(some, key=lambda edge: edge.curve.length_mm)] if some else []
    return found


def _beside(layer: Layer) -> Laid:
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
        if room < plan.width_mm - WHOLE_RATIO * plan.width_mm:
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
        left.append((int((~kept).sum()), TOO_SHORT))
    return Laid(layer.channels(lines.picked(kept)), tuple(left))


def _row_mm(edge: Edge, point: Points) -> float:
    """How far a point lies inside an edge, from its chord."""
    along_ = edge.curve.end - edge.curve.start
    x, y = along_ / np.hypot(*along_)
    return float((point - edge.curve.start) @ np.array([-y, x]))
