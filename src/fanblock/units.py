"""Lengths in and out: what people type becomes millimetres, and millimetres become what people read.

An inch is exactly 25.4 mm. Reading is exact (in fractions) until the last step, so the same length typed in
another unit is the same number.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

UNITS: Mapping[str, float] = MappingProxyType({"mm": 1.0, "cm": 10.0, "in": 25.4})
"""Millimetres in one of each unit."""

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


def _inches(mm: float) -> str:
    eighths = round(mm / UNITS["in"] * 8)
    sign = "-" if eighths < 0 else ""
    whole, rest = divmod(abs(eighths), 8)
    fraction = str(Fraction(rest, 8)) if rest else ""
    words = " ".join(part for part in (str(whole) if whole or not rest else "", fraction) if part)
    return f"{sign}{words} in"


def shown(text: str) -> str:
    """Return ``text`` in quotation marks for a message, on one line and cut to 40 characters."""
    line = " ".join(text.split())
    return f"“{line}”" if len(line) <= _LONGEST_TEXT else f"“{line[: _LONGEST_TEXT - 1]}…”"
