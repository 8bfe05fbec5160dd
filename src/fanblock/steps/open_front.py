"""``open front``: front edges that stand apart on a line of their own, straight or curved, over a stomacher or whatever
is worn under them.

The line runs through points given from the top down, straight from point to point or as one smooth curve, and goes on
straight beyond both ends until the top edge and the hem cut it. The cut edge is called ``front edge``, or ``lacing edge``
where it laces. Where a top edge begins on it, that edge's first point is ``[front edge, …]`` and this step stands before it.

```yaml
- open front: {through: [[center front + 12 cm, bust + 8 cm], [center front + 5 cm, waist]], closed with: pins}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

from fanblock.draft.model import LACED, Closing, Draft, Gap
from fanblock.draft.openfront import free_line, waist_width_mm
from fanblock.draft.places import size_mm
from fanblock.finish.openings import TUCK_MM
from fanblock.problems import GeometryError, Problem
from fanblock.steps.opening import fastening_problems, spacing_mm
from fanblock.terms import Amount, Length, Position


@dataclass(frozen=True, slots=True)
class OpenFront:
    """Front edges along a line of their own."""

    through: tuple[Position, ...] = field(metadata={"for": "points of the front edge, from the top down"})
    closed_with: Literal["lacing", "pins", "buttons", "hooks", "ties"] = field(
        default="pins", metadata={"for": "what holds it, to the other edge or to what lies under it"}
    )
    straight: bool = field(default=False, metadata={"for": "whether it runs straight from point to point"})
    robing: Amount = field(default=Length(0.0), metadata={"for": "width of a robing laid along the edge"})
    number: int | None = field(default=None, metadata={"for": "how many buttons, hooks or ties"})
    spacing: Amount | None = field(default=None, metadata={"for": "about how far apart they sit, in place of a number"})
    down_to: Literal["waist", "hem"] = field(default="waist", metadata={"for": "how far down they go"})


def problems(options: OpenFront) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    found = []
    if len(options.through) < 2:
        found.append(("through", "needs at least two points.", "Give the edge from the top down."))
    if options.closed_with == LACED:
        if options.number is not None or options.spacing is not None:
            key = "spacing" if options.number is None else "number"
            found.append((key, "is of no use with a lace.", "Say the eyelets in a step of their own: leave it out."))
    else:
        found += fastening_problems(options.closed_with, options.number, options.spacing is not None)
    return tuple(found)


def run(draft: Draft, options: OpenFront) -> Draft:
    """Return the draft with its front open along this line.

    GeometryError when the points do not run from the top down on this body, or when the line passes the centre front.
    """
    robing_mm = size_mm(draft.body, options.robing, "waist", "robing")
    if 0.0 < robing_mm < LEAST_ROBING_MM:
        what = f"got {robing_mm:.0f} mm; its fold alone takes {2.0 * TUCK_MM:.0f} mm."
        raise GeometryError([Problem("robing-narrow", "robing", what, "Make it 4 to 6 cm wide, or leave it out.")])
    line = free_line(draft, options.through, straight=options.straight)
    closing = Closing(
        by=options.closed_with,
        count=options.number,
        spacing_mm=spacing_mm(draft, options.spacing),
        to_hem=options.down_to == "hem",
        robing_mm=robing_mm,
    )
    gap = Gap("center front", waist_width_mm(draft.block, line), line, closing, free=True)
    return replace(draft, gaps=(*draft.gaps, gap))


LEAST_ROBING_MM = 2.0 * TUCK_MM + 6.0
"""A robing narrower than its fold, and a little, cannot be laid."""
