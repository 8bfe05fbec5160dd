"""The sentences of a fitting: what a maker sees on the toile, and what that changes; all of them, in their order.

Amounts, places and the order of looking are common practice or from memory; no source is claimed for them.
"""

from __future__ import annotations

from fanblock.fitting.effects import (
    ALL,
    BACK,
    BUST,
    EDGES,
    FRONT,
    GIRTHS,
    LENGTHS,
    LEVELS,
    MIDDLE,
    REGIONS,
    SIDE,
    SKIRTS,
    TOP,
    WAIST,
    WAIST_GIRTH,
    Effect,
    Hollow,
    Longer,
    Raise,
    Sentence,
    Spring,
    TakeIn,
    TakeOut,
    Turn,
)
from fanblock.fitting.onbody import ON_BODY
from fanblock.fitting.onlimbs import ON_LIMBS

__all__ = [
    "ALL",
    "BACK",
    "BUST",
    "BY_WORDS",
    "EDGES",
    "FRONT",
    "GIRTHS",
    "LENGTHS",
    "LEVELS",
    "MIDDLE",
    "REGIONS",
    "SENTENCES",
    "SIDE",
    "SKIRTS",
    "TOP",
    "WAIST",
    "WAIST_GIRTH",
    "Effect",
    "Hollow",
    "Longer",
    "Raise",
    "Sentence",
    "Spring",
    "TakeIn",
    "TakeOut",
    "Turn",
]

SENTENCES: tuple[Sentence, ...] = (*ON_BODY, *ON_LIMBS)
"""All of them, in the order in which they are looked for within their rank."""

BY_WORDS = {sentence.words: sentence for sentence in SENTENCES}
