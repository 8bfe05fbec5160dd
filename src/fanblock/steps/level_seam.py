"""``level seam``: a seam that runs level across the draft, as at a waist or under a yoke.

It runs at one height ``from`` one place ``to`` another, or ``through`` points from front to back, smooth between them. Its
ends stand on a centre line, on the edge of an opening or on an upright seam drawn before it. Every panel that it crosses is
cut into an upper and a lower one. Upright seams drawn before it are cut in two there; the lower part is called after both,
``side back below waist seam``. An upright seam drawn after it may cross it or, with an end at its height, end on it. What it
takes is cut away above it, along the ruling.

```yaml
- level seam: {name: waist seam, height: waist}
- level seam: {name: waist seam, height: 40%, take: {center front: 6 mm, 45%: 0 mm}}
```
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from fanblock.draft.levelline import level_through, with_level_seam, with_level_take
from fanblock.draft.model import Draft
from fanblock.terms import Amount, Around, Height, Position

FRONT, BACK = Around(landmark="center front"), Around(landmark="center back")


@dataclass(frozen=True, slots=True)
class LevelSeam:
    """One level seam."""

    name: str = field(metadata={"for": "the name its two edges get"})
    height: Height | None = field(default=None, metadata={"for": "the one height at which it runs"})
    start: Around | None = field(
        default=None, metadata={"key": "from", "for": "where it begins, if not at the centre front"}
    )
    to: Around | None = field(default=None, metadata={"for": "where it ends, if not at the centre back"})
    through: tuple[Position, ...] | None = field(
        default=None, metadata={"for": "points from front to back, in the place of one height"}
    )
    take: Mapping[Around, Amount] = field(
        default_factory=dict,
        metadata={"for": "what it takes along the ruling at named places, from the cloth above it"},
    )
    pointed: Literal["front", "back", "both"] | None = field(
        default=None, metadata={"for": "at which end it may meet a centre line at a point"}
    )


def problems(options: LevelSeam) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    found = []
    if options.through is None and options.height is None:
        found.append(("height", "neither `height` nor `through` is given.", "Say at what height it runs."))
    if options.through is not None and options.height is not None:
        found.append(("through", "stands beside a height.", "Keep one: one height, or points."))
    if options.through is not None and (options.start is not None or options.to is not None):
        found.append(
            ("through", "stands beside `from` or `to`.", "The points say themselves where it begins and ends.")
        )
    if options.through is not None and len(options.through) < 2:
        found.append(("through", "needs at least two points.", "Give them from front to back."))
    return tuple(found)


def run(draft: Draft, options: LevelSeam) -> Draft:
    """Return the draft with this level seam drawn on it."""
    pointed = options.pointed in {"front", "both"}, options.pointed in {"back", "both"}
    if options.through is not None:
        drawn = with_level_seam(draft, options.name, options.through, pointed)
        return with_level_take(drawn, options.name, options.take)
    if options.height is None:
        raise ValueError("a level seam needs a height")
    through = level_through(options.start or FRONT, options.to or BACK, options.height)
    drawn = with_level_seam(draft, options.name, through, pointed, even=True)
    return with_level_take(drawn, options.name, options.take)
