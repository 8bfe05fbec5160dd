"""Do edges run smooth from panel to panel? By the curves' tangents, at every sewn end and every centre line."""

from __future__ import annotations

import math

from fanblock.checks.finding import seam_tags, within
from fanblock.geometry.curve import Points
from fanblock.pattern.model import (
    ARMHOLE,
    CENTER,
    FOLD,
    HEM,
    NECKLINE,
    TOP,
    WAIST,
    Edge,
    Finding,
    Panel,
    Pattern,
    Seam,
)
from fanblock.tolerances import JOIN_DEG

FAMILY = "joins"
CROSSING_KINDS = frozenset({TOP, HEM, ARMHOLE, NECKLINE, WAIST})


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return for every seam end on a free edge, and every centre line, how far that edge is from running straight on."""
    tags = seam_tags(pattern)
    found = [finding for seam in pattern.seams for finding in _across(pattern, seam, tags[seam.name])]
    found += [finding for panel in pattern.panels for finding in _at_center(panel)]
    return tuple(found)


def _across(pattern: Pattern, seam: Seam, tag: str) -> list[Finding]:
    front, back = pattern.by_name[seam.front.panel], pattern.by_name[seam.back.panel]
    if front.added != back.added:  # what is set on need not run on from what it is set on
        return []
    one, other = front.edge(seam.front.edge), back.edge(seam.back.edge)
    one_up = one.curve.end_tangent, one.curve.start_tangent
    other_up = -other.curve.start_tangent, -other.curve.end_tangent
    after, before = _beside(front, one, 1), _beside(back, other, -1)
    low_before, low_after = _beside(front, one, -1), _beside(back, other, 1)
    ends = (
        ("top", after, before, (one_up[0], after.curve.start_tangent, other_up[0], before.curve.end_tangent)),
        (
            "low",
            low_after,
            low_before,
            (one_up[1], low_before.curve.end_tangent, other_up[1], low_after.curve.start_tangent),
        ),
    )
    return [
        _finding(f"join-{tag}-{end}", _bend(*tangents), f"the {crossing.name} across seam {seam.letter}")
        for end, crossing, facing, tangents in ends
        if crossing.kind in CROSSING_KINDS and facing.kind in CROSSING_KINDS
    ]


def _beside(panel: Panel, edge: Edge, step: int) -> Edge:
    number = next(number for number, each in enumerate(panel.edges) if each.name == edge.name)
    return panel.edges[(number + step) % len(panel.edges)]


def _bend(up: Points, line: Points, mate_up: Points, mate_line: Points) -> float:
    """Return in degrees how far two edges are from one straight line when the seam's two sides are laid together."""
    turn = math.degrees(_angle(up, line) - _angle(mate_up, mate_line))
    return abs((turn + 180.0) % 360.0 - 180.0)


def _angle(along: Points, line: Points) -> float:
    return math.atan2(along[0] * line[1] - along[1] * line[0], along @ line)


def _finding(code: str, bend: float, where: str) -> Finding:
    return within(code, FAMILY, bend, JOIN_DEG, "deg", f"{where} bends by {bend:.1f}°")


def _at_center(panel: Panel) -> list[Finding]:
    found = []
    for number, edge in enumerate(panel.edges):
        if edge.kind not in {CENTER, FOLD}:
            continue
        before, after = panel.edges[number - 1], panel.edges[(number + 1) % len(panel.edges)]
        for other, along, across in (
            (before, edge.curve.start_tangent, before.curve.end_tangent),
            (after, edge.curve.end_tangent, after.curve.start_tangent),
        ):
            if other.kind not in CROSSING_KINDS or other.pointed:
                continue
            off = abs(90.0 - math.degrees(math.acos(max(-1.0, min(1.0, float(along @ across))))))
            code = f"square-{edge.name}-{other.name}".replace(" ", "-")
            says = f"the {other.name} is {off:.1f}° from square to {edge.name}"
            found.append(within(code, FAMILY, off, JOIN_DEG, "deg", says))
    return found
