"""Do edges run smooth from panel to panel? By the curves' tangents, at every sewn end and every centre line."""

from __future__ import annotations

import math

import numpy as np

from fanblock.checks.finding import WARNS, seam_tags, within
from fanblock.geometry.curve import Points
from fanblock.pattern.model import (
    ARMHOLE,
    CENTER,
    FOLD,
    HEM,
    NECKLINE,
    TOP,
    UPPER,
    WAIST,
    Edge,
    Finding,
    Mark,
    Panel,
    Pattern,
    Seam,
)
from fanblock.pattern.waistline import level_name
from fanblock.tolerances import JOIN_DEG, MATES_MM, SHIFT_WARN_MM
from fanblock.units import proved_length

FAMILY = "joins"
CROSSING_KINDS = frozenset({TOP, HEM, ARMHOLE, NECKLINE, WAIST})


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return for every seam end on a free edge, and every centre line, how far that edge is from running straight on."""
    tags = seam_tags(pattern)
    found = [finding for seam in pattern.seams for finding in _across(pattern, seam, tags[seam.name])]
    found += [finding for panel in pattern.panels for finding in _at_center(panel)]
    found += [finding for panel in pattern.panels for finding in _at_darts(panel)]
    found += _laced(pattern)
    return tuple(found)


def _laced(pattern: Pattern) -> list[Finding]:
    """Return for every opening along a seam whether its two edges are about equally long, so that a lace closes it level."""
    found = []
    for line in dict.fromkeys(edge.opens_at for panel in pattern.panels for edge in panel.edges if edge.opens_at):
        sides = {True: 0.0, False: 0.0}
        for edge in (edge for panel in pattern.panels for edge in panel.edges if edge.opens_at == line):
            sides[float(edge.curve.end[1]) > float(edge.curve.start[1])] += edge.curve.length_mm
        front, back = (proved_length(sides[rising], pattern.body.units) for rising in (True, False))
        says = f"laced at the {line}: the front edge is {front} long, the back edge {back}"
        code, off = f"laced-{line}".replace(" ", "-"), abs(sides[True] - sides[False])
        says += "; count its eyelets from the waist" if off > SHIFT_WARN_MM else ""
        found.append(within(code, FAMILY, off, SHIFT_WARN_MM, "mm", says, otherwise=WARNS))
    return found


def _at_darts(panel: Panel) -> list[Finding]:
    """Return for every dart how far the edge it opens at is from running straight on once the dart is sewn."""
    found = []
    for number, before in enumerate(panel.edges):
        leg, at = _leg_at(panel, before.curve.end), (number + PEAK_EDGES + 1) % len(panel.edges)
        after = panel.edges[at]
        other = _leg_at(panel, after.curve.start)
        if leg is None or other is None or leg is other or leg.name != other.name:
            continue
        bend = _bend(
            -leg.curve.start_tangent, before.curve.end_tangent, -other.curve.start_tangent, after.curve.start_tangent
        )
        code = f"join-{panel.name}-{leg.name}".replace(" ", "-")
        found.append(_finding(code, bend, f"the edge across the dart “{leg.name}”"))
    return found


PEAK_EDGES = 2
"""Of how many edges the peak of a dart is made: one on either side of its fold."""


def _leg_at(panel: Panel, point: Points) -> Mark | None:
    """Return the leg of a dart that begins at a point of an edge."""
    legs = (mark for mark in panel.marks if mark.kind == "dart")
    return next((leg for leg in legs if float(np.hypot(*(leg.curve.start - point))) < MATES_MM), None)


def _across(pattern: Pattern, seam: Seam, tag: str) -> list[Finding]:
    front, back = pattern.by_name[seam.front.panel], pattern.by_name[seam.back.panel]
    if front.added != back.added and not (front.let_in or back.let_in):
        return []  # what is set on need not run on from what it is set on; what is let in must
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
        _finding(f"join-{tag}-{end}", _bend(*tangents), f"the {_name(crossing)} across seam {seam.letter}")
        for end, crossing, facing, tangents in ends
        if _runs_across(crossing) and _runs_across(facing)
    ]


def _runs_across(edge: Edge) -> bool:
    return edge.kind in CROSSING_KINDS or bool(edge.across)


def _name(edge: Edge) -> str:
    """Return what an edge is called; one of a level seam without the number of its piece."""
    return level_name(edge) if edge.across else edge.name


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
            if not _runs_across(other) or other.pointed or other.across == UPPER:  # the same line as the edge above it
                continue
            off = abs(90.0 - math.degrees(math.acos(max(-1.0, min(1.0, float(along @ across))))))
            piece = f"{panel.name}-" if panel.added else ""
            code = f"square-{piece}{edge.name}-{other.name}".replace(" ", "-")
            says = f"the {_name(other)} is {off:.1f}° from square to {edge.name}"
            found.append(within(code, FAMILY, off, JOIN_DEG, "deg", says))
    return found
