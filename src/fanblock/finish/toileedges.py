"""The outline that a toile's cloth is cut from: the top edge raised in front and behind, tabs whole again.

How far round the body a place lies is read on the block: panels stand in its frame, less what their seams take, so the
two sides of a seam would read it a little differently; the mean of both is used.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import CENTER, FOLD, FREE, HEM, OPEN_KINDS, SEAM, TOP, Edge, EdgeName, Panel, Pattern

MORE_MM = 60.0
"""How much more cloth there is above the top edge in front and behind: 5 to 7.5 cm (common practice, no source)."""

UNDER_ARM_MM = 10.0
"""How much above it under the arm, where more could not be worn (common practice, no source)."""

FRONT_TO, BACK_FROM = 0.25, 0.68
"""Between these shares of the half girth there is no more than under the arm (common practice, no source)."""

SLOPE = 0.08
"""The share of the half girth over which the one runs into the other, outside those two: about 4 cm."""

LONGER_MM = 30.0
"""How much longer the lower edge is cut: it is settled on the body (common practice, no source)."""

ROUNDING_DEG, CORNER_SHARE = 30.0, 0.15
"""A lower edge that turns further than this from its own middle is the rounded corner of a tab; so is as much of its length
at a free end."""

FARTHEST_MM = 60.0
"""A corner that would lie further off than this is left as it is: the two edges hardly meet."""

CARRIED_ON = frozenset({SEAM, CENTER, FOLD, *OPEN_KINDS})
"""The kinds of edges that are carried on above the top edge in their own line."""


def rise_mm(around: float) -> float:
    """Return how much cloth there is above the top edge at a share of the half girth, 0 at the centre front.

    >>> [rise_mm(around) for around in (0.0, 0.25, 0.5, 0.68, 1.0)]
    [60.0, 10.0, 10.0, 10.0, 60.0]
    """
    inward = min(max((around - FRONT_TO) / SLOPE + 1.0, 0.0), max((BACK_FROM - around) / SLOPE + 1.0, 0.0), 1.0)
    share = 0.5 - 0.5 * math.cos(math.pi * inward)
    return MORE_MM + share * (UNDER_ARM_MM - MORE_MM)


def with_raised_top(pattern: Pattern, panel: Panel) -> Panel:
    """Return the panel with every top edge raised, and the edges beside it carried on to it in their own line.

    What was a top edge is a free one then: nothing is pressed back under it.
    """
    for at, edge in enumerate(panel.edges):
        if edge.kind == TOP:
            before, after = panel.edges[at - 1], panel.edges[(at + 1) % len(panel.edges)]
            around = _around(pattern, edge, before, after)
            first, last = (float(around[end]) for end in (0, -1))
            ways = (
                _upward(pattern, before.kind, before.curve.end_tangent, first),
                _upward(pattern, after.kind, -after.curve.start_tangent, last),
            )
            panel = _moved_out(panel, at, np.array([rise_mm(float(one)) for one in around]), ways)
    return panel


def lengthened(panel: Panel) -> Panel:
    """Return the panel with its lower edge further down, the edges beside it carried on; its tabs are joined before.

    What was a lower edge is a free one then.
    """
    panel = squared(panel)
    for at, edge in enumerate(panel.edges):
        if edge.kind == HEM:
            before, after = panel.edges[at - 1], panel.edges[(at + 1) % len(panel.edges)]
            ways = before.curve.end_tangent, -after.curve.start_tangent
            panel = _moved_out(panel, at, np.full(len(edge.curve.points), LONGER_MM), ways)
    return panel


def _moved_out(panel: Panel, at: int, by_mm: Points, ways: tuple[Points, Points]) -> Panel:
    """The panel with the points of one edge moved outward, at its two ends these ways and in between what lies between."""
    edges = list(panel.edges)
    curve = edges[at].curve
    share = (curve.along / curve.length_mm)[:, None]
    turned = (1.0 - share) * ways[0] + share * ways[1]
    turned /= np.hypot(*turned.T)[:, None]
    moved = curve.points + by_mm[:, None] * turned
    before, after = (at - 1) % len(edges), (at + 1) % len(edges)
    edges[at] = replace(edges[at], kind=FREE, curve=Curve.through(moved))
    edges[before] = _ending(edges[before], moved[0])
    edges[after] = _beginning(edges[after], moved[-1])
    return replace(panel, edges=tuple(edges))


def _around(pattern: Pattern, edge: Edge, before: Edge, after: Edge) -> Points:
    """How far round the body each point of a top edge lies; at a seam, the mean of both its sides."""
    points = edge.curve.points
    around = np.asarray(pattern.block.where(points)[0], dtype=np.float64)
    share = edge.curve.along / edge.curve.length_mm
    ends = [
        0.5 * (_mates_around(pattern, beside, near) - own) if beside.mate is not None else 0.0
        for beside, near, own in ((before, points[0], around[0]), (after, points[-1], around[-1]))
    ]
    return np.asarray(around + (1.0 - share) * ends[0] + share * ends[1])


def _upward(pattern: Pattern, kind: str, along: Points, around: float) -> Points:
    """Which way the cloth goes on at an end of a top edge: in the line of what it ends on, or straight up the body."""
    return along if kind in CARRIED_ON else np.asarray(pattern.block.ruling_direction(around))


def _mates_around(pattern: Pattern, edge: Edge, near: Points) -> float:
    """How far round the body the other side of a seam has its upper end."""
    mate = edge.mate or EdgeName("", "")
    curve = pattern.by_name[mate.panel].edge(mate.edge).curve
    ends = np.vstack((curve.start, curve.end))
    around, height = pattern.block.where(ends)
    own = pattern.block.where(near[None, :])[1]
    return float(around[int(np.argmin(np.abs(height - own)))])


def _ending(edge: Edge, point: Points) -> Edge:
    """An edge carried on to a point."""
    return replace(edge, curve=Curve.through(np.vstack((edge.curve.points, point))))


def _beginning(edge: Edge, point: Points) -> Edge:
    """An edge that begins at a point before it."""
    return replace(edge, curve=Curve.through(np.vstack((point, edge.curve.points))))


def squared(panel: Panel) -> Panel:
    """Return the panel with its tabs joined into one skirt: no slits between them, no rounded corners."""
    edges = list(panel.edges)
    first = next((at for at, edge in enumerate(edges) if edge.kind == HEM and edges[at - 1].kind != HEM), None)
    if first is None:
        return panel
    edges = edges[first:] + edges[:first]
    count = next((at for at, edge in enumerate(edges) if edge.kind != HEM), len(edges))
    hems, rest = edges[:count], edges[count:]
    if not rest or any(edge.kind == HEM for edge in rest):
        return panel
    free_before, free_after = _is_free(rest[-1]), _is_free(rest[0])
    runs = [_unrounded(edge.curve, at > 0 or free_before, at < count - 1 or free_after) for at, edge in enumerate(hems)]
    hem = Curve.through(np.vstack(runs))
    if free_before:
        hem, rest[-1] = _cornered_before(rest[-1], hem)
    if free_after:
        turned, back = _cornered_before(replace(rest[0], curve=rest[0].curve.reversed()), hem.reversed())
        hem, rest[0] = turned.reversed(), replace(back, curve=back.curve.reversed())
    joined = replace(hems[0], curve=hem)
    return replace(panel, edges=(joined, *rest))


def _is_free(edge: Edge) -> bool:
    """Whether a tab's corner may be rounded beside this edge: not at a centre or a seam, across which the hem runs on."""
    return edge.kind not in (CENTER, FOLD) and edge.mate is None


def _unrounded(curve: Curve, at_start: bool, at_end: bool) -> Points:
    """A lower edge's points without the rounded corners at its free ends."""
    points = curve.points
    steps = np.diff(points, axis=0)
    middle = curve.tangent_at(0.5 * curve.length_mm)
    turns = np.degrees(np.arctan2(middle[0] * steps[:, 1] - middle[1] * steps[:, 0], steps @ middle))
    share = 0.5 * (curve.along[:-1] + curve.along[1:]) / curve.length_mm
    clear = (share >= CORNER_SHARE * at_start) & (share <= 1.0 - CORNER_SHARE * at_end)
    straight = np.flatnonzero((np.abs(turns) < ROUNDING_DEG) & clear)
    if not len(straight):
        return points
    start = int(straight[0]) if at_start else 0
    end = int(straight[-1]) + 1 if at_end else len(points) - 1
    return points[start : end + 1] if end > start else points


def _cornered_before(edge: Edge, hem: Curve) -> tuple[Curve, Edge]:
    """The hem and the edge before it, both carried on straight to where they meet."""
    corner = _meeting((edge.curve.end, edge.curve.end_tangent), (hem.start, -hem.start_tangent))
    if corner is None:
        return Curve.through(np.vstack((edge.curve.end, hem.points))), edge
    return Curve.through(np.vstack((corner, hem.points))), _ending(edge, corner)


def _meeting(first: Sequence[Points], second: Sequence[Points]) -> Points | None:
    """Where two rays, each a point and a way, meet; None where they do not, or only far off."""
    (p, along), (q, other) = first, second
    cross = along[0] * other[1] - along[1] * other[0]
    if abs(cross) < math.sin(math.radians(ROUNDING_DEG)):
        return None
    gap = q - p
    ahead = (gap[0] * other[1] - gap[1] * other[0]) / cross
    behind = (gap[0] * along[1] - gap[1] * along[0]) / cross
    if not (0.0 <= ahead <= FARTHEST_MM and 0.0 <= behind <= FARTHEST_MM):
        return None
    return np.asarray(p + ahead * along)
