"""``binding``: its options."""

from __future__ import annotations

import pytest
from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, side_back, side_front

from fanblock.pattern.bones import Binding
from fanblock.problems import GeometryError, RecipeError

STEPS = (GAP, TOP, HEM, side_front(), side_back(), RED, THREE)


def test_what_the_edges_are_bound_with() -> None:
    """20 mm of linen tape unless it is said."""
    assert made(recipe(*STEPS, "binding: {}")).binding == Binding("linen tape", 20.0)
    assert made(recipe(*STEPS, "binding: {of: leather, width: 16 mm}")).binding == Binding("leather", 16.0)
    assert made(recipe(*STEPS)).binding is None


def test_a_binding_too_narrow_to_fold_is_told() -> None:
    """It would not reach round the edge."""
    with pytest.raises(
        GeometryError, match=r"step 8 \(binding\) › width › got 4 mm, needs 6 mm or more\. Choose a wider one\."
    ):
        made(recipe(*STEPS, "binding: {width: 4 mm}"))


def test_edges_are_bound_with_one_thing() -> None:
    """A second step would silently undo the first."""
    with pytest.raises(RecipeError, match=r"step 9 \(binding\) › stands a second time \(first in step 8\)"):
        recipe(*STEPS, "binding: {}", "binding: {of: leather}")
