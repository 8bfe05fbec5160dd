"""Whether the notes are of the toile that was worn, and speak only of what it has: everything that is not so, told together."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fanblock.fitting.levels import level_words, wanted_mm
from fanblock.fitting.notes import Notes
from fanblock.fitting.parts import BODY, parts_of
from fanblock.fitting.questions import without_answer
from fanblock.fitting.seams import courses
from fanblock.fitting.sentences import REGIONS
from fanblock.fitting.state import told_length
from fanblock.pattern.model import Pattern
from fanblock.problems import Problem, nearest

MOST_OFF_MM = 120.0
"""A gap so far from the wanted one is a slip of the tape or another body's toile: no one fitting mends it (from memory)."""


def wrong_notes(pattern: Pattern, notes: Notes) -> list[Problem]:
    """Return a problem for all in the notes that cannot be said of the draft of this pattern, each at its line."""
    found = [*_of_another(pattern, notes), *without_answer(pattern, notes)]
    if BODY in parts_of(pattern):
        found += [*_gaps(pattern, notes), *_places(pattern, notes)]
    return found


def _of_another(pattern: Pattern, notes: Notes) -> Iterator[Problem]:
    """The toile that was worn must be the one that the garment file draws."""
    title = pattern.title
    if notes.draft != title.draft:
        what = f"the notes are of draft {notes.draft}, and the garment is at draft {title.draft}."
        remedy = "Take the notes of the draft that the garment is at."
        yield Problem("fit-draft", "draft", what, remedy, notes.places.get("draft"))
    elif notes.code and notes.code.upper() != title.code:
        what = (
            f"the notes are of the toile with the code {notes.code.upper()}, and what the garment file draws now has the "
            f"code {title.code}: it, its wearer or its recipe was changed after the toile was drawn."
        )
        remedy = (
            "Put the change back, fit, and make it again in the new file. If the toile would look the same without it, take "
            "the line `code` out of the notes: they are then counted from the garment as it stands."
        )
        yield Problem("fit-code", "code", what, remedy, notes.places.get("code"))


def _gaps(pattern: Pattern, notes: Notes) -> Iterator[Problem]:
    units, names, wanted = pattern.body.units, level_words(pattern), wanted_mm(pattern)
    for level, mm in notes.gap_mm.items():
        off = mm - wanted.get(level, mm)
        if not math.isnan(off) and abs(off) > MOST_OFF_MM:
            should = f"{told_length(wanted[level], units)} was wanted" if wanted[level] else "the edges should meet"
            what = (
                f"got {told_length(mm, units)} at the {names[level]}, and {should}: that is {told_length(abs(off), units)} off, "
                f"and one fitting mends up to {told_length(MOST_OFF_MM, units)}."
            )
            remedy = "Look at the number and its unit. If it is true, measure the body again and sew another toile."
            yield Problem("fit-far", f"gap › {level}", what, remedy, notes.places.get("gap"))


def _places(pattern: Pattern, notes: Notes) -> Iterator[Problem]:
    """Pinches must be at a region or a seam that there is."""
    legal = [*REGIONS, *(course.name for course in courses(pattern))]
    for number, pinch in enumerate(notes.pinches, 1):
        if pinch.at not in legal:
            what = f"there is no place “{pinch.at}”."
            yield Problem(
                "fit-place", f"pinch › {number}", what, nearest(pinch.at, legal), notes.places.get(f"pinch › {number}")
            )
