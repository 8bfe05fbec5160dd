"""A body whose garment has its waist higher than the natural one: every length counted from there.

Fashion has set the waist of bodies and bodices some centimetres above where the body bends. Such a garment is drawn as if the
waist tape had been tied there: what was measured from the waist is so much shorter, and the girth is the body's there.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from fanblock.wearer.body import Body
from fanblock.wearer.fixed import Fixed

UP_FROM_WAIST = (
    "back length",
    "bust to waist",
    "bust to waist at back",
    "bust to waist at side",
    "front length",
    "held bust to waist",
    "raised",
    "raised waist height",
    "underarm",
    "underbust height",
    "upper chest height",
)
"""What is measured from the waist up."""

DOWN_FROM_WAIST = ("hip depth",)
"""What is measured from the waist down."""

LOST = ("belly",)
"""What is measured at a fixed depth below the waist, and cannot be told for another waist."""


def with_raised_waist(body: Body, by_mm: float) -> Body:
    """Return the body with its waist ``by_mm`` higher, less than its bust is.

    The girth there lies between those that were measured, as on a cone.
    """
    lengths = {name: mm for name, mm in body.lengths.items() if name not in LOST}
    lengths["waist"] = _girth_mm(body, by_mm)
    lengths.update({name: lengths[name] - by_mm for name in UP_FROM_WAIST if name in lengths})
    lengths.update({name: lengths[name] + by_mm for name in DOWN_FROM_WAIST if name in lengths})
    return replace(body, lengths=Fixed(lengths))


def _girth_mm(body: Body, by_mm: float) -> float:
    """Return the girth so far above the waist tape: between waist and bust, by way of a raised waist that was measured."""
    girths = {0.0: body.length_mm("waist"), body.bust_height_mm: body.length_mm("bust")}
    known = {"raised waist", "raised waist height"} <= body.lengths.keys() - body.guessed.keys() - body.predicted.keys()
    if known and 0.0 < body.length_mm("raised waist height") < body.bust_height_mm:
        girths[body.length_mm("raised waist height")] = body.length_mm("raised waist")
    for low, high in pairwise(sorted(girths)):
        if by_mm <= high:
            return girths[low] + (girths[high] - girths[low]) * (by_mm - low) / (high - low)
    return body.length_mm("bust")
