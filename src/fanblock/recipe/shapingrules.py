"""Rules for darts, marks, gussets and layers of their own: what they speak of must be there, and in the right order."""

from __future__ import annotations

from fanblock.problems import nearest
from fanblock.recipe.findings import Findings
from fanblock.recipe.phrase import NAME_REMEDY, is_name
from fanblock.recipe.stepreading import ReadStep
from fanblock.steps.cut import Cut
from fanblock.steps.dart import Dart
from fanblock.steps.gusset import Gusset
from fanblock.steps.lining import Lining
from fanblock.steps.mark import Mark
from fanblock.steps.seam import Seam
from fanblock.steps.tabs import Tabs
from fanblock.terms import LANDMARK_AROUNDS, LANDMARK_HEIGHTS
from fanblock.units import shown


def check_shaping(steps: tuple[ReadStep, ...], findings: Findings) -> None:
    """Note darts and marks without a good name, gores without their seam, and layers that are counted twice."""
    _check_darts(steps, findings)
    _check_marks(steps, findings)
    _check_gores(steps, findings)
    _check_layers(steps, findings)


def _check_darts(steps: tuple[ReadStep, ...], findings: Findings) -> None:
    taken: dict[str, int] = {}
    for step in steps:
        options = step.options
        if isinstance(options, Seam):
            taken.setdefault(options.name, step.number)
        if not isinstance(options, Dart):
            continue
        where, place = f"{step.where} › name", step.place_of("name")
        if options.name in taken:
            what = f"{shown(options.name)} is the name of a seam or a dart already (step {taken[options.name]})."
            findings.wrong("name-twice", where, what, "Give every seam and dart a name of its own.", place)
        elif options.name in LANDMARK_AROUNDS or options.name in LANDMARK_HEIGHTS:
            what = f"{shown(options.name)} is the name of a place on every block."
            findings.wrong("name-taken", where, what, f"Name the dart otherwise, such as “{options.name} dart”.", place)
        elif not is_name(options.name):
            findings.wrong("not-a-name", where, f"{shown(options.name)} cannot be a name.", NAME_REMEDY, place)
        taken.setdefault(options.name, step.number)


def _check_marks(steps: tuple[ReadStep, ...], findings: Findings) -> None:
    for step in steps:
        if isinstance(step.options, Mark) and not is_name(step.options.name):
            what = f"{shown(step.options.name)} cannot be a name."
            findings.wrong("not-a-name", f"{step.where} › name", what, NAME_REMEDY, step.place_of("name"))


def _check_gores(steps: tuple[ReadStep, ...], findings: Findings) -> None:
    seams = {step.options.name: step.options for step in steps if isinstance(step.options, Seam)}
    tabs = next((step.number for step in steps if isinstance(step.options, Tabs)), None)
    for step in steps:
        options = step.options
        if not isinstance(options, Gusset) or not options.in_seam:
            continue
        where, place = f"{step.where} › in seam", step.place_of("in seam")
        seam = seams.get(options.in_seam)
        if seam is None:
            what = f"there is no seam {shown(options.in_seam)}."
            findings.wrong("unknown-seam", where, what, nearest(options.in_seam, seams), place)
        elif seam.below_waist != "open":
            what = f"the seam {shown(options.in_seam)} is not open below the waist, where a gore could be let in."
            findings.wrong("gore-seam", where, what, "Say `below waist: open` in that seam.", place)
        elif tabs is not None and tabs < step.number:
            what = f"stands after `tabs` (step {tabs}), which rounds the corners it is sewn to."
            findings.wrong("step-order", step.where, what, "Move it before that step.", step.place)


def _check_layers(steps: tuple[ReadStep, ...], findings: Findings) -> None:
    layers: dict[str, int] = {}
    covered: dict[str, set[str]] = {}
    for step in steps:
        options = step.options
        if not isinstance(options, Lining):
            continue
        if not is_name(options.layer):
            what = f"{shown(options.layer)} cannot be a name."
            findings.wrong("not-a-name", f"{step.where} › layer", what, NAME_REMEDY, step.place_of("layer"))
        layers.setdefault(options.layer, step.number)
        covered.setdefault(options.layer, set()).update(options.panels)
    for step in steps:
        options = step.options
        if not isinstance(options, Cut):
            continue
        for layer in sorted(set(options.layers) & set(layers)):
            named = set(options.panels)
            if options.panels and not named & covered[layer]:
                continue
            what = f"the {layer} has pieces of its own (step {layers[layer]}), which are counted there."
            remedy = f"Take `{layer}` out here, or say it for the panels without one."
            findings.wrong("step-options", f"{step.where} › {layer}", what, remedy, step.place_of(layer))
