"""What a sentence of a fitting may do, and what a sentence is.

Lengths are millimetres. An amount is what the maker measured or pinched, both layers together where she pinches; ``share``
says how much of it goes into one half.
"""

from __future__ import annotations

from dataclasses import dataclass

from fanblock.units import parse_length, spoken_length

FRONT, SIDE, BACK, ALL = "front", "side", "back", "all round"
REGIONS = {FRONT: (0.0, 0.36), SIDE: (0.36, 0.62), BACK: (0.62, 1.0), ALL: (0.0, 1.0)}
"""Where the seams of a region lie, as shares of the half round from the centre front."""

TOP, BUST, MIDDLE, WAIST = "top", "bust", "middle", "waist"
LEVELS = (TOP, BUST, MIDDLE, WAIST)
"""The levels at which a gap or a pinch is measured, from the top down; the middle is half way from waist to bust."""

IN_FRONT, BENEATH, BEHIND = "in front of the arm", "under the arm", "behind the arm"
"""The places of an armhole."""

LENGTHS, WAIST_GIRTH, GIRTHS, EDGES, SKIRTS = 1, 2, 3, 4, 5
"""The order in which notes are applied: a waist at a wrong height makes every other note false."""


@dataclass(frozen=True, slots=True)
class Longer:
    """A measure of the wearer gets longer."""

    measure: str
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class TakeOut:
    """A wedge is taken out of the block at a centre line, half way from waist to bust; it belongs to the wearer."""

    at: str
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class TakeIn:
    """The seams of a region take in at a level; ``each`` gives every one of them the whole."""

    level: str
    region: str
    share: float = 1.0
    each: bool = False


@dataclass(frozen=True, slots=True)
class Raise:
    """An outline edge is raised at a place around, within ``reach`` either side."""

    edge: str
    around: float
    reach: float
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class Spring:
    """Every seam of a region that runs below the waist springs more at the hem."""

    region: str
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class Hollow:
    """The armhole is raised at one of its places, :data:`IN_FRONT`, :data:`BENEATH` or :data:`BEHIND`, wherever it lies."""

    place: str
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class Turn:
    """A dial of the recipe is turned; where the recipe has none of that name, every seam springs its part of it."""

    dial: str
    share: float = 1.0


Effect = Longer | TakeOut | TakeIn | Raise | Spring | Hollow | Turn


@dataclass(frozen=True, slots=True)
class Sentence:
    """One thing a maker may see: in what words, what it means, what it changes, and by how much.

    ``asks`` tells what the amount is. Where nothing can be computed there are no effects, and ``advice`` alone is told.
    ``of`` are the parts a garment must have to be asked it (:mod:`fanblock.fitting.parts`), ``advice_of`` those it must
    have for the advice to be of use.
    """

    words: str
    order: int
    reading: str
    effects: tuple[Effect, ...] = ()
    typical_mm: float = 0.0
    least_mm: float = 0.0
    most_mm: float = 0.0
    asks: str = ""
    advice: str = ""
    of: tuple[str, ...] = ()
    advice_of: tuple[str, ...] = ()

    def usual_mm(self, units: str) -> float:
        """Return the usual amount as a tape in these units shows it, the same wherever it is told and applied."""
        return parse_length(spoken_length(self.typical_mm, units))
