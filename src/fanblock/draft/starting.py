"""What a recipe's block is made of, and the draft it makes of a body: every garment starts here."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from fanblock.block.from_body import standing_block
from fanblock.block.from_drawing import Tracing
from fanblock.draft.band import BandSpec, drafted_band
from fanblock.draft.model import Draft
from fanblock.draft.places import size_mm
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount
from fanblock.wearer.body import Body
from fanblock.wearer.girths import BUST, HEIGHT_MEASURES, WAIST, measures_of
from fanblock.wearer.raising import with_raised_waist


@dataclass(frozen=True, slots=True)
class GirthSpec:
    """The two girths a block stands on, when these are not waist and bust."""

    lower: Literal["waist", "raised waist", "underbust", "bust"] = field(
        metadata={"for": "the lower of the two girths that the block fits, such as `underbust`"}
    )
    upper: Literal["raised waist", "underbust", "bust", "upper chest"] = field(
        metadata={"for": "the upper of the two, such as `upper chest`"}
    )


@dataclass(frozen=True, slots=True)
class TracedSpec:
    """A block that somebody has already: the path of its drawing, as the recipe names it, and what was read from it."""

    from_: str = field(metadata={"key": "from"})
    tracing: Tracing = field(metadata={"unsaid": True})


@dataclass(frozen=True, slots=True)
class RaisedSpec:
    """A block of waist and bust whose waist lies higher than the natural one."""

    waist_raised: Amount = field(metadata={"for": "how far above the natural waist this garment has its own"})


MOST_RAISED = 0.5
"""Most that a waist may be raised, as a share of the way to the bust: higher up a block stands on other girths."""

BlockSpec = BandSpec | GirthSpec | TracedSpec | RaisedSpec
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
    return (spec.lower, spec.upper) if isinstance(spec, GirthSpec) else (WAIST, BUST)


def measures_needed(spec: BlockSpec | None) -> tuple[str, ...]:
    """Return the measures that a block is made from besides those that every block is."""
    names = stands_on(spec) if isinstance(spec, GirthSpec) else None
    needed = dict.fromkeys(measure for name in names or () for measure in measures_of(name))
    return tuple(name for name in needed if name not in (WAIST, BUST, HEIGHT_MEASURES[BUST]))


def started(body: Body, spec: BlockSpec | None) -> Draft:
    """Return the draft of a body before any step: its block, or its band; GeometryError when there can be none."""
    if isinstance(spec, BandSpec):
        return drafted_band(body, spec)
    if isinstance(spec, TracedSpec):
        return Draft(body, spec.tracing.block(body.side_ratio))
    if isinstance(spec, RaisedSpec):
        body = with_raised_waist(body, raised_by_mm(body, spec))
    block, stand = standing_block(body, *(stands_on(spec) or (WAIST, BUST)))
    return Draft(body, block, stand=stand)


def raised_by_mm(body: Body, spec: RaisedSpec) -> float:
    """Return how far above the natural waist a garment has its own; GeometryError when that is too far up for a waist."""
    by_mm = size_mm(body, spec.waist_raised, "bust to waist", "block › waist raised")
    if by_mm > MOST_RAISED * body.bust_height_mm:
        what = f"got {by_mm:.0f} mm, more than half the way from waist to bust."
        remedy = "Raise it less, or let the block stand on another girth: `block: {lower: underbust, upper: bust}`."
        raise GeometryError([Problem("waist-raised", "block › waist raised", what, remedy)])
    return by_mm
