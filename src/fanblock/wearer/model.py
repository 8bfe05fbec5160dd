"""What is known of a wearer: sets of measures, each over one layer, and corrections of the figure.

All lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

SHIFT, STAYS = "shift", "stays"
OVERS = (SHIFT, STAYS)
"""The layers that measures may be taken over."""

CENTER_BACK, CENTER_FRONT = "center back", "center front"
SIDE = "side"


@dataclass(frozen=True, slots=True)
class Measures:
    """One set of measures: ``over`` which layer, ``taken_on`` an ISO date or empty, ``values`` in mm."""

    over: str
    taken_on: str
    values: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Tilt:
    """A wedge taken out of the block: ``take_mm`` at one centre line (negative lets out), nothing far from
    it.

    ``at`` is ``center back`` or ``center front``. ``height_ratio`` is where on the way from waist (0) to
    bust (1). ``to`` is ``side`` when the wedge ends at the side, empty when it ends at the other centre
    line.
    """

    at: str
    take_mm: float
    height_ratio: float = 0.5
    to: str = ""


@dataclass(frozen=True, slots=True)
class Wearer:
    """One body: its sets of measures in the order of :data:`OVERS`, its corrections, and notes for the maker.

    ``units`` (``in``, ``cm`` or ``mm``) is for talking back; it changes no length.
    """

    name: str
    sets: tuple[Measures, ...]
    figure: tuple[Tilt, ...] = ()
    notes: tuple[str, ...] = ()
    units: str = "cm"

    @property
    def overs(self) -> tuple[str, ...]:
        """The layers there are measures over."""
        return tuple(measures.over for measures in self.sets)
