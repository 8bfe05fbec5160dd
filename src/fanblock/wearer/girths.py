"""The girths that a block may be fitted to, from the lowest up, and how high above the waist tape each was measured."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from fanblock.wearer.body import Body

WAIST, RAISED_WAIST, UNDERBUST, BUST, UPPER_CHEST = "waist", "raised waist", "underbust", "bust", "upper chest"

HEIGHT_MEASURES: Mapping[str, str] = MappingProxyType(
    {
        WAIST: "",
        RAISED_WAIST: "raised waist height",
        UNDERBUST: "underbust height",
        BUST: "bust to waist",
        UPPER_CHEST: "upper chest height",
    }
)
"""The measure that tells how high each girth lies; the waist is where heights begin."""


def girth_height_mm(body: Body, name: str) -> float:
    """Return how high above the waist a girth of :data:`HEIGHT_MEASURES` was measured, in mm; KeyError for another.

    The bust lies where the block has it: ``raised`` if that was measured, else ``bust to waist``.
    """
    if name == WAIST:
        return 0.0
    return body.bust_height_mm if name == BUST else body.length_mm(HEIGHT_MEASURES[name])


def measures_of(name: str) -> tuple[str, ...]:
    """Return the measures that a girth and its height are: what a block that stands on it needs.

    >>> measures_of("underbust"), measures_of("waist")
    (('underbust', 'underbust height'), ('waist',))
    """
    return tuple(filter(None, (name, HEIGHT_MEASURES[name])))
