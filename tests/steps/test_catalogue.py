"""Every step on every body of the catalogue: it draws or says why not, changes nothing it was given, and is repeatable."""

from __future__ import annotations

import pickle
from typing import Any

import pytest
from tests.samples import BODIES, GAP, HEM, RED, THREE, TOP, block, body, recipe, side_back, side_front

from fanblock.draft.model import Draft
from fanblock.recipe.model import Recipe
from fanblock.steps.table import BY_NAME, TABLE

EVERY_STEP = (
    "ease: {waist: 12 mm, bust: -8 mm}",
    GAP,
    TOP,
    HEM,
    side_front(below_waist="open"),
    side_back(below_waist="open", take="{top edge: 6 mm}"),
    RED,
    "bust reduction: {by: 1%}",
    THREE,
    "tabs: {slits: {side: 2, back: [50%]}, corner: 10 mm}",
    "eyelets: {from edge: 12 mm}",
    "channels: {panel: side, parallel: grain, count: 4}",
    "busk: {panel: front}",
    "shaping bones: {panels: [front], through: [[center front, bust], [12%, bust]]}",
    "binding: {of: leather}",
    "grain: {front: center front, back: center back}",
    "notches: {at: 35%}",
    "allowances: {seam: 12 mm, lacing: 20 mm}",
    "cut: {outer: 2, lining: 2, on fold: [front]}",
)


def whole() -> Recipe:
    """Return a recipe that holds every step there is."""
    return recipe(*EVERY_STEP, makes="stays")


def test_the_recipe_holds_every_step() -> None:
    """Nothing in the table is left out of this trial, except what later garments need."""
    assert {step.kind for step in whole().steps} <= {kind.name for kind in TABLE}
    assert len({step.kind for step in whole().steps}) >= 13


@pytest.mark.parametrize("name", BODIES)
def test_every_step_runs_on_every_body(name: str) -> None:
    """Run one after another on a body of the catalogue, each step returns a new state and leaves the old as it was."""
    state: Any = Draft(body(name), block(name))
    for step in whole().steps:
        before = dump(state)
        after = BY_NAME[step.kind].run(state, step.options)
        assert dump(state) == before
        assert after is not state
        assert dump(BY_NAME[step.kind].run(state, step.options)) == dump(after)
        state = after


def dump(state: Any) -> bytes:
    """Return everything in a state that is not a function, as bytes."""
    lines = [(line.name, line.points.tobytes()) for line in getattr(state, "lines", ()) if not isinstance(line, str)]
    seams = [(seam.name, seam.top, seam.low) for seam in getattr(state, "seams", ()) if hasattr(seam, "top")]
    panels = [
        (panel.name, panel.loop().tobytes(), panel.fold, tuple(slit.end.tobytes() for slit in panel.slits))
        for panel in getattr(state, "panels", ())
    ]
    names = (
        "lower_ease_mm",
        "upper_ease_mm",
        "lower_reduction_mm",
        "upper_reduction_mm",
        "notch_at",
        "tick_mm",
        "layers",
    )
    rest = [(name, getattr(state, name, None)) for name in names]
    widths = [sorted(getattr(state, name, {}).items()) for name in ("allowance_by_kind", "allowance_by_name", "grains")]
    return pickle.dumps(
        (lines, seams, panels, rest, widths, getattr(state, "on_fold", ()), getattr(state, "plans", ()))
    )
