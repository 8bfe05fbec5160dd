"""The numbers by which two drafts of a garment are told apart."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from fanblock.fitting.levels import heights_of, top_height
from fanblock.fitting.parts import sleeve_panels
from fanblock.fitting.sentences import BUST, TOP
from fanblock.fitting.state import told_length
from fanblock.pattern.model import ARMHOLE, HEM, NECKLINE, Pattern
from fanblock.pattern.model import TOP as TOP_KIND
from fanblock.pattern.model import WAIST as WAIST_KIND
from fanblock.sheet.tapes import tape_numbers
from fanblock.units import format_length

MOVED_MM = 1.0
"""A number that changed by less did not move: no tape shows it."""


def numbers(pattern: Pattern) -> Mapping[str, float]:
    """Return what a maker would measure on the pieces, in millimetres, by its name; a garment has no part it lacks."""
    if pattern.band is not None:
        edges = {"inner edge": pattern.band.inner_mm, "outer edge": pattern.band.outer_edge_mm}
        return {**edges, "depth": pattern.band.depth_mm}
    tapes = tape_numbers(pattern)
    upper = pattern.stand.upper.name
    found = {
        f"worn {tapes.worn}": tapes.worn_waist_mm,
        f"worn {upper}": panel_sum_mm(pattern, BUST),
        "gap": tapes.gap_mm,
        f"centre front above the {tapes.level}": tapes.front_mm,
        f"under the arm above the {tapes.level}": tapes.underarm_mm,
        f"centre back above the {tapes.level}": tapes.back_mm,
        "top edge of one half": _edges_mm(pattern, (TOP_KIND,)),
        "neckline of one half": _edges_mm(pattern, (NECKLINE,)),
        "armhole": _edges_mm(pattern, (ARMHOLE,)),
        "lower edge of one half": _edges_mm(pattern, (HEM, WAIST_KIND)),
        **_sleeve(pattern),
    }
    return {name: mm for name, mm in found.items() if mm}


def _sleeve(pattern: Pattern) -> Mapping[str, float]:
    """How long a sleeve's pieces are and how wide together, upright as they lie."""
    sizes = [np.ptp(panel.loop(), axis=0) for panel in sleeve_panels(pattern)]
    if not sizes:
        return {}
    return {
        "sleeve, length over all": max(float(tall) for _, tall in sizes),
        "sleeve, width over all": sum(float(wide) for wide, _ in sizes),
    }


def moved_words(before: Pattern, after: Pattern) -> tuple[str, ...]:
    """Return every number that moved, in words: from what to what, or by how much where a tape in inches shows no more."""
    first, second, units = numbers(before), numbers(after), before.body.units
    return tuple(
        _moved(name, first[name], second[name], units)
        for name in first
        if name in second and abs(first[name] - second[name]) > MOVED_MM
    )


def _moved(name: str, before_mm: float, after_mm: float, units: str) -> str:
    before, after = format_length(before_mm, units), format_length(after_mm, units)
    if before != after:
        return f"{name} from {before} to {after}"
    return f"{name} {told_length(abs(after_mm - before_mm), units)} {'more' if after_mm > before_mm else 'less'}"


def panel_sum_mm(pattern: Pattern, level: str) -> float:
    """Return what the garment measures round at a level, gap and open parts included: the cone less its takes.

    The top is the level at which the opening, or the centre back, ends: the cone there.
    """
    if level == TOP:
        return 2.0 * float(pattern.block.level_length_mm(top_height(pattern)))
    height = heights_of(pattern)[level]
    girth = min(pattern.girths, key=lambda girth: abs(girth.height - height))
    return 2.0 * (girth.block_mm - girth.takes_mm)


def _edges_mm(pattern: Pattern, kinds: tuple[str, ...]) -> float:
    return sum(
        edge.curve.length_mm
        for panel in pattern.panels
        if not panel.added
        for edge in panel.edges
        if edge.kind in kinds
    )
