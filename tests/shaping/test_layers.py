"""Layers of their own for whole shipped garments: tabs, straps, points and gussets."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from tests.samples import failed

from fanblock import open_recipe, open_wearer
from fanblock.draft.plans import LayerPlan
from fanblock.draft.starting import started
from fanblock.draft.work import Work
from fanblock.finish.finish import finished
from fanblock.make import run_steps
from fanblock.pattern.model import Pattern, Title
from fanblock.problems import GeometryError
from fanblock.recipe.dials import with_dials
from fanblock.terms import Height
from fanblock.wearer.body import body_of

PLANS: dict[str, dict[str, Any]] = {
    "inside": {"inside_mm": 4.0},
    "outside": {"inside_mm": -2.0},
    "down to the waist": {"inside_mm": 3.0, "down_to": Height(landmark="waist")},
    "short of the edges": {"inside_mm": 0.0, "short_mm": 5.0},
}
GARMENTS = ("stays-five-panels", "stays-1690s", "jumps", "bodies-1560s", "bodies-1620s", "doublet-bodice-1570s")


def work_of(recipe_id: str) -> Work:
    """Return a shipped recipe drawn for the innkeeper, before it is finished."""
    recipe = with_dials(open_recipe(recipe_id))
    body = body_of(open_wearer("innkeeper"), recipe.worn_over, predict=True)
    return run_steps(started(body, recipe.block), recipe)


def layered(work: Work, **plan: Any) -> Pattern:
    """Return a work finished with a second layer of every panel cut from the block, and of pieces let in if it goes on there."""
    let_in = "down_to" not in plan
    names = tuple(panel.name for panel in work.panels if not panel.added or (panel.let_in and let_in))
    whole = LayerPlan("second layer", names, count=2, **plan)
    return finished(replace(work, layer_plans=(whole,)), Title("", "", "", "stays", "", 1, ""))


@pytest.mark.parametrize("plan", PLANS)
@pytest.mark.parametrize("garment", GARMENTS)
def test_a_second_layer_of_a_shipped_garment_holds(garment: str, plan: str) -> None:
    """Its seams agree, its edges run on, and it is as much smaller round as the turn of cloth asks."""
    pattern = layered(work_of(garment), **PLANS[plan])
    assert any(panel.layer for panel in pattern.panels)
    assert failed(pattern) == []


def test_a_panel_without_a_seam_has_no_layer_of_its_own() -> None:
    """A bodice laced at both sides has nothing to take a layer in at."""
    with pytest.raises(GeometryError) as caught:
        layered(work_of("kirtle-bodice-side-lacing"), inside_mm=4.0)
    assert str(caught.value).splitlines() == [
        f"lining › panels › panel “{name}” has no seam at which it could be made narrower. Leave it out."
        for name in ("back", "front")
    ]
