"""A garment on its way through a fitting: drafted anew after every change."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from fanblock.draft.altering import Alteration
from fanblock.garment.library import Opened, draft_garment
from fanblock.garment.model import Change
from fanblock.halves.making import told_as_one
from fanblock.pattern.model import Pattern
from fanblock.recipe.words import number_text
from fanblock.units import THIRTY_SECONDS, UNITS, drawn_length, format_length, proved_length
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.measures import HALF, MEASURES
from fanblock.wearer.model import Measures

ROUNDED_MM = 0.01
"""Changes are kept to a hundredth of a millimetre: finer than any pencil, and easy to read."""

SHORT_MM = 10.0
"""Changes shorter than this are told in millimetres by who measures in centimetres."""

LEAST_TOLD_MM = UNITS["in"] / THIRTY_SECONDS
"""A change shorter than half a sixteenth of an inch is told as a decimal: no fraction on a ruler shows it."""


@dataclass(frozen=True, slots=True, eq=False)
class State:
    """A garment and its pattern, the places earlier notes have spoken for, and what the wearer's girths changed by level.

    ``taken`` holds by place the words of the note that spoke of it, and which way that went. ``sums`` are what the pieces measured at every level before any girth was changed.
    """

    opened: Opened
    pattern: Pattern
    taken: Mapping[str, tuple[str, int]] = field(default_factory=lambda: MappingProxyType({}))
    by_girths: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    sums: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))


TAPE_STEP_MM = 0.01 * UNITS["in"]
"""Measures in inches are kept to a hundredth of an inch: no tape shows more, and it is easy to read."""


def tape_rounded(mm: float, units: str) -> float:
    """Return a measure of the body as the wearer's file keeps it."""
    return round(mm / TAPE_STEP_MM) * TAPE_STEP_MM if units == "in" else rounded(mm)


def rounded(mm: float) -> float:
    """Return a length as changes keep it."""
    return round(mm / ROUNDED_MM) * ROUNDED_MM


def drafted(opened: Opened) -> Pattern:
    """Return the pattern of a garment; of two halves drafted apart the left one, its girths those of the whole."""
    return told_as_one(draft_garment(opened))


def redrafted(state: State, opened: Opened) -> State:
    """Return the state with its garment or its wearer changed, drafted anew."""
    return replace(state, opened=opened, pattern=drafted(opened))


def altered(state: State, alterations: Sequence[Alteration], because: str, half: str = "") -> State:
    """Return the state with more changes in its garment, of both halves or of one."""
    garment = state.opened.garment
    changes = [Change(one, garment.draft, because, half=half) for one in alterations]
    return redrafted(state, replace(state.opened, garment=replace(garment, changes=(*garment.changes, *changes))))


def measures_of(state: State) -> Measures:
    """Return the wearer's own set of measures that the garment is drawn from: where it was predicted, what from."""
    sets = state.opened.wearer.sets
    return next((one for one in sets if one.over == state.pattern.body.over), sets[0])


def is_measured(state: State) -> bool:
    """Tell whether the garment is drawn from measures that were taken, and not predicted."""
    return not state.pattern.body.predicted


def measured(state: State, values: Mapping[str, float]) -> State:
    """Return the state with some of the wearer's measures changed, each in the set it was taken in.

    One that was taken over the shift and serves over the stays too stays with the shift; a new one goes into the set that
    the garment is drawn from.
    """
    chosen, wearer = measures_of(state), state.opened.wearer
    changed: dict[Measures, Fixed[float]] = dict.fromkeys(wearer.sets, Fixed())
    for name, mm in values.items():
        others = [one for one in wearer.sets if name in one.values]
        home = chosen if name in chosen.values or not others else others[0]
        changed[home] = Fixed({**changed[home], name: mm})
    sets = tuple(
        replace(one, values=Fixed({**one.values, **more}), sides=_moved_sides(one, more))
        for one, more in changed.items()
    )
    return redrafted(state, replace(state.opened, wearer=replace(wearer, sets=sets)))


def _moved_sides(chosen: Measures, values: Mapping[str, float]) -> Mapping[str, tuple[float, float]]:
    """Left and right of a set whose measures change: either side by its share, so that they differ as they did."""
    sides = dict(chosen.sides)
    for name in sides.keys() & values.keys():
        more = (values[name] - chosen.values[name]) / (2.0 if MEASURES[name].sides == HALF else 1.0)
        left, right = sides[name]
        sides[name] = left + more, right + more
    return Fixed(sides)


def sided(state: State, name: str, sides: tuple[float, float]) -> State:
    """Return the state with left and right of one of the wearer's measures, which each side has of its own."""
    chosen, wearer = measures_of(state), state.opened.wearer
    values = Fixed({**chosen.values, name: 0.5 * (sides[0] + sides[1])})
    kept = {one: both for one, both in chosen.sides.items() if one != name}
    changed = replace(chosen, values=values, sides=Fixed(kept | ({name: sides} if sides[0] != sides[1] else {})))
    sets = tuple(changed if one is chosen else one for one in wearer.sets)
    return redrafted(state, replace(state.opened, wearer=replace(wearer, sets=sets)))


def length_words(state: State, mm: float) -> str:
    """Return a length in the wearer's units; one too short for them in millimetres."""
    return told_length(mm, state.pattern.body.units)


def told_length(mm: float, units: str) -> str:
    """Return a length in the wearer's units: inches to half a sixteenth, as decimals below that; short ones in millimetres.

    >>> told_length(4.0, "in"), told_length(6.35, "in"), told_length(0.5, "in"), told_length(4.0, "cm"), told_length(35.0, "cm")
    ('5/32 in', '1/4 in', '0.02 in', '4 mm', '3.5 cm')
    """
    if units == "in":
        return drawn_length(mm, units) if abs(mm) >= LEAST_TOLD_MM else proved_length(mm, units)
    return f"{mm:.1f} mm".replace(".0 mm", " mm") if abs(mm) < SHORT_MM else format_length(mm, units)


def length_text(mm: float, units: str) -> str:
    """Return a length as a file says it, in these units to four decimals.

    >>> length_text(76.2, "in"), length_text(30.0, "cm")
    ('3 in', '3 cm')
    """
    return f"{number_text(round(mm / UNITS[units], 4))} {units}"


def measure_words(state: State, name: str, mm: float) -> str:
    """Return what became of a measure."""
    word = "longer" if mm > 0.0 else "shorter"
    if MEASURES[name].whole_girth:
        word = "larger" if mm > 0.0 else "smaller"
    return f"wearer: {name} {length_words(state, abs(mm))} {word}"
