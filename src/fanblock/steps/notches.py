"""``notches``: where the marks stand that keep panels from being sewn to the wrong neighbour or upside down.

Every seam has a bar at the waist. Above the waist, once, it has as many ticks as its place from the front, at a share
of that part that is never its middle.

```yaml
- notches: {at: 40%, tick: 5 mm}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from fanblock.draft.places import size_mm
from fanblock.draft.work import Work
from fanblock.terms import Amount, Length, Share


@dataclass(frozen=True, slots=True)
class Notches:
    """Place and length of the ticks."""

    at: Share = field(default=Share(0.4), metadata={"for": "share of the seam above the waist, counted from the waist"})
    tick: Amount = field(default=Length(5.0), metadata={"for": "length of a tick, inward from the stitch line"})


def problems(options: Notches) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    if not 0.1 <= options.at.ratio <= 0.9 or 0.45 < options.at.ratio < 0.55:
        return (
            (
                "at",
                f"got {options.at.ratio:.0%}, needs 10 to 45 or 55 to 90 %.",
                "In the middle it would not show which end is up.",
            ),
        )
    return ()


def run(work: Work, options: Notches) -> Work:
    """Return the panels with their notches placed so."""
    return replace(work, notch_at=options.at.ratio, tick_mm=size_mm(work.body, options.tick, "waist", "tick"))
