"""``channels``: straight channels for bones on one panel, parallel, fanned, slanting, or beside the eyelets.

Bones do not bend edgewise, so every channel is straight on the flat panel. It runs from near the top edge past the waist
into one tab, and keeps clear of edges, slits, eyelets, notches and other channels. What finds no place is left out and
said.

```yaml
- channels: {panel: front, bone: 6 mm, fan: [center front, side front], fully: yes}
```
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Literal

from fanblock.draft.adding import edge_of, panel_of
from fanblock.draft.places import size_mm
from fanblock.draft.plans import BESIDE, FAN, PARALLEL, SLANT, ChannelPlan, Clear
from fanblock.draft.work import Work
from fanblock.pattern.bones import Bone
from fanblock.pattern.model import SEWN, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount, Height, Length, Share

Material = Literal["synthetic whalebone", "flat steel", "spiral steel", "reed", "cane", "wood"]
"""What bones and busks are made of."""

LINES = ("grain", "center front", "center back")
"""What channels may be parallel to besides an edge of their panel."""

NARROWEST_MM = 2.0
"""The narrowest bones in originals are 2 mm wide (published: 2 to 8 mm on stays of 1603 to 1790)."""

MOST_IN_GROUP = 12

SEWN_MM = 4.0
"""What is free beside a seam that was sewn before the channels: room for the presser foot; a seam that is whipped later
wants a bone's width (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Channels:
    """Bones of one kind on one panel."""

    panel: str = field(metadata={"for": "the panel they are stitched on"})
    bone: Amount = field(default=Length(6.0), metadata={"for": "width of the bones"})
    thickness: Amount = field(default=Length(1.5), metadata={"for": "thickness of the bones"})
    material: Material = field(default="synthetic whalebone", metadata={"for": "what the bones are"})
    play: Amount = field(
        default=Length(2.0),
        metadata={"for": "how much wider than the bone its channel is; at least the bone's thickness is given"},
    )
    parallel: str | None = field(
        default=None,
        metadata={"for": "they run parallel to this edge, or to `grain`, `center front` or `center back`"},
    )
    slant: tuple[Share, ...] = field(
        default=(),
        metadata={"for": "they run parallel to the line from a share of the panel's top edge to one of its waist"},
    )
    fan: tuple[str, ...] = field(default=(), metadata={"for": "they spread between these two edges"})
    beside: str | None = field(
        default=None, metadata={"for": "one bone along this edge, or, where it has eyelets, one on each side of them"}
    )
    fully: bool = field(default=False, metadata={"for": "fill the panel: every channel touches the next"})
    count: int | None = field(
        default=None, metadata={"for": "how many bones, or groups of bones, with bare cloth between"}
    )
    spacing: Amount | None = field(
        default=None, metadata={"for": "or how far apart they stand where they are closest, middle to middle"}
    )
    group: int = field(default=1, metadata={"for": "how many bones of each group touch"})
    within: tuple[Share, ...] = field(
        default=(), metadata={"for": "the part of the panel they stand in: two shares, from its front side"}
    )
    highest: Height | None = field(default=None, metadata={"for": "a height they do not pass upward"})
    lowest: Height | None = field(default=None, metadata={"for": "a height they do not pass downward"})
    top_front: Amount = field(default=Length(10.0), metadata={"for": "how far bones end below the top edge in front"})
    under_arm: Amount = field(default=Length(12.0), metadata={"for": "the same under the arm"})
    back: Amount = field(default=Length(6.0), metadata={"for": "the same behind"})
    hem: Amount = field(default=Length(12.7), metadata={"for": "how far they end above the lower edge"})
    seam: Amount = field(default=Length(6.0), metadata={"for": "how far they end before a seam they run up against"})
    beside_seam: Amount | None = field(
        default=None,
        metadata={"for": "how far a channel keeps beside a seam; if left out, a bone's width, 4 mm in a sewn garment"},
    )


def problems(options: Channels) -> Iterator[tuple[str, str, str]]:
    """Yield what is wrong between the options, as (key, what, remedy)."""
    ways = [
        key
        for key, given in (
            ("parallel", options.parallel is not None),
            ("slant", bool(options.slant)),
            ("fan", bool(options.fan)),
            ("beside", options.beside is not None),
        )
        if given
    ]
    if len(ways) > 1:
        yield ways[1], f"stands beside `{ways[0]}`, and they can run one way only.", "Keep one of them."
    if not ways and not options.fully:
        yield "panel", "does not say how the channels run.", "Give `parallel`, `slant`, `fan` or `beside`."
    amounts = [
        key
        for key, given in (
            ("fully", options.fully),
            ("count", options.count is not None),
            ("spacing", options.spacing is not None),
        )
        if given
    ]
    if options.beside is not None and amounts:
        yield amounts[0], "does not go with `beside`, which is one bone, or two beside eyelets.", "Leave it out."
    elif options.beside is None and len(amounts) != 1:
        what = f"stands beside `{amounts[0]}`." if amounts else "does not say how many channels there are."
        yield (amounts or ["panel"])[-1], what, "Give one of `fully`, `count` and `spacing`."
    yield from _shapes(options)


def _shapes(options: Channels) -> Iterator[tuple[str, str, str]]:
    """Yield what is wrong with single options that their types cannot tell."""
    if options.fan and (len(options.fan) != 2 or options.fan[0] == options.fan[1]):
        yield "fan", "needs two different edges.", "Write `fan: [center front, side front]`."
    if options.slant and len(options.slant) != 2:
        yield "slant", "needs two shares.", "Write `slant: [80%, 20%]`: of the top edge, then of the waist."
    if options.within and (len(options.within) != 2 or options.within[0].ratio >= options.within[1].ratio):
        yield "within", "needs two shares, the smaller first.", "Write `within: [0%, 40%]`."
    if options.count == 0:
        yield "count", "got 0, needs 1 or more.", "Leave the step out."
    if not 1 <= options.group <= MOST_IN_GROUP:
        yield "group", f"got {options.group}, needs a number from 1 to {MOST_IN_GROUP}.", ""
    if options.group > 1 and (options.fully or options.beside is not None):
        yield "group", "goes with `count` or `spacing` only.", "Leave it out."


def named(options: Channels) -> Iterator[tuple[str, str, str]]:
    """Yield every panel this step speaks of."""
    yield "panel", " › panel", options.panel


def run(work: Work, options: Channels) -> Work:
    """Return the panels with these channels planned; GeometryError for an edge that the panel does not have."""
    panel = panel_of(work, options.panel)
    bone = bone_of(work, options.bone, options.thickness, options.material)

    def mm(option: str) -> float:
        return size_mm(work.body, getattr(options, option), "waist", option.replace("_", " "))

    beside = SEWN_MM if work.construction == SEWN else bone.width_mm
    if options.beside_seam is not None:
        beside = mm("beside_seam")
    clear = Clear(mm("top_front"), mm("under_arm"), mm("back"), mm("hem"), mm("seam"), beside)
    way, edges = _way(panel, options)
    spacing = None if options.spacing is None else mm("spacing")
    plan = ChannelPlan(
        panel=options.panel,
        bone=bone,
        play_mm=mm("play"),
        way=way,
        clear=clear,
        edges=edges,
        slant=tuple(share.ratio for share in options.slant),
        fully=options.fully,
        count=options.count,
        spacing_mm=spacing,
        group=options.group,
        within=(options.within[0].ratio, options.within[1].ratio) if options.within else (0.0, 1.0),
        highest=options.highest,
        lowest=options.lowest,
    )
    if spacing is not None and spacing < plan.width_mm * options.group:
        what = f"got {spacing:.0f} mm for {options.group} channels of {plan.width_mm:.0f} mm: they would lap."
        raise GeometryError([Problem("spacing-small", "spacing", what, "Set them further apart, or fill it `fully`.")])
    return replace(work, plans=(*work.plans, plan))


def bone_of(work: Work, width: Amount, thickness: Amount, material: str, key: str = "bone") -> Bone:
    """Return a kind of bone; GeometryError when it is too narrow, or thicker than it is wide."""
    wide, thick = size_mm(work.body, width, "waist", key), size_mm(work.body, thickness, "waist", "thickness")
    if wide < NARROWEST_MM:
        what = f"got {wide:.1f} mm, needs {NARROWEST_MM:.0f} mm or more."
        raise GeometryError([Problem("bone-narrow", key, what, "Choose a wider bone.")])
    if not 0.0 < thick <= wide:
        what = f"got {thick:.1f} mm for a bone {wide:.1f} mm wide."
        raise GeometryError([Problem("bone-thick", "thickness", what, "A bone is thinner than it is wide.")])
    return Bone(wide, thick, material)


def _way(panel: Panel, options: Channels) -> tuple[str, tuple[str, ...]]:
    """How channels run, and the edges that tells of."""
    if options.beside is not None:
        return BESIDE, (edge_of(panel, options.beside, "beside").name,)
    if options.fan:
        return FAN, tuple(edge_of(panel, name, "fan").name for name in options.fan)
    if options.slant:
        if "waist" not in panel.levels:
            what = f"“{panel.name}” has no waist to slant to."
            raise GeometryError([Problem("no-waist", "slant", what, "Give `parallel` or `fan`.")])
        return SLANT, ()
    if options.parallel is None:
        return "", ()
    if options.parallel not in LINES:
        edge_of(panel, options.parallel, "parallel")
    return PARALLEL, (options.parallel,)
