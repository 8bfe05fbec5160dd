"""``shaping bones``: its options."""

from __future__ import annotations

import pytest
from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, side_back, side_front

from fanblock.problems import GeometryError, RecipeError

STEPS = (GAP, TOP, HEM, side_front(), side_back(), RED, THREE)
THROUGH = "through: [[center front, bust], [20%, bust - 5 mm]]"


def test_one_bone_along_an_arc_through_three_places() -> None:
    """More than two places make a smooth curve through all of them."""
    step = "shaping bones: {panels: [front], through: [[center front, bust], [8%, bust - 6 mm], [16%, bust - 20 mm]]}"
    pattern = made(recipe(*STEPS, step))
    (curved,) = pattern.by_name["front"].channels
    u, v = pattern.block.where(curved.line.points)
    at = int(abs(u - 0.08).argmin())
    drop = (1.0 - v[at]) * pattern.block.ruling_length_mm(0.08)
    assert drop == pytest.approx(6.0, abs=0.6)
    assert pattern.sound


BAD = {
    f"panels: [front], {THROUGH}, count: 9": "step 8 (shaping bones) › count › got 9, needs a number from 1 to 6.",
    "panels: [front], through: [[center front, bust]]":
        "step 8 (shaping bones) › through › needs two places or more. Write `through: [[center front, held bust], [20%, held bust]]`.",
    f"panels: [], {THROUGH}": "step 8 (shaping bones) › panels › names no panel. Write `panels: [front]`.",
    f"panels: [frnt], {THROUGH}":
        "step 8 (shaping bones) › panels › there is no panel “frnt” in `separate` (step 7). Did you mean “front”?",
}  # fmt: skip


@pytest.mark.parametrize("options", BAD)
def test_what_does_not_hang_together_is_told(options: str) -> None:
    """Too many, too few places, no panel."""
    with pytest.raises(RecipeError) as caught:
        recipe(*STEPS, f"shaping bones: {{{options}}}")
    assert str(caught.value).endswith(BAD[options])


def test_places_at_one_around_are_told() -> None:
    """No line runs through two places one above the other."""
    step = "shaping bones: {panels: [front], through: [[10%, bust], [10%, bust - 5 mm]]}"
    with pytest.raises(
        GeometryError, match=r"through › two of its places stand at one around on this body\. Move them apart\."
    ):
        made(recipe(*STEPS, step))
