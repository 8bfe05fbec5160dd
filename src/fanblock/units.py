"""Lengths in and out: what people type becomes millimetres, and millimetres become what people read.

An inch is exactly 25.4 mm. Reading is exact (in fractions) until the last step, so the same length typed in
another unit is the same number.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from fanblock.tolerances import SAME_POINT_MM

UNITS: Mapping[str, float] = MappingProxyType({"mm": 1.0, "cm": 10.0, "in": 25.4})
"""Millimetres in one of each unit."""

METRE_MM = 1000.0

YARD_MM = 36.0 * UNITS["in"]

EIGHTHS, SIXTEENTHS, THIRTY_SECONDS = 8, 16, 32
"""How a tape and a ruler divide an inch: tapes to an eighth or a sixteenth, rulers finer (common practice, no source)."""

NARROW_MM = 3.0 / 8.0 * UNITS["in"]
"""Below this a width in eighths of an inch would be too coarse to work by."""

SHORT_MM = 20.0
"""Below this, widths are spoken of in millimetres by those who measure in centimetres (common practice, no source)."""

SOLD_MM = 100.0
"""Cloth, bone, lace and tape are sold by 10 cm, or by the eighth of a yard (common practice, no source)."""

NEAR_RATIO = 0.06
"""How far a length in a text may be out when it is told in inches: such lengths are themselves round."""

_EXACT = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(254, 10)}
_SPELLINGS = {
    "mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "cm": "cm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
    "in": "in", "inch": "in", "inches": "in", '"': "in", "″": "in", "”": "in", "''": "in",
}  # fmt: skip
_VULGAR = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅓": "1/3",
    "⅔": "2/3",
}
_LONGEST_TEXT = 40
_MOST_MM = 100_000
_LENGTH = re.compile(
    r"""(?P<sign>[-+−]?)\s*
    (?P<number>
        (?P<whole>[0-9]+)(?:\s+|\s*-\s*)(?P<over>[0-9]+)\s*/\s*(?P<under>[0-9]+)
      | (?P<top>[0-9]+)\s*/\s*(?P<bottom>[0-9]+)
      | (?P<decimal>[0-9]+(?:\.[0-9]*)?|\.[0-9]+)
    )\s*(?P<unit>[^\s0-9.,/%+-]*)""",
    re.VERBOSE,
)
_TOLD = re.compile(
    r"(?<![\d.])(?<!× )(?P<range>\d+(?:\.\d+)?(?: to \d+(?:\.\d+)?)?) (?P<unit>mm|cm|m)\b"
    r"(?: \((?P<inches>[\d /]+(?: to [\d /]+)? (?:in|yd))\))?"
)
_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_COMMA = re.compile(r"([-+−]?[0-9]+),([0-9]+)(\s*\S*)")
_SHARE = re.compile(r"([-+−]?)([0-9]+(?:\.[0-9]*)?|\.[0-9]+)\s*%")


@dataclass(frozen=True, slots=True)
class Typed:
    """A length as somebody typed it: the number exactly, its text, and its unit (mm, cm or in)."""

    number: Fraction
    text: str
    unit: str

    @property
    def mm(self) -> float:
        """The length in millimetres."""
        return float(self.number * _EXACT[self.unit])

    def __str__(self) -> str:
        return f"{self.text} {self.unit}"


def typed_length(text: str, units: str | None = None) -> Typed:
    """Return the number and the unit that ``text`` holds.

    ``units`` is what a bare number stands for; without it a bare number is refused. Raises ValueError with
    a message for the person who typed it.

    >>> typed_length("34 1/2", "in").mm
    876.3
    """
    plain = " ".join(text.split())
    for sign, words in _VULGAR.items():
        plain = plain.replace(sign, f" {words}")
    plain = plain.strip()
    if comma := _COMMA.fullmatch(plain):
        raise ValueError(f"{shown(text)} has a comma. Write a point: {comma[1]}.{comma[2]}{comma[3]}.")
    found = _LENGTH.fullmatch(plain) if len(plain) <= _LONGEST_TEXT else None
    if found is None:
        raise ValueError(
            f"{shown(text)} is not a length. Write a number and a unit, such as 12 mm, 1.5 cm, 3/4 in or 2 1/4 in."
        )
    number = _number(found, text)
    typed_unit = found["unit"].casefold()
    if not typed_unit and units is None:
        raise ValueError(
            f"{shown(text)} has no unit. Write {found['number']} in or {found['number']} cm, "
            "or say once at the top what bare numbers mean: units: in (or cm, or mm)."
        )
    unit = _SPELLINGS.get(typed_unit) if typed_unit else units
    if unit not in _EXACT:
        raise ValueError(f"{shown(typed_unit or str(units))} is not a unit of length. Use mm, cm or in.")
    negative = found["sign"] in ("-", "−")
    typed = Typed(-number if negative else number, ("-" if negative else "") + found["number"], unit)
    if abs(typed.mm) > _MOST_MM:
        raise ValueError(f"{shown(text)} is longer than 100 metres. Look at the number and its unit.")
    return typed


def _number(found: re.Match[str], text: str) -> Fraction:
    if found["decimal"]:
        return Fraction(found["decimal"].rstrip("."))
    whole, over, under = (
        found["whole"] or "0",
        found["over"] or found["top"],
        found["under"] or found["bottom"],
    )
    if int(under) == 0:
        raise ValueError(f"{shown(text)} divides by nothing. Write a fraction such as 3/8.")
    if found["whole"] and int(over) >= int(under):
        raise ValueError(f"{shown(text)} has a fraction of one or more. Write a fraction below one, such as 2 1/8 in.")
    return int(whole) + Fraction(int(over), int(under))


def parse_length(text: str, units: str | None = None) -> float:
    """Return the length in ``text`` in millimetres; raises ValueError as :func:`typed_length` does.

    >>> parse_length("2 1/4 in")
    57.15
    >>> parse_length("91", "cm")
    910.0
    """
    return typed_length(text, units).mm


def parse_share(text: str) -> float:
    """Return the share that a text such as ``50%`` says, as a ratio; raises ValueError when it says none.

    >>> parse_share("12.5 %")
    0.125
    """
    plain = text.strip()
    found = _SHARE.fullmatch(plain) if len(plain) <= _LONGEST_TEXT else None
    if found is None:
        raise ValueError(f"{shown(text)} is not a share. Write it in per cent, such as 50%.")
    ratio = float(Fraction(found[2].rstrip(".")) / 100)
    return -ratio if found[1] in ("-", "−") and ratio else ratio


def format_length(mm: float, units: str = "mm") -> str:
    """Return a length for reading: inches to the nearest eighth, else one decimal; never minus zero.

    >>> format_length(876.3, "in"), format_length(910, "cm"), format_length(-0.01)
    ('34 1/2 in', '91.0 cm', '0.0 mm')
    """
    if units == "in":
        return _inches(mm)
    number = f"{mm / UNITS[units]:.1f}"
    return f"{'0.0' if number == '-0.0' else number} {units}"


def _inches(mm: float, parts: int = EIGHTHS) -> str:
    steps = round(mm / UNITS["in"] * parts)
    return f"{'-' if steps < 0 else ''}{_mixed(abs(steps), parts)} in"


def _mixed(steps: int, parts: int) -> str:
    """So many parts of one as a whole number and a fraction, such as ``2 3/8``."""
    whole, rest = divmod(steps, parts)
    fraction = str(Fraction(rest, parts)) if rest else ""
    return " ".join(part for part in (str(whole) if whole or not rest else "", fraction) if part)


def fine_length(mm: float, units: str) -> str:
    """Return a length that is marked or folded by: inches to a sixteenth, millimetres below 1 cm, else centimetres.

    >>> fine_length(8.0, "in"), fine_length(8.0, "cm"), fine_length(245.0, "cm"), fine_length(20.0, "cm")
    ('5/16 in', '8 mm', '24.5 cm', '2 cm')
    """
    if units == "in":
        return _inches(mm, SIXTEENTHS)
    return format_length(mm, "mm" if abs(mm) < UNITS["cm"] else units).replace(".0 ", " ")


def marked_mm(mm: float, units: str) -> float:
    """Return the nearest length that :func:`fine_length` tells exactly, so that several in a row end right by the tape.

    >>> marked_mm(40.0, "in"), marked_mm(11.25, "cm")
    (39.6875, 11.0)
    """
    step = UNITS["in"] / SIXTEENTHS if units == "in" else 1.0
    return round(mm / step) * step


def spoken_length(mm: float, units: str) -> str:
    """Return a width for talking back: inches to an eighth, narrow ones to a sixteenth; millimetres below 2 cm, else
    centimetres.

    >>> spoken_length(15.0, "in"), spoken_length(8.0, "in"), spoken_length(15.0, "cm"), spoken_length(50.0, "cm")
    ('5/8 in', '5/16 in', '15 mm', '5 cm')
    """
    if units == "in":
        return _inches(mm, SIXTEENTHS if abs(mm) < NARROW_MM else EIGHTHS)
    return fine_length(mm, "mm" if abs(mm) < SHORT_MM else units)


def drawn_length(mm: float, units: str) -> str:
    """Return a length to draw by with a ruler: inches to half a sixteenth, else as :func:`format_length` does.

    >>> drawn_length(293.4, "in"), drawn_length(293.4, "cm")
    ('11 9/16 in', '29.3 cm')
    """
    return _inches(mm, THIRTY_SECONDS) if units == "in" else format_length(mm, units)


def sold_length(mm: float, units: str) -> str:
    """Return a length as shops sell it, rounded up: yards to an eighth for who measures in inches, else metres to 10 cm.

    >>> sold_length(1485.9, "in"), sold_length(1486.0, "in"), sold_length(1201.0, "cm")
    ('1 5/8 yd', '1 3/4 yd', '1.3 m')
    """
    if units != "in":
        return f"{math.ceil(mm / SOLD_MM - SAME_POINT_MM) / 10:.1f} m"
    return f"{_mixed(math.ceil(mm / YARD_MM * EIGHTHS - SAME_POINT_MM), EIGHTHS)} yd"


def proved_length(mm: float, units: str, decimals: int = 1) -> str:
    """Return a length that was checked: short ones as decimals, since no tape shows them, longer ones as a tape does.

    >>> proved_length(0.3, "in"), proved_length(207.0, "in"), proved_length(0.3, "cm"), proved_length(207.0, "cm")
    ('0.012 in', '8 1/8 in', '0.3 mm', '20.7 cm')
    """
    if units == "in" and abs(mm) < UNITS["in"] / EIGHTHS:
        inches = mm / UNITS["in"]
        text = f"{inches:.3f}" if round(inches, 3) else f"{inches:.4f}"
        return f"{'0' if float(text) == 0.0 else text.rstrip('0')} in"
    if units == "in":
        return _inches(mm, SIXTEENTHS if abs(mm) < UNITS["in"] else EIGHTHS)
    if units == "cm" and abs(mm) >= UNITS["cm"]:
        return format_length(mm, "cm")
    text = f"{mm:.{decimals}f}"
    return f"{text.lstrip('-') if float(text) == 0.0 else text} mm"


def retold(text: str, units: str) -> str:
    """Return a text with its lengths in the wearer's units.

    Texts for people are written in mm, cm or m, a length or a range of them. What stands in inches or yards in brackets
    behind it, ``2 cm (3/4 in)``, is taken as it is by who measures in inches; without that it is reckoned to the coarsest
    step of a tape that lies within 6 % of it. Thicknesses behind a ``×`` are let be.

    >>> retold("stop 2 to 3 cm above it", "in"), retold("sew tape 8 mm (5/16 in) wide", "cm")
    ('stop 3/4 to 1 1/4 in above it', 'sew tape 8 mm wide')
    """
    return _TOLD.sub(lambda found: _told(found, units), text)


def _told(found: re.Match[str], units: str) -> str:
    if units == "cm" and found["unit"] == "mm" and float(_NUMBER.findall(found["range"])[-1]) >= SHORT_MM:
        told = _NUMBER.sub(lambda number: f"{float(number[0]) / UNITS['cm']:g}", found["range"])
        return f"{told} cm"
    if units != "in":
        return f"{found['range']} {found['unit']}"
    if found["inches"]:
        return found["inches"]
    one = YARD_MM if found["unit"] == "m" else UNITS["in"]
    each = {"mm": 1.0, "cm": UNITS["cm"], "m": METRE_MM}[found["unit"]]
    told = _NUMBER.sub(lambda number: _coarse(float(number[0]) * each / one), found["range"])
    return f"{told} {'yd' if found['unit'] == 'm' else 'in'}"


def _coarse(number: float) -> str:
    """A number as the coarsest of halves, quarters, eighths and sixteenths that comes near enough."""
    for parts in (1, 2, 4, EIGHTHS, SIXTEENTHS):
        steps = round(number * parts)
        if abs(steps / parts - number) <= NEAR_RATIO * number:
            return _mixed(steps, parts)
    return _mixed(max(round(number * THIRTY_SECONDS), 1), THIRTY_SECONDS)


def shown(text: str) -> str:
    """Return ``text`` in quotation marks for a message, on one line and cut to 40 characters."""
    line = " ".join(text.split())
    return f"“{line}”" if len(line) <= _LONGEST_TEXT else f"“{line[: _LONGEST_TEXT - 1]}…”"
