"""What is told once of all the seams of a garment: how they are whipped and matched, and where they stop."""

from __future__ import annotations

from collections.abc import Iterator

from fanblock.pattern.model import Pattern, Seam
from fanblock.sheet.sewingorder import across, is_open, is_whipped


def helps(pattern: Pattern, seams: list[Seam]) -> Iterator[str]:
    """Yield how seams are whipped and matched, and where they stop: told before the first of them."""
    fronts = [(pattern.by_name[seam.front.panel], seam.front.edge) for seam in pattern.seams]
    if any(is_whipped(pattern, seam) for seam in seams):
        yield (
            "To whip: lay two finished pieces face to face, their folded edges level, and catch both folds with small close "
            "stitches."
        )
    if any(panel.edge(edge).waist_at_mm is not None for panel, edge in fronts):
        yield "At each seam lay the two waist bars together first, then the ticks, then the ends."
    if any(len(across(pattern, seam)) > 1 for seam in seams):
        yield "Where a seam runs right across, lay the seams that meet on it on each other first."
    if any(is_open(pattern, seam) for seam in seams):
        yield (
            "Where a seam stops at the waist, secure it there with a few stitches on the spot and press its allowance "
            "back: it ends at the bar. The skirts below stay open."
        )


def slits(pattern: Pattern) -> Iterator[str]:
    """Yield how slits between tabs are cut."""
    if any(not slit.name for panel in pattern.panels for slit in panel.slits):
        yield "Cut each slit up to its bar only, and reinforce it there before it is bound."
