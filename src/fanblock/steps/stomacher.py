"""``stomacher``: the piece that lies under an open front, whole and symmetrical, and is pinned or laced there.

It is drawn on the block itself, behind the opening at the centre front: its sides run under the front edges, at one distance
from them at every height. Its upper edge runs through points given from the centre front outward; one point draws it level.
Below the front edges its sides go on to the foot.

```yaml
- stomacher: {top: [[center front, bust + 6 cm], [center front + 10 cm, bust + 7 cm]], depth: 11 cm, foot width: 7 cm}
```
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from fanblock.draft.opening import gap_at
from fanblock.draft.places import place_of, size_mm
from fanblock.draft.work import Work
from fanblock.fronts.stomacher import Shape, with_stomacher
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount, Length, Position

MOST_TABS = 8
"""More tabs than this are not found on any stomacher (from memory)."""

MOST_HELD = 8
"""More loops or eyelets a side than this are a slip."""

LEAST_DEPTH_MM = 20.0
"""A stomacher that reaches less below the waist would slip out of the skirts."""


@dataclass(frozen=True, slots=True)
class Stomacher:
    """What lies under an open front."""

    top: tuple[Position, ...] = field(metadata={"for": "points of its upper edge, from center front outward"})
    name: str = field(default="stomacher", metadata={"for": "the name of the piece"})
    depth: Amount = field(default=Length(100.0), metadata={"for": "how far it reaches below the waist, in the middle"})
    under: Amount = field(default=Length(25.0), metadata={"for": "how far it lies under the front edge on either side"})
    foot: Literal["rounded", "pointed", "straight"] = field(default="rounded", metadata={"for": "how it ends below"})
    foot_width: Amount | None = field(
        default=None, metadata={"for": "its width there; left out, its sides go on as they run"}
    )
    tabs: int = field(default=0, metadata={"for": "into how many tabs it is cut below the waist"})
    corner: Amount = field(default=Length(6.0), metadata={"for": "radius of the tabs' corners"})
    held_by: Literal["loops", "pins", "eyelets"] = field(
        default="loops", metadata={"for": "what holds it to what is worn under it"}
    )
    number: int = field(default=3, metadata={"for": "how many loops or eyelets on either side"})


def problems(options: Stomacher) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    found = []
    if not options.top:
        found.append(
            ("top", "needs at least one point.", "Give the middle of its upper edge: `[[center front, bust + 6 cm]]`.")
        )
    if options.tabs > MOST_TABS:
        found.append(("tabs", f"got {options.tabs}, needs {MOST_TABS} or fewer.", "Have fewer of them."))
    if not 1 <= options.number <= MOST_HELD:
        what = f"got {options.number}, needs 1 to {MOST_HELD}."
        found.append(("number", what, "To pin it without loops write `held by: pins`."))
    return tuple(found)


def adds(options: Stomacher) -> tuple[str, ...]:
    """Return the name of the piece this step adds."""
    return (options.name,)


def run(work: Work, options: Stomacher) -> Work:
    """Return the panels and the stomacher that lies under their front edges.

    GeometryError when the garment does not open in front, or the piece cannot be drawn so on this body.
    """
    gap = gap_at(work.draft, "center front", "stomacher")
    if gap.closing.overlap_mm:
        what = "the fronts lie over each other, and nothing shows between them."
        raise GeometryError([Problem("stomacher-hidden", "stomacher", what, "Leave it out, or leave the front open.")])
    body = work.body
    places = tuple(place_of(work.draft, position) for position in options.top)
    depth_mm = size_mm(body, options.depth, "back length", "depth")
    if depth_mm < LEAST_DEPTH_MM:
        what = f"got {depth_mm:.0f} mm, needs {LEAST_DEPTH_MM:.0f} mm or more."
        raise GeometryError([Problem("stomacher-short", "depth", what, "It has to go under the petticoats.")])
    shape = Shape(
        name=options.name,
        top=places,
        depth_mm=depth_mm,
        under_mm=size_mm(body, options.under, "waist", "under"),
        foot=options.foot,
        foot_mm=None if options.foot_width is None else size_mm(body, options.foot_width, "waist", "foot width"),
        tabs=options.tabs,
        corner_mm=size_mm(body, options.corner, "waist", "corner"),
        held_by=options.held_by,
        count=options.number,
    )
    return with_stomacher(work, gap, shape)
