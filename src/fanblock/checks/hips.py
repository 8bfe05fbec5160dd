"""Do the skirts spread over the hip? How far the tabs must open, and whether they are narrow enough to."""

from __future__ import annotations

import numpy as np

from fanblock.checks.finding import HOLDS, WARNS, told, within
from fanblock.pattern.model import HEM, SLIT, Finding, Pattern
from fanblock.units import format_length

FAMILY = "hips"

USUAL_HIP_DEPTH_MM = 200.0
"""Depth of the widest hip below the waist where it was not measured (from memory)."""

WIDEST_TAB_MM = 70.0
SPLAY_MM = 15.0
"""A tab wider than 70 mm cannot lie flat where it must stand off by more than 15 mm (from memory)."""


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return how far the tabs open over the hip, when the hip was measured and the garment has tabs."""
    lengths, units = pattern.body.lengths, pattern.body.units
    panels = [panel for panel in pattern.panels if not panel.layer and (panel.let_in or not panel.added)]
    hems = [edge for panel in panels for edge in panel.edges if edge.kind == HEM]
    openings = sum(not slit.name for panel in panels for slit in panel.slits)
    openings += sum(edge.kind == SLIT for panel in panels for edge in panel.edges) // 2
    lowest = [edge.curve.points[[0, len(edge.curve.points) // 2, -1]] for edge in hems]
    depth = float(-pattern.block.where(np.vstack(lowest))[1].min()) if hems else 0.0
    if not openings or depth <= 0.0:
        return ()
    depth_mm = depth * pattern.block.center_front_mm
    if "hip" not in lengths:
        says = "hip not measured: nobody knows yet whether the tabs can spread over it"
        return (told("hips-unknown", FAMILY, WARNS, 0.0, "mm", says),)
    slope = (lengths["hip"] - lengths["waist"]) / lengths.get("hip depth", USUAL_HIP_DEPTH_MM)
    body = lengths["waist"] + slope * depth_mm
    cloth = 2.0 * (sum(edge.curve.length_mm for edge in hems) + pattern.gap_mm / 2.0)
    each = abs(body - cloth) / (2 * openings)
    what = "spreads" if body > cloth else "laps"
    gored = any(panel.let_in and any(edge.kind == HEM for edge in panel.edges) for panel in panels)
    says = (
        f"at the tabs' ends your hip is about {format_length(body, units)}, the tabs "
        f"{'and what is let in between them ' if gored else ''}make {format_length(cloth, units)}: "
    )
    if gored and cloth >= body:
        says += f"{format_length(cloth - body, units)} more, for what is worn under them"
    else:
        says += f"each of {2 * openings} openings {what} by {format_length(each, units)}"
    found = [told("hips-open", FAMILY, HOLDS, body - cloth, "mm", says)]
    if body > cloth and each > SPLAY_MM:
        widest = max(edge.curve.length_mm for edge in hems)
        says = f"the widest tab is {format_length(widest, units)} and must stand off by {format_length(each, units)}"
        found.append(within("hips-tab", FAMILY, widest, WIDEST_TAB_MM, "mm", says, otherwise=WARNS))
    return tuple(found)
