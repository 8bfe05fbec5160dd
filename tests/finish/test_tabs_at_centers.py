"""Slits along a centre line: a back that is cut on the fold is parted below the waist."""

from __future__ import annotations

import numpy as np
import pytest
from tests.samples import HEM, RED, SOME, THREE, TOP, failed, made, recipe, side_back, side_front

from fanblock.pattern.model import Pattern

SEAMS = (side_front(), side_back())


def slit(name: str = "ordinary", more: str = "") -> Pattern:
    """Return a garment whose skirts part at both centres."""
    steps = (f"tabs: {{slits: {{front: [0%], back: [50%, 100%]}}{more}}}", "cut: {outer: 2, on fold: [back]}")
    return made(recipe(TOP, HEM, *SEAMS, RED, THREE, *steps), name)


@pytest.mark.parametrize("name", SOME)
@pytest.mark.parametrize("more", ["", ", shape: square"])
def test_it_is_sound_on_every_body(name: str, more: str) -> None:
    """The corners beside such a slit are free, and need not be square to the centre."""
    assert failed(slit(name, more)) == []


def test_the_slit_runs_along_the_centre_from_the_waist() -> None:
    """It begins where the waist meets the centre back and ends where the corner begins to be rounded."""
    pattern = slit()
    back = pattern.by_name["back"]
    block = pattern.block
    around, height = block.where(np.array([back.slits[-1].start, back.slits[-1].end]))
    assert around == pytest.approx(1.0, abs=0.002)
    assert height[0] == pytest.approx(0.0, abs=1e-6)
    assert len(back.slits) == 2
    front = pattern.by_name["front"]
    assert block.where(front.slits[0].start)[0] == pytest.approx(0.0, abs=1e-6)
    lower = back.edge("hem 2").curve
    assert np.hypot(*(lower.end - back.slits[-1].end)) == pytest.approx(0.0, abs=1e-9)


def test_its_corner_is_rounded_like_the_others() -> None:
    """The centre back ends the radius of the corner above the hem."""
    plain = made(recipe(TOP, HEM, *SEAMS, RED, THREE)).by_name["back"].edge("center back").curve
    assert slit().by_name["back"].edge("center back").curve.length_mm == pytest.approx(plain.length_mm - 12.0, abs=0.01)
