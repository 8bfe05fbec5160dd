"""``eyelets``: rows of eyelets along a lacing edge, spaced so that both edges close level at top and waist.

```yaml
- eyelets: {edge: lacing edge, spacing: 25 mm, lacing: spiral, from edge: 12 mm}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

from fanblock.draft.places import size_mm
from fanblock.draft.plans import EyeletPlan
from fanblock.draft.work import Work
from fanblock.pattern.model import LACING
from fanblock.problems import GeometryError, Problem, nearest
from fanblock.terms import Amount, Length

CLOSEST_MM = 8.0
"""Worked eyelets nearer than this tear into one another (from memory)."""


@dataclass(frozen=True, slots=True)
class Eyelets:
    """The eyelets of one opening, on both its edges."""

    edge: str = field(default="lacing edge", metadata={"for": "the lacing edge they stand on"})
    spacing: Amount = field(
        default=Length(25.0), metadata={"for": "how far apart about; it is changed a little so that the rows end level"}
    )
    lacing: Literal["spiral", "crossed"] = field(
        default="spiral", metadata={"for": "one lace winding through staggered holes, or crossing between level ones"}
    )
    from_edge: Amount = field(default=Length(12.0), metadata={"for": "how far from the edge the holes stand"})
    below_top: Amount = field(default=Length(10.0), metadata={"for": "how far below the top edge the first one is"})
    above_waist: Amount = field(default=Length(7.0), metadata={"for": "how far above the waist the last one is"})
    hole: Amount = field(default=Length(4.0), metadata={"for": "width of a hole"})
    stepped: Literal["left", "right"] = field(
        default="left", metadata={"for": "in a spiral, the half whose second hole is half a space down"}
    )


def run(work: Work, options: Eyelets) -> Work:
    """Return the panels with these eyelets planned; GeometryError where there is no such edge, or they stand too close."""
    laced = sorted({edge.name for panel in work.panels for edge in panel.edges if edge.kind == LACING})
    if options.edge not in laced:
        what = f"there is no lacing edge “{options.edge}”."
        remedy = nearest(options.edge, laced) if laced else "Add a `lacing gap` before `separate`."
        raise GeometryError([Problem("edge-unknown", "edge", what, remedy)])

    def mm(option: str) -> float:
        return size_mm(work.body, getattr(options, option), "waist", option.replace("_", " "))

    spacing, hole, from_edge = mm("spacing"), mm("hole"), mm("from_edge")
    if spacing < CLOSEST_MM:
        what = f"got {spacing:.0f} mm, needs {CLOSEST_MM:.0f} mm or more."
        raise GeometryError([Problem("eyelets-close", "spacing", what, "Set them further apart.")])
    if from_edge < hole:
        what = f"got {from_edge:.0f} mm for holes of {hole:.0f} mm: they would tear out."
        raise GeometryError([Problem("eyelets-edge", "from edge", what, "Set them further in: 8 to 12 mm is usual.")])
    plan = EyeletPlan(
        options.edge,
        options.lacing,
        spacing,
        from_edge,
        mm("below_top"),
        mm("above_waist"),
        hole,
        options.stepped,
    )
    return replace(work, plans=(*work.plans, plan))
