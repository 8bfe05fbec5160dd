"""A piece that is all of its thing, such as a stomacher: its left side from the left half, its right side from the right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.meet import crossings, part
from fanblock.geometry.region import split, united
from fanblock.pattern.model import Edge, Mark, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import SAME_POINT_MM

_FAR_MM = 5000.0
"""Far beyond any piece."""


def composed(left: Panel, right: Panel) -> Panel:
    """Return the piece whose left is the left half's and whose right is the right half's, cut at the centre front.

    Both are symmetrical there, at x nought. GeometryError where their outlines are not of the same edges.
    """
    if _alike(left, right):
        return left
    if [edge.name for edge in left.edges] != [edge.name for edge in right.edges]:
        what = f"the {left.name} has other edges on the left than on the right, and cannot be made one piece."
        remedy = "Write one measure for both halves of what it is drawn from, and fit the other side on the toile."
        raise GeometryError([Problem("halves-whole", f"piece {left.number} ({left.name})", what, remedy)])
    pairs = zip(left.edges, right.edges, strict=True)
    edges = tuple(_edge(ours, theirs) for ours, theirs in pairs)
    rings = [panel.cut_line.points if panel.cut_line is not None else panel.loop() for panel in (left, right)]
    center = np.array([[0.0, -_FAR_MM], [0.0, _FAR_MM]])
    return replace(
        left,
        edges=_closed(edges),
        slits=tuple(
            slit for panel, way in ((left, 1.0), (right, -1.0)) for slit in panel.slits if way * slit.start[0] > 0.0
        ),
        cut_line=Curve(frozen(united([split(rings[1], [center])[0], split(rings[0], [center])[-1]]))),
        marks=tuple(_mark(ours, theirs) for ours, theirs in zip(left.marks, right.marks, strict=True)),
        channels=tuple(
            channel
            for panel, way in ((left, 1.0), (right, -1.0))
            for channel in panel.channels
            if way * float(channel.line.points[:, 0].mean()) > 0.0
        ),
    )


def _alike(left: Panel, right: Panel) -> bool:
    ours, theirs = left.loop(), right.loop()
    return ours.shape == theirs.shape and float(np.abs(ours - theirs).max()) <= SAME_POINT_MM


def _edge(ours: Edge, theirs: Edge) -> Edge:
    return replace(ours, curve=_curve(ours.curve, theirs.curve))


def _mark(ours: Mark, theirs: Mark) -> Mark:
    return replace(ours, curve=_curve(ours.curve, theirs.curve))


def _curve(ours: Curve, theirs: Curve) -> Curve:
    """A line that is ours left of the wearer's middle, at positive x, and theirs right of it."""
    middle = float(ours.points[:, 0].mean())
    at = [crossings(curve.points, 0, 0.0) for curve in (ours, theirs)]
    if not (len(at[0]) and len(at[1])) or _one_sided(ours.points):
        return ours if middle > 0.0 else theirs
    mine, other = (_halves(curve.points, float(place[0])) for curve, place in zip((ours, theirs), at, strict=True))
    runs = (other[0], mine[1]) if ours.start[0] < 0.0 else (mine[0], other[1])
    return Curve.through(np.vstack(runs))


def _one_sided(points: Points) -> bool:
    return bool((points[:, 0] >= -SAME_POINT_MM).all() or (points[:, 0] <= SAME_POINT_MM).all())


def _halves(points: Points, at: float) -> tuple[Points, Points]:
    return part(points, 0.0, at), part(points, at, float(len(points) - 1))


def _closed(edges: Sequence[Edge]) -> tuple[Edge, ...]:
    """The edges with each beginning where the one before it ends."""
    found = []
    for number, edge in enumerate(edges):
        points = np.array(edge.curve.points)
        points[0] = edges[number - 1].curve.end
        found.append(replace(edge, curve=Curve.through(points)))
    return tuple(found)
