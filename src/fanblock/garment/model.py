"""What a garment file holds once it has been read. Lengths are millimetres, shares ratios."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from fanblock.draft.altering import Alteration

FORMAT = 1
"""The format of garment files that is read and written."""


@dataclass(frozen=True, slots=True)
class Cloth:
    """The cloth of one layer as it lies in the shop.

    ``warp_shrinks`` and ``weft_shrinks`` are the shares of its length and width that washing takes. With a ``nap`` all
    pieces lie the same way up; ``repeat_mm`` is the height of a pattern that is to be matched. ``selvedge_mm`` is kept free
    along both edges. ``folded`` cloth is cut two at once. ``written`` is its width as the maker wrote it.
    """

    width_mm: float
    warp_shrinks: float = 0.0
    weft_shrinks: float = 0.0
    nap: bool = False
    repeat_mm: float = 0.0
    selvedge_mm: float = 10.0
    folded: bool = False
    written: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True)
class Change:
    """One thing a fitting changed in this garment alone: what, for which draft, why, and on which day (may be empty).

    One of the ``left`` or the ``right`` ``half`` alone says so.
    """

    alteration: Alteration
    draft: int = 1
    because: str = ""
    on: str = ""
    half: str = ""


@dataclass(frozen=True, slots=True)
class Garment:
    """One garment: ``wearer`` and ``recipe`` as its file names them, ``dials`` as they are written.

    ``over`` chooses the set of measures, empty where the recipe does. ``cloth`` is by layer. ``changes`` stand in the order
    they were made; ``draft`` is the number of the draft they lead to.
    """

    wearer: str
    recipe: str
    name: str = ""
    draft: int = 1
    over: str = ""
    dials: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    cloth: Mapping[str, Cloth] = field(default_factory=lambda: MappingProxyType({}))
    changes: tuple[Change, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def alterations(self) -> tuple[Alteration, ...]:
        """What the changes alter in both halves, in their order."""
        return tuple(change.alteration for change in self.changes if not change.half)

    @property
    def own_alterations(self) -> tuple[tuple[str, Alteration], ...]:
        """What the changes alter in one half alone, each with that half."""
        return tuple((change.half, change.alteration) for change in self.changes if change.half)
