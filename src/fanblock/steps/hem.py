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

from fanblock.draft.corners import EdgeSpec, edge_problems, with_chain
from fanblock.draft.model import HEM_EDGE, Draft
from fanblock.draft.outline import with_crossing_edge
from fanblock.pattern.model import HEM
from fanblock.terms import Around, Height, Position


@dataclass(frozen=True, slots=True)
class Hem:
    """The lower edge: one height, points, or named edges with corners between them."""

    height: Height | None = field(default=None, metadata={"for": "one height, along every ruling"})
    through: tuple[Position, ...] = field(default=(), metadata={"for": "points, from center front to center back"})
    edges: tuple[EdgeSpec, ...] = field(
        default=(), metadata={"for": "named edges with corners between them, from front to back"}
    )


def problems(options: Hem) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    if (options.height is not None) + bool(options.through) + bool(options.edges) != 1:
        remedy = "Give one height, points from front to back, or named edges."
        return (("height", "needs one of `height`, `through` and `edges`.", remedy),)
    if options.through and len(options.through) < 2:
        return (("through", "needs at least two points.", "Give the edge from center front to center back."),)
    return edge_problems(options.edges)


def run(draft: Draft, options: Hem) -> Draft:
    """Return the draft with its hem drawn."""
    if options.edges:
        return with_chain(draft, HEM_EDGE, options.edges)
    if options.height is not None:
        rulings = [Around(ratio=step / 10) for step in range(11)]
        points = tuple(Position(around, options.height) for around in rulings)
    else:
        points = options.through
    return with_crossing_edge(draft, HEM_EDGE, HEM, points)
