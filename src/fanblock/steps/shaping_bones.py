"""``shaping bones``: curved bones laid across the inside of the front, under the lining, to keep it round.

They bend through their thickness along a level or an arc, and lie over the straight channels without being stitched
through all layers.

```yaml
- shaping bones: {panels: [center front, side front], through: [[center front, held bust], [20%, held bust - 5 mm]], count: 2}
```
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from fanblock.draft.adding import panel_of
from fanblock.draft.places import size_mm
from fanblock.draft.plans import ShapingPlan
from fanblock.draft.work import Work
from fanblock.steps.channels import Material, bone_of
from fanblock.terms import Amount, Length, Position

MOST = 6
"""Most curved bones one below the other: they are few, and thicker than the others (from memory)."""


@dataclass(frozen=True, slots=True)
class ShapingBones:
    """Curved bones, one below the other, across some panels."""

    panels: tuple[str, ...] = field(metadata={"for": "the panels they cross, from front to back"})
    through: tuple[Position, ...] = field(metadata={"for": "two or more places that the uppermost runs through"})
    count: int = field(default=1, metadata={"for": "how many"})
    apart: Amount = field(default=Length(15.0), metadata={"for": "how far apart, from middle to middle"})
    bone: Amount = field(default=Length(7.0), metadata={"for": "width of the bones"})
    thickness: Amount = field(default=Length(2.0), metadata={"for": "thickness of the bones"})
    material: Material = field(default="synthetic whalebone", metadata={"for": "what the bones are"})
    play: Amount = field(default=Length(2.0), metadata={"for": "how much wider than the bone its channel is"})


def problems(options: ShapingBones) -> Iterator[tuple[str, str, str]]:
    """Yield what is wrong between the options, as (key, what, remedy)."""
    if len(options.through) < 2:
        yield "through", "needs two places or more.", "Write `through: [[center front, held bust], [20%, held bust]]`."
    if not 1 <= options.count <= MOST:
        yield "count", f"got {options.count}, needs a number from 1 to {MOST}.", ""
    if not options.panels:
        yield "panels", "names no panel.", "Write `panels: [front]`."


def named(options: ShapingBones) -> Iterator[tuple[str, str, str]]:
    """Yield every panel this step speaks of."""
    yield from (("panels", " › panels", name) for name in options.panels)


def run(work: Work, options: ShapingBones) -> Work:
    """Return the panels with these bones planned."""
    for name in options.panels:
        panel_of(work, name, "panels")
    bone = bone_of(work, options.bone, options.thickness, options.material)
    play = size_mm(work.body, options.play, "waist", "play")
    apart = size_mm(work.body, options.apart, "waist", "apart")
    plan = ShapingPlan(options.panels, bone, play, options.through, options.count, apart)
    return replace(work, plans=(*work.plans, plan))
