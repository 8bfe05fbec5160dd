"""What a pattern's JSON says where its two halves were drafted apart."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from fanblock.halves.names import piece_name
from fanblock.pattern.model import Girth, Pattern
from fanblock.sheet.jsonnumbers import number_of

OF_HALVES = (
    "Here both halves are given, because they are not alike. Each panel says of which `half` it is, or that it is of both; it is "
    "cut as often as `cut` says, and nothing is mirrored. The right half's panels lie as they do when the wearer is seen from "
    "outside, centre front at the right, at x below nought; their loops run counter-clockwise too.",
    "`block` is that of the left half; `halves` has the block of each, and its measures with every girth counted twice, as if both "
    "were like it. Every girth is given twice, of the left and of the right `half`: block, takes, gap, parts and open of both add up.",
)
"""What is added to the reading."""

WHOLE_KEYS = ("body", "ease", "reduction", "altered", "target", "finished")
"""What of a girth is told of the whole garment."""


def which_half(pattern: Pattern) -> str:
    """Return which half is given."""
    if pattern.halves:
        return "both: they are not alike"
    return "left" if pattern.band is None or pattern.band.halved else "none: the whole is given"


def lengths_of(half: Pattern) -> dict[str, Any]:
    """Return the measures of one of two halves, its girths counted twice."""
    lengths = half.body.lengths
    return {name: number_of(lengths[name]) for name in sorted(lengths)}


def half_girths(pattern: Pattern, girth_data: Callable[[Girth, Pattern], dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the girths of either half, level by level; what is told of the whole garment is the same in both."""
    found = []
    for whole, *both in zip(pattern.girths, *(half.girths for half in pattern.halves), strict=True):
        of_all = girth_data(whole, pattern)
        for half, girth in zip(pattern.halves, both, strict=True):
            own = girth_data(girth, half)
            names = {panel.name: piece_name(panel, half.half) for panel in half.panels}
            parts = {names[name]: mm for name, mm in own["parts_by_panel"].items()}
            of_whole = {key: of_all[key] for key in WHOLE_KEYS}
            found.append({"half": half.half, **own, **of_whole, "parts_by_panel": parts})
    return found
