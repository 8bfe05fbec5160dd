"""A fitting applied: notes of one toile, in the order a maker looks, into the wearer and into this garment.

Lengths come first, then the girth of the waist, the other girths, the edges, the skirts. Each note is drafted by itself, so
that it can be told what it changed and what else moved.

The law of the gap (common practice, no source): laced snug and comfortable, at each level the pieces must grow by the gap
found less the gap wanted less what was pinched. Waist and bust are the body's own and go into the wearer's girths, so that
the next garment has them, or into this garment alone if the notes say so; what the cone cannot follow, between and above
them, is taken in or let out at the garment's seams.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from types import MappingProxyType

from fanblock.fitting import acts
from fanblock.fitting.acts import Done
from fanblock.fitting.notes import Notes, Pinch, Said, WaistLine
from fanblock.fitting.numbers import moved_words, numbers, panel_sum_mm
from fanblock.fitting.seams import courses
from fanblock.fitting.sentences import (
    ALL,
    BUST,
    GIRTHS,
    LENGTHS,
    LEVELS,
    MIDDLE,
    REGIONS,
    TOP,
    WAIST,
    WAIST_GIRTH,
    Effect,
    Longer,
    Raise,
    Spring,
    TakeIn,
    TakeOut,
)
from fanblock.fitting.state import State, told_length
from fanblock.garment.library import Opened, draft_garment
from fanblock.pattern.model import Pattern
from fanblock.problems import FanblockError, GarmentError, Problem, nearest

LARGE_GIRTH_MM, LARGE_LENGTH_MM = 60.0, 20.0
"""A change this large wants another toile before good cloth is cut (from memory)."""


AS_WANTED_MM = 1.0
"""A gap that is off by less is as it was wanted: no tape between two edges is read more finely (from memory)."""


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


@dataclass(frozen=True, slots=True)
class _Note:
    """One note made ready: its rank, words and reading, the places it speaks of, what it does, and advice."""

    rank: int
    words: str
    reading: str
    keys: tuple[str, ...]
    act: Callable[[State], Done]
    advice: str = ""


def fitted(opened: Opened, notes: Notes) -> Fitted:
    """Return what the notes make of a garment, its draft counted up.

    GarmentError when they are of another draft, speak of places there are not, or ask what cannot be drawn.
    """
    if notes.draft != opened.garment.draft:
        what = f"the notes are of draft {notes.draft}, and the garment is at draft {opened.garment.draft}."
        raise GarmentError([Problem("fit-draft", "draft", what, "Take the notes of the draft that the garment is at.")])
    before = draft_garment(opened)
    _check_places(before, notes)
    counted = replace(opened, garment=replace(opened.garment, draft=notes.draft + 1))
    state, told = State(counted, draft_garment(counted)), []
    for note in _ready(notes, before.body.units, before.gap_mm):
        if note.rank > LENGTHS and not state.sums:
            state = replace(
                state, sums=MappingProxyType({level: panel_sum_mm(state.pattern, level) for level in LEVELS})
            )
        after, one = _applied(state, note)
        state = after
        told.append(one)
    kept = replace(state.opened.garment, notes=(*state.opened.garment.notes, *notes.comments))
    done = replace(state.opened, garment=kept)
    return Fitted(done, before, state.pattern, tuple(told), _again(before, state.pattern))


def _applied(state: State, note: _Note) -> tuple[State, Told]:
    earlier = next((state.taken[key] for key in note.keys if key in state.taken), "")
    if earlier:
        says = f"nothing: “{earlier}” speaks of the same place and comes first"
        return state, Told(note.words, note.reading, (says,), (), note.advice)
    try:
        after, changed = note.act(state)
    except FanblockError as error:
        problems = [
            Problem("fit-note", note.words, f"it cannot be drawn: {one.what}", one.remedy) for one in error.problems
        ]
        raise GarmentError(problems) from None
    taken = MappingProxyType({**state.taken, **dict.fromkeys(note.keys, note.words)})
    moved = moved_words(state.pattern, after.pattern)
    said = changed or (
        ("nothing: it is for you to settle",) if note.advice else ("nothing: the girths have settled it",)
    )
    return replace(after, taken=taken), Told(note.words, note.reading, said, moved, note.advice)


def _ready(notes: Notes, units: str, wanted_mm: float) -> list[_Note]:
    """Return every note in the order of looking; ``wanted_mm`` is the gap that was wanted."""
    found = [_line(line, units) for line in notes.lines]
    for level, rank in ((WAIST, WAIST_GIRTH), (BUST, GIRTHS), (MIDDLE, GIRTHS), (TOP, GIRTHS)):
        if level in notes.gap_mm:
            found.append(_gap(rank, level, notes.gap_mm[level], wanted_mm, notes.keep, units))
        found += [_pinch(rank, pinch, units) for pinch in notes.pinches if pinch.level == level]
    found += [_sentence(said, units) for said in notes.said]
    return sorted(found, key=lambda note: note.rank)


def _check_places(pattern: Pattern, notes: Notes) -> None:
    """Refuse pinches at a place there is not, all of them together."""
    names = [course.name for course in courses(pattern)]
    problems = [
        Problem(
            "fit-place", f"pinch › {number}", f"there is no place “{pinch.at}”.", nearest(pinch.at, [*REGIONS, *names])
        )
        for number, pinch in enumerate(notes.pinches, 1)
        if pinch.at not in REGIONS and pinch.at not in names
    ]
    if problems:
        raise GarmentError(problems)


def _line(line: WaistLine, units: str) -> _Note:
    side, longer = ("above", "longer") if line.above_mm > 0.0 else ("below", "shorter")
    words = f"waist line {told_length(abs(line.above_mm), units)} {side} the string, {line.where}"
    if line.where == "all round":
        reading = f"the body is {longer} from waist to bust than was measured"
        return _Note(
            LENGTHS, words, reading, ("length bust to waist",), lambda state: acts.lengthened(state, line.above_mm)
        )
    reading = f"the body is {longer} there than was measured"
    return _Note(
        LENGTHS, words, reading, (f"tilt {line.where}",), lambda state: acts.tilted(state, line.where, -line.above_mm)
    )


def _gap(rank: int, level: str, found_mm: float, wanted_mm: float, keep: str, units: str) -> _Note:
    words, off = f"gap of {told_length(found_mm, units)} at the {level}", found_mm - wanted_mm
    size = "too small" if off > 0.0 else "too large"
    reading = (
        f"{told_length(wanted_mm, units)} was wanted, so the pieces are {told_length(abs(off), units)} {size} there"
    )
    if abs(off) < AS_WANTED_MM:
        off, reading = 0.0, "as it was wanted"

    def act(state: State) -> Done:
        return acts.gapped(state, level, off, keep, words)

    return _Note(rank, words, reading, (f"take {level} {ALL}",), act)


def _pinch(rank: int, pinch: Pinch, units: str) -> _Note:
    half = "" if pinch.half == "both" else f", {pinch.half} half"
    words = f"pinch of {told_length(pinch.mm, units)} at the {pinch.level}, {pinch.at}{half}"
    one = TakeIn(pinch.level, pinch.at, 0.5)
    advice = "" if pinch.half == "both" else "Both halves are cut alike, so each is given half of it."
    keys = (f"pinch {pinch.level} {pinch.at} {pinch.half}",)
    return _Note(
        rank, words, "the cloth is slack there", keys, lambda state: acts.effect(state, one, pinch.mm, words), advice
    )


def _sentence(said: Said, units: str) -> _Note:
    sentence = said.sentence
    words = f"{sentence.words}: {told_length(said.mm, units)}" if sentence.effects else sentence.words

    def act(state: State) -> Done:
        changed: tuple[str, ...] = ()
        for one in sentence.effects:
            state, more = acts.effect(state, one, said.mm, words)
            changed += more
        return state, changed

    return _Note(
        sentence.order, words, sentence.reading, tuple(_key(one) for one in sentence.effects), act, sentence.advice
    )


def _key(one: Effect) -> str:
    """The place that an effect speaks of: two notes of one place do not add up, the earlier is kept."""
    match one:
        case Longer(measure):
            return f"length {measure}"
        case TakeOut(at):
            return f"tilt {at}"
        case TakeIn(level, region):
            return f"take {level} {region}"
        case Raise(edge, around):
            return f"raise {edge} {around:.1f}"
        case Spring(region):
            return f"spring {region}"


def _again(before: Pattern, after: Pattern) -> str:
    """Return why another toile is wanted, empty where none is."""
    for level in LEVELS:
        by = panel_sum_mm(after, level) - panel_sum_mm(before, level)
        if abs(by) > LARGE_GIRTH_MM:
            return (
                f"The {level} changed by {abs(by) / 10.0:.1f} cm in all. Sew another toile before you cut good cloth."
            )
    first, second = numbers(before), numbers(after)
    for name in ("centre front above the waist", "centre back above the waist"):
        if name in first and name in second and abs(first[name] - second[name]) > LARGE_LENGTH_MM:
            by = abs(first[name] - second[name]) / 10.0
            return f"The {name} changed by {by:.1f} cm. Sew another toile before you cut good cloth."
    return ""
