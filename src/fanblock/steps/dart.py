"""``dart``: a wedge stitched out of a panel, open at an edge and running to nothing at a point within the cloth.

The panel is not cut. The dart's two legs are marked on it, the edge it opens at gets the peak that lets it run on when the
dart is folded, and what it takes is counted at every level as a seam's is.

```yaml
- dart: {name: front dart, through: [[20%, waist], [18%, 70%]], take: 20 mm}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field

from fanblock.draft.darts import with_dart
from fanblock.draft.model import Draft
from fanblock.terms import Amount, Position


@dataclass(frozen=True, slots=True)
class Dart:
    """One dart with what it takes."""

    name: str = field(metadata={"for": "what it is called"})
    through: tuple[Position, ...] = field(metadata={"for": "places, from its mouth on an edge to its point"})
    take: Amount | None = field(default=None, metadata={"for": "what it takes, both legs together"})
    share: float | None = field(
        default=None, metadata={"for": "in place of `take`: its part of the reduction, against seams' and other darts'"}
    )


def problems(options: Dart) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    found = []
    if len(options.through) < 2:
        found.append(("through", "needs at least two points.", "Give it from its mouth on an edge to its point."))
    if (options.take is None) == (options.share is None):
        found.append(("take", "needs one of `take` and `share`.", "Say what it takes, or what part of the reduction."))
    if options.share is not None and options.share <= 0.0:
        found.append(("share", f"got {options.share:g}, needs more than 0.", "Leave the dart out if it takes nothing."))
    return tuple(found)


def run(draft: Draft, options: Dart) -> Draft:
    """Return the draft with this dart drawn on it."""
    return with_dart(draft, name=options.name, through=options.through, share=options.share, take=options.take)
