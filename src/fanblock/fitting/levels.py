"""The heights at which a garment is measured at a fitting, what they are called, and how wide it should stand open there.

An ordinary garment is measured at its top, the bust, half way down and the waist. One that is cut to other girths, as short
stays to the ribs or a high bodice to a raised waist, is measured at those.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from fanblock.fitting.effects import BUST, LEVELS, MIDDLE, TOP, WAIST
from fanblock.pattern.model import CENTER, FOLD, OPEN_KINDS, Opening, Pattern
from fanblock.terms import Height, Share


def heights_of(pattern: Pattern) -> Mapping[str, float]:
    """Return the levels below the top as shares of the way from waist to bust: those of the girths the block stands on."""
    lower, upper = pattern.stand.lower.height, pattern.stand.upper.height
    return MappingProxyType({WAIST: lower, MIDDLE: 0.5 * (lower + upper), BUST: upper})


def terms_of(pattern: Pattern) -> Mapping[str, Height]:
    """Return the levels as a garment file writes them."""
    if pattern.stand.is_usual:
        return MappingProxyType(
            {
                WAIST: Height(landmark="waist"),
                MIDDLE: Height(share=Share(0.5)),
                BUST: Height(share=Share(1.0)),
                TOP: Height(landmark="top edge"),
            }
        )
    shares = {level: Height(share=Share(height)) for level, height in heights_of(pattern).items()}
    return MappingProxyType({**shares, TOP: Height(landmark="top edge")})


def level_words(pattern: Pattern) -> Mapping[str, str]:
    """Return what each level is called on this garment: `waist` of a high bodice is its raised waist."""
    lower, upper = pattern.stand.names
    return MappingProxyType({TOP: TOP, BUST: upper, MIDDLE: MIDDLE, WAIST: lower})


def girth_names(pattern: Pattern) -> Mapping[str, str]:
    """Return the wearer's measures that the two fitted levels are."""
    return MappingProxyType(dict(zip((WAIST, BUST), pattern.stand.names, strict=True)))


def top_height(pattern: Pattern) -> float:
    """Return the height, as a share of waist to bust, at which the opening ends, or where there is none the centre back."""
    kinds = (OPEN_KINDS, {CENTER, FOLD})
    for wanted in kinds:
        points = [
            edge.curve.points
            for panel in pattern.panels
            for edge in panel.edges
            if edge.kind in wanted and not panel.added
        ]
        if points:
            return float(pattern.block.where(np.vstack(points))[1].max())
    return 1.0


def wanted_mm(pattern: Pattern) -> Mapping[str, float]:
    """Return how far all open edges together should stand apart at each level.

    Halves that meet, or lie over one another with their centre lines together, should stand 0 apart.
    """
    if not pattern.openings:
        return MappingProxyType(dict.fromkeys(LEVELS, pattern.gap_mm))
    heights = {**heights_of(pattern), TOP: top_height(pattern)}
    up = {level: height * pattern.block.center_front_mm for level, height in heights.items()}
    return MappingProxyType(
        {level: sum(one.times * _wide_mm(one, up[level]) for one in pattern.openings) for level in LEVELS}
    )


def _wide_mm(opening: Opening, up_mm: float) -> float:
    if not opening.widths:
        return opening.width_mm
    at, wide = np.array(opening.widths).T
    return float(np.interp(up_mm, at, wide))
