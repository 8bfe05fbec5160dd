"""A recipe's band in words, and what it comes to on a body; how it is divided into pieces is in :mod:`fanblock.draft.pieces`."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from fanblock.block.band import Band, band_fan, outer_mm
from fanblock.draft.model import Draft
from fanblock.draft.places import amount_mm
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount, Extent, Share
from fanblock.wearer.body import Body

MOST_CIRCLE = 3.0
"""More of a circle than this is a ruffle: cut it straight and gather it (from memory)."""


@dataclass(frozen=True, slots=True)
class BandSpec:
    """What a recipe's block is made of when it is not made of the wearer's bust and waist."""

    inner: Extent = field(metadata={"for": "length of the edge that is sewn on, such as `neck`"})
    depth: Extent = field(metadata={"for": "how deep it is from the inner to the outer edge"})
    outer: Extent | None = field(default=None, metadata={"for": "length of the other edge; or give `circle`"})
    circle: Amount | None = field(
        default=None, metadata={"for": "how much of a circle it is: 0% is straight, 100% a whole ring, more is legal"}
    )
    deepest: Extent | None = field(
        default=None,
        metadata={"for": "how deep it is in its middle, at center back of a half; left out, as at its ends"},
    )
    drawn: Literal["half", "whole"] = field(
        default="half", metadata={"for": "the half from center front to center back, or the whole"}
    )
    worn: Literal["hanging", "standing"] = field(
        default="hanging", metadata={"for": "whether it falls from its inner edge or stands on it"}
    )


def problems(spec: BandSpec) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with a band's words as (key, what, remedy)."""
    if (spec.outer is None) == (spec.circle is None):
        return (("outer", "needs one of `outer` and `circle`.", "The other follows from it, `inner` and `depth`."),)
    if spec.deepest is not None and spec.circle is None:
        return (("deepest", "stands beside `outer`.", "Say `circle`: the outer edge follows from it and the depths."),)
    if isinstance(spec.circle, Share) and spec.circle.of:
        return (("circle", f"got a share of {spec.circle.of}, needs a share of a circle such as `25%`.", ""),)
    return ()


def extent_mm(body: Body, extent: Extent, key: str) -> float:
    """Return a length in millimetres; GeometryError when it is a share of nothing or a measure that there is not."""
    for amount in (extent.base, extent.plus):
        if isinstance(amount, Share) and not amount.of:
            what = f"comes to {amount.ratio:.0%}, and does not say of what."
            raise GeometryError([Problem("block-share", f"block › {key}", what, "Give the dial a measure, with `of`.")])
    mm = amount_mm(body, extent.base, "")
    return mm if extent.plus is None else mm + extent.sign * amount_mm(body, extent.plus, "")


def drafted_band(body: Body, spec: BandSpec) -> Draft:
    """Return the draft of a band for a body; GeometryError when its words come to no band."""
    inner, depth = extent_mm(body, spec.inner, "inner"), extent_mm(body, spec.depth, "depth")
    if spec.outer is not None:
        outer = extent_mm(body, spec.outer, "outer")
    else:
        outer = outer_mm(inner, depth, _circle_ratio(spec.circle))
    deepest = None if spec.deepest is None else extent_mm(body, spec.deepest, "deepest")
    band = Band(inner, outer, depth, spec.drawn == "half", spec.worn == "hanging", deepest)
    block = band_fan(band)
    if band.circle_ratio > MOST_CIRCLE:
        what = f"comes to {band.circle_ratio:.1f} whole circles."
        remedy = f"Up to {MOST_CIRCLE:.0f} are drawn; for more, gather a straight strip."
        raise GeometryError([Problem("block-circle", "block", what, remedy)])
    return Draft(body, block, band=band)


def _circle_ratio(circle: Amount | None) -> float:
    if not isinstance(circle, Share) or circle.of or circle.ratio < 0.0:
        what = "needs a share of a circle such as `25%`."
        raise GeometryError([Problem("block-circle", "block › circle", what, "Give the dial a bare percentage.")])
    return circle.ratio
