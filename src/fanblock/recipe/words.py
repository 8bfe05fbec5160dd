"""Amounts, heights and arounds written back as a recipe writes them, so that they read to the same value."""

from __future__ import annotations

import json

from fanblock.draft.altering import Alteration, RaiseEdge, SpringMore, TakeMore
from fanblock.terms import Amount, Around, Dial, Extent, Height, Length, Position, Share
from fanblock.units import UNITS


def number_text(number: float) -> str:
    """Return a number with up to six decimals, no exponent, no trailing noughts and no minus nought.

    >>> number_text(12.50), number_text(-0.0)
    ('12.5', '0')
    """
    text = f"{number:.6f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def amount_text(amount: Amount, units: str = "mm") -> str:
    """Return an amount in words; lengths in the given unit (`mm` reads back to exactly the same length).

    >>> amount_text(Length(90.0), "cm"), amount_text(Share(0.03, "waist")), amount_text(Dial("gap"))
    ('9 cm', '3% of waist', 'gap')
    """
    match amount:
        case Length(mm):
            return f"{number_text(mm / UNITS[units])} {units}"
        case Share(ratio, of):
            return f"{number_text(ratio * 100.0)}% of {of}" if of else f"{number_text(ratio * 100.0)}%"
        case Dial(name):
            return name


def spoken(amount: Amount, units: str = "mm") -> str:
    """Return an amount in words for a message or a report, lengths to two decimals.

    >>> spoken(Length(90.0), "in")
    '3.54 in'
    """
    if isinstance(amount, Length):
        return f"{number_text(round(amount.mm / UNITS[units], 2))} {units}"
    return amount_text(amount)


def extent_text(extent: Extent, units: str = "mm") -> str:
    """Return a whole length in words.

    >>> extent_text(Extent(Share(1.0, "neck"), Length(20.0)))
    'neck + 20 mm'
    """
    whole = isinstance(extent.base, Share) and extent.base.of and extent.base.ratio == 1.0
    base = extent.base.of if whole and isinstance(extent.base, Share) else amount_text(extent.base, units)
    return base + _plus_text(extent.plus, extent.sign, units)


def height_text(height: Height, units: str = "mm") -> str:
    """Return a height in words.

    >>> height_text(Height(landmark="bust", plus=Length(30.0)))
    'bust + 30 mm'
    """
    base = amount_text(height.share) if height.share is not None else height.landmark
    return base + _plus_text(height.plus, height.sign, units)


def around_text(around: Around, units: str = "mm") -> str:
    """Return an around in words.

    >>> around_text(Around(ratio=0.24))
    '24%'
    """
    base = f"{number_text(around.ratio * 100.0)}%" if around.ratio is not None else around.landmark
    return base + _plus_text(around.plus, around.sign, units)


def position_text(position: Position, units: str = "mm") -> str:
    """Return a position in words, in the square brackets a recipe uses.

    >>> position_text(Position(Around(ratio=0.24), Height(landmark="waist")))
    '[24%, waist]'
    """
    return f"[{around_text(position.around, units)}, {height_text(position.height, units)}]"


def alteration_text(alteration: Alteration) -> str:
    """Return an alteration as a garment file writes it.

    >>> alteration_text(SpringMore("side back", Length(5.0)))
    'spring: {seam: "side back", more: 5 mm}'
    """
    match alteration:
        case TakeMore(seam, at, more):
            return f"take: {{seam: {_quoted(seam)}, at: {height_text(at)}, more: {amount_text(more)}}}"
        case SpringMore(seam, more):
            return f"spring: {{seam: {_quoted(seam)}, more: {amount_text(more)}}}"
        case RaiseEdge(edge, at, up, reach):
            places = f"at: {around_text(at)}, up: {amount_text(up)}, reach: {amount_text(reach)}"
            return f"raised: {{edge: {edge}, {places}}}"


def _quoted(name: str) -> str:
    return json.dumps(name, ensure_ascii=False)


def _plus_text(plus: Amount | None, sign: int, units: str) -> str:
    if plus is None:
        return ""
    text = amount_text(plus, units)
    if text.startswith("-"):
        sign, text = -sign, text[1:]
    return f" {'-' if sign < 0 else '+'} {text}"
