"""``separate``: cut the draft apart along its seams, true what is sewn together, and name the panels.

Panels are named from front to back, those one above another from the top down.

```yaml
- separate: {panels: [front, side, back]}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field

from fanblock.draft.model import Draft
from fanblock.draft.separate import separated
from fanblock.draft.work import Work
from fanblock.shaping.darts import with_darts


@dataclass(frozen=True, slots=True)
class Separate:
    """The names of the panels."""

    panels: tuple[str, ...] = field(metadata={"for": "names, from front to back"})


def problems(options: Separate) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    twice = sorted({name for name in options.panels if options.panels.count(name) > 1})
    return tuple(("panels", f"“{name}” stands twice.", "Give every panel a name of its own.") for name in twice)


def run(draft: Draft, options: Separate) -> Work:
    """Return the trued panels of the draft, their darts on them, ready to be finished."""
    return with_darts(separated(draft, options.panels))
