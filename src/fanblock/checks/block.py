"""Is the block what was measured? Measured again on the drawn curves, not read from the numbers it was made of.

Girths are compared at the heights at which they were taken: waist and bust, or what else the block stands on.
"""

from __future__ import annotations

import numpy as np

from fanblock.block.lean import center_lean_deg
from fanblock.block.stand import Level
from fanblock.checks.finding import within
from fanblock.pattern.model import Finding, Pattern
from fanblock.tolerances import BLOCK_MM, CENTER_SQUARE_DEG
from fanblock.units import format_length

FAMILY = "block"


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return whether the girths it stands on and both centre lines are as measured, and stand square to the waist."""
    block, body = pattern.block, pattern.body
    found = [_girth(pattern, level) for level in pattern.stand.levels]
    ruling = body.bust_height_mm
    for around, name in ((0.0, "center front"), (1.0, "center back")):
        foot, head = block.at(around, 0.0), block.at(around, 1.0)
        due = ruling - sum(tilt.take_mm for tilt in block.corrections if tilt.at == name)
        found.append(_length(f"block-{name.replace(' ', '-')}", name, float(np.hypot(*(head - foot))), due, body.units))
    for lean, name in zip(center_lean_deg(block), ("center front", "center back"), strict=True):
        says = f"{name} leans {abs(lean):.1f}° from square to the waist"
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
    """A girth that the block stands on, measured along its level, against the body's."""
    drawn, due = 2.0 * pattern.block.level(level.height).length_mm, pattern.body.length_mm(level.name)
    return _length(f"block-{level.name.replace(' ', '-')}", level.name, drawn, due, pattern.body.units)


def _length(code: str, name: str, drawn_mm: float, due_mm: float, units: str) -> Finding:
    says = f"{name} of the block {format_length(drawn_mm, units)}, by the measures {format_length(due_mm, units)}"
    return within(code, FAMILY, abs(drawn_mm - due_mm), BLOCK_MM, "mm", says)
