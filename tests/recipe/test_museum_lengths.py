"""Lengths and counts of garments in museums, which the shipped recipes must be able to reach."""

from __future__ import annotations

import pytest

from fanblock.make import draft_pattern
from fanblock.pattern.model import CENTER
from fanblock.recipe.library import open_recipe
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.library import open_wearer
from fanblock.wearer.model import Measures, Wearer

INCH = 25.4


@pytest.mark.parametrize(
    ("skirts", "length_in"),
    [("158 mm", 20.5), ("248 mm", 24.0)],
    ids=["Colonial Williamsburg 1971-1566", "Colonial Williamsburg 1991-510"],
)
def test_jumps_are_as_long_as_those_that_survive(skirts: str, length_in: float) -> None:
    """Jumps of 1720-50 are 20 1/2 in long, those of about 1700 24 in: with its dial the recipe reaches both behind."""
    pattern = draft_pattern(open_wearer("ferrywoman"), open_recipe("jumps"), {"skirts": skirts})
    assert pattern.sound
    back = pattern.by_name["back"].edge("center back")
    assert back.curve.length_mm == pytest.approx(length_in * INCH, abs=6.0)


def test_jumps_of_a_waist_that_survives() -> None:
    """Jumps of about 1700 measure 22 1/2 in at the waist (Colonial Williamsburg 1991-510): made for as much less as their ease."""
    waist = 22.5 * INCH
    values = Fixed({"bust": 760.0, "waist": waist - 40.0, "bust to waist": 150.0, "raised": 165.0})
    wearer = Wearer("somebody small", (Measures("shift", "", values),), (), (), "in")
    pattern = draft_pattern(wearer, open_recipe("jumps"))
    girth = next(girth for girth in pattern.girths if girth.name == "waist")
    assert 2.0 * (girth.block_mm - girth.takes_mm) == pytest.approx(waist, abs=0.5)


@pytest.mark.parametrize("recipe", ["jacket-pleated-skirts", "short-jacket-flared-skirts", "gown-bodice-1770s"])
def test_the_back_has_three_seams(recipe: str) -> None:
    """One at the centre and one on either side of it (jacket of 1780-95, V&A O1247230)."""
    pattern = draft_pattern(open_wearer("ferrywoman"), open_recipe(recipe))
    side = [seam for seam in pattern.seams if {seam.front.panel, seam.back.panel} == {"side back", "back"}]
    center = [edge for edge in pattern.by_name["back"].edges if edge.kind == CENTER and edge.name == "center back"]
    assert 2 * len({seam.line or seam.name for seam in side}) + len(center) == 3
