"""Rules on the order of steps: what stands before `separate`, what after, and what may stand once."""

from __future__ import annotations

from fanblock.problems import Place
from fanblock.recipe.findings import Findings
from fanblock.recipe.stepreading import ReadStep
from fanblock.steps.table import DIVIDES, ON_BLOCK, ON_PANELS, SEPARATES

ONCE = frozenset({"top edge", "hem", "sleeve", "tabs", "grain", "notches", "allowances", "binding"})
"""Steps that say all they have to say in one place; a second would silently undo the first."""

NOT_ON_BANDS = frozenset(
    {"busk", "eyelets", "flare", "gusset", "lining", "mark", "pleats", "shaping bones", "skirt", "tabs"}
)
"""Steps on panels that want a waist, or a block of waist and bust to be placed on."""

NEEDED = ("top edge", "hem")
"""Steps without which there is nothing to cut along."""


def check_order(steps: tuple[ReadStep, ...], whole: bool, steps_place: Place, findings: Findings) -> None:
    """Note steps in the wrong half of the recipe, steps that are missing and steps that stand twice.

    ``whole`` tells that every step of the recipe could be named; if not, none is said to be missing.
    """
    separating = [step for step in steps if step.kind.stage == SEPARATES]
    if not separating and whole:
        what = "`separate` is missing, which cuts the draft apart into panels."
        findings.wrong("step-missing", "steps", what, "Add it after the last seam.", steps_place)
    elif separating:
        _check_halves(steps, separating[0], findings)
    for step in separating[1:]:
        what = f"the draft is cut apart a second time (first in step {separating[0].number})."
        findings.wrong("step-twice", step.where, what, "Keep one `separate`.", step.place)
    names = {step.kind.name for step in steps}
    for name in NEEDED:
        if name not in names and whole:
            what = f"`{name}` is missing."
            findings.wrong("step-missing", "steps", what, f"Add a `{name}` before `separate`.", steps_place)
    for step in steps:
        if step.kind.stage == DIVIDES:
            what = "divides a band, and this recipe is made of bust and waist."
            findings.wrong(
                "step-block", step.where, what, "Use `separate`, or say what `block` it is made of.", step.place
            )
    _check_once(steps, findings)


def check_band_order(steps: tuple[ReadStep, ...], whole: bool, steps_place: Place, findings: Findings) -> None:
    """Note steps that a band has no use for, and a `pieces` that is missing, late or there twice."""
    dividing = [step for step in steps if step.kind.stage == DIVIDES]
    if not dividing and whole:
        what = "`pieces` is missing, which cuts the band into pieces."
        findings.wrong("step-missing", "steps", what, "Add `- pieces: {name: …}` as the first step.", steps_place)
    for step in dividing[1:]:
        what = f"the band is divided a second time (first in step {dividing[0].number})."
        findings.wrong("step-twice", step.where, what, "Keep one `pieces`.", step.place)
    for step in steps:
        if step.kind.stage in (ON_BLOCK, SEPARATES) or step.kind.name in NOT_ON_BANDS:
            what = "has no place on a band, which knows no waist and no bust."
            findings.wrong("step-block", step.where, what, "Take it out, or take out `block`.", step.place)
        elif dividing and step.number < dividing[0].number:
            what = f"works on panels, but stands before `pieces` (step {dividing[0].number})."
            findings.wrong("step-order", step.where, what, "Move it after that step.", step.place)
    _check_once(steps, findings)


def _check_once(steps: tuple[ReadStep, ...], findings: Findings) -> None:
    first: dict[str, int] = {}
    for step in steps:
        if step.kind.name in first and step.kind.name in ONCE:
            what = f"stands a second time (first in step {first[step.kind.name]})."
            findings.wrong("step-twice", step.where, what, "Put all its options in one step.", step.place)
        first.setdefault(step.kind.name, step.number)


def _check_halves(steps: tuple[ReadStep, ...], separate: ReadStep, findings: Findings) -> None:
    for step in steps:
        if step.kind.stage == ON_BLOCK and step.number > separate.number:
            what = f"draws on the block, but stands after `separate` (step {separate.number})."
            findings.wrong("step-order", step.where, what, "Move it before that step.", step.place)
        if step.kind.stage == ON_PANELS and step.number < separate.number:
            what = f"works on panels, but stands before `separate` (step {separate.number})."
            findings.wrong("step-order", step.where, what, "Move it after that step.", step.place)
