"""Paper that patterns are printed on: sheets from a home printer, and rolls from a copy shop."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from fanblock.problems import ExportError, Problem, nearest

_INCH_MM = 25.4
NARROWEST_ROLL_MM, WIDEST_ROLL_MM = 200.0, 5000.0
"""Narrowest and widest roll that is taken: less does not hold the test square, more is a slip of the pen."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper, upright. ``height_mm`` is 0 for a roll, which is as long as the drawing needs.

    ``margin_mm`` is kept free all around, since home printers cannot reach it. ``overlap_mm`` is the strip
    that two neighbouring pages both show.
    """

    name: str
    width_mm: float
    height_mm: float
    margin_mm: float = 10.0
    overlap_mm: float = 10.0

    @property
    def is_roll(self) -> bool:
        """Whether the paper has no length of its own."""
        return self.height_mm == 0.0


A4 = Paper("A4", 210.0, 297.0)
LETTER = Paper("Letter", 8.5 * _INCH_MM, 11.0 * _INCH_MM)
A3 = Paper("A3", 297.0, 420.0)
A0 = Paper("A0", 841.0, 1189.0)
"""A4, A3 and A0 by ISO 216; Letter by ANSI/ASME Y14.1, size A."""

PROJECTOR = Paper("projector", 1200.0, 0.0, margin_mm=0.0, overlap_mm=0.0)
"""No paper: one page thrown on the cloth, as wide as a projector above a table reaches (common practice, no source)."""

PAPERS: Mapping[str, Paper] = MappingProxyType({"a4": A4, "letter": LETTER, "a3": A3, "a0": A0, "projector": PROJECTOR})
"""Sheets by the word a maker asks for them with."""


def roll(width_mm: float) -> Paper:
    """Return a roll ``width_mm`` wide; :class:`ExportError` outside 200 to 5000 mm."""
    if not NARROWEST_ROLL_MM <= width_mm <= WIDEST_ROLL_MM:
        raise ExportError(
            [
                Problem(
                    "roll-width",
                    "paper",
                    f"A roll {width_mm:g} mm wide cannot be used.",
                    f"Give a width from {NARROWEST_ROLL_MM:g} to {WIDEST_ROLL_MM:g} mm.",
                )
            ]
        )
    return Paper(f"roll {width_mm:g} mm", width_mm, 0.0)


def paper(name: str) -> Paper:
    """Return the paper called ``name``: one of :data:`PAPERS`, or ``roll`` and a width in millimetres
    (``roll 914``).

    Raises :class:`fanblock.problems.ExportError` with the nearest names when there is none.
    """
    word = " ".join(name.lower().split()).removeprefix("us ")
    if word in PAPERS:
        return PAPERS[word]
    wide = re.fullmatch(r"roll[ -]?(\d{1,5}(?:\.\d{1,3})?)(?: ?mm)?", word)
    if wide:
        return roll(float(wide[1]))
    raise ExportError(
        [Problem("paper", "paper", f"There is no paper called “{name}”.", nearest(word, [*PAPERS, "roll 914"]))]
    )
