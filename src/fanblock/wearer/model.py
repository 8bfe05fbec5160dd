"""What is known of a wearer: sets of measures, each over one layer, and corrections of the figure.

All lengths are millimetres.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fanblock.wearer.fixed import Fixed

SHIFT, STAYS = "shift", "stays"
OVERS = (SHIFT, STAYS)
"""The layers that measures may be taken over."""

CENTER_BACK, CENTER_FRONT = "center back", "center front"
SIDE = "side"

LEFT, RIGHT = "left", "right"
HALVES = (LEFT, RIGHT)
"""The wearer's two halves, always told in this order."""

MAY_DIFFER_MM = 10.0
"""How much left and right may differ before two halves are drawn: a centimetre is within what a lace, a seam and the tape
itself give (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Measures:
    """One set of measures: ``over`` which layer, ``taken_on`` an ISO date or empty, ``values`` in mm.

    ``sides`` holds left and right of each measure that was written apart and is not the same on both: of a girth or an arc
    its two halves, of which the value is the sum, of any other the measure on either side, of which it is the mean.
    """

    over: str
    taken_on: str
    values: Mapping[str, float]
    sides: Mapping[str, tuple[float, float]] = field(default_factory=Fixed)


@dataclass(frozen=True, slots=True)
class Tilt:
    """A wedge taken out of the block: ``take_mm`` at one centre line (negative lets out), nothing far from
    it.

    ``at`` is ``center back`` or ``center front``. ``height_ratio`` is where on the way from waist (0) to
    bust (1). ``to`` is ``side`` when the wedge ends at the side, empty when it ends at the other centre
    line.

    One of a single ``half`` (``left`` or ``right``) is ``at`` the ``side``, and nothing at either centre line, where that
    half is joined to the other.
    """

    at: str
    take_mm: float
    height_ratio: float = 0.5
    to: str = ""
    half: str = ""


@dataclass(frozen=True, slots=True)
class Wearer:
    """One body: its sets of measures in the order of :data:`OVERS`, its corrections, and notes for the maker.

    ``units`` (``in``, ``cm`` or ``mm``) is for talking back; it changes no length. Where left and right differ by no more
    than ``may_differ_mm`` both halves are drawn alike.
    """

    name: str
    sets: tuple[Measures, ...]
    figure: tuple[Tilt, ...] = ()
    notes: tuple[str, ...] = ()
    units: str = "cm"
    may_differ_mm: float = MAY_DIFFER_MM

    @property
    def overs(self) -> tuple[str, ...]:
        """The layers there are measures over."""
        return tuple(measures.over for measures in self.sets)
