"""Making findings: the three states, and the rule that a number past its limit fails or warns."""

from __future__ import annotations

from fanblock.pattern.model import Finding, Pattern

HOLDS, WARNS, FAILS = "holds", "warns", "fails"
FAMILIES = (
    "halves",
    "block",
    "girth",
    "seams",
    "joins",
    "panels",
    "hips",
    "sleeve",
    "opening",
    "channels",
    "marks",
    "paper",
    "body",
)


def seam_tags(pattern: Pattern) -> dict[str, str]:
    """Return for every seam, by name, what it is called in codes: its letter, numbered where it lies in pieces."""
    letters = [seam.letter for seam in pattern.seams]
    seen: dict[str, int] = {}
    tags = {}
    for seam in pattern.seams:
        seen[seam.letter] = seen.get(seam.letter, 0) + 1
        tags[seam.name] = f"{seam.letter}{seen[seam.letter]}" if letters.count(seam.letter) > 1 else seam.letter
    return tags


def within(
    code: str, family: str, number: float, limit: float, unit: str, says: str, *, otherwise: str = FAILS
) -> Finding:
    """Return a finding that holds when ``number`` is at most ``limit`` and else is ``otherwise``."""
    state = HOLDS if number <= limit else otherwise
    return Finding(code, family, state, float(number), float(limit), unit, says)


def told(code: str, family: str, state: str, number: float, unit: str, says: str) -> Finding:
    """Return a finding that only tells: its state was decided elsewhere and it has no limit of its own."""
    return Finding(code, family, state, float(number), float("inf"), unit, says)
