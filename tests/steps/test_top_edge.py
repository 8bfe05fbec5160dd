"""``top edge``: one smooth curve from front to back."""

from __future__ import annotations

import pytest
from tests.samples import HEM, ONE, recipe, worked

from fanblock.problems import RecipeError


def test_a_level_edge_is_level() -> None:
    """Through points at one height it stays at that height between them, within the turn at its ends."""
    top = "top edge: {through: [[center front, 90%], [30%, 90%], [70%, 90%], [center back, 90%]]}"
    draft = worked(recipe(top, HEM, ONE)).draft
    for around in (0.0, 0.2, 0.5, 0.8, 1.0):
        assert draft.height_of("top edge", around) == pytest.approx(0.9, abs=1e-6)


def test_one_point_is_no_edge() -> None:
    """An edge needs a beginning and an end."""
    with pytest.raises(RecipeError) as caught:
        recipe("top edge: {through: [[center front, bust]]}", HEM, ONE)
    assert str(caught.value) == (
        "r.yaml:5:25: step 1 (top edge) › through › needs at least two points. "
        "Give the edge from center front to center back."
    )
