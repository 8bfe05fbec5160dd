"""Pieces and drawings turned and moved: a panel stood upright by its grain, a group of primitives shifted or scaled."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import numpy as np

from fanblock.geometry.curve import Points, frozen
from fanblock.pattern.model import Edge, Notch, Panel, Slit
from fanblock.sheet.drawing import Group, Stroke, Words


def upright(panel: Panel) -> Panel:
    """Return the panel turned so that its grain stands upright, its second end up, its lower left corner at the origin.

    A panel without a grain is only moved. Nothing is mirrored: left of the panel stays toward the centre front.
    """
    matrix = np.eye(2)
    if panel.grain is not None:
        start, end = panel.grain
        x, y = (end - start) / np.hypot(*(end - start))
        matrix = np.array([[y, -x], [x, y]])
    outline = (panel.cut_line.points if panel.cut_line is not None else panel.loop()) @ matrix.T
    return moved_panel(panel, matrix, -outline.min(axis=0))


def moved_panel(panel: Panel, matrix: Points, shift: Points) -> Panel:
    """Return the panel with every point ``p`` of it at ``matrix @ p + shift``; ``matrix`` turns only."""

    def put(point: Points) -> Points:
        return frozen(matrix @ point + shift)

    def edge_of(edge: Edge) -> Edge:
        return replace(edge, curve=edge.curve.moved(matrix, shift))

    def notch_of(notch: Notch) -> Notch:
        return replace(notch, point=put(notch.point), inward=frozen(matrix @ notch.inward))

    levels = {name: tuple(part.moved(matrix, shift) for part in parts) for name, parts in panel.levels.items()}
    return replace(
        panel,
        edges=tuple(edge_of(edge) for edge in panel.edges),
        levels=MappingProxyType(levels),
        slits=tuple(replace(slit, start=put(slit.start), end=put(slit.end)) for slit in panel.slits),
        grain=None if panel.grain is None else (put(panel.grain[0]), put(panel.grain[1])),
        notches=tuple(notch_of(notch) for notch in panel.notches),
        marks=tuple(replace(mark, curve=mark.curve.moved(matrix, shift)) for mark in panel.marks),
        channels=tuple(
            replace(
                channel,
                line=channel.line.moved(matrix, shift),
                rows=tuple(row.moved(matrix, shift) for row in channel.rows),
            )
            for channel in panel.channels
        ),
        eyelets=tuple(replace(eyelet, point=put(eyelet.point)) for eyelet in panel.eyelets),
        cut_line=None if panel.cut_line is None else panel.cut_line.moved(matrix, shift),
    )


def moved_group(group: Group, shift: tuple[float, float], scale: float = 1.0, name: str = "") -> Group:
    """Return the group with lines and text places at ``scale * p + shift``; text keeps its size."""
    by = np.asarray(shift)

    def put(item: Stroke | Words) -> Stroke | Words:
        if isinstance(item, Words):
            return replace(item, x=item.x * scale + shift[0], y=item.y * scale + shift[1])
        return Stroke(frozen(item.beziers * scale + by), item.pen, item.name, item.closed, item.cloth)

    return Group(name or group.name, tuple(put(item) for item in group.items))


def turned_group(group: Group, width_mm: float) -> Group:
    """Return the group turned a quarter counter-clockwise, then moved right by ``width_mm``, its former height."""

    def put(item: Stroke | Words) -> Stroke | Words:
        if isinstance(item, Words):
            return replace(item, x=width_mm - item.y, y=item.x, angle_deg=item.angle_deg + 90.0)
        x, y = item.beziers[..., 0], item.beziers[..., 1]
        return replace(item, beziers=frozen(np.stack((width_mm - y, x), axis=-1)))

    return Group(group.name, tuple(put(item) for item in group.items))


def slit_points(slit: Slit) -> Points:
    """Return a slit as a run of two points, from the waist down."""
    return frozen([slit.start, slit.end])
