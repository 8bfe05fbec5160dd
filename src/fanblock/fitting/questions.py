"""What is asked of one garment at its fitting: the looks in their order, the measures, and the sentences that it can have.

The correction sheet, the blank notes file and the questions in a terminal all ask the same.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fanblock.fitting.levels import level_words, wanted_mm
from fanblock.fitting.notes import Notes, sentence_list
from fanblock.fitting.parts import (
    ABSENT,
    ARMHOLE,
    BODY,
    BONES,
    HOLDS,
    PLEATS,
    SKIRT,
    SLEEVES,
    STRAPS,
    TABS,
    parts_of,
)
from fanblock.fitting.sentences import LEVELS, Sentence
from fanblock.halves.making import told_as_one
from fanblock.pattern.model import Opening, Pattern
from fanblock.problems import Problem
from fanblock.sheet.phrases import prose

SAME_GAP_MM = 0.5
"""Gaps that differ by less are one gap: a tape shows no more."""


@dataclass(frozen=True, slots=True)
class Questions:
    """What a garment is asked, in words.

    ``before`` tells how to put it on, ``looks`` in what order to look. ``levels`` are where it is measured, by the words of
    the notes, each with what it is called and how far the edges should stand apart there; none for a collar. ``gap`` heads
    the column of what is measured there, and ``how`` tells how; ``line`` is the line drawn where the string is tied.
    ``spoken`` are the sentences it may have; one that is ``boned`` is asked which bones were in.
    """

    units: str
    before: str
    looks: tuple[str, ...]
    levels: tuple[tuple[str, str, float], ...]
    gap: str
    how: str
    line: str
    spoken: tuple[Sentence, ...]
    boned: bool = False


def questions_of(pattern: Pattern) -> Questions:
    """Return what a garment is asked; of two halves drafted apart the left one stands for both."""
    pattern = told_as_one(pattern)
    parts = parts_of(pattern)
    spoken = tuple(one for one in sentence_list() if set(one.of) <= parts)
    units = pattern.body.units
    if BODY not in parts:
        before = "Pin it where it will sit, over all that is worn under it, and look in a mirror with the arms hanging."
        band = (
            "The neck edge: does it lie on the neck all round?",
            "The outer edge: does it lie flat where it lands?",
        )
        return Questions(units, before, band, (), "", "", "", spoken)
    names, wanted = level_words(pattern), wanted_mm(pattern)
    levels = tuple((level, names[level], wanted[level]) for level in LEVELS)
    gap, how = _gap_words(pattern)
    line = f"drawn {pattern.stand.lower.name}"
    looks = tuple(_looks(pattern, parts))
    return Questions(units, _before(pattern, parts), looks, levels, gap, how, line, spoken, BONES in parts)


def without_answer(pattern: Pattern, notes: Notes) -> list[Problem]:
    """Return a problem for everything in the notes that this garment cannot have."""
    parts = parts_of(pattern)
    problems = []
    for said in notes.said:
        lacking = next((part for part in said.sentence.of if part not in parts), "")
        if lacking:
            what = f"this garment cannot show that: {ABSENT[lacking]}."
            remedy = (
                "Take the line out, or write down what you see in your own words: that is kept and changes nothing."
            )
            where = f"notes › {said.sentence.words}"
            problems.append(Problem("fit-absent", where, what, remedy, notes.places.get(where)))
    if BODY in parts:
        return problems
    for key, given in (("gap", notes.gap_mm), ("pinch", notes.pinches), ("line", notes.lines)):
        if given:
            what = f"this garment cannot show that: {ABSENT[BODY]}."
            problems.append(
                Problem(
                    "fit-absent",
                    key,
                    what,
                    "Take it out, and keep to the sentences of its own sheet.",
                    notes.places.get(key),
                )
            )
    return problems


def _before(pattern: Pattern, parts: frozenset[str]) -> str:
    laced = any(one.closed == "lacing" for one in pattern.openings) or not pattern.openings
    layer = "over the shift" if HOLDS in parts else "over the stays it is meant for"
    if SKIRT in parts and HOLDS not in parts:
        layer += " and all the petticoats"
    says = (
        f"{'Lace it' if laced else 'Pin it closed'}, snug and comfortable, {layer}, a string tied round the "
        f"{pattern.stand.lower.name}. Where you are not comfortable, loosen first and then look. Change one girth at a time "
        "and close it again between two changes."
    )
    bound = " Lay a tape along the top edge when you judge it: binding makes it 1 to 2 mm higher."
    return says + bound if pattern.binding else says


def _looks(pattern: Pattern, parts: frozenset[str]) -> Iterator[str]:
    """In this order: a waist at a wrong height makes every other note false (common practice, no source)."""
    yield f"The {pattern.stand.lower.name}: does the drawn line lie on the string you tied, all round?"
    yield _gap_words(pattern)[1]
    yield "The centre front: does it hang plumb?"
    if ARMHOLE in parts:
        yield "The armholes: stretch both arms forward, then lift them."
    else:
        yield "Under the arm: stretch both arms forward, then lift them."
    if STRAPS in parts:
        yield "The straps: do they lie flat and stay where they are?"
    yield "The top edge, in front and behind." if HOLDS in parts else "The neckline, in front and behind."
    if SLEEVES in parts:
        yield "The sleeves: bend both arms, then let them hang."
    if TABS in parts:
        yield "The tabs, over the hip."
    if SKIRT in parts:
        pleats = " Do the pleats hang closed?" if PLEATS in parts else ""
        yield f"The skirts, over the hip and behind.{pleats}"
    yield "Sit, breathe, walk: wear it for 20 minutes, then look again."


def _gap_words(pattern: Pattern) -> tuple[str, str]:
    """What is measured where the garment opens: a short word to head a column, and how to measure it."""
    openings = pattern.openings or (Opening("", "", "lacing", pattern.gap_mm),)
    one = openings[0]
    if len(openings) > 1:
        places = " and ".join(prose(opening.at) for opening in openings)
        return "gaps, together", f"The gaps at {places}: measure both at four heights and add them up."
    if one.times > 1:
        return "both gaps, together", "The gaps on both sides: measure them at four heights and add them up."
    if one.overlap_mm:
        place = prose(one.at)
        return (
            "lines apart",
            f"Where it closes: do the two drawn lines of the {place} lie on one another, at four heights? Measure how far "
            "apart they are; where they pass one another, write it with a minus.",
        )
    if one.widths and one.behind:
        return "edges apart", f"Over the {one.behind}: how far is it from edge to edge, at four heights?"
    if max(wanted_mm(pattern).values()) < SAME_GAP_MM:
        where = "in front" if one.at == "center front" else "behind" if one.at == "center back" else "where it opens"
        return (
            "edges apart",
            f"The edges {where}: do they meet, at four heights? Measure how far apart they stand; where they lie over one "
            "another, write it with a minus.",
        )
    return "gap", "The gap: is it as wide above as below? Measure it at four heights."
