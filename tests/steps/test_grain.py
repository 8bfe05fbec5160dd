"""``grain``: panels that are not named keep the default; a panel there is not is refused."""

from __future__ import annotations

import pytest
from tests.samples import GAP, HEM, RED, THREE, TOP, recipe, side_back, side_front, worked

from fanblock.problems import RecipeError


def test_choices_are_kept_by_panel() -> None:
    """What is chosen is kept until finishing."""
    steps = (GAP, TOP, HEM, side_front(), side_back(), RED, THREE)
    work = worked(recipe(*steps, "grain: {front: center front, back: center back}"))
    assert dict(work.grains) == {"front": "center front", "back": "center back"}


def test_a_panel_there_is_not_is_refused() -> None:
    """A misspelt panel is told with the nearest that there is."""
    with pytest.raises(RecipeError) as caught:
        recipe(GAP, TOP, HEM, side_front(), side_back(), RED, THREE, "grain: {frnt: center front}")
    assert str(caught.value) == (
        "r.yaml:19:13: step 8 (grain) › there is no panel “frnt” in `separate` (step 7). Did you mean “front”?"
    )
