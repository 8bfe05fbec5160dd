"""What is to be looked at: guesses, what is peculiar to a body, warnings, the wearer's own notes; for the report and in print."""

from __future__ import annotations

import math

from fanblock.pattern.model import Finding, Pattern

GUESS, TOILE_NOTE, BODY = "guess", "toile", "body"

NOTES = {
    GUESS: "Guessed, because it was not measured",
    BODY: "Peculiar to this body",
    TOILE_NOTE: "On the toile",
    "recipe": "From the recipe",
    "wearer": "From the wearer's own notes",
}
"""Kinds of notes in the order they are told, each with what stands over them."""

TOLD_ELSEWHERE = frozenset({"bones", "sewing", "sewing first", "sewing lining", "sewing pleats", "sewing last"})
"""Kinds of notes that stand in the order of sewing, or in the list of bones."""


def looks(pattern: Pattern) -> tuple[tuple[str, str, tuple[str, ...]], ...]:
    """Return the kind, the heading and the sentences of all that is to be looked at; what warns stands with the body."""
    found = []
    for kind in [*NOTES, *sorted({note.kind for note in pattern.notes} - set(NOTES))]:
        says = [_said(note.says) for note in pattern.notes if note.kind == kind and kind not in TOLD_ELSEWHERE]
        if kind == BODY:
            says += [finding.says for finding in pattern.findings if _wants_a_look(finding)]
        if says:
            found.append((kind, NOTES.get(kind, kind), tuple(text[:1].upper() + text[1:] for text in says)))
    return tuple(found)


def _said(note: str) -> str:
    """A note as it is told: under a heading that says GUESSED already, and what "from memory" means."""
    return note.removeprefix("GUESSED: ").replace("from memory:", "from memory of the trade, not measured:")


def _wants_a_look(finding: Finding) -> bool:
    """What warns, and how loose or tight the cone is where it cannot follow the body."""
    return finding.state == "warns" or (finding.family == "girth" and not math.isfinite(finding.limit))
