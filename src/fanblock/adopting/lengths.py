"""The lengths of a step that makes a piece of its own: each with its words for so many millimetres more or less."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, replace
from typing import Any

from fanblock.adopting.wording import MM_DECIMALS, SHARE_DECIMALS, height_words
from fanblock.draft.places import measure_mm, place_of
from fanblock.draft.work import Work
from fanblock.fronts.strap import guessed_length_mm, seat_of
from fanblock.sleeves.arm import Ease, size_of
from fanblock.terms import Length, Position, Share

_MEASURES = {"length": "back length", "foot_width": "waist"}
"""Which measure a length is told by that was guessed before; it then grows with the body."""

_BY_KIND = {"sleeve": {"length": "arm length"}}


@dataclass(frozen=True, slots=True)
class StepLength:
    """One length of a step: its option, which point of it where that is a list of places, and its words with so many mm more."""

    option: str
    words: Callable[[float], Any]
    says: str


def lengths_of(work: Work, kind: str, options: Any) -> list[StepLength]:
    """Return the lengths of a step that may be changed."""
    measures = {**_MEASURES, **_BY_KIND.get(kind, {})}
    found = list(_guessed(work, kind, options))
    for field in fields(options):
        value, says = getattr(options, field.name), field.name.replace("_", " ")
        if isinstance(value, Length):
            found.append(StepLength(field.name, _longer(value), says))
        elif isinstance(value, Share):
            of = value.of or measures.get(field.name, "")
            if of:
                found.append(StepLength(field.name, _larger(value, measure_mm(work.body, of)), says))
        elif isinstance(value, tuple) and value and all(isinstance(one, Position) for one in value):
            found += [
                StepLength(field.name, _raised(work, value, number), f"{says}, point {number + 1}")
                for number in range(len(value))
            ]
    return found


def _guessed(work: Work, kind: str, options: Any) -> Iterator[StepLength]:
    """Yield the lengths of a step that it guesses, or that it is told by a word: from then on shares of a measure."""
    if kind == "strap" and options.length is None and options.to:
        seats = [seat_of(work, name, "to") for name in (options.start, options.to)]
        front, back = sorted(seats, key=lambda seat: not seat.is_front)
        yield _share_of(work, "length", None, guessed_length_mm(work, front, back), "back length")
    if kind == "strap" and options.width is None and not options.to:
        wide = seat_of(work, options.start, "from").width_mm
        yield StepLength("width", lambda mm: Length(round(wide + mm, MM_DECIMALS)) if mm else None, "width")
    if kind == "sleeve" and isinstance(options.length, str):
        size = size_of(work.body, options.length, Ease(0.0, 0.0, 0.0))
        yield _share_of(work, "length", options.length, size.to_elbow_mm + size.below_mm, "arm length")


def _share_of(work: Work, option: str, was: Any, now_mm: float, of: str) -> StepLength:
    whole = measure_mm(work.body, of)
    return StepLength(option, lambda mm: Share(round((now_mm + mm) / whole, SHARE_DECIMALS), of) if mm else was, option)


def _longer(was: Length) -> Callable[[float], Any]:
    return lambda mm: Length(round(was.mm + mm, MM_DECIMALS))


def _larger(was: Share, whole_mm: float) -> Callable[[float], Any]:
    return lambda mm: Share(round(was.ratio + mm / whole_mm, SHARE_DECIMALS), was.of)


def _raised(work: Work, places: tuple[Position, ...], number: int) -> Callable[[float], Any]:
    """Return what gives the places with one of them so many mm higher, along its ruling."""
    around, height = place_of(work.draft, places[number])
    ruling = float(work.block.ruling_length_mm(around))

    def words(mm: float) -> tuple[Position, ...]:
        if not mm:
            return places
        now = height_words(work.draft, places[number].height, around, height + mm / ruling)
        return (*places[:number], replace(places[number], height=now), *places[number + 1 :])

    return words
