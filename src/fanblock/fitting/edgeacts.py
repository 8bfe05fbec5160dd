"""What a note may do to the edges, the hem and the dials of a garment: raise, hollow, spring, turn.

Each act takes a state and returns the next with words for what it changed; none of them when there was nothing to do.
"""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

from fanblock.draft.altering import RaiseEdge, SpringMore
from fanblock.fitting.parts import armhole_around
from fanblock.fitting.seams import courses, springing
from fanblock.fitting.sentences import ALL, Raise
from fanblock.fitting.state import State, altered, length_text, length_words, redrafted, rounded, told_length
from fanblock.terms import Around, Length, Share

Done = tuple[State, tuple[str, ...]]
"""The next state, and what changed in words."""

HOLLOW_REACH = 0.08
"""How far either side an armhole is hollowed, as a share of the half round: the width of a palm (from memory)."""

PLACES = {
    0.0: "at the centre front",
    0.32: "before the arm",
    0.45: "under the arm",
    0.64: "behind the arm",
    1.0: "at the centre back",
}
"""What the places are called at which sentences raise an edge, by their share of the half round."""


def raised(state: State, one: Raise, mm: float, because: str) -> Done:
    """Return the garment with an outline edge raised at a place."""
    up = one.share * mm
    change = RaiseEdge(one.edge, Around(ratio=one.around), Length(rounded(up)), Share(one.reach))
    word = "higher" if up > 0.0 else "lower"
    place = PLACES.get(one.around, f"{one.around:.0%} round from the front")
    edge = "lower edge" if one.edge == "hem" else one.edge
    return altered(state, [change], because), (
        f"this garment: the {edge} {length_words(state, abs(up))} {word} {place}",
    )


def hollowed(state: State, place: str, mm: float, because: str) -> Done:
    """Return the garment with its armhole raised at one of its places; less than nothing lowers it there."""
    around = armhole_around(state.pattern, place)
    change = RaiseEdge("top edge", Around(ratio=around), Length(rounded(mm)), Share(HOLLOW_REACH))
    word = "higher" if mm > 0.0 else "lower"
    return altered(state, [change], because), (
        f"this garment: the armhole {length_words(state, abs(mm))} {word} {place}",
    )


def turned(state: State, dial: str, mm: float, because: str) -> Done:
    """Return the garment with a dial turned by so much; where its recipe has none of that name, all seams spring more."""
    now = next((number for name, _, number in state.pattern.dials if name == dial), None)
    if now is not None:
        value = length_text(rounded(now + mm), state.pattern.body.units)
        dials = MappingProxyType({**state.opened.garment.dials, dial: value})
        garment = replace(state.opened.garment, dials=dials)
        units = state.pattern.body.units
        says = (
            f"this garment: the dial “{dial}” turned from {told_length(now, units)} to {told_length(now + mm, units)}"
        )
        return redrafted(state, replace(state.opened, garment=garment)), (says,)
    hanging = springing(courses(state.pattern), ALL)
    return sprung(state, ALL, mm / (2.0 * len(hanging)) if hanging else mm, because)


def sprung(state: State, region: str, mm: float, because: str) -> Done:
    """Return the garment with every seam of a region springing more at the hem."""
    names = springing(courses(state.pattern), region)
    if not names:
        return state, ("nothing: no seam there runs on below the waist",)
    word = "more" if mm > 0.0 else "less"
    says = f"this garment: {listed(names)} spring{'s' if len(names) == 1 else ''} {length_words(state, abs(mm))} {word}"
    return altered(state, [SpringMore(name, Length(rounded(mm))) for name in names], because), (says,)


def listed(names: tuple[str, ...]) -> str:
    """Return seams by their names, as a sentence says them."""
    quoted = [f"“{name}”" for name in names]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} and {quoted[-1]}"
