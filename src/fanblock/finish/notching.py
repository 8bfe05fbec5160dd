"""Notches: a bar at the waist of every seam that reaches it, and once above it as many ticks as the seam's number.

A seam that hangs from the waist has its ticks below it; one that runs level has no bar, and its ticks are counted off from
its front end.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fanblock.draft.work import SeamRecord, Work
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.meet import foot
from fanblock.pattern.model import DARTED, Edge, Mark, Notch, Panel
from fanblock.tolerances import GIRTH_MM, SAME_POINT_MM


def with_notches(work: Work) -> Work:
    """Return the panels with the notches of all their seams.

    Both mates carry their ticks at one distance from the waist bar, or from the foot of a seam that has no waist, or the
    front end of one that runs level, so a panel sewn upside down or to the wrong neighbour shows at once. Where one edge is
    longer all along, being gathered, eased or tucked, they stand at the same share of both, and never in a tuck.
    """
    by_edge = {place: seam for seam in work.seams for place in (seam.front, seam.back)}
    shares = {seam.front: _share(work, seam) for seam in work.seams}
    panels = tuple(
        replace(
            panel,
            notches=tuple(
                notch
                for edge in panel.edges
                if (panel.name, edge.name) in by_edge
                for notch in _on_edge(
                    edge, by_edge[panel.name, edge.name], panel, work, shares[by_edge[panel.name, edge.name].front]
                )
            ),
        )
        for panel in work.panels
    )
    return replace(work, panels=panels)


def _share(work: Work, seam: SeamRecord) -> float:
    """Return at which share of a seam its ticks stand: of a tucked one midway between two tucks, so that they meet when laid.

    Tucks of one size, evenly along an edge, leave the places between them at the same share of the edge and of its mate. In
    the middle of a seam ticks stand only where it has two tucks.
    """
    panel = next(one for one in work.panels if one.name == seam.front[0])
    curve = panel.edge(seam.front[1]).curve
    tucks = [mark for mark in panel.marks if mark.kind == "tuck" and _begins_on(mark, curve)]
    if not seam.fullness_mm or len(tucks) < 2:
        return work.notch_at
    shares = [number / len(tucks) for number in range(1, len(tucks))]
    apart = [share for share in shares if 2.0 * share != 1.0] or shares
    return min(apart, key=lambda share: (abs(share - work.notch_at), share))


def _begins_on(mark: Mark, curve: Curve) -> bool:
    """Whether both lines of a tuck begin on an edge."""
    return all(foot(curve.points, point)[0] < GIRTH_MM for point in mark.curve.points[1:3])


def _on_edge(edge: Edge, seam: SeamRecord, panel: Panel, work: Work, share: float) -> tuple[Notch, ...]:
    rising = (panel.name, edge.name) == seam.front
    held = edge.waist_at_mm
    if held is None:
        held = 0.0 if rising else edge.curve.length_mm
    above = edge.curve.length_mm - held if rising else held
    notches = [] if edge.waist_at_mm is None else [_notch(edge, edge.waist_at_mm, 1, "waist", work.tick_mm)]
    above -= seam.fullness_mm if rising and seam.how == DARTED else 0.0  # what darts take lies beyond the ticks
    away = above if above > SAME_POINT_MM else above - edge.curve.length_mm
    at = held + share * (away if rising else -away)
    notches.append(_notch(edge, at, seam.ticks or seam.number, "seam", work.tick_mm))
    return tuple(notches)


def _notch(edge: Edge, at_mm: float, count: int, kind: str, tick_mm: float) -> Notch:
    inward = _inward(edge.curve.tangent_at(at_mm))
    return Notch(edge.name, at_mm, count, kind, frozen(edge.curve.at(at_mm)), inward, tick_mm)


def _inward(tangent: Points) -> Points:
    """Return the direction into a counter-clockwise panel from an edge of this tangent: its left."""
    return frozen(np.array([-tangent[1], tangent[0]]))
