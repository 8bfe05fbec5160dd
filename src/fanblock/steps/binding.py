"""``binding``: every free edge without an allowance is bound; how much binding that takes, and where it is too tight.

```yaml
- binding: {of: linen tape, width: 20 mm}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from fanblock.draft.places import size_mm
from fanblock.draft.work import Work
from fanblock.pattern import bones
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount, Length

LEAST_MM = 6.0
"""Binding narrower than this does not reach round an edge (from memory)."""


@dataclass(frozen=True, slots=True)
class Binding:
    """What the edges are bound with."""

    of: str = field(default="linen tape", metadata={"for": "what it is: tape, ribbon, leather"})
    width: Amount = field(default=Length(20.0), metadata={"for": "its width before it is folded over the edge"})


def run(work: Work, options: Binding) -> Work:
    """Return the panels with their binding chosen; GeometryError when it is too narrow to fold."""
    width = size_mm(work.body, options.width, "waist", "width")
    if width < LEAST_MM:
        what = f"got {width:.0f} mm, needs {LEAST_MM:.0f} mm or more."
        raise GeometryError([Problem("binding-narrow", "width", what, "Choose a wider one.")])
    return replace(work, plans=(*work.plans, bones.Binding(options.of, width)))
