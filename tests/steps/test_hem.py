"""``hem``: at one height, or through points."""

from __future__ import annotations

import pytest
from tests.samples import GAP, ONE, RED, SOME, THREE, TOP, failed, made, recipe, seam, side_back, side_front

from fanblock.problems import RecipeError


@pytest.mark.parametrize("name", SOME)
@pytest.mark.parametrize("below", ["open", "sewn"])
def test_a_pointed_front_is_sound(name: str, below: str) -> None:
    """A hem that dips at the front is drawn on every body, sewn or open, without a failing check."""
    hem = "hem: {through: [[center front, waist - 70 mm], [10%, waist - 65 mm], [35%, waist - 50 mm], [center back, waist - 60 mm]]}"
    seams = (side_front(below_waist=below), side_back(below_waist=below))
    assert failed(made(recipe(GAP, TOP, hem, *seams, RED, THREE), name)) == []


@pytest.mark.parametrize("height", ["waist", "waist + 20 mm", "15%"])
def test_a_garment_may_end_at_or_above_the_waist(height: str) -> None:
    """Short bodies end at the waist or above it; seams then have nothing below the waist, whatever they say of it."""
    seams = (
        seam("side front", "24%, top edge", "16%, hem", below_waist="open"),
        seam("side back", "70%, top edge", "68%, hem", below_waist="open"),
    )
    pattern = made(recipe(GAP, TOP, f"hem: {{height: {height}}}", *seams, THREE))
    assert failed(pattern) == []
    assert not any(edge.kind == "slit" for panel in pattern.panels for edge in panel.edges)


def test_a_hem_is_either_a_height_or_points() -> None:
    """Both, or neither, say nothing definite; one point is no edge."""
    neither = "one of `height`, `through` and `edges`. Give one height, points from front to back, or named edges."
    for options, says in (
        ("{}", f"r.yaml:13:5: step 2 (hem) › height › needs {neither}"),
        ("{height: waist, through: [[center front, waist], [center back, waist]]}",
         f"r.yaml:13:19: step 2 (hem) › height › needs {neither}"),
        ("{through: [[center front, waist]]}",
         "r.yaml:13:20: step 2 (hem) › through › needs at least two points. "
         "Give the edge from center front to center back."),
    ):  # fmt: skip
        with pytest.raises(RecipeError) as caught:
            recipe(TOP, f"hem: {options}", ONE)
        assert str(caught.value) == says
