"""The numbers by which two drafts of a garment are told apart."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from fanblock.fitting.seams import HEIGHTS
from fanblock.fitting.sentences import BUST, TOP
from fanblock.pattern.model import CENTER, FOLD, HEM, OPEN_KINDS, Pattern
from fanblock.pattern.model import TOP as TOP_KIND
from fanblock.pattern.model import WAIST as WAIST_KIND
from fanblock.sheet.tapes import tape_numbers
from fanblock.units import format_length

MOVED_MM = 0.5
"""A number that changed by less did not move: no tape shows it."""


def numbers(pattern: Pattern) -> Mapping[str, float]:
    """Return what a maker would measure on the pieces, in millimetres, by its name."""
    tapes = tape_numbers(pattern)
    found = {
        f"worn {tapes.worn}": tapes.worn_waist_mm,
        "worn bust": panel_sum_mm(pattern, BUST) if pattern.band is None else None,
        "gap": tapes.gap_mm,
        "centre front above the waist": tapes.front_mm,
        "under the arm above the waist": tapes.underarm_mm,
        "centre back above the waist": tapes.back_mm,
        "length of the top edge": _edges_mm(pattern, (TOP_KIND,)),
        "length of the lower edge": _edges_mm(pattern, (HEM, WAIST_KIND)),
    }
    return {name: mm for name, mm in found.items() if mm}


def moved_words(before: Pattern, after: Pattern) -> tuple[str, ...]:
    """Return every number that moved, in words: from what to what."""
    first, second, units = numbers(before), numbers(after), before.body.units
    return tuple(
        f"{name} from {format_length(first[name], units)} to {format_length(second[name], units)}"
        for name in first
        if name in second and abs(first[name] - second[name]) > MOVED_MM
    )


def panel_sum_mm(pattern: Pattern, level: str) -> float:
    """Return what the garment measures round at a level, gap and open parts included: the cone less its takes.

    The top is the level at which the opening, or the centre back, ends: the cone there.
    """
    if level == TOP:
        return 2.0 * float(pattern.block.level_length_mm(top_height(pattern)))
    height = HEIGHTS[level]
    girth = min(pattern.girths, key=lambda girth: abs(girth.height - height))
    return 2.0 * (girth.block_mm - girth.takes_mm)


def top_height(pattern: Pattern) -> float:
    """Return the height, as a share of waist to bust, at which the opening ends, or where there is none the centre back."""
    kinds = (OPEN_KINDS, {CENTER, FOLD})
    for wanted in kinds:
        points = [
            edge.curve.points
            for panel in pattern.panels
            for edge in panel.edges
            if edge.kind in wanted and not panel.added
        ]
        if points:
            return float(pattern.block.where(np.vstack(points))[1].max())
    return HEIGHTS[BUST]


def _edges_mm(pattern: Pattern, kinds: tuple[str, ...]) -> float:
    return sum(
        edge.curve.length_mm
        for panel in pattern.panels
        if not panel.added
        for edge in panel.edges
        if edge.kind in kinds
    )
