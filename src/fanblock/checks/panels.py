"""Is every panel a piece that can be cut, and do they all hang together?"""

from __future__ import annotations

import numpy as np

from fanblock.checks.finding import FAILS, HOLDS, told, within
from fanblock.geometry.curve import Points
from fanblock.geometry.meet import contains
from fanblock.geometry.region import area_mm2
from fanblock.geometry.rings import holds_together, is_simple, left_out_mm2
from fanblock.pattern.joins import laced_together, one_sided_mates, separate_parts
from fanblock.pattern.model import Finding, Panel, Pattern
from fanblock.tolerances import ALLOWANCE_MM, SLIVER_MM2
from fanblock.units import proved_length

FAMILY = "panels"

NARROWEST_MM = 15.0
"""A panel narrower than two bones in their channels cannot be sewn (from memory)."""


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return whether panels are simple, wide enough and held by their cut lines, and the garment is one whole."""
    found = [finding for panel in pattern.panels for finding in _panel(panel, pattern.body.units)]
    groups = separate_parts(pattern)
    whole = "all panels hang together by their seams" + (" and laces" if laced_together(pattern) else "")
    parted = "the seams leave separate parts: " + "; ".join(", ".join(group) for group in groups)
    found.append(within("one-whole", FAMILY, len(groups), 1, "parts", whole if len(groups) == 1 else parted))
    lone = one_sided_mates(pattern)
    says = (
        "every seam names the same two edges from both sides"
        if not lone
        else "edges without their mate: " + ", ".join(lone)
    )
    found.append(within("mates-mutual", FAMILY, len(lone), 0, "edges", says))
    return tuple(found)


def _panel(panel: Panel, units: str) -> list[Finding]:
    narrowest = proved_length(NARROWEST_MM, units)
    loop, tag = panel.loop(), panel.name.replace(" ", "-")
    simple = is_simple(loop) and area_mm2(loop) > 0.0
    says = (
        f"panel {panel.number} ({panel.name}) is one plain outline"
        if simple
        else f"the outline of panel {panel.name} crosses itself"
    )
    found = [told(f"simple-{tag}", FAMILY, HOLDS if simple else FAILS, area_mm2(loop) / 100.0, "cm2", says)]
    wide = holds_together(loop, NARROWEST_MM)
    says = f"panel {panel.number} ({panel.name}) is nowhere narrower than {narrowest}"
    if not wide:
        says = f"panel {panel.number} ({panel.name}) is narrower than {narrowest} somewhere: no bone can stand there"
    state = HOLDS if wide else FAILS
    if not panel.added:  # only what is cut from the block is boned
        found.append(Finding(f"width-{tag}", FAMILY, state, _waist_mm(panel), NARROWEST_MM, "mm", says))
    if panel.cut_line is not None:
        kept = is_simple(panel.cut_line.points) and left_out_mm2(panel.cut_line.points, loop) < SLIVER_MM2
        bare = _bare_edges(panel, panel.cut_line.points)
        says = "lies outside the stitch line all round" if kept else "cuts into the stitch line"
        if kept and bare:
            says = f"leaves less than its allowance beside {', '.join(bare)}"
        state = HOLDS if kept and not bare else FAILS
        found.append(told(f"cut-line-{tag}", FAMILY, state, 0.0, "", f"the cut line of panel {panel.name} {says}"))
    return found


def _bare_edges(panel: Panel, cut_line: Points) -> list[str]:
    """Return the edges beyond whose middle there is less cloth than their allowance.

    An edge shorter than its allowance, as on the peak of a dart, is all corner: what lies beyond it is its neighbours'.
    """
    bare = []
    for edge in panel.edges:
        width, middle = panel.allowances.get(edge.name, 0.0) - ALLOWANCE_MM, edge.curve.length_mm / 2.0
        if edge.curve.length_mm < width:
            continue
        along = edge.curve.tangent_at(middle)
        outward = np.array([along[1], -along[0]])
        if width > 0.0 and not contains(cut_line, edge.curve.at(middle) + width * outward):
            bare.append(edge.name)
    return bare


def _waist_mm(panel: Panel) -> float:
    parts = [curve.length_mm for curve in panel.levels.get("waist", ())]
    return float(np.sum(parts)) if parts else float("inf")
