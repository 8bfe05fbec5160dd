"""``top edge``: the upper edge from centre front to centre back, one smooth curve through the points given.

The curve is a cubic spline in around and height along the ruling, square to a centre line that is a fold or a seam
and free at a lacing edge.

```yaml
- top edge:
    through:
      - [center front, bust + 30 mm]
      - [36%, underarm - 30 mm]
      - [56%, underarm - 25 mm]
      - [center back, 73% of back length]
```
"""

from __future__ import annotations

from dataclasses import dataclass, field

from fanblock.draft.corners import EdgeSpec, edge_problems, with_chain
from fanblock.draft.model import TOP_EDGE, Draft
from fanblock.draft.outline import with_crossing_edge
from fanblock.pattern.model import TOP
from fanblock.terms import Position


@dataclass(frozen=True, slots=True)
class TopEdge:
    """The points the upper edge runs through, from front to back."""

    through: tuple[Position, ...] = field(
        default=(), metadata={"for": "points of the edge, from center front to center back"}
    )
    edges: tuple[EdgeSpec, ...] = field(
        default=(), metadata={"for": "named edges with corners between them, from front to back, in place of one curve"}
    )


def problems(options: TopEdge) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    if bool(options.through) == bool(options.edges):
        return (
            ("through", "needs either `through` or `edges`.", "Give one smooth curve, or named edges with corners."),
        )
    if options.through and len(options.through) < 2:
        return (("through", "needs at least two points.", "Give the edge from center front to center back."),)
    return edge_problems(options.edges)


def run(draft: Draft, options: TopEdge) -> Draft:
    """Return the draft with its top edge drawn."""
    if options.edges:
        return with_chain(draft, TOP_EDGE, options.edges)
    return with_crossing_edge(draft, TOP_EDGE, TOP, options.through)
