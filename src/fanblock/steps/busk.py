"""``busk``: a pocket at the centre front for a busk, a stiff straight piece that can be taken out.

The pocket is open above, and closed below. Half of it lies on the piece that is drawn, half on the other.

```yaml
- busk: {panel: front, width: 40 mm}
```
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from fanblock.draft.adding import panel_of
from fanblock.draft.places import size_mm
from fanblock.draft.plans import BuskPlan
from fanblock.draft.work import Work
from fanblock.steps.channels import Material, bone_of
from fanblock.terms import Amount, Length


@dataclass(frozen=True, slots=True)
class Busk:
    """A busk and its pocket."""

    panel: str = field(metadata={"for": "the panel at the centre front"})
    width: Amount = field(default=Length(38.0), metadata={"for": "width of the busk, at its top"})
    low_width: Amount | None = field(default=None, metadata={"for": "width at its lower end, where it is another"})
    thickness: Amount = field(default=Length(4.0), metadata={"for": "thickness of the busk"})
    material: Material = field(default="wood", metadata={"for": "what it is made of"})
    length: Amount | None = field(
        default=None, metadata={"for": "length of the busk; if left out it is `shorter` than the centre front"}
    )
    shorter: Amount = field(
        default=Length(10.0), metadata={"for": "how much shorter than the centre front, from top edge to lower edge"}
    )
    from_top: Amount = field(default=Length(5.0), metadata={"for": "how far it ends below the top edge"})
    play: Amount = field(
        default=Length(4.0),
        metadata={"for": "how much wider its pocket is; at least the busk's thickness is given"},
    )


def named(options: Busk) -> Iterator[tuple[str, str, str]]:
    """Yield every panel this step speaks of."""
    yield "panel", " › panel", options.panel


def run(work: Work, options: Busk) -> Work:
    """Return the panels with this busk planned."""
    panel_of(work, options.panel)
    bone = bone_of(work, options.width, options.thickness, options.material, "width")

    def mm(option: str) -> float:
        return size_mm(work.body, getattr(options, option), "waist", option.replace("_", " "))

    plan = BuskPlan(
        panel=options.panel,
        bone=bone,
        low_width_mm=None if options.low_width is None else mm("low_width"),
        play_mm=mm("play"),
        length_mm=None if options.length is None else mm("length"),
        shorter_mm=mm("shorter"),
        from_top_mm=mm("from_top"),
    )
    return replace(work, plans=(*work.plans, plan))
