"""Rules of the steps that flare skirts and let pleats into them: what they speak of must be a seam that is sewn, or a centre."""

from __future__ import annotations

from collections.abc import Iterator

from fanblock.problems import nearest
from fanblock.recipe.findings import Findings
from fanblock.recipe.stepreading import ReadStep
from fanblock.steps.flare import Flare
from fanblock.steps.pleats import Pleats
from fanblock.steps.seam import Seam
from fanblock.terms import CENTERS
from fanblock.units import shown

OPEN_EDGES = ("back edge", "front edge", "lacing edge", "lacing edge back", "lacing edge front")
"""What an edge at which a garment opens may be called."""


def check_skirts(steps: tuple[ReadStep, ...], findings: Findings) -> None:
    """Note seams that are not there or not sewn below the waist, and pleats that are let into one place twice."""
    seams = {step.options.name: step.options for step in steps if isinstance(step.options, Seam)}
    pleated: dict[str, int] = {}
    for step in steps:
        for key, name in _places(step):
            _check_place(step, key, name, seams, findings)
        if isinstance(step.options, Pleats):
            at = step.options.at
            if at in pleated:
                what = f"there are pleats at {shown(at)} already (step {pleated[at]})."
                remedy = "Give their `number` in one step."
                findings.wrong("step-twice", f"{step.where} › at", what, remedy, step.place_of("at"))
            pleated.setdefault(at, step.number)


def _places(step: ReadStep) -> Iterator[tuple[str, str]]:
    """Yield every option of a step that speaks of seams, with each seam."""
    if isinstance(step.options, Flare):
        yield from (("by", name) for name in step.options.by)
        yield from (("shares", name) for name in step.options.shares)
    if isinstance(step.options, Pleats):
        yield "at", step.options.at


def _check_place(step: ReadStep, key: str, name: str, seams: dict[str, Seam], findings: Findings) -> None:
    known = (*seams, *CENTERS, *(OPEN_EDGES if isinstance(step.options, Flare) else ()))
    where, place = f"{step.where} › {key}", step.place_of_name(key, name)
    if name not in known:
        what = f"there is no seam {shown(name)}."
        findings.wrong("unknown-seam", where, what, nearest(name, [*seams, *CENTERS]), place)
    elif name in seams and seams[name].below_waist != "sewn":
        what = f"{shown(name)} is not sewn below the waist."
        findings.wrong("seam-open", where, what, "Write `below waist: sewn` in that seam.", place)
