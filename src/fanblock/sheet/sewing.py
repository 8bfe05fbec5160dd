"""In which order a garment's seams are joined, said plainly: front to back."""

from __future__ import annotations

from fanblock.pattern.model import Pattern


def joining(pattern: Pattern) -> tuple[str, ...]:
    """Return one sentence for each seam, front to back, and how to match it."""
    numbers = {panel.name: panel.number for panel in pattern.panels}
    seams = sorted(pattern.seams, key=lambda seam: (numbers[seam.front.panel], numbers[seam.back.panel], seam.letter))
    lines = [
        f"Join {seam.letter} to {seam.letter}: piece {numbers[seam.front.panel]} ({seam.front.panel}) to piece "
        f"{numbers[seam.back.panel]} ({seam.back.panel})."
        for seam in seams
    ]
    if lines:
        lines.append("At each seam lay the two waist bars together first, then the ticks, then the ends.")
        lines.append("Make the other half as a mirror image: turn every piece over.")
    return tuple(lines)
