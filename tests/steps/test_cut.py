"""``cut``: layers and counts for the whole garment."""

from __future__ import annotations

import pytest
from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, side_back, side_front

from fanblock.problems import RecipeError

STEPS = (GAP, TOP, HEM, side_front(), side_back(), RED, THREE)


def test_layers_keep_their_order() -> None:
    """Layers are listed as they were written, each panel cut as often as was said."""
    pattern = made(recipe(*STEPS, "cut: {lining: 2, outer: 2, strength layer: 4}"))
    assert pattern.by_name["back"].cuts == (("lining", 2), ("outer", 2), ("strength layer", 4))


def test_panels_are_cut_in_pairs() -> None:
    """Odd counts and counts past all reason are refused, all of them together."""
    with pytest.raises(RecipeError) as caught:
        recipe(*STEPS, "cut: {outer: 3, lining: 14}")
    assert str(caught.value) == (
        "r.yaml:19:18: step 8 (cut) › outer › got 3, needs an even number from 2 to 12. "
        "Panels are cut in pairs, one for each half.\n"
        "r.yaml:19:29: step 8 (cut) › lining › got 14, needs an even number from 2 to 12. "
        "Panels are cut in pairs, one for each half."
    )


def test_a_fold_that_is_no_panel_is_refused() -> None:
    """A misspelt panel on the fold is told with the nearest that there is."""
    with pytest.raises(RecipeError) as caught:
        recipe(*STEPS, "cut: {outer: 2, on fold: [frnt]}")
    assert str(caught.value) == (
        "r.yaml:19:31: step 8 (cut) › on fold › there is no panel “frnt” in `separate` (step 7). Did you mean “front”?"
    )
