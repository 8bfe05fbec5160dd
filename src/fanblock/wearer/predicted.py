"""A set of measures over stays, predicted from the set over the shift for who has not been measured laced yet.

Stays make another body: waist and bust laced, their thickness all round, the bust held higher. What they come to is said
in words beside each, so that nobody cuts cloth by it without measuring again.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from fanblock.units import format_length
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.model import STAYS, Measures

LACED_WAIST, LACED_BUST = 0.03, 0.01
"""How much of waist and bust half-boned stays lace away (from memory)."""

LACED_RIBS = 0.02
"""How much of raised waist and underbust, which lie between the two, they lace away (from memory)."""

STAYS_THICK_MM = 3.0
"""How thick stays are; a girth over them is 2π times that larger (the circle's; the thickness from memory)."""

PETTICOATS_THICK_MM = 10.0
"""How thick two petticoats of linen or wool are at the hip, folds and air and all, without a pad or roll: the hip over them is
2π times that larger, about 6 cm (from memory)."""


def girths_over_stays(shift: Mapping[str, float], units: str) -> Mapping[str, tuple[float, str]]:
    """Return each girth of the trunk that was measured over the shift as it is over stays and petticoats, and how that came.

    The tape of the upper chest lies over the stays behind and on the shift in front, so it goes round half their
    thickness, and they lace nothing away there (from memory). At the hip there are no stays, but petticoats.
    """
    around_mm = 2.0 * math.pi * STAYS_THICK_MM
    found: dict[str, tuple[float, str]] = {}
    for name, laced in (("bust", LACED_BUST), ("waist", LACED_WAIST), *((rib, LACED_RIBS) for rib in _RIBS)):
        if name in shift:
            more = f"{format_length(around_mm, units)} more for the stays"
            how = f"that over the shift less {laced:.0%} for lacing and {more}"
            found[name] = (shift[name] * (1.0 - laced) + around_mm, how)
    if "upper chest" in shift:
        how = f"that over the shift and {format_length(around_mm / 2.0, units)} more for the stays behind"
        found["upper chest"] = (shift["upper chest"] + around_mm / 2.0, how)
    if "hip" in shift:
        more_mm = 2.0 * math.pi * PETTICOATS_THICK_MM
        how = f"that over the shift and {format_length(more_mm, units)} more for two petticoats (from memory: measure it over yours)"
        found["hip"] = (shift["hip"] + more_mm, how)
    return found


_RIBS = ("underbust", "raised waist")


def over_stays(shift: Measures, held_bust_mm: float, units: str) -> tuple[Measures, Mapping[str, str]]:
    """Return a predicted set over stays, undated, and for each measure in it how it came.

    ``shift`` is the set over the shift, ``held_bust_mm`` how high above the waist the stays hold the bust. What lacing
    leaves alone is not in the set: it is borrowed like any other.
    """
    values: dict[str, float] = {}
    words: dict[str, str] = {}

    def put(name: str, mm: float, how: str) -> None:
        values[name] = mm
        words[name] = f"{format_length(mm, units)}, {how}"

    for name, (mm, how) in girths_over_stays(shift.values, units).items():
        put(name, mm, how)
    lift_mm = held_bust_mm - shift.values["bust to waist"]
    put("bust to waist", held_bust_mm, "where the stays hold the bust")
    for name in ("bust to waist at side", "bust to waist at back"):
        if name in shift.values:
            put(name, shift.values[name] + lift_mm, f"that over the shift and {format_length(lift_mm, units)} more")
    if "front arc" in shift.values:
        share = shift.values["front arc"] / shift.values["bust"]
        put("front arc", share * values["bust"], "the same share of the bust as over the shift")
    return Measures(STAYS, shift.taken_on, Fixed(values)), Fixed(words)
