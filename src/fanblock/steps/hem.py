"""``hem``: the lower edge, at one height all round or as a smooth curve through points.

```yaml
- hem: {height: waist - 80 mm}
- hem:
    through:
      - [center front, waist - 65 mm]
      - [20%, waist - 50 mm]
      - [center back, waist - 80 mm]
```
"""

from __future__ import annotations

from dataclasses import dataclass, field

from fanblock.draft.model import Draft
from fanblock.draft.outline import with_crossing_edge
from fanblock.pattern.model import HEM
from fanblock.terms import Around, Height, Position


@dataclass(frozen=True, slots=True)
class Hem:
    """The lower edge: either one height or points."""

    height: Height | None = field(default=None, metadata={"for": "one height, along every ruling"})
    through: tuple[Position, ...] = field(
        default=(), metadata={"for": "points, from center front to center back"}
    )


def problems(options: Hem) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    if (options.height is None) == (not options.through):
        return (
            (
                "height",
                "needs either `height` or `through`.",
                "Give one height, or points from front to back.",
            ),
        )
    if options.through and len(options.through) < 2:
        return (("through", "needs at least two points.", "Give the edge from center front to center back."),)
    return ()


def run(draft: Draft, options: Hem) -> Draft:
    """Return the draft with its hem drawn."""
    if options.height is not None:
        rulings = [Around(ratio=step / 10) for step in range(11)]
        points = tuple(Position(around, options.height) for around in rulings)
    else:
        points = options.through
    return with_crossing_edge(draft, "hem", HEM, points)
