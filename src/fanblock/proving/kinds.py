"""For what kind of body something happens: ranges of a few measures, and plain words where they say more."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from fanblock.proving.people import Person
from fanblock.units import format_length
from fanblock.wearer.measures import NEEDED

DROP = "drop"
RANGED = ("bust", "waist", DROP, "bust to waist")
"""The measures whose ranges are told; the drop is the bust less the waist."""

HARDLY_ANY_MM, GREAT_DROP_MM = 40.0, 220.0
SMALL_BUST_MM, LARGE_BUST_MM = 800.0, 1200.0
SHORT_MM, LONG_MM = 145.0, 185.0
TILTED_MM = 10.0
_ENOUGH = 10
_MOSTLY, _OFTENER = 0.5, 1.5
"""A kind is named when half of those it happens to are of it, and half as many again as of the sound ones."""


@dataclass(frozen=True, slots=True)
class Range:
    """The least and the most of one measure, in mm."""

    name: str
    least_mm: float
    most_mm: float

    def words(self, units: str) -> str:
        """Return the range for reading: ``bust 76 to 80 cm``, or one length where both are alike."""
        least, most = _short(self.least_mm, units), _short(self.most_mm, units)
        if least == most:
            return f"{self.name} {least}"
        return f"{self.name} {least.removesuffix(f' {units}')} to {most}"


def figure(person: Person) -> Mapping[str, float]:
    """Return those of the ranged measures that a person has, in mm."""
    values = {name: person.values[name] for name in NEEDED if name in person.values}
    if "bust" in values and "waist" in values:
        values[DROP] = values["bust"] - values["waist"]
    return {name: values[name] for name in RANGED if name in values}


def ranges(persons: Sequence[Person]) -> tuple[Range, ...]:
    """Return the range of each ranged measure that any of the persons has."""
    figures = [figure(person) for person in persons]
    found = []
    for name in RANGED:
        values = [one[name] for one in figures if name in one]
        if values:
            found.append(Range(name, min(values), max(values)))
    return tuple(found)


def kinds(persons: Sequence[Person], sound: Sequence[Person], units: str) -> tuple[str, ...]:
    """Return sentences on what the persons have in common that the sound ones mostly have not."""
    found = []
    for says, is_one in _kinds(units):
        ours, theirs = _count(persons, is_one), _count(sound, is_one)
        often = ours >= _MOSTLY * len(persons) and ours * len(sound) >= _OFTENER * theirs * len(persons)
        if ours and (often or is_one is _over):
            found.append(f"{_of_them(ours, len(persons))} {says}")
    return (*found, *_apart(persons, sound))


def _short(mm: float, units: str) -> str:
    return format_length(mm, units).replace(".0 ", " ")


def _count(persons: Sequence[Person], is_one: Callable[[Mapping[str, float]], bool]) -> int:
    return sum(is_one(person.values) for person in persons)


def _of_them(count: int, of: int) -> str:
    if of == 1:
        return "it has"
    if count == of:
        return "both have" if of == 2 else f"all {of} have"
    return f"{count} of them {'has' if count == 1 else 'have'}"


def _over(values: Mapping[str, float]) -> bool:
    return "bust" in values and values.get("waist", 0.0) > values["bust"]


def _drop(values: Mapping[str, float], least: float, most: float) -> bool:
    return "bust" in values and "waist" in values and least < values["bust"] - values["waist"] <= most


def _kinds(units: str) -> tuple[tuple[str, Callable[[Mapping[str, float]], bool]], ...]:
    endless = float("inf")

    def length(mm: float) -> str:
        return _short(mm, units)

    def between(name: str, least: float, most: float) -> Callable[[Mapping[str, float]], bool]:
        return lambda values: name in values and least < values[name] < most

    def back(sign: float) -> Callable[[Mapping[str, float]], bool]:
        def is_one(values: Mapping[str, float]) -> bool:
            name, front = "bust to waist at back", values.get("bust to waist", 0.0)
            return name in values and sign * (values[name] - front) >= TILTED_MM

        return is_one

    return (
        ("a waist larger than the bust", _over),
        (
            f"hardly any waist (a drop of {length(HARDLY_ANY_MM)} or less)",
            lambda values: not _over(values) and _drop(values, -1.0, HARDLY_ANY_MM),
        ),
        (f"a drop of more than {length(GREAT_DROP_MM)}", lambda values: _drop(values, GREAT_DROP_MM, endless)),
        (f"a bust under {length(SMALL_BUST_MM)}", between("bust", 0.0, SMALL_BUST_MM)),
        (f"a bust over {length(LARGE_BUST_MM)}", between("bust", LARGE_BUST_MM, endless)),
        (f"a bust to waist under {length(SHORT_MM)}", between("bust to waist", 0.0, SHORT_MM)),
        (f"a bust to waist over {length(LONG_MM)}", between("bust to waist", LONG_MM, endless)),
        (f"a back at least {length(TILTED_MM)} shorter than the front", back(-1.0)),
        (f"a back at least {length(TILTED_MM)} longer than the front", back(1.0)),
    )


def _apart(persons: Sequence[Person], sound: Sequence[Person]) -> list[str]:
    """Tell of measures in which all persons lie beyond every sound one, when there are enough of those to mean it."""
    if len(sound) < _ENOUGH:
        return []
    theirs = {one.name: one for one in ranges(sound)}
    found = []
    for ours in ranges(persons):
        if ours.name not in theirs:
            continue
        larger, smaller = ("longer", "shorter") if ours.name == "bust to waist" else ("larger", "smaller")
        for beyond, word in (
            (ours.least_mm > theirs[ours.name].most_mm, larger),
            (ours.most_mm < theirs[ours.name].least_mm, smaller),
        ):
            if beyond:
                has = "it has" if len(persons) == 1 else "each has"
                found.append(f"{has} a {word} {ours.name} than any sound body")
    return found
