"""How far skirts go round: the block's own level where nothing is cut, and the straight line from waist to hip."""

from __future__ import annotations

import pytest
from tests.samples import HEM, ONE, TOP, recipe, worked

from fanblock.skirts.levels import body_at_mm, level_at, reckoned_mm


@pytest.mark.parametrize("depth", [10.0, 40.0, 75.0])
@pytest.mark.parametrize("name", ["ordinary", "bust is waist", "short in the back"])
def test_a_garment_in_one_piece_goes_round_as_far_as_the_block(name: str, depth: float) -> None:
    """With neither seam nor gap the level is all cloth, as long as the block's level so far below the waist."""
    work = worked(recipe(TOP, HEM, ONE), name)
    block = work.block
    level = level_at(block, work.panels, depth)
    middle = block.level_length_mm(-depth / block.ruling_length_mm(0.5))
    assert level.open_mm == pytest.approx(0.0, abs=1e-9)
    assert level.cloth_mm == pytest.approx(middle, abs=1.0 if name == "short in the back" else 1e-6)


def test_a_front_that_is_cut_away_is_told_as_open() -> None:
    """Where the hem rises in front above the level, the round is cloth and what is open."""
    away = "hem: {through: [[center front, waist - 20 mm], [30%, waist - 100 mm], [center back, waist - 100 mm]]}"
    work = worked(recipe(TOP, away, ONE))
    level = level_at(work.block, work.panels, 60.0)
    whole = work.block.level_length_mm(-60.0 / work.block.center_front_mm)
    assert 20.0 < level.open_mm < 100.0
    assert level.cloth_mm + level.open_mm == pytest.approx(whole, abs=1e-6)
    assert level.whole_mm == pytest.approx(2.0 * whole, abs=1e-6)


def test_the_body_widens_straight_to_the_hip() -> None:
    """Waist 680, hip 960 at 200 below: 820 half way, and no more than the hip further down; by hand."""
    lengths = {"waist": 680.0, "hip": 960.0}
    assert body_at_mm(lengths, 100.0) == 820.0
    assert body_at_mm(lengths, 300.0) == 960.0
    assert body_at_mm({**lengths, "hip depth": 160.0}, 80.0) == 820.0


def test_skirts_are_held_against_the_body_above_their_hem() -> None:
    """At the hip, or at three quarters of the shortest side where the hem lies higher."""
    assert reckoned_mm({}, [160.0, 200.0]) == 120.0
    assert reckoned_mm({"hip depth": 150.0}, [400.0, 300.0]) == 150.0
