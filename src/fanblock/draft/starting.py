"""What a recipe's block is made of, and the draft it makes of a body: every garment starts here."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from fanblock.block.from_body import standing_block
from fanblock.draft.band import BandSpec, drafted_band
from fanblock.draft.model import Draft
from fanblock.wearer.body import Body
from fanblock.wearer.girths import BUST, HEIGHT_MEASURES, WAIST, measures_of


@dataclass(frozen=True, slots=True)
class GirthSpec:
    """The two girths a block stands on, when these are not waist and bust."""

    lower: Literal["waist", "raised waist", "underbust", "bust"] = field(
        metadata={"for": "the lower of the two girths that the block fits, such as `underbust`"}
    )
    upper: Literal["raised waist", "underbust", "bust", "upper chest"] = field(
        metadata={"for": "the upper of the two, such as `upper chest`"}
    )


BlockSpec = BandSpec | GirthSpec
"""What a recipe may say that its block is made of; where it says nothing, it is waist and bust."""


def girth_problems(spec: GirthSpec) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with the words of a block as (key, what, remedy)."""
    order = list(HEIGHT_MEASURES)
    if order.index(spec.lower) < order.index(spec.upper):
        return ()
    what = f"the {spec.upper} does not lie above the {spec.lower}."
    return (("upper", what, f"From the lowest up they are {', '.join(order)}."),)


def stands_on(spec: BlockSpec | None) -> tuple[str, str] | None:
    """Return the girths that a block stands on, the lower first; None for a band, which stands on no body."""
    if isinstance(spec, BandSpec):
        return None
    return (WAIST, BUST) if spec is None else (spec.lower, spec.upper)


def measures_needed(spec: BlockSpec | None) -> tuple[str, ...]:
    """Return the measures that a block is made from besides those that every block is."""
    names = stands_on(spec) if isinstance(spec, GirthSpec) else None
    needed = dict.fromkeys(measure for name in names or () for measure in measures_of(name))
    return tuple(name for name in needed if name not in (WAIST, BUST, HEIGHT_MEASURES[BUST]))


def started(body: Body, spec: BlockSpec | None) -> Draft:
    """Return the draft of a body before any step: its block, or its band; GeometryError when there can be none."""
    if isinstance(spec, BandSpec):
        return drafted_band(body, spec)
    block, stand = standing_block(body, *(stands_on(spec) or (WAIST, BUST)))
    return Draft(body, block, stand=stand)
