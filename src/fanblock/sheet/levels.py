"""Which level a garment is told by: the waist, or, where it ends above that, the girth its block stands on."""

from __future__ import annotations

from fanblock.pattern.model import Pattern
from fanblock.wearer.girths import WAIST


def told_level(pattern: Pattern) -> str:
    """Return the level that heights are told from, and that is drawn right round a toile."""
    if any(panel.levels.get(WAIST) for panel in pattern.panels):
        return WAIST
    return pattern.stand.lower.name
