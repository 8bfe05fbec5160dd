"""Panels laid seam to seam, and the side view, for garments with shoulders."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from fanblock.geometry.curve import Points
from fanblock.make import draft_pattern
from fanblock.pattern.model import SHOULDER, Pattern
from fanblock.recipe.library import open_recipe
from fanblock.sheet.joined import joined
from fanblock.sheet.worn import Worn
from fanblock.wearer.library import open_wearer

WITH_SHOULDERS = ("doublet-bodice-1570s", "jumps", "kirtle-bodice-front-lacing")


@cache
def drawn(recipe_id: str) -> Pattern:
    """Return a shipped recipe's pattern for the ferrywoman."""
    return draft_pattern(open_wearer("ferrywoman"), open_recipe(recipe_id))


@pytest.mark.parametrize("recipe_id", WITH_SHOULDERS)
def test_panels_are_laid_round_the_body_and_never_against_a_shoulder(recipe_id: str) -> None:
    """At every seam that goes round the body the two panels meet at the waist; the back stays on the right of the front."""
    pattern = drawn(recipe_id)
    laid = joined(pattern)
    for seam in (seam for seam in pattern.seams if {seam.front.panel, seam.back.panel} <= set(laid)):
        front, back = laid[seam.front.panel].edge(seam.front.edge), laid[seam.back.panel].edge(seam.back.edge)
        if front.kind != SHOULDER:
            assert front.waist_at_mm is not None
            assert back.waist_at_mm is not None
            assert front.curve.at(front.waist_at_mm) == pytest.approx(back.curve.at(back.waist_at_mm), abs=1e-6)
    middles = [float(np.mean(laid[panel.name].loop()[:, 0])) for panel in pattern.panels if not panel.added]
    assert middles == sorted(middles)


@pytest.mark.parametrize("recipe_id", WITH_SHOULDERS)
def test_in_the_side_view_front_and_back_meet_at_the_neck(recipe_id: str) -> None:
    """Seen from the side both shoulders' upper ends lie within 15 mm of one another: they are sewn together."""
    pattern = drawn(recipe_id)
    worn = Worn(pattern)
    seam = next(one for one in pattern.seams if pattern.by_name[one.front.panel].edge(one.front.edge).kind == SHOULDER)

    def seen(panel: str, edge: str) -> Points:
        index = [one.name for one in worn.panels].index(panel)
        return worn.place(index, pattern.by_name[panel].edge(edge).curve.points[[0, -1]])

    one, other = seen(seam.front.panel, seam.front.edge), seen(seam.back.panel, seam.back.edge)
    assert np.hypot(*(one - other[::-1]).T).min() < 15.0
