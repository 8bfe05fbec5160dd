"""Do skirts that are sewn all the way down go round the hip? And how long is their lower edge?"""

from __future__ import annotations

from collections.abc import Iterator

from fanblock.checks.finding import HOLDS, WARNS, told
from fanblock.pattern.model import HEM, PLEAT_HEAD, SEAM, SLIT, WAIST, Edge, Finding, Panel, Pattern
from fanblock.skirts.folded import folded
from fanblock.skirts.levels import body_at_mm, level_at, reckoned_mm
from fanblock.units import format_length
from fanblock.wearer.model import STAYS

FAMILY = "hips"

SHORTEST_MM = 60.0
"""Skirts that are shorter than this at any seam lie above the swell of the hip (from memory)."""

OPEN_MM = 5.0
"""What is open in front is told when it is more than this."""


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return how skirts cut in one with their panels stand to the hip, and how long their hem is and that of skirts of their own."""
    own = [panel for panel in pattern.panels if _is_skirt(panel)]
    found = [_hem(pattern, own, "hips-skirt")] if own else []
    cut = [panel for panel in pattern.panels if not panel.added]
    falls = [mm for panel in cut for mm in _falls(folded(panel))]
    if any(edge.kind == SLIT for panel in cut for edge in panel.edges) or any(panel.slits for panel in cut):
        return tuple(found)
    if not falls or min(falls) < SHORTEST_MM or _ends_above_waist(pattern):
        return tuple(found)
    return (_round_hip(pattern, cut, falls), _hem(pattern, cut, "hips-hem"), *found)


def _ends_above_waist(pattern: Pattern) -> bool:
    """Return whether all of the lower edge lies above the natural waist, as of a high-waisted bodice: it has no skirts."""
    return bool(pattern.block.where(pattern.lines["hem"].points)[1].min() > 0.0)


def _is_skirt(panel: Panel) -> bool:
    """Return whether a piece is a skirt of its own: sewn on by its upper edge, with a hem."""
    kinds = {edge.kind for edge in panel.edges if edge.mate is not None}
    return panel.added and WAIST in kinds and any(edge.kind == HEM for edge in panel.edges)


def _falls(panel: Panel) -> Iterator[float]:
    """Yield how far every sewn side of a panel goes down below the waist to a hem."""
    for number, edge in enumerate(panel.edges):
        before, after = panel.edges[number - 1], panel.edges[(number + 1) % len(panel.edges)]
        waist, length = edge.waist_at_mm, edge.curve.length_mm
        if edge.kind != SEAM or edge.mate is None or HEM not in (before.kind, after.kind):
            continue
        if waist is None:
            yield length
        else:
            yield waist if before.kind == HEM else length - waist


def _round_hip(pattern: Pattern, cut: list[Panel], falls: list[float]) -> Finding:
    lengths, units = pattern.body.lengths, pattern.body.units
    if "hip" not in lengths:
        says = "hip not measured: nobody knows yet whether the skirts go round it"
        return told("hips-skirts", FAMILY, WARNS, 0.0, "mm", says)
    depth = reckoned_mm(lengths, falls)
    level = level_at(pattern.block, (folded(panel) for panel in cut), depth)
    body, pleats = body_at_mm(lengths, depth), 2.0 * sum(edge.curve.length_mm for edge in _heads(cut))
    spare = level.whole_mm - body
    known = "measure" if not {"hip"} & {*pattern.body.carried, *pattern.body.predicted} else "are taken to measure"
    over = " over the petticoats" if pattern.body.over == STAYS else ""
    says = f"{format_length(depth, units)} below the waist you {known} about {format_length(body, units)}{over}: "
    if spare >= 0.0:
        says += f"the skirts go round it with {format_length(spare, units)} to spare"
        says += ", their pleats closed" if pleats else ""
    elif -spare <= pleats:
        says += (
            f"the pleats are drawn open by {format_length(-spare, units)} of the {format_length(pleats, units)} in them"
        )
    else:
        says += f"the skirts are {format_length(-spare - pleats, units)} too narrow for it; give them more flare"
    if level.open_mm > OPEN_MM:
        says += f"; {format_length(2.0 * level.open_mm, units)} of the round are left open in front"
    return told("hips-skirts", FAMILY, HOLDS if spare + pleats >= 0.0 else WARNS, spare, "mm", says)


def _heads(panels: list[Panel]) -> list[Edge]:
    return [edge for panel in panels for edge in panel.edges if edge.kind == PLEAT_HEAD]


def _hem(pattern: Pattern, panels: list[Panel], code: str) -> Finding:
    mm = 2.0 * sum(edge.curve.length_mm for panel in panels for edge in panel.edges if edge.kind == HEM)
    taken = _heads(panels) or any(mark.kind in ("crease", "gather") for panel in panels for mark in panel.marks)
    spread = ", pleats and gathers laid flat" if taken else ""
    says = f"the lower edge of the skirts is {format_length(mm, pattern.body.units)} long all round{spread}"
    return told(code, FAMILY, HOLDS, mm, "mm", says)
