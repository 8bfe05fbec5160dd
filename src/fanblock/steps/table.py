"""The table of all steps: the word a recipe uses, what it reads, what it does and where in a recipe it may stand.

Nothing is discovered: a step exists when it has a row here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from fanblock.steps import (
    allowances,
    binding,
    busk,
    bust_reduction,
    channels,
    cut,
    dart,
    ease,
    eyelets,
    flare,
    gathered_front,
    grain,
    gusset,
    hem,
    lacing_gap,
    level_seam,
    lining,
    mark,
    notches,
    open_front,
    opening,
    pieces,
    pleats,
    seam,
    separate,
    shaping_bones,
    skirt,
    sleeve,
    stomacher,
    strap,
    tabs,
    top_edge,
    waist_reduction,
)

ON_BLOCK, SEPARATES, DIVIDES, ON_PANELS = "on the block", "separates", "divides a band", "on panels"


@dataclass(frozen=True, slots=True)
class StepKind:
    """One row: the step's word, its options class, its function and the half of a recipe it belongs in.

    ``adds`` gives the names of the pieces of its own that a step of these options adds; ``named`` every panel that it
    speaks of, as the option, the trail behind the step and the panel's name.
    """

    name: str
    options: type
    run: Callable[[Any, Any], Any]
    stage: str
    adds: Callable[[Any], tuple[str, ...]] = lambda _: ()
    named: Callable[[Any], Iterable[tuple[str, str, str]]] = lambda _: ()


TABLE: tuple[StepKind, ...] = (
    StepKind("ease", ease.Ease, ease.run, ON_BLOCK),
    StepKind("lacing gap", lacing_gap.LacingGap, lacing_gap.run, ON_BLOCK),
    StepKind("opening", opening.Opening, opening.run, ON_BLOCK),
    StepKind("open front", open_front.OpenFront, open_front.run, ON_BLOCK),
    StepKind("top edge", top_edge.TopEdge, top_edge.run, ON_BLOCK),
    StepKind("hem", hem.Hem, hem.run, ON_BLOCK),
    StepKind("seam", seam.Seam, seam.run, ON_BLOCK),
    StepKind("level seam", level_seam.LevelSeam, level_seam.run, ON_BLOCK),
    StepKind("dart", dart.Dart, dart.run, ON_BLOCK),
    StepKind("waist reduction", waist_reduction.WaistReduction, waist_reduction.run, ON_BLOCK),
    StepKind("bust reduction", bust_reduction.BustReduction, bust_reduction.run, ON_BLOCK),
    StepKind("separate", separate.Separate, separate.run, SEPARATES),
    StepKind("pieces", pieces.Pieces, pieces.run, DIVIDES),
    StepKind("flare", flare.Flare, flare.run, ON_PANELS),
    StepKind("pleats", pleats.Pleats, pleats.run, ON_PANELS),
    StepKind("skirt", skirt.Skirt, skirt.run, ON_PANELS, adds=skirt.adds, named=skirt.named),
    StepKind("tabs", tabs.Tabs, tabs.run, ON_PANELS, named=tabs.named),
    StepKind("gusset", gusset.Gusset, gusset.run, ON_PANELS, adds=gusset.adds, named=gusset.named),
    StepKind("lining", lining.Lining, lining.run, ON_PANELS, adds=lining.adds, named=lining.named),
    StepKind("channels", channels.Channels, channels.run, ON_PANELS, named=channels.named),
    StepKind("shaping bones", shaping_bones.ShapingBones, shaping_bones.run, ON_PANELS, named=shaping_bones.named),
    StepKind("busk", busk.Busk, busk.run, ON_PANELS, named=busk.named),
    StepKind("eyelets", eyelets.Eyelets, eyelets.run, ON_PANELS),
    StepKind("binding", binding.Binding, binding.run, ON_PANELS),
    StepKind("stomacher", stomacher.Stomacher, stomacher.run, ON_PANELS, adds=stomacher.adds),
    StepKind("strap", strap.Strap, strap.run, ON_PANELS, adds=strap.adds),
    StepKind(
        "gathered front",
        gathered_front.GatheredFront,
        gathered_front.run,
        ON_PANELS,
        adds=gathered_front.adds,
        named=gathered_front.named,
    ),
    StepKind("sleeve", sleeve.Sleeve, sleeve.run, ON_PANELS, adds=sleeve.adds),
    StepKind("mark", mark.Mark, mark.run, ON_PANELS, named=mark.named),
    StepKind("grain", grain.Grain, grain.run, ON_PANELS, named=grain.named),
    StepKind("notches", notches.Notches, notches.run, ON_PANELS),
    StepKind("allowances", allowances.Allowances, allowances.run, ON_PANELS),
    StepKind("cut", cut.Cut, cut.run, ON_PANELS, named=cut.named),
)

BY_NAME = {kind.name: kind for kind in TABLE}
