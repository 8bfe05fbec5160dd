"""Do sewn edges match? Above and below the waist apart, and how far truing had to move their ends."""

from __future__ import annotations

import math

from fanblock.checks.finding import FAILS, HOLDS, WARNS, seam_tags, within
from fanblock.geometry.curve import Curve
from fanblock.pattern.model import Edge, EndShift, Finding, Panel, Pattern, Seam
from fanblock.tolerances import MATES_MM, SHIFT_FAIL_RATIO, SHIFT_WARN_MM
from fanblock.units import proved_length

FAMILY = "seams"


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return for every seam whether its mates agree, and how far truing moved its ends."""
    found, tags, units = [], seam_tags(pattern), pattern.body.units
    for seam in pattern.seams:
        tag = tags[seam.name]
        front = pattern.by_name[seam.front.panel].edge(seam.front.edge)
        back = pattern.by_name[seam.back.panel].edge(seam.back.edge)
        found.append(_mates(seam, tag, front, back, units))
        for shift, where in ((seam.above, "above"), (seam.below, "below")):
            if shift is not None:
                found.append(_moved(seam, tag, shift, where, units))
    found += [finding for panel in pattern.panels for finding in _darts(panel, units)]
    return tuple(found)


def _darts(panel: Panel, units: str) -> list[Finding]:
    """Return for every dart on a panel whether its two legs are of one length and close without a pucker."""
    legs: dict[str, list[Curve]] = {}
    for mark in panel.marks:
        if mark.kind == "dart":
            legs.setdefault(mark.name, []).append(mark.curve)
    found = []
    for name, pair in sorted(legs.items()):
        if len(pair) != 2:
            continue
        one, other = pair
        tag = f"{panel.name} {name}".replace(" ", "-")
        apart = abs(one.length_mm - other.length_mm)
        says = f"dart “{name}” of piece {panel.number} ({panel.name}): both legs {proved_length(one.length_mm, units)} long"
        found.append(within(f"dart-{tag}", FAMILY, apart, MATES_MM, "mm", says))
        turn = math.degrees(math.acos(max(-1.0, min(1.0, float(one.end_tangent @ other.end_tangent)))))
        says = f"dart “{name}” of piece {panel.number} ({panel.name}): its legs meet at {turn:.1f}° at its point"
        found.append(within(f"dart-point-{tag}", FAMILY, turn, POINT_DEG, "deg", says, otherwise=WARNS))
    return found


POINT_DEG = 12.0
"""Legs that meet at more than this at a dart's point make a pucker there (from memory)."""


def above_and_below(edge: Edge, *, rising: bool) -> tuple[float, float]:
    """Return the lengths of a seam edge above and below the waist; one without a waist is all above."""
    length = edge.curve.length_mm
    if edge.waist_at_mm is None:
        return length, 0.0
    return (length - edge.waist_at_mm, edge.waist_at_mm) if rising else (edge.waist_at_mm, length - edge.waist_at_mm)


def _mates(seam: Seam, tag: str, front: Edge, back: Edge, units: str) -> Finding:
    ups = above_and_below(front, rising=True)
    downs = above_and_below(back, rising=False)
    apart = max(abs(ups[0] - downs[0] - seam.fullness_mm), abs(ups[1] - downs[1]))
    above, under = proved_length(ups[0], units), proved_length(ups[1], units)
    if seam.fullness_mm:
        full, onto = proved_length(seam.fullness_mm, units), proved_length(downs[0], units)
        says = f"seam {seam.letter} ({seam.name}): {above}, of which {full} are {seam.how}, on {onto}"
        return within(f"mates-{tag}", FAMILY, apart, MATES_MM, "mm", says)
    below = f" and {under} below it" if ups[1] > MATES_MM else ""
    where = "long" if front.waist_at_mm is None else "above the waist"
    length = f"{above} {where}{below}" if ups[0] > MATES_MM else f"{under} below the waist"
    says = f"seam {seam.letter} ({seam.name}): both sides {length}"
    return within(f"mates-{tag}", FAMILY, apart, MATES_MM, "mm", says)


def _moved(seam: Seam, tag: str, shift: EndShift, where: str, units: str) -> Finding:
    ratio = shift.shift_mm / shift.edge_mm
    says = f"seam {seam.letter}: truing moved its ends {where} the waist by {proved_length(shift.shift_mm, units)}"
    if shift.shift_mm > SHIFT_WARN_MM:
        says += f" (lean {shift.lean_deg:.0f}°, take {proved_length(shift.take_mm, units)}; lean less or take less)"
    state = FAILS if ratio > SHIFT_FAIL_RATIO and shift.shift_mm > MATES_MM else WARNS
    finding = within(f"shift-{tag}-{where}", FAMILY, shift.shift_mm, SHIFT_WARN_MM, "mm", says, otherwise=state)
    return (
        finding
        if finding.state != HOLDS or ratio <= SHIFT_FAIL_RATIO or shift.shift_mm <= MATES_MM
        else within(finding.code, FAMILY, ratio, SHIFT_FAIL_RATIO, "ratio", says)
    )
