"""A wearer whose left and right differ: by how much, and each half as if the body were like it on both sides."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from fanblock.units import format_length, spoken_length
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.measures import HALF, MEASURES
from fanblock.wearer.model import HALVES, SHIFT, STAYS, Measures, Wearer

ARC, BUST = "front arc", "bust"


@dataclass(frozen=True, slots=True)
class Uneven:
    """Something that is not the same left and right: what, and how long on either side, in mm."""

    name: str
    left_mm: float
    right_mm: float

    @property
    def apart_mm(self) -> float:
        """How much the two differ."""
        return abs(self.left_mm - self.right_mm)

    def words(self, units: str) -> str:
        """Return it in words: ``waist left 37.0 cm, right 36.6 cm, differ by 4 mm``."""
        left, right = format_length(self.left_mm, units), format_length(self.right_mm, units)
        return f"{self.name} left {left}, right {right}, differ by {spoken_length(self.apart_mm, units)}"


def uneven(wearer: Wearer, over: str) -> tuple[Uneven, ...]:
    """Return what is not the same left and right in the measures over a layer and in the figure, the largest first.

    What a set over the stays borrows from the shift, or is predicted from, counts with it.
    """
    sets = {measures.over: measures for measures in wearer.sets}
    sides: dict[str, tuple[float, float]] = {}
    if over == STAYS and SHIFT in sets:
        there = sets[STAYS].values if STAYS in sets else {}
        sides |= {name: both for name, both in sets[SHIFT].sides.items() if name not in there}
    if over in sets:
        sides |= dict(sets[over].sides)
    found = [Uneven(name, *sides[name]) for name in MEASURES if name in sides]
    takes = [sum(tilt.take_mm for tilt in wearer.figure if tilt.half == half) for half in HALVES]
    if takes[0] != takes[1]:
        found.append(Uneven("wedge at the side", *takes))
    return tuple(sorted(found, key=lambda one: -one.apart_mm))


def half_wearer(wearer: Wearer, half: str) -> Wearer:
    """Return the wearer as if both halves were like the ``left`` or the ``right`` one; wedges at the side are left out."""
    at = HALVES.index(half)
    sets = tuple(replace(measures, values=_values(measures, at), sides=Fixed()) for measures in wearer.sets)
    return replace(wearer, sets=sets, figure=tuple(tilt for tilt in wearer.figure if not tilt.half))


def _values(measures: Measures, at: int) -> Mapping[str, float]:
    """The measures of one half counted twice; a front arc measured as one has the bust's share in either half."""
    values = dict(measures.values)
    for name, both in measures.sides.items():
        values[name] = 2.0 * both[at] if MEASURES[name].sides == HALF else both[at]
    if ARC in values and ARC not in measures.sides:
        values[ARC] *= values[BUST] / measures.values[BUST]
    return Fixed(values)
