"""``seam``: a line across the draft where it will be cut apart and sewn again.

The line is drawn through points given from the top down, smooth between them (monotone cubic), and runs on along the
ruling beyond the last. ``take`` says how much the seam removes at named heights; ``share`` how large a part of the
reductions it carries. ``spring`` is what it adds at the hem. A seam carried past the waist says whether it is ``open``
there (its two panels part as tabs) or ``sewn``. An end may stand on an earlier seam: ``[side front, 60%]``.

```yaml
- seam:
    name: side front
    through: [[24%, top edge], [14%, waist], [19%, hem]]
    share: 2
    below waist: open
    spring: 20 mm
```
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from fanblock.draft.model import Draft
from fanblock.draft.seamline import with_seam
from fanblock.terms import Amount, Height, Length, Position


@dataclass(frozen=True, slots=True)
class Seam:
    """One seam line with what it takes."""

    name: str = field(metadata={"for": "the name its two edges get"})
    through: tuple[Position, ...] = field(metadata={"for": "points, from the top down"})
    share: float | None = field(default=None, metadata={"for": "its part of the reductions, against the other seams'"})
    take: Mapping[Height, Amount] = field(
        default_factory=dict, metadata={"for": "what it takes at named heights, both edges together"}
    )
    below_waist: Literal["open", "sewn"] | None = field(
        default=None, metadata={"for": "whether it parts into tabs or is sewn below the waist"}
    )
    spring: Amount = field(default=Length(0.0), metadata={"for": "what it adds at the hem, both edges together"})


def problems(options: Seam) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    found = []
    if len(options.through) < 2:
        found.append(("through", "needs at least two points.", "Give it from the top down."))
    if options.share is not None and options.share < 0:
        found.append(
            (
                "share",
                f"got {options.share:g}, needs 0 or more.",
                "To let a seam out give it a negative `take`.",
            )
        )
    if options.spring != Length(0.0) and any(height.landmark == "hem" for height in options.take):
        found.append(
            ("spring", "stands beside a take at the hem.", "Keep one: what it adds at the hem or what it takes there.")
        )
    if options.share is not None and any(height == Height(landmark="waist") for height in options.take):
        found.append(
            (
                "share",
                "stands beside a take at the waist.",
                "Keep one: a share of the reduction or a take of its own.",
            )
        )
    return tuple(found)


def run(draft: Draft, options: Seam) -> Draft:
    """Return the draft with this seam drawn on it."""
    return with_seam(
        draft,
        name=options.name,
        through=options.through,
        share=options.share,
        takes=options.take,
        below_waist=options.below_waist,
        spring=options.spring,
    )
