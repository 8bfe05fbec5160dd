"""Pieces that are set on, in the view from the side: a stomacher between the front edges, a strap over the shoulder."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.pattern.model import SHOULDER, TOP, Edge, Opening, Panel
from fanblock.sheet.drawing import Stroke
from fanblock.sheet.worn import HEIGHTS, Worn

OVER_MM, DOWN_MM = 4.0, 26.0
"""How far below the nape a strap passes over the shoulder, at the neck's side and at the arm's."""

STATIONS = 24


def behind(worn: Worn) -> Iterator[Stroke]:
    """Yield what shows between the front edges: the wearer's left half of every stomacher, above the waist."""
    for opening in worn.pattern.openings:
        panel = next((panel for panel in worn.pattern.panels if panel.name == opening.behind), None)
        if panel is not None:
            yield Stroke(polyline(_shown(worn, opening, panel), closed=True), "paper", panel.name, True)


def _shown(worn: Worn, opening: Opening, panel: Panel) -> Points:
    """Return the outline of what shows of a stomacher: its upper edge, the front edge down to the waist, the waist."""
    block = worn.pattern.block
    front = next(edge for one in worn.panels for edge in one.edges if edge.name == opening.edge)
    around, height = block.where(front.curve.points)
    order = np.argsort(height, kind="stable")
    top = next(edge for edge in panel.edges if edge.kind == TOP).curve.points
    upper_around, upper_height = block.where(top[top[:, 0] >= 0.0])
    edge_at = np.interp(upper_height, height[order], around[order])
    keep = upper_around <= edge_at
    upper = np.column_stack((upper_around[keep], upper_height[keep]))
    upper = upper[np.argsort(upper[:, 0], kind="stable")]
    down = np.linspace(float(upper[-1, 1]), 0.0, STATIONS)
    side = np.column_stack((np.interp(down, height[order], around[order]), down))
    middle = np.column_stack((np.zeros(STATIONS), np.linspace(0.0, float(upper[0, 1]), STATIONS)))
    places = np.vstack((upper, side, middle))
    length = np.interp(places[:, 1], HEIGHTS, worn.lengths)
    share = places[:, 0] * length / np.interp(places[:, 1], HEIGHTS, worn.cloth)
    return frozen(worn.seen(share, places[:, 1]))


def straps(worn: Worn) -> Iterator[Stroke]:
    """Yield every strap that joins a front to a back, as it passes over the shoulder."""
    for panel in worn.pattern.panels:
        ends = [edge for edge in panel.edges if panel.added and edge.kind == SHOULDER and edge.mate is not None]
        seats = [seat for seat in (_seat(worn, edge) for edge in ends) if seat is not None]
        if len(seats) == 2:
            yield Stroke(polyline(_over(worn, *seats), closed=True), "paper", panel.name, True)


def _seat(worn: Worn, edge: Edge) -> Points | None:
    """Return where the two ends of what a strap's end is sewn to are seen, the neck's first."""
    for index, panel in enumerate(worn.panels):
        if edge.mate is not None and panel.name == edge.mate.panel:
            curve = panel.edge(edge.mate.edge).curve
            around, _ = worn.pattern.block.where(curve.points[[0, -1]])
            seen = worn.place(index, curve.points[[0, -1]])
            to_neck = np.minimum(around, 1.0 - around)
            return seen if to_neck[0] < to_neck[1] else seen[::-1]
    return None


def _over(worn: Worn, one: Points, other: Points) -> Points:
    """Return the outline of a strap between two seats: up over the shoulder by the neck, back by the arm."""
    nape = worn.pattern.body.lengths.get("back length", 400.0)
    neck = _arched(one[0], other[0], nape - OVER_MM)
    arm = _arched(one[1], other[1], nape - DOWN_MM)
    return frozen(np.vstack((neck, arm[::-1])))


def _arched(start: Points, end: Points, top: float) -> Points:
    """Return a bow from one place to another that reaches up to a height; none where both lie higher."""
    t = np.linspace(0.0, 1.0, STATIONS)[:, None]
    straight = start + t * (end - start)
    lift = max(top - float(max(start[1], end[1])), 0.0) + 0.5 * abs(float(end[1] - start[1]))
    lean = 0.5 + 0.5 * np.sign(end[1] - start[1]) * min(abs(float(end[1] - start[1])) / 200.0, 0.6)
    weight = (t / max(lean, 0.2)) * np.exp(1.0 - t / max(lean, 0.2)) * np.minimum(1.0, (1.0 - t) / 0.15)
    return np.asarray(straight + weight * np.array([0.0, 0.5 * lift]))
