"""The block family: what was drawn against what was measured."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.checks.spoiling import failing, one, sound, with_lengths
from tests.samples import BACK, BODIES, failed, garment, tilted

from fanblock.block.from_body import block_of
from fanblock.block.tilt import tilted as with_tilt
from fanblock.checks.block import check
from fanblock.make import draft_pattern
from fanblock.wearer.model import Tilt


@pytest.mark.parametrize("name", BODIES)
def test_every_block_is_as_measured(name: str) -> None:
    """Bust, waist and both centre lines agree with the tape within 0.01 mm on every body."""
    assert failing(check(sound(name))) == []


@pytest.mark.parametrize(
    ("spoilt", "codes"),
    [
        ({"waist": 680.1}, ["block-waist"]),
        ({"bust": 879.9}, ["block-bust"]),
        ({"raised": 175.1}, ["block-center-front", "block-center-back"]),
    ],
)
def test_a_block_for_other_measures_is_caught(spoilt: dict[str, float], codes: list[str]) -> None:
    """A tenth of a millimetre between block and measure fails."""
    assert failing(check(with_lengths(sound(), **spoilt))) == codes


def test_a_centre_line_that_leans_is_told() -> None:
    """A tilt of 40 mm leans one centre line more than 4 degrees from square to the waist: a warning, not a failure."""
    leaning = draft_pattern(tilted(Tilt(BACK, 40.0)), garment())
    found = check(leaning)
    assert max(one(found, f"square-{center}").number for center in ("center-front", "center-back")) > 4.0
    assert "warns" in {one(found, f"square-{center}").state for center in ("center-front", "center-back")}
    assert failed(leaning) == []


def test_an_untold_tilt_is_caught() -> None:
    """A block that is shorter behind than it says is caught."""
    pattern = sound()
    block = with_tilt(block_of(pattern.body), Tilt(BACK, 1.0))
    assert failing(check(replace(pattern, block=replace(block, corrections=())))) == ["block-center-back"]
