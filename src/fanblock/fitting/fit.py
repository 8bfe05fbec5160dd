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
from fanblock.fitting.edgeacts import Done
from fanblock.fitting.levels import level_words, wanted_mm
from fanblock.fitting.notes import SIDE_LINES, Notes, Pinch, Said, WaistLine
from fanblock.fitting.numbers import moved_words, numbers, panel_sum_mm
from fanblock.fitting.parts import parts_of
from fanblock.fitting.questions import without_answer
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
    Hollow,
    Longer,
    Raise,
    Spring,
    TakeIn,
    TakeOut,
    Turn,
)
from fanblock.fitting.state import State, drafted, told_length
from fanblock.garment.library import Opened
from fanblock.pattern.model import Pattern
from fanblock.problems import FanblockError, GarmentError, Problem, nearest
from fanblock.units import format_length

LARGE_GIRTH_MM, LARGE_LENGTH_MM = 60.0, 20.0
"""A change this large wants another toile before good cloth is cut (from memory)."""


AS_WANTED_MM = 1.0
"""A gap that is off by less is as it was wanted: no tape between two edges is read more finely (from memory)."""


_WHERE = {"all round": "all round", "center back": "at the centre back", "center front": "at the centre front"}

_UNCHANGED = ("nothing: it is as it should be, or no seam there can do it",)


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
    """One note made ready: its rank, words and reading, the places it speaks of, what it does, and advice.

    One that ``settles`` nothing is only advice.
    """

    rank: int
    words: str
    reading: str
    keys: tuple[str, ...]
    act: Callable[[State], Done]
    advice: str = ""
    settles: bool = True


def fitted(opened: Opened, notes: Notes) -> Fitted:
    """Return what the notes make of a garment, its draft counted up.

    GarmentError when they are of another draft, speak of places there are not, or ask what cannot be drawn.
    """
    if notes.draft != opened.garment.draft:
        what = f"the notes are of draft {notes.draft}, and the garment is at draft {opened.garment.draft}."
        raise GarmentError([Problem("fit-draft", "draft", what, "Take the notes of the draft that the garment is at.")])
    before = drafted(opened)
    _check_places(before, notes)
    counted = replace(opened, garment=replace(opened.garment, draft=notes.draft + 1))
    state, told = State(counted, drafted(counted)), []
    for note in _ready(notes, before, opened.wearer.may_differ_mm):
        if note.rank > LENGTHS and not state.sums and before.band is None:
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
    said = changed or (_UNCHANGED if note.settles else ("nothing: it is for you to settle",))
    return replace(after, taken=taken), Told(note.words, note.reading, said, moved, note.advice)


def _ready(notes: Notes, before: Pattern, allowed_mm: float) -> list[_Note]:
    """Return every note on a draft in the order of looking; halves that differ by ``allowed_mm`` or less are averaged."""
    units = before.body.units
    wanted, names, parts = wanted_mm(before), level_words(before), parts_of(before)
    found = [_line(line, before) for line in notes.lines]
    for level, rank in ((WAIST, WAIST_GIRTH), (BUST, GIRTHS), (MIDDLE, GIRTHS), (TOP, GIRTHS)):
        if level in notes.gap_mm:
            place = (level, names[level])
            found.append(_gap(rank, place, notes.gap_mm[level], wanted[level], notes.keep, units))
        found += [_pinch(rank, pinch, units, allowed_mm) for pinch in notes.pinches if pinch.level == level]
    found += [_sentence(said, units, parts) for said in notes.said]
    return sorted(found, key=lambda note: note.rank)


def _check_places(pattern: Pattern, notes: Notes) -> None:
    """Refuse pinches at a place there is not and sentences about parts there are not, all of them together."""
    problems = without_answer(pattern, notes)
    names = [] if pattern.band is not None else [course.name for course in courses(pattern)]
    problems += [
        Problem(
            "fit-place", f"pinch › {number}", f"there is no place “{pinch.at}”.", nearest(pinch.at, [*REGIONS, *names])
        )
        for number, pinch in enumerate(notes.pinches, 1)
        if pinch.at not in REGIONS and pinch.at not in names
    ]
    if problems:
        raise GarmentError(problems)


def _line(line: WaistLine, before: Pattern) -> _Note:
    units, lower = before.body.units, before.stand.lower.name
    if line.where in SIDE_LINES:
        return _side_line(line, units)
    side, longer = ("above", "longer") if line.above_mm > 0.0 else ("below", "shorter")
    words = f"{lower} line {told_length(abs(line.above_mm), units)} {side} the string, {_WHERE[line.where]}"
    if line.where == "all round" and lower != WAIST:
        measure, less = f"{lower} height", -line.above_mm
        reading = f"the {lower} lies {'lower' if less < 0.0 else 'higher'} on the body than was measured"
        return _Note(LENGTHS, words, reading, (f"length {measure}",), lambda state: acts.longer(state, measure, less))
    if line.where == "all round":
        reading = f"the body is {longer} from waist to bust than was measured"
        return _Note(
            LENGTHS, words, reading, ("length bust to waist",), lambda state: acts.lengthened(state, line.above_mm)
        )
    reading = f"the body is {longer} there than was measured"
    return _Note(
        LENGTHS, words, reading, (f"tilt {line.where}",), lambda state: acts.tilted(state, line.where, -line.above_mm)
    )


def _side_line(line: WaistLine, units: str) -> _Note:
    """The drawn waist off the string on one side of the body: that side is longer or shorter."""
    half = SIDE_LINES[line.where]
    side, longer = ("above", "longer") if line.above_mm > 0.0 else ("below", "shorter")
    words = f"waist line {told_length(abs(line.above_mm), units)} {side} the string, {line.where}"
    reading = f"the body is {longer} there than was measured"

    def act(state: State) -> Done:
        return acts.side_lengthened(state, half, line.above_mm)

    return _Note(LENGTHS, words, reading, (f"side {half}",), act)


def _gap(rank: int, place: tuple[str, str], found_mm: float, due_mm: float, keep: str, units: str) -> _Note:
    """``place`` is the level and what it is called on this garment; ``due_mm`` the gap that was wanted there."""
    level, called = place
    off = found_mm - due_mm
    apart = f"gap of {told_length(found_mm, units)}" if found_mm > 0.0 else "the edges meet"
    words = f"{apart} at the {called}"
    if found_mm < 0.0:
        words = f"the edges lie {told_length(-found_mm, units)} over one another at the {called}"
    size = "too small" if off > 0.0 else "too large"
    wanted = f"{told_length(due_mm, units)} was wanted" if due_mm else "they should just meet"
    reading = f"{wanted}, so the pieces are {told_length(abs(off), units)} {size} there"
    if abs(off) < AS_WANTED_MM:
        off, reading = 0.0, "as it was wanted"

    def act(state: State) -> Done:
        return acts.gapped(state, level, off, keep, words)

    return _Note(rank, words, reading, (f"take {level} {ALL}",), act)


def _pinch(rank: int, pinch: Pinch, units: str, allowed_mm: float) -> _Note:
    """A pinch of one half alone is taken in there, all of it, when it is more than the halves may differ."""
    half = "" if pinch.half == "both" else pinch.half
    words = (
        f"pinch of {told_length(pinch.mm, units)} at the {pinch.level}, {pinch.at}{f', {half} half' if half else ''}"
    )
    advice, own = "", half if abs(pinch.mm) > allowed_mm else ""
    if own:
        advice = f"It is more than the halves may differ, so it is kept for the {half} half alone: the next draft has two halves."
    elif half:
        allowed = told_length(allowed_mm, units)
        advice = f"It is averaged, so each half is given half of it: left and right may differ by {allowed} (see `halves may differ`)."
    keys = (f"pinch {pinch.level} {pinch.at} {pinch.half}",)
    taken_mm = pinch.mm if own else 0.5 * pinch.mm

    def act(state: State) -> Done:
        return acts.taken_in(state, pinch.level, pinch.at, taken_mm, words, half=own)

    return _Note(rank, words, "the cloth is slack there", keys, act, advice)


def _sentence(said: Said, units: str, parts: frozenset[str]) -> _Note:
    sentence = said.sentence
    advice = sentence.advice if set(sentence.advice_of) <= parts else ""
    words = f"{sentence.words}: {told_length(said.mm, units)}" if sentence.effects else sentence.words

    def act(state: State) -> Done:
        changed: tuple[str, ...] = ()
        for one in sentence.effects:
            state, more = acts.effect(state, one, said.mm, words)
            changed += more
        return state, changed

    return _Note(
        sentence.order,
        words,
        sentence.reading,
        tuple(_key(one) for one in sentence.effects),
        act,
        advice,
        bool(sentence.effects),
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
        case Hollow(place):
            return f"armhole {place}"
        case Turn(dial):
            return f"dial {dial}"


def _again(before: Pattern, after: Pattern) -> str:
    """Return why another toile is wanted, empty where none is."""
    if before.band is not None:
        return ""
    units = before.body.units
    for level in LEVELS:
        by = panel_sum_mm(after, level) - panel_sum_mm(before, level)
        if abs(by) > LARGE_GIRTH_MM:
            return f"The {level} changed by {format_length(abs(by), units)} in all. Sew another toile before you cut good cloth."
    first, second = numbers(before), numbers(after)
    for name in ("centre front above the waist", "centre back above the waist"):
        if name in first and name in second and abs(first[name] - second[name]) > LARGE_LENGTH_MM:
            moved = format_length(abs(first[name] - second[name]), units)
            return f"The {name} changed by {moved}. Sew another toile before you cut good cloth."
    return ""
