"""A fitting applied: notes of one toile, in the order a maker looks, into the wearer and into this garment.

Lengths come first, then the girth of the waist, the other girths, the edges, the skirts. Each note is drafted by itself, so
that it can be told what it changed and what else moved.

The law of the gap (common practice, no source): laced snug and comfortable, at each level the pieces must grow by the gap
found less the gap wanted less what was pinched. Waist and bust are the body's own and go into the wearer's girths, so that
the next garment has them, or into this garment alone if the notes say so; what the cone cannot follow, between and above
them, is taken in or let out at the garment's seams.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from types import MappingProxyType

from fanblock.draft.altering import TakeMore
from fanblock.fitting.checking import wrong_notes
from fanblock.fitting.levels import level_words
from fanblock.fitting.notes import Notes
from fanblock.fitting.numbers import moved_words, numbers, panel_sum_mm
from fanblock.fitting.ready import Part, Ready, ready
from fanblock.fitting.sentences import LENGTHS, LEVELS, TOP, WAIST
from fanblock.fitting.state import State, drafted
from fanblock.garment.library import Opened
from fanblock.garment.model import Garment
from fanblock.pattern.model import Pattern
from fanblock.problems import FanblockError, GarmentError, Problem
from fanblock.terms import Length
from fanblock.units import format_length

TOP_EDGE = "top edge"
"""What a garment's file calls its highest level."""

LARGE_GIRTH_MM, LARGE_LENGTH_MM = 60.0, 20.0
"""A change this large wants another toile before good cloth is cut (from memory)."""


SMALLEST_WAIST = 0.9
"""No fitting makes a waist smaller than this share of what it was: nobody laces in a tenth more than was drawn (from memory)."""


@dataclass(frozen=True, slots=True)
class Told:
    """What became of one note: its words, how it was read, what it changed, what else moved, and advice."""

    words: str
    reading: str
    changed: tuple[str, ...] = ()
    moved: tuple[str, ...] = ()
    advice: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Fitted:
    """A garment after a fitting, its wearer with it. ``again`` tells why another toile is wanted; empty where none is."""

    opened: Opened
    before: Pattern
    after: Pattern
    told: tuple[Told, ...]
    again: str = ""


def fitted(opened: Opened, notes: Notes) -> Fitted:
    """Return what the notes make of a garment, its draft counted up.

    GarmentError when they are of another draft, speak of places there are not, or ask what cannot be drawn.
    """
    before = drafted(opened)
    if problems := wrong_notes(before, notes):
        raise GarmentError(problems)
    counted = replace(opened, garment=replace(opened.garment, draft=notes.draft + 1))
    state, told = State(counted, drafted(counted)), []
    for note in ready(notes, before, opened.wearer.may_differ_mm):
        if note.rank > LENGTHS and not state.sums and before.band is None:
            state = replace(
                state, sums=MappingProxyType({level: panel_sum_mm(state.pattern, level) for level in LEVELS})
            )
        after, one = _applied(state, note)
        state = after
        told.append(one)
    _refuse_smaller(before, state.pattern)
    kept = replace(state.opened.garment, notes=(*state.opened.garment.notes, *notes.comments))
    done = replace(state.opened, garment=kept)
    top_mm = _taken_at_top_mm(done.garment) - _taken_at_top_mm(opened.garment)
    return Fitted(done, before, state.pattern, tuple(told), _again(before, state.pattern, top_mm))


def _refuse_smaller(before: Pattern, after: Pattern) -> None:
    """Raise GarmentError where the notes together make the waist so much smaller that it is not the same body's."""
    if before.band is not None:
        return
    was, now = (panel_sum_mm(one, WAIST) for one in (before, after))
    if now < SMALLEST_WAIST * was:
        units, name = before.body.units, level_words(before)[WAIST]
        what = (
            f"the notes together make the worn {name} smaller from {format_length(was, units)} to {format_length(now, units)}: "
            "more than a tenth is not mended in one fitting."
        )
        raise GarmentError([Problem("fit-waist", "", what, "Measure again, and sew another toile by the new measure.")])


def _applied(state: State, note: Ready) -> tuple[State, Told]:
    """Apply what a note does part by part; a part at a place that an earlier note spoke of is left out, and told."""
    after, changed = state, []
    for part in note.parts:
        if part.key in state.taken:
            changed.append(_left_out(state, note, part))
            continue
        try:
            after, more = part.act(after)
        except FanblockError as error:
            problems = [
                Problem("fit-note", note.words, f"it cannot be drawn: {one.what}", one.remedy) for one in error.problems
            ]
            raise GarmentError(problems) from None
        changed += more
    taken = {part.key: (note.words, part.way) for part in note.parts if part.key not in state.taken}
    moved = moved_words(state.pattern, after.pattern)
    said = tuple(changed) or ("nothing: it is as it should be" if note.parts else "nothing: it is for you to settle",)
    if taken:
        advice = note.advice(state, after)
        after = replace(after, taken=MappingProxyType({**state.taken, **taken}))
    else:
        advice = "" if note.parts else note.advice(state, state)
    return after, Told(note.words, note.reading, said, moved, advice)


def _left_out(state: State, note: Ready, part: Part) -> str:
    """Why a part of a note is not done: an earlier one speaks of its place, and may say the contrary."""
    earlier, way = state.taken[part.key]
    whole = len(note.parts) == 1 or all(one.key in state.taken for one in note.parts)
    says = "nothing" if whole else f"left out, {part.words}"
    if way * part.way < 0:
        return (
            f"{says}: “{earlier}” comes first and says the contrary of the same place. Look again which of them is true"
        )
    return f"{says}: “{earlier}” speaks of the same place and comes first"


def _taken_at_top_mm(garment: Garment) -> float:
    """What the changes of a garment take in at its top edge, in all."""
    return sum(
        one.alteration.more.mm * (1.0 if one.half else 2.0)
        for one in garment.changes
        if isinstance(one.alteration, TakeMore)
        and one.alteration.at.landmark == TOP_EDGE
        and isinstance(one.alteration.more, Length)
    )


def _again(before: Pattern, after: Pattern, top_mm: float) -> str:
    """Return why another toile is wanted, empty where none is; ``top_mm`` is what the seams took in at the top."""
    found = [] if before.band is not None else list(_large(before, after, top_mm))
    if not found:
        return ""
    listed = found[0] if len(found) == 1 else f"{'; '.join(found[:-1])}; and {found[-1]}"
    return f"{listed[:1].upper()}{listed[1:]}. Sew another toile before you cut good cloth."


def _large(before: Pattern, after: Pattern, top_mm: float) -> Iterator[str]:
    """Every girth and every length that changed by much."""
    units, names = before.body.units, level_words(before)
    for level in LEVELS:
        by = panel_sum_mm(after, level) - panel_sum_mm(before, level) - (top_mm if level == TOP else 0.0)
        if abs(by) > LARGE_GIRTH_MM:
            yield f"the {names[level]} changed by {format_length(abs(by), units)} in all"
    first, second = numbers(before), numbers(after)
    for name in ("centre front above the waist", "centre back above the waist"):
        if name in first and name in second and abs(first[name] - second[name]) > LARGE_LENGTH_MM:
            yield f"the {name} changed by {format_length(abs(first[name] - second[name]), units)}"
