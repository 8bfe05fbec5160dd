"""Guesses at what was not measured, by published size tables and tailors' rules; every one says in words how it came.

All lengths are millimetres. Each function takes the lengths there are and returns the guess and its words.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Mapping
from types import MappingProxyType

from fanblock.units import format_length

BACK_AT_MM, BACK_LEAST_MM, BACK_MOST_MM = 800.0, 402.0, 440.0
BACK_PER_BUST = 0.1
"""Nape to waist by bust: W. Aldrich, Metric Pattern Cutting for Women's Wear (said there to comply with EN 13402-3)."""

UNDERARM_OF_BACK = 0.5
"""8 in goes with 16 in of back: Artistic Ladies' Tailor System (New York, 1902)."""

FRONT_OVER_BACK_MM = (
    (760.0, 25.0), (840.0, 33.0), (880.0, 37.0), (920.0, 41.0), (1000.0, 49.0),
    (1100.0, 61.0), (1220.0, 77.0), (1340.0, 93.0), (1460.0, 109.0),
)  # fmt: skip
"""How much longer the front is than the back, by bust: the German table of 1994 in G. Hofenbitzer, Grundschnitte und
Modellentwicklungen 1, p. 20 (seen as a transcription)."""

UPPER_BUST_MM = (760.0, 1220.0)
UPPER_AT_880_MM: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"across back": (344.0, 0.25), "across front": (324.0, 0.30), "neck": (370.0, 0.25), "shoulder": (122.0, 0.0625)}
)
"""What shoulders and armholes need: the length at bust 880 mm and what each millimetre of bust more adds, within the
table's busts. From memory of a women's size table."""

ARM_AT_880_MM: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"upper arm": (284.0, 0.30), "wrist": (160.0, 0.10), "arm length": (585.0, 0.125)}
)
"""What sleeves need, in the same way and from memory of the same table. Of the women and men measured by Heinz and others
(2003) the upper arm lies within 3 cm of it for nine in ten."""

ELBOW_OF_UPPER_ARM = 0.88
"""The bent elbow as a share of the upper arm, which tells more of an arm than the bust does (from memory)."""

INCH_MM = 25.4

_ASTM_BUST = (31.125, 31.75, 33.0, 34.125, 35.25, 36.25, 37.25, 38.75, 40.375, 42.125, 44.0, 46.0)
_ASTM_GIRTHS = {
    "underbust": (25.75, 26.5, 27.25, 28.0, 29.0, 30.0, 31.0, 32.5, 34.0, 35.75, 37.625, 39.625),
    "upper chest": (31.75, 32.25, 33.25, 34.125, 35.0, 35.875, 36.75, 38.0, 39.25, 40.625, 42.25, 43.875),
}
OVER_BUST_MM: Mapping[str, tuple[tuple[float, float], ...]] = MappingProxyType(
    {
        name: tuple((INCH_MM * bust, INCH_MM * (girth - bust)) for bust, girth in zip(_ASTM_BUST, girths, strict=True))
        for name, girths in _ASTM_GIRTHS.items()
    }
)
"""How much larger than the bust (less than nought: smaller) underbust and upper chest are, by bust, in mm: ASTM
D5585-11e1, table 1, sizes 00 to 20, given there in inches. Bodies differ from it by several centimetres."""

UNDERBUST_OF_BACK, UNDERBUST_OF_BUST = 0.25, 0.75
"""The fold under the breast lies on the ribs: a quarter of the back length above the waist, and never over three
quarters of the way to the bust (from memory)."""

RAISED_BELOW_BUST_MM = 80.0
"""The high waist of about 1800 to 1815 lies 5 to 8 cm below the bust (from memory)."""

ELBOW_OF_ARM = 0.186 / (0.186 + 0.146)
"""Shoulder to elbow as a share of shoulder to wrist: upper arm and forearm are 0.186 and 0.146 of a person's height (Drillis
and Contini, 1966, as given in D. A. Winter, Biomechanics and Motor Control of Human Movement)."""

Guess = tuple[float, str]


def back_length(lengths: Mapping[str, float], units: str) -> Guess:
    """Return nape to waist, guessed from the bust."""
    back_mm = BACK_LEAST_MM + BACK_PER_BUST * (lengths["bust"] - BACK_AT_MM)
    back_mm = min(max(back_mm, BACK_LEAST_MM), BACK_MOST_MM)
    return back_mm, f"{format_length(back_mm, units)}, from the bust by a women's size table"


def underarm(lengths: Mapping[str, float], units: str, back: str) -> Guess:
    """Return armpit to waist, half of the back length; ``back`` says which back length that is."""
    mm = UNDERARM_OF_BACK * lengths["back length"]
    return mm, f"{format_length(mm, units)}, half of {back} (a tailors' rule of 1902)"


def front_length(lengths: Mapping[str, float], units: str, back: str) -> Guess:
    """Return shoulder to waist over the bust: the back length and what a front of this bust is longer."""
    mm = lengths["back length"] + _between(FRONT_OVER_BACK_MM, lengths["bust"])
    return mm, f"{format_length(mm, units)}, from {back} and the bust by a German size table"


def girth_beside_bust(name: str, lengths: Mapping[str, float], units: str) -> Guess:
    """Return the underbust or the upper chest, guessed from the bust by a published size table."""
    mm = lengths["bust"] + _between(OVER_BUST_MM[name], lengths["bust"])
    return mm, f"{format_length(mm, units)}, from the bust by a size table (ASTM D5585-11e1)"


def underbust_height(lengths: Mapping[str, float], units: str, back: str) -> Guess:
    """Return waist to underbust, a quarter of the back length; ``back`` says which back length that is."""
    mm = UNDERBUST_OF_BACK * lengths["back length"]
    low = UNDERBUST_OF_BUST * lengths["bust to waist"]
    if mm > low:
        return low, f"{format_length(low, units)}, three quarters of bust to waist (from memory)"
    return mm, f"{format_length(mm, units)}, a quarter of {back} (from memory)"


def upper_chest_height(lengths: Mapping[str, float], units: str) -> Guess:
    """Return waist to upper chest: the tape goes high under the arms, so it lies as high as the armpit."""
    mm = lengths["underarm"]
    return mm, f"{format_length(mm, units)}, as high as the underarm (from memory)"


def raised_waist_height(lengths: Mapping[str, float], units: str) -> Guess:
    """Return how high a raised waistline lies: close under the breasts, and not over 8 cm below the bust as it is held."""
    low, high = lengths["underbust height"], lengths.get("raised", lengths["bust to waist"]) - RAISED_BELOW_BUST_MM
    if high > low:
        return (
            high,
            f"{format_length(high, units)}, {format_length(RAISED_BELOW_BUST_MM, units)} below the bust (from memory)",
        )
    return low, f"{format_length(low, units)}, as high as the underbust (from memory)"


def raised_waist(lengths: Mapping[str, float], units: str) -> Guess:
    """Return the girth at the raised waist, on a straight line from the waist to the underbust."""
    share = min(lengths["raised waist height"] / lengths["underbust height"], 1.0)
    mm = lengths["waist"] + share * (lengths["underbust"] - lengths["waist"])
    return mm, f"{format_length(mm, units)}, between waist and underbust by its height (from memory)"


def upper(name: str) -> Callable[[Mapping[str, float], str], Guess]:
    """Return what guesses across back, across front, neck, shoulder, upper arm, wrist or arm length from the bust."""
    at_880, per_mm = {**UPPER_AT_880_MM, **ARM_AT_880_MM}[name]

    def guess(lengths: Mapping[str, float], units: str) -> Guess:
        bust = min(max(lengths["bust"], UPPER_BUST_MM[0]), UPPER_BUST_MM[1])
        mm = at_880 + per_mm * (bust - 880.0)
        return mm, f"{format_length(mm, units)}, from the bust (from memory of a size table)"

    return guess


def elbow(lengths: Mapping[str, float], units: str) -> Guess:
    """Return the girth of the bent elbow, a share of the upper arm."""
    mm = ELBOW_OF_UPPER_ARM * lengths["upper arm"]
    return mm, f"{format_length(mm, units)}, {ELBOW_OF_UPPER_ARM:.0%} of the upper arm (from memory)"


def shoulder_to_elbow(lengths: Mapping[str, float], units: str) -> Guess:
    """Return shoulder to elbow, a share of the arm length."""
    mm = ELBOW_OF_ARM * lengths["arm length"]
    return mm, f"{format_length(mm, units)}, {ELBOW_OF_ARM:.0%} of the arm length (Drillis and Contini, 1966)"


def _between(rows: tuple[tuple[float, float], ...], at: float) -> float:
    """Return the value at ``at`` of straight lines between rows, the outer rows' values beyond them."""
    number = bisect_right(rows, (at, float("inf")))
    if number in (0, len(rows)):
        return rows[min(number, len(rows) - 1)][1]
    (low, first), (high, second) = rows[number - 1 : number + 1]
    return first + (at - low) / (high - low) * (second - first)
