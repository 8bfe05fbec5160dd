"""Is the block what was measured? Measured again on the drawn curves, not read from the numbers it was made of.

Girths are compared at the heights at which they were taken: waist and bust, or what else the block stands on.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fanblock.block.lean import center_lean_deg
from fanblock.block.stand import Level
from fanblock.checks.finding import WARNS, within
from fanblock.pattern.model import Finding, Pattern
from fanblock.tolerances import BLOCK_MM, CENTER_SQUARE_DEG, TRACED_WARN_MM
from fanblock.units import format_length

FAMILY = "block"

SAME_LENGTH_MM = 0.5
"""Lengths that differ by less are told as the same: nobody reads a tape finer."""

AT_FRONT, AT_BACK = "bust to waist", "bust to waist at back"


CENTERS = (("center front", 0.0), ("center back", 1.0))


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return whether the girths it stands on and both centre lines are as measured, and stand square to the waist.

    A traced block is as it was drawn; how it differs from the measures is told, and never a failure.
    """
    block = pattern.block
    found = [_girth(pattern, level) for level in pattern.stand.levels]
    found += [_center(pattern, name, around) for name, around in CENTERS]
    for lean, name in zip(center_lean_deg(block), ("center front", "center back"), strict=True):
        says = f"{name} leans {abs(lean):.1f}° from square to the waist"
        if abs(lean) > CENTER_SQUARE_DEG:
            says += (
                f": on the toile look whether the {name.replace('center', 'centre')} hangs plumb; if it does not, pin a wedge out there, or let one in, "
                "and keep it as a tilt in the wearer's `figure`"
            )
        found.append(
            within(
                f"square-{name.replace(' ', '-')}",
                FAMILY,
                abs(lean),
                CENTER_SQUARE_DEG,
                "deg",
                says,
                otherwise="warns",
            )
        )
    return tuple(found)


def _girth(pattern: Pattern, level: Level) -> Finding:
    """A girth that the block stands on, measured along its level, against the body's; half of it for one of two halves."""
    drawn, due = 2.0 * pattern.block.level(level.height).length_mm, pattern.body.length_mm(level.name)
    told = _length(pattern, level.name, drawn, due)
    if not pattern.half or pattern.block.traced_from:
        return told
    units = pattern.body.units
    says = f"{format_length(0.5 * drawn, units)} of {level.name}, by the measures {format_length(0.5 * due, units)}"
    return replace(told, says=says)


def _center(pattern: Pattern, name: str, around: float) -> Finding:
    """A centre line, measured from the drawn points, against the wearer's length less what tilts take of it."""
    foot, head = pattern.block.at(around, 0.0), pattern.block.at(around, 1.0)
    taken = pattern.body.figure if pattern.block.traced_from else pattern.block.corrections
    due = pattern.body.bust_height_mm - sum(tilt.take_mm for tilt in taken if tilt.at == name)
    if pattern.block.traced_from and name == "center back":
        due += pattern.body.lengths.get(AT_BACK, pattern.body.length_mm(AT_FRONT)) - pattern.body.length_mm(AT_FRONT)
    return _length(pattern, name, float(np.hypot(*(head - foot))), due)


def _length(pattern: Pattern, name: str, drawn_mm: float, due_mm: float) -> Finding:
    """Whether a length of the block is the measured one, or how far a traced block is from it."""
    code, units, miss = f"block-{name.replace(' ', '-')}", pattern.body.units, drawn_mm - due_mm
    if not pattern.block.traced_from:
        says = f"{name} of the block {format_length(drawn_mm, units)}, by the measures {format_length(due_mm, units)}"
        return within(code, FAMILY, abs(miss), BLOCK_MM, "mm", says)
    more = f"{format_length(abs(miss), units)} {'more' if miss > 0.0 else 'less'} than your measures say"
    if abs(miss) < SAME_LENGTH_MM:
        more = "as your measures say"
    says = f"{name} of the traced block {format_length(drawn_mm, units)}, {more}"
    return within(code, FAMILY, abs(miss), TRACED_WARN_MM, "mm", says, otherwise=WARNS)
