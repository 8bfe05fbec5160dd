"""A garment on its way through a fitting: drafted anew after every change."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from fanblock.draft.altering import Alteration
from fanblock.garment.library import Opened, draft_garment
from fanblock.garment.model import Change
from fanblock.pattern.model import Pattern
from fanblock.units import format_length
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.model import Measures

ROUNDED_MM = 0.01
"""Changes are kept to a hundredth of a millimetre: finer than any pencil, and easy to read."""

SHORT_MM = 10.0
"""Changes shorter than this are told in millimetres: a sixteenth of an inch is already too coarse for them."""


@dataclass(frozen=True, slots=True, eq=False)
class State:
    """A garment and its pattern, the places earlier notes have spoken for, and what the wearer's girths changed by level.

    ``sums`` are what the pieces measured at every level before any girth was changed.
    """

    opened: Opened
    pattern: Pattern
    taken: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    by_girths: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    sums: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))


def rounded(mm: float) -> float:
    """Return a length as changes keep it."""
    return round(mm / ROUNDED_MM) * ROUNDED_MM


def redrafted(state: State, opened: Opened) -> State:
    """Return the state with its garment or its wearer changed, drafted anew."""
    return replace(state, opened=opened, pattern=draft_garment(opened))


def altered(state: State, alterations: Sequence[Alteration], because: str) -> State:
    """Return the state with more changes in its garment."""
    garment = state.opened.garment
    changes = [Change(one, garment.draft, because) for one in alterations]
    return redrafted(state, replace(state.opened, garment=replace(garment, changes=(*garment.changes, *changes))))


def measures_of(state: State) -> Measures:
    """Return the wearer's own set of measures that the garment is drawn from: where it was predicted, what from."""
    sets = state.opened.wearer.sets
    return next((one for one in sets if one.over == state.pattern.body.over), sets[0])


def is_measured(state: State) -> bool:
    """Tell whether the garment is drawn from measures that were taken, and not predicted."""
    return not state.pattern.body.predicted


def measured(state: State, values: Mapping[str, float]) -> State:
    """Return the state with some of the wearer's measures changed."""
    chosen, wearer = measures_of(state), state.opened.wearer
    changed = replace(chosen, values=Fixed({**chosen.values, **values}))
    sets = tuple(changed if one is chosen else one for one in wearer.sets)
    return redrafted(state, replace(state.opened, wearer=replace(wearer, sets=sets)))


def length_words(state: State, mm: float) -> str:
    """Return a length in the wearer's units; one too short for them in millimetres."""
    return told_length(mm, state.pattern.body.units)


def told_length(mm: float, units: str) -> str:
    """Return a length in the wearer's units, in millimetres where inches or centimetres would blur it.

    >>> told_length(4.0, "in"), told_length(12.7, "in"), told_length(35.0, "cm")
    ('4 mm', '1/2 in', '3.5 cm')
    """
    return f"{mm:.1f} mm".replace(".0 mm", " mm") if abs(mm) < SHORT_MM else format_length(mm, units)


def measure_words(state: State, name: str, mm: float) -> str:
    """Return what became of a measure."""
    word = "longer" if mm > 0.0 else "shorter"
    if name in ("bust", "waist"):
        word = "larger" if mm > 0.0 else "smaller"
    return f"wearer: {name} {length_words(state, abs(mm))} {word}"
