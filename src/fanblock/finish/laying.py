"""Laying the channels of a plan: by which lines, all of them touching, some apart, or beside an edge."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from fanblock.draft.plans import BESIDE, FAN, PARALLEL, SLANT, ChannelPlan
from fanblock.draft.work import Work
from fanblock.finish.clearing import FOLDED_MM, Ground, beside_mm, beyond_height, eyelet_reach_mm, obstacles
from fanblock.finish.families import Family, along, chord_of, fan, parallel, slanting
from fanblock.finish.filling import filled, odd_ones
from fanblock.finish.layer import LEAST_MM, TOO_SHORT, Laid, Layer
from fanblock.finish.spacing import spaced
from fanblock.geometry.meet import foot
from fanblock.pattern.model import CENTER, FOLD, OPEN_KINDS, SEAM, Edge
from fanblock.tolerances import TOUCH_MM


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
    rows = [eyelet for eyelet in ground.panel.eyelets if eyelet.edge == edge.name]
    near = beside_mm(ground.panel, edge, plan.clear)
    if not rows:
        return _along(layer, edge, near + 0.5 * plan.width_mm)
    from_edge, reach = foot(edge.curve.points, rows[0].point)[0], eyelet_reach_mm(rows[0].hole_mm)
    inner = _along(layer, edge, from_edge + reach + 0.5 * plan.width_mm)
    room = from_edge - reach - FOLDED_MM
    if room < plan.least_width_mm - TOUCH_MM:
        need = math.ceil(plan.least_width_mm + reach + FOLDED_MM)
        why = f"between eyelets and edge there is no room: they want to be {need} mm from it"
        return Laid(inner.channels, (*inner.left_out, (1, why)))
    narrow = replace(plan, play_mm=min(plan.play_mm, room - plan.bone.width_mm))
    outer = _along(replace(layer, plan=narrow), edge, FOLDED_MM + 0.5 * room)
    return Laid((*outer.channels, *inner.channels), (*outer.left_out, *inner.left_out))


def _along(layer: Layer, edge: Edge, off_mm: float) -> Laid:
    """One bone parallel to an edge, its middle so far inside it."""
    ground, plan = layer.ground, layer.plan
    family = along(ground, edge, plan.clear, 0.5 * plan.width_mm)
    near = beside_mm(ground.panel, edge, plan.clear) + 0.5 * plan.width_mm
    away = 1.0 if chord_of(ground, edge).in_front else -1.0
    begin = 0.0 if family.begin_mm is None else family.begin_mm
    lines = layer.tried(family, np.array([begin + away * (off_mm - near)]))
    if lines.free.length_mm[0] < LEAST_MM:
        return Laid((), ((1, TOO_SHORT),))
    return Laid(layer.channels(lines))
