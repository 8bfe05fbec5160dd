"""The notes of a fitting made ready: each with its rank in the order of looking, its reading, and what it does, part by part."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from fanblock.block.from_body import AT_SIDE
from fanblock.fitting import acts
from fanblock.fitting.edgeacts import Done
from fanblock.fitting.levels import level_words, wanted_mm
from fanblock.fitting.notes import SIDE_LINES, Notes, Pinch, WaistLine
from fanblock.fitting.parts import parts_of
from fanblock.fitting.saying import Said
from fanblock.fitting.sentences import (
    ALL,
    BUST,
    GIRTHS,
    LENGTHS,
    MIDDLE,
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
from fanblock.fitting.state import State, measures_of, told_length
from fanblock.pattern.model import Pattern
from fanblock.units import retold

AS_WANTED_MM = 1.0
"""A gap that is off by less is as it was wanted: no tape between two edges is read more finely (from memory)."""

_WHERE = {"all round": "all round", "center back": "at the centre back", "center front": "at the centre front"}

Advice = Callable[[State, State], str]
"""Advice on a note, from the state before it was applied and the state after."""


@dataclass(frozen=True, slots=True)
class Part:
    """One thing that a note does: the place it speaks of, its words, which way it goes there, and the act.

    Of two parts at one place the earlier note's is kept; two that go ``way`` 1 and -1 contradict each other.
    """

    key: str
    words: str
    way: int
    act: Callable[[State], Done]


@dataclass(frozen=True, slots=True)
class Ready:
    """One note made ready: its rank, words and reading, its parts, and advice. One without parts is only advice."""

    rank: int
    words: str
    reading: str
    parts: tuple[Part, ...]
    advice: Advice


def _no_advice(before: State, after: State) -> str:
    return ""


def _way(mm: float) -> int:
    return (mm > 0.0) - (mm < 0.0)


def ready(notes: Notes, before: Pattern, allowed_mm: float) -> list[Ready]:
    """Return every note on a draft in the order of looking; halves that differ by ``allowed_mm`` or less are
    averaged where the garment does not have two already."""
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


def _line(line: WaistLine, before: Pattern) -> Ready:
    units, lower, mm = before.body.units, before.stand.lower.name, line.above_mm
    if line.where in SIDE_LINES:
        return _side_line(line, units)
    side, longer = ("above", "longer") if mm > 0.0 else ("below", "shorter")
    words = f"{lower} line {told_length(abs(mm), units)} {side} the string, {_WHERE[line.where]}"
    reading = f"the body is {longer} there than was measured"
    if line.where != "all round":
        key, act = f"tilt {line.where}", lambda state: acts.tilted(state, line.where, -mm)
    elif lower != WAIST:
        reading = f"the {lower} lies {'lower' if mm > 0.0 else 'higher'} on the body than was measured"
        key, act = f"length {lower} height", lambda state: acts.longer(state, f"{lower} height", -mm)
    else:
        reading = f"the body is {longer} from waist to bust than was measured"
        key, act = "length bust to waist", lambda state: acts.lengthened(state, mm)
    return Ready(LENGTHS, words, reading, (Part(key, "the length", _way(mm), act),), _no_advice)


def _side_line(line: WaistLine, units: str) -> Ready:
    """The drawn waist off the string on one side of the body: that side is longer or shorter."""
    half = SIDE_LINES[line.where]
    side, longer = ("above", "longer") if line.above_mm > 0.0 else ("below", "shorter")
    words = f"waist line {told_length(abs(line.above_mm), units)} {side} the string, {line.where}"
    reading = f"the body is {longer} there than was measured"

    def act(state: State) -> Done:
        return acts.side_lengthened(state, half, line.above_mm)

    def advice(_: State, after: State) -> str:
        left, right = measures_of(after).sides.get(AT_SIDE, (0.0, 0.0))
        allowed_mm = after.opened.wearer.may_differ_mm
        return _averaged(allowed_mm, units) if 0.0 < abs(left - right) <= allowed_mm else ""

    return Ready(LENGTHS, words, reading, (Part(f"side {half}", "the length", _way(line.above_mm), act),), advice)


def _averaged(allowed_mm: float, units: str) -> str:
    allowed = told_length(allowed_mm, units)
    return (
        f"It is averaged, so each half is given half of it: left and right may differ by {allowed} "
        "(see `halves may differ`)."
    )


def _gap(rank: int, place: tuple[str, str], found_mm: float, due_mm: float, keep: str, units: str) -> Ready:
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

    says = f"{'letting out' if off > 0.0 else 'taking in'} at the {called}"
    return Ready(rank, words, reading, (Part(f"take {level} {ALL}", says, _way(-off), act),), _no_advice)


def _pinch(rank: int, pinch: Pinch, units: str, allowed_mm: float) -> Ready:
    """A pinch of one half alone is taken in there, all of it, when the garment has two or it is more than they may differ."""
    half = "" if pinch.half == "both" else pinch.half
    words = (
        f"pinch of {told_length(pinch.mm, units)} at the {pinch.level}, {pinch.at}{f', {half} half' if half else ''}"
    )

    def own_half(state: State) -> str:
        return half if state.pattern.halves or abs(pinch.mm) > allowed_mm else ""

    def act(state: State) -> Done:
        own = own_half(state)
        return acts.taken_in(state, pinch.level, pinch.at, pinch.mm if own else 0.5 * pinch.mm, words, half=own)

    def advice(state: State, after: State) -> str:
        if not half or after is state:
            return ""
        if not own_half(state):
            return _averaged(allowed_mm, units)
        if state.pattern.halves or not after.pattern.halves:
            return ""
        return f"It is more than the halves may differ, so it is kept for the {half} half alone: the next draft has two halves."

    says = f"{'taking in' if pinch.mm > 0.0 else 'letting out'} at the {pinch.level}"
    part = Part(f"pinch {pinch.level} {pinch.at} {pinch.half}", says, _way(pinch.mm), act)
    return Ready(
        rank, words, "the cloth is slack there" if pinch.mm > 0.0 else "the cloth is tight there", (part,), advice
    )


def _sentence(said: Said, units: str, parts: frozenset[str]) -> Ready:
    sentence = said.sentence
    mm = sentence.usual_mm(units) if said.usual else said.mm
    advice = retold(sentence.advice, units) if set(sentence.advice_of) <= parts else ""
    words = f"{sentence.words}: {told_length(mm, units)}" if sentence.effects else sentence.words

    def part(one: Effect) -> Part:
        key, says = _place(one)
        return Part(key, says, _way(one.share), lambda state: acts.effect(state, one, mm, words))

    return Ready(
        sentence.order, words, sentence.reading, tuple(map(part, sentence.effects)), lambda before, after: advice
    )


def _place(one: Effect) -> tuple[str, str]:
    """The place that an effect speaks of, and what it does there, in words."""
    more = one.share > 0.0
    match one:
        case Longer(measure):
            return f"length {measure}", f"the {measure}"
        case TakeOut(at):
            return f"tilt {at}", f"the wedge at the {at.replace('center', 'centre')}"
        case TakeIn(level, region):
            return f"take {level} {region}", f"{'taking in' if more else 'letting out'} at the {level}"
        case Raise(edge, around):
            called = "lower edge" if edge == "hem" else edge
            return f"raise {edge} {around:.1f}", f"{'raising' if more else 'lowering'} the {called}"
        case Spring(region):
            return f"spring {region}", f"{'more' if more else 'less'} spring"
        case Hollow(place):
            return f"armhole {place}", f"{'raising' if more else 'lowering'} the armhole"
        case Turn(dial):
            return f"dial {dial}", f"the dial “{dial}”"
