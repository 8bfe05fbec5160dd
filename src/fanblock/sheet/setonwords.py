"""What is told of marks on the cloth, and of sleeves and straps, before and after they are sewn on; said plainly.

The ways are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fanblock.pattern.model import HEM, SHOULDER, Panel, Pattern
from fanblock.sheet import phrases
from fanblock.sheet.finishing import FELLED, LINING, has_sleeves, is_capped, is_set_on, lining_way

_MARKED = (
    ("crease", "the creases"),
    ("tuck", "the tucks"),
    ("dart", "the darts"),
    ("place", "the lines that tell a place"),
)
"""Kinds of marks on pieces that are carried over to the cloth, and what they are called."""

PRESSED = " Press its allowances open and overcast them."
"""What is done after a seam of a sleeve's own."""

INTO_STRAP = " Press the allowances into the strap."
"""What is done after an end of a strap has been sewn, before a sleeve goes over it."""


def marked(pattern: Pattern) -> Iterator[str]:
    """Yield what is carried over from the pieces to the cloth, before anything is sewn, where there is more than seams."""
    kinds = {mark.kind for panel in pattern.panels if not panel.layer for mark in panel.marks}
    if not kinds & {"crease", "tuck", "dart"}:
        return
    words = [says for kind, says in _MARKED if kind in kinds]
    yield (
        "First carry over from the pieces to the cloth, on both halves, with thread or chalk: "
        f"{phrases.listed(['the stitch lines', *words, 'the waist bars', 'the ticks'])}."
    )


def closed(pattern: Pattern, panel: Panel, stretches: Mapping[str, str]) -> str:
    """Return how a piece is closed to a ring, its darts sewn before, its allowances finished after.

    ``stretches`` are the letters of its seam and, where it has several, where each lies.
    """
    pairs = phrases.listed([f"{letter} to {letter}{where and f' {where}'}" for letter, where in stretches.items()])
    darts = sum(mark.kind == "dart" for mark in panel.marks)
    first = ""
    if darts:
        first = (
            f"Sew the elbow dart{'s' * (darts > 1)} of piece {panel.number}, from the edge to the point, and press "
            f"{'them' if darts > 1 else 'it'} down, toward the lower edge. "
        )
    return f"{first}Close piece {panel.number} ({panel.name}): {pairs}.{PRESSED * (not pattern.toile)}"


def finished(pattern: Pattern) -> Iterator[str]:
    """Yield how the allowances of straps and sleeves, and the lower edges of sleeves, are finished when they are sewn on."""
    if pattern.toile:
        return
    felled = lining_way(pattern) == FELLED
    straps = [panel for panel in pattern.panels if is_strap(panel)]
    for panel in straps:
        ends = f"the allowances at the ends of piece {panel.number} ({panel.name})"
        over = f"Trim {ends} to 1 cm (3/8 in), and fell the open ends of the bodice's lining over them."
        yield over if felled else f"Overcast {ends}."
    if has_sleeves(pattern):
        over = (
            "trim what is wider than 1 cm (3/8 in), turn the bodice's lining in along the stitches all round, and fell it there"
            if felled
            else "trim what is wider than 1 cm (3/8 in) and overcast them together"
        )
        yield f"The allowances of the armhole are pressed into the sleeve: {over}."
    lower = [
        f"{panel.number} ({panel.name})"
        for panel in (pattern.panels if felled else ())
        if LINING in dict(panel.cuts)
        and is_capped(panel)
        and any(_is_turned(panel, edge.name, edge.kind) for edge in panel.edges)
    ]
    if lower:
        edge = "edges of pieces" if len(lower) > 1 else "edge of piece"
        yield (
            f"Last turn in the lower {edge} {phrases.listed(lower)}, now that the sleeve is closed, cloth and lining toward each "
            "other, and fell them together."
        )


def is_strap(panel: Panel) -> bool:
    """Return whether a piece is set on over a shoulder."""
    return (
        not is_capped(panel)
        and is_set_on(panel)
        and any(edge.kind == SHOULDER and edge.mate is not None for edge in panel.edges)
    )


def _is_turned(panel: Panel, name: str, kind: str) -> bool:
    return kind == HEM and panel.allowances.get(name, 0.0) > 0.0
