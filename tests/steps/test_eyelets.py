"""``eyelets``: defaults and refusals."""

from __future__ import annotations

import pytest
from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, side_back, side_front

from fanblock.problems import GeometryError, RecipeError
from fanblock.recipe.reading import read_recipe
from fanblock.terms import Length

STEPS = (TOP, HEM, side_front(), side_back(), RED, THREE)


def test_an_inch_apart_a_centimetre_in_and_staggered_unless_it_is_said() -> None:
    """2.5 cm apart and 8 to 12 mm from the edge, from 1 cm below the top (common practice), the last 0.5 to 1 cm above the
    waist (from memory)."""
    options = recipe(GAP, *STEPS, "eyelets: {}").steps[-1].options
    assert (options.edge, options.lacing, options.spacing) == ("lacing edge", "spiral", Length(25.0))  # type: ignore[attr-defined]
    assert (options.from_edge, options.below_top, options.above_waist) == (Length(12.0), Length(10.0), Length(7.0))  # type: ignore[attr-defined]


def test_two_openings_have_their_own_rows() -> None:
    """Laced in front and behind, each edge is named by its place."""
    front = "lacing gap: {at: center front, width: 20 mm}"
    rows = ("eyelets: {edge: lacing edge front, lacing: crossed}", "eyelets: {edge: lacing edge back}")
    pattern = made(recipe(GAP, front, *STEPS, *rows))
    assert [(lacing.panel, lacing.way, lacing.gap_mm) for lacing in pattern.lacings] == [
        ("front", "crossed", 20.0),
        ("back", "spiral", 50.0),
    ]


BAD = {
    "{edge: lacing edg}": "step 8 (eyelets) › edge › there is no lacing edge “lacing edg”. Did you mean “lacing edge”?",
    "{spacing: 4 mm}": "step 8 (eyelets) › spacing › got 4 mm, needs 8 mm or more. Set them further apart.",
    "{from edge: 3 mm}":
        "step 8 (eyelets) › from edge › got 3 mm for holes of 4 mm: they would tear out. Set them further in: 8 to 12 mm is usual.",
    "{spacing: 40 cm}":
        "step 8 (eyelets) › on 236 mm of “lacing edge” there is no room for 3 eyelets 400 mm apart. Set them closer, or make the edge longer.",
}  # fmt: skip


@pytest.mark.parametrize("options", BAD)
def test_what_cannot_be_laced_is_told(options: str) -> None:
    """An edge that is not there, holes too close, too near the edge or too few."""
    with pytest.raises(GeometryError) as caught:
        made(recipe(GAP, *STEPS, f"eyelets: {options}"))
    assert str(caught.value) == f"r.yaml:19:5: {BAD[options]}"


def test_without_an_opening_there_is_nothing_to_lace() -> None:
    """The remedy is a lacing gap."""
    with pytest.raises(
        GeometryError, match=r"there is no lacing edge “lacing edge”\. Add a `lacing gap` before `separate`\."
    ):
        made(recipe(*STEPS, "eyelets: {}"))


def test_a_band_is_not_laced() -> None:
    """A collar has no lacing edge."""
    text = "recipe: 1\nname: Collar\nmakes: collar\nneeds: [neck]\nblock: {inner: neck, depth: 6 cm, circle: 30%}\nsteps:\n"
    with pytest.raises(
        RecipeError, match=r"step 2 \(eyelets\) › has no place on a band, which knows no waist and no bust"
    ):
        read_recipe(f"{text}  - pieces: {{name: collar}}\n  - eyelets: {{}}\n", "collar.yaml")
