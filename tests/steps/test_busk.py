"""``busk``: its options."""

from __future__ import annotations

import pytest
from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, side_back, side_front

from fanblock.pattern.bones import BUSK
from fanblock.problems import GeometryError, RecipeError
from fanblock.terms import Length

STEPS = (GAP, TOP, HEM, side_front(), side_back(), RED, THREE)


def test_a_wooden_busk_a_centimetre_short_unless_it_is_said() -> None:
    """12 to 50 mm wide (from memory), 1 cm shorter than the centre front (from memory of the trade)."""
    options = recipe(*STEPS, "busk: {panel: front}").steps[-1].options
    assert (options.width, options.material, options.shorter) == (Length(38.0), "wood", Length(10.0))  # type: ignore[attr-defined]


def test_a_length_of_its_own() -> None:
    """`length` stands in the place of `shorter`."""
    pattern = made(recipe(*STEPS, "busk: {panel: front, length: 20 cm, from top: 20 mm}"))
    busk = next(one for one in pattern.by_name["front"].channels if one.kind == BUSK)
    assert busk.line.length_mm == pytest.approx(200.0)
    assert busk.clear_mm[0] == 20.0


def test_a_panel_that_is_not_there_is_told() -> None:
    """With the nearest that is."""
    with pytest.raises(RecipeError, match=r"step 8 \(busk\) › panel › there is no panel “frnt”"):
        recipe(*STEPS, "busk: {panel: frnt}")


def test_a_busk_is_no_bone() -> None:
    """Narrower than any bone is a slip of the pen."""
    with pytest.raises(GeometryError, match=r"step 8 \(busk\) › width › got 1.0 mm, needs 2 mm or more\."):
        made(recipe(*STEPS, "busk: {panel: front, width: 1 mm}"))
