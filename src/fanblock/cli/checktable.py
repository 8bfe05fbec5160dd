"""The checks of a pattern as a table for reading, and its notes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import TYPE_CHECKING

from fanblock.cli.screen import say, wrapped

if TYPE_CHECKING:
    from fanblock.pattern.model import Finding, Note

MARKS = {"fails": "FAILS ", "warns": "LOOK  ", "holds": "holds "}
_STYLES = {"fails": "bad", "warns": "look", "holds": ""}
_INDENT = "  "


def say_checks(findings: Sequence[Finding]) -> None:
    """Tell all checks: what fails and what wants a look first, then every family."""
    from fanblock.sheet.reportchecks import FAMILIES

    say(f"Checks: {tally(findings)}", style="head")
    for state in ("fails", "warns"):
        for finding in findings:
            if finding.state == state:
                say(wrapped(finding.says, _INDENT + MARKS[state]), style=_STYLES[state])
    say()
    for family in [*FAMILIES, *sorted({finding.family for finding in findings} - set(FAMILIES))]:
        some = [finding for finding in findings if finding.family == family]
        if some:
            say(FAMILIES.get(family, family), style="head")
            for finding in some:
                say(wrapped(finding.says, _INDENT + MARKS.get(finding.state, "")))
    say()


def tally(findings: Sequence[Finding]) -> str:
    """Return how many checks hold, want a look, and fail, in words."""
    counts = Counter(finding.state for finding in findings)
    parts = [f"{counts['holds']} hold"]
    if counts["warns"]:
        parts.append(f"{counts['warns']} {'wants' if counts['warns'] == 1 else 'want'} a look")
    parts.append(
        f"{counts['fails']} {'fails' if counts['fails'] == 1 else 'fail'}" if counts["fails"] else "none fails"
    )
    return ", ".join(parts)


def say_notes(notes: Sequence[Note]) -> None:
    """Tell all notes, those of one kind together: guesses first, what to watch on the toile last.

    Those that are sentences of the order of sewing or of a list stand in the report.
    """
    from fanblock.sheet.looks import NOTES, TOLD_ELSEWHERE

    notes = [note for note in notes if note.kind not in TOLD_ELSEWHERE]
    for kind in [*NOTES, *sorted({note.kind for note in notes} - set(NOTES))]:
        some = [note.says for note in notes if note.kind == kind]
        if some:
            say(NOTES.get(kind, kind), style="head")
            for text in some:
                say(wrapped(text, f"{_INDENT}- "))
    if notes:
        say()
