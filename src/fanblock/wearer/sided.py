"""A measure written left and right: ``waist: {left: 37 cm, right: 36.4 cm}``.

Of a girth the two halves are written, each from the centre front to the centre back, and they add up to it; of a measure
that is taken on one side of the body, the measure on either side. A measure along a centre line is one for both halves.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from fanblock.problems import Place, nearest
from fanblock.units import UNITS, Typed, format_length, shown
from fanblock.wearer.measures import HALF, MEASURES
from fanblock.wearer.model import HALVES
from fanblock.yamlfile import Entry, Node, Table, Text, kind

Wrong = Callable[[str, str, str, Place], None]
"""Told what is wrong: where, what, the remedy and the place."""

MOST_APART_RATIO = 0.2
"""Left and right that differ by more of the larger are a slip: one of them is the whole girth, or in another unit."""

MOST_ALLOWED_MM = 30.0
"""More than this between left and right is seen on anybody and is never to be averaged (common practice, no source)."""

_EXAMPLE = "Write it as {left: 37 cm, right: 36.4 cm}."


def read_sides(
    entry: Entry, where: str, length_of: Callable[[Node, str], Typed | None], units: str, wrong: Wrong
) -> tuple[Typed, Typed] | None:
    """Return left and right of a measure that is written apart, or None when something is wrong with them.

    ``length_of`` reads one length and tells what is wrong with it; ``units`` are for talking back.
    """
    table = entry.value
    assert isinstance(table, Table)
    if not MEASURES[entry.name].sides:
        says = f"{entry.name} is one for both halves: it has no left and right of its own."
        wrong(where, says, "Write one length.", table.place)
        return None
    for other in table:
        if other.name not in HALVES:
            wrong(f"{where} › {other.name}", "this is no half.", nearest(other.name, HALVES), other.place)
    missing = [half for half in HALVES if table.get(half) is None]
    for half in missing:
        wrong(where, f"{half} is missing.", _EXAMPLE, table.place)
    found = [length_of(node, f"{where} › {half}") for half in HALVES if (node := table.get(half)) is not None]
    if missing or len(table) > len(HALVES) or any(one is None for one in found):
        return None
    left, right = (one for one in found if one is not None)
    if abs(left.mm - right.mm) > MOST_APART_RATIO * max(left.mm, right.mm):
        says = f"left {format_length(left.mm, units)} and right {format_length(right.mm, units)} are too unlike."
        half_of = "Is one of them the whole girth? " if MEASURES[entry.name].sides == HALF else ""
        wrong(where, says, f"{half_of}Measure both sides again.", table.place)
        return None
    return left, right


def whole_of(name: str, left: Typed, right: Typed) -> Typed:
    """Return what left and right make of a measure: the sum of two halves, the mean of two sides."""
    unit, first, second = left.unit, left.number, right.number
    if left.unit != right.unit:
        unit, first, second = "mm", _in_mm(left), _in_mm(right)
    if MEASURES[name].sides == HALF:
        return Typed(first + second, f"{left.text} + {right.text}", unit)
    return Typed((first + second) / 2, left.text if first == second else f"{left.text} or {right.text}", unit)


def _in_mm(typed: Typed) -> Fraction:
    return Fraction(typed.number) * Fraction(str(UNITS[typed.unit]))


def read_allowed(node: Node, length_of: Callable[[Node, str], Typed | None], wrong: Wrong) -> float | None:
    """Return how much left and right may differ, in mm, or None when something is wrong with it."""
    where = "halves may differ"
    if not isinstance(node, Text):
        wrong(where, f"this is {kind(node)}, not a length.", "Write a length, such as 6 mm.", node.place)
        return None
    found = length_of(node, where)
    if found is None:
        return None
    if not 0.0 <= found.mm <= MOST_ALLOWED_MM:
        says = f"{shown(node.text)} is more than may be averaged (3 cm, 1 1/8 in)."
        wrong(where, says, "Write less: 1 cm is meant where nothing is written.", node.place)
        return None
    return found.mm
