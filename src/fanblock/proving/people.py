"""Many bodies to try a recipe on: what is known of each, and an invented spread of them made by a formula.

A *person* is a row of measures, read or invented. The invented ones are nobody: they follow published size
tables and go well beyond them both ways, so that a recipe meets small and large, curved and straight, long
and short in every mixture.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean, median

from fanblock.problems import Problem
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.measures import NEEDED
from fanblock.wearer.model import Measures, Wearer

UNREADABLE = "measure"
"""The code of whatever is wrong with a row itself."""


@dataclass(frozen=True, slots=True)
class Person:
    """One row: its number, a name, measures in mm, and why it cannot be used, if it cannot."""

    row: int
    name: str
    values: Mapping[str, float]
    faults: tuple[Problem, ...] = ()

    def wearer(self, over: str, units: str) -> Wearer:
        """Return the person as a wearer with one set of measures, taken ``over`` shift or stays."""
        return Wearer(self.name, (Measures(over, "", self.values),), (), (), units)


@dataclass(frozen=True, slots=True)
class People:
    """Persons in the order of their rows, where they come from, and the units to talk back in.

    ``left_out`` tells, a sentence each, which columns of a file were not used.
    """

    source: str
    persons: tuple[Person, ...]
    units: str = "cm"
    left_out: tuple[str, ...] = ()
    invented: bool = False

    @property
    def measures(self) -> tuple[str, ...]:
        """The measures that any person has: the needed ones first, then by name."""
        names = {name for person in self.persons for name in person.values}
        return (*NEEDED, *sorted(names - set(NEEDED)))


BUSTS_CM = (*range(76, 105, 4), *range(110, 147, 6))
"""The sizes of W. Aldrich's table (76 to 122), carried on in its own steps of 6 cm to the largest of Hofenbitzer's."""

TABLE_DROP_CM = 16.0
"""Bust less waist in every size of W. Aldrich's table."""

DROPS_CM = (28.0, 22.0, TABLE_DROP_CM, 10.0, 4.0, -2.0)
"""That drop, twice 6 cm more, and three times 6 cm less, to a waist larger than the bust."""

LENGTHS_CM = (-0.8, 0.0, 0.8)
"""How much shorter or longer than the tables' the bust to waist is; all of them lie within 14.0 and 19.0 cm."""

BACKS_CM = (-1.5, 1.5)
"""How much shorter or longer than in front the bust to waist may be at the back; from memory."""

INVENTED = "bodies invented by a formula"


def invented_people(units: str = "cm") -> People:
    """Return the invented spread: 300 bodies, the same every time, none of them anybody's.

    Every bust of :data:`BUSTS_CM` is crossed with every drop and every length, and once more with a short and
    a long back. Bust and drop: W. Aldrich, Metric Pattern Cutting for Women's Wear (table said there to comply
    with EN 13402-3). Bust to waist and front length: straight lines through the first and last row, bust 76
    and 146, of the German table of 1994 in G. Hofenbitzer, Grundschnitte und Modellentwicklungen 1, p. 20. Hip
    and hip depth: from memory of the European standard, and at least 4 cm over the waist. ``units`` are for talking back.
    """
    return People(INVENTED, tuple(_invented()), units, invented=True)


def _invented() -> Iterator[Person]:
    row = 0
    for bust in BUSTS_CM:
        figures = [(drop, length, 0.0) for drop in DROPS_CM for length in LENGTHS_CM]
        figures += [(TABLE_DROP_CM, 0.0, back) for back in BACKS_CM]
        for drop, more, back in figures:
            row += 1
            yield _figure(row, float(bust), drop, more, back)


def _figure(row: int, bust: float, drop: float, more: float, back: float) -> Person:
    share = (bust - 76.0) / (146.0 - 76.0)
    length = 18.2 - share * (18.2 - 14.8) + more
    hip = max(bust + 8.0 if bust <= 104.0 else 112.0 + (bust - 104.0) * 5.0 / 6.0, bust - drop + 4.0)
    values = {
        "bust": bust,
        "waist": bust - drop,
        "bust to waist": length,
        "front length": 43.9 + share * (54.5 - 43.9) + more,
        "hip": hip,
        "hip depth": 20.5,
    }
    name = f"bust {bust:.0f}, drop {drop:.0f}, length {length:.1f}"
    if back:
        values["bust to waist at back"] = length + back
        name += f", back {length + back:.1f}"
    return Person(row, name, Fixed({measure: round(10.0 * value, 1) for measure, value in values.items()}))


def middle_people(persons: Sequence[Person]) -> tuple[Person, Person] | None:
    """Return a median and a mean body of the persons that can be used; None when there are none.

    Each measure is taken by itself, and only if all of them have it: neither body need be anybody's.
    """
    usable = [person for person in persons if not person.faults]
    if not usable:
        return None
    shared = sorted(set.intersection(*(set(person.values) for person in usable)))
    columns = {name: [person.values[name] for person in usable] for name in shared}
    medians = {name: float(median(column)) for name, column in columns.items()}
    means = {name: fmean(column) for name, column in columns.items()}
    return Person(0, "median body", Fixed(medians)), Person(0, "mean body", Fixed(means))
