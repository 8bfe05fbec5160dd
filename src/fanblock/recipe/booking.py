"""Rules on ease and reduction: they are counted from the girths that the block stands on, and from no others."""

from __future__ import annotations

from collections.abc import Iterator

from fanblock.draft.booking import WAISTS, off_stand
from fanblock.recipe.findings import Findings
from fanblock.recipe.stepreading import ReadStep
from fanblock.steps import ease
from fanblock.steps.bust_reduction import BustReduction
from fanblock.steps.ease import Ease
from fanblock.steps.waist_reduction import WaistReduction
from fanblock.wearer.girths import BUST, WAIST


def check_booked(steps: tuple[ReadStep, ...], names: tuple[str, str] | None, findings: Findings) -> None:
    """Note ease and reductions at girths that are not among ``names``, those the block stands on; a band has none."""
    for step in steps if names else ():
        for key, girth in _booked(step.options):
            if names and girth not in names and not (girth == WAIST and key == "" and names[0] in WAISTS):
                where = f"{step.where} › {key}" if key else step.where
                place = step.place_of(key) if key else step.place
                findings.wrong("off-stand", where, *off_stand(girth, names), place)


def _booked(options: object) -> Iterator[tuple[str, str]]:
    """Yield (key, girth) for everything a step books; a reduction has no key for its girth."""
    if isinstance(options, Ease):
        yield from ((name, name) for name in ease.given(options))
    elif isinstance(options, WaistReduction):
        yield "", WAIST
    elif isinstance(options, BustReduction):
        yield "", BUST
