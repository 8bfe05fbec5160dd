"""Tabs beside a seam that is sewn to the hem: the lower edge runs on across it, as at the point of a pair of stays."""

from __future__ import annotations

import numpy as np

from fanblock.geometry.rings import holds_together
from fanblock.make import draft_pattern
from fanblock.recipe.library import open_recipe
from fanblock.wearer.library import open_wearer


def test_no_corner_is_rounded_where_a_seam_is_sewn_to_the_hem() -> None:
    """The two panels of a sewn point meet in one place at its lower edge; corners there would cut a notch into it."""
    pattern = draft_pattern(open_wearer("ferrywoman"), open_recipe("stays-1740s-fully-boned"))
    front, side = pattern.by_name["center front"], pattern.by_name["side front"]
    end_of_hem = front.edge("hem").curve.end
    assert np.hypot(*(end_of_hem - front.edge("front seam").curve.start)) < 1e-6
    assert np.hypot(*(side.edge("hem 1").curve.start - side.edge("front seam").curve.end)) < 1e-6
    assert front.edge("front seam").curve.length_mm > 180.0


def test_a_piece_that_is_wide_enough_everywhere_holds_together() -> None:
    """A crumb that only coarse arithmetic cuts off at a tab's corner is no narrow place."""
    pattern = draft_pattern(open_wearer("pilot"), open_recipe("stays-1740s-fully-boned"))
    assert all(holds_together(panel.loop(), 15.0) for panel in pattern.panels)
