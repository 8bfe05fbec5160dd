"""``lacing gap``: where the garment laces, and how far apart its edges stand when it is laced.

At a centre line the gap is cut parallel to that, half off each half of the garment; a cut along the rulings would take more
at the bust than at the waist. At the ``side``, or at a seam drawn before, it opens the garment on both sides of the body:
each edge is moved back half the gap, parallel to itself, and the two are laced and not sewn. The cut edge is called
``lacing edge``; of several each says where it is. ``center back`` stays the body's own line.

```yaml
- lacing gap: {at: center back, width: 50 mm}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

from fanblock.draft.lacing import lacing_line
from fanblock.draft.model import Draft, Gap, SeamGap
from fanblock.draft.places import size_mm
from fanblock.draft.seamline import with_seam
from fanblock.problems import GeometryError, Problem
from fanblock.terms import CENTERS, SIDE, Amount, Around, Height, Length, Position


@dataclass(frozen=True, slots=True)
class LacingGap:
    """An opening that is laced."""

    width: Amount = field(metadata={"for": "opening between the two lacing edges when laced"})
    at: Literal["center back", "center front", "side"] | str = field(
        default="center back",
        metadata={"for": "where the garment laces: a centre line, the side, or a seam drawn before"},
    )


def run(draft: Draft, options: LacingGap) -> Draft:
    """Return the draft with this gap; a second gap at one place replaces nothing and is refused on reading.

    GeometryError when the gap is less than nothing or would leave next to no cloth, or its seam ends on another.
    """
    width_mm = size_mm(draft.body, options.width, "waist", "width")
    off_half_mm = width_mm / 2.0 if options.at in CENTERS else width_mm
    if off_half_mm > draft.block.half_waist_mm / 2.0:
        wide = f"a gap of {width_mm:.0f} mm" if options.at in CENTERS else f"a gap of {width_mm:.0f} mm on each side"
        what = f"{wide} is more than half of the waist."
        raise GeometryError([Problem("gap-wide", "width", what, "Open it less.")])
    if options.at in CENTERS:
        gap = Gap(options.at, width_mm, lacing_line(draft.block, options.at, width_mm))
        return replace(draft, gaps=(*draft.gaps, gap))
    if options.at == SIDE:
        draft = _with_side(draft)
    _check_ends(draft, options.at)
    return replace(draft, seam_gaps=(*draft.seam_gaps, SeamGap(options.at, width_mm)))


def _with_side(draft: Draft) -> Draft:
    """Return the draft cut at the side, from the top edge to the hem, straight up the block."""
    side = Around(landmark=SIDE)
    through = (Position(side, Height(landmark="top edge")), Position(side, Height(landmark="hem")))
    return with_seam(draft, name=SIDE, through=through, share=None, takes={}, below_waist=None, spring=Length(0.0))


def _check_ends(draft: Draft, name: str) -> None:
    """Refuse a seam that ends on another: its edges could not stand apart there."""
    hosts = draft.seam(name).hosts
    if hosts:
        what = f"the seam “{name}” ends on {hosts[0]}; its two edges could not stand apart there."
        raise GeometryError([Problem("gap-end", "at", what, "Lace a seam that runs from the top edge to the hem.")])
