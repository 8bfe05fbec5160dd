"""``block`` of two girths: what a recipe may say, and what it is told when it says something else."""

from __future__ import annotations

import pytest
from tests.samples import TOP, recipe_text

from fanblock.draft.starting import GirthSpec, measures_needed
from fanblock.problems import RecipeError
from fanblock.recipe.explain import explained
from fanblock.recipe.model import Recipe
from fanblock.recipe.parts import parse_height
from fanblock.recipe.phrase import Vocabulary
from fanblock.recipe.reading import read_recipe
from fanblock.recipe.words import height_text
from fanblock.terms import Height, Length

HEM = "hem: {height: underbust - 20 mm}"
ONE = "separate: {panels: [whole]}"


def read(block: str, *steps: str) -> Recipe:
    """Return a recipe with this block in line 4 and a garment of one panel; its first step stands in line 6."""
    text = recipe_text(*steps, TOP, HEM, ONE)
    return read_recipe(text.replace("steps:", f"block: {block}\nsteps:"), "r.yaml")


def told(block: str, *steps: str) -> str:
    """Return what is wrong with such a recipe."""
    with pytest.raises(RecipeError) as caught:
        read(block, *steps)
    return str(caught.value)


def test_a_block_names_its_two_girths() -> None:
    """What the recipe says is kept, written out and read back the same."""
    found = read("{lower: underbust, upper: upper chest}")
    assert found.block == GirthSpec("underbust", "upper chest")
    assert "block: {lower: underbust, upper: upper chest}" in explained(found)
    assert read_recipe(explained(found), "r.yaml").block == found.block


def test_it_needs_the_girths_and_their_heights() -> None:
    """Besides those that every block is made of."""
    assert measures_needed(GirthSpec("raised waist", "bust")) == ("raised waist", "raised waist height")
    assert measures_needed(GirthSpec("waist", "bust")) == ()
    assert measures_needed(None) == ()


@pytest.mark.parametrize("word", ["raised waist", "underbust", "upper chest"])
def test_the_girths_are_words_for_heights(word: str) -> None:
    """Ribs, raised waist and upper chest are landmarks as waist and bust are."""
    height = parse_height(f"{word} - 12 mm", Vocabulary())
    assert height == Height(landmark=word, plus=Length(12.0), sign=-1)
    assert height_text(height) == f"{word} - 12 mm"


@pytest.mark.parametrize(
    ("block", "says"),
    [
        (
            "{lower: bust, upper: underbust}",
            "r.yaml:4:29: block › upper › the underbust does not lie above the bust. "
            "From the lowest up they are waist, raised waist, underbust, bust, upper chest.",
        ),
        (
            "{lower: underbust, upper: underbust}",
            "r.yaml:4:34: block › upper › the underbust does not lie above the underbust. "
            "From the lowest up they are waist, raised waist, underbust, bust, upper chest.",
        ),
        (
            "{lower: underbust}",
            "r.yaml:4:8: block › `upper` is missing. Add `upper`: the upper of the two, such as `upper chest`.",
        ),
        (
            "{lower: underbust, uper: upper chest}",
            "r.yaml:4:8: block › `upper` is missing. Add `upper`: the upper of the two, such as `upper chest`.\n"
            "r.yaml:4:27: block › “uper” is not known here. Did you mean “upper”?",
        ),
        (
            "{lower: ribs, upper: upper chest}",
            "r.yaml:4:16: block › lower › got “ribs”, needs `bust`, `raised waist`, `underbust` or `waist`.",
        ),
        (
            "underbust",
            "r.yaml:4:8: block › got “underbust”, needs names and values, such as `{lower: underbust, upper: upper chest}`.",
        ),
    ],
)
def test_what_is_no_block_is_told_with_its_place(block: str, says: str) -> None:
    """Every message stands whole: where, what was met, what to do."""
    assert told(block).startswith(says)


@pytest.mark.parametrize(
    ("step", "says"),
    [
        (
            "waist reduction: {by: 3%}",
            "r.yaml:6:5: step 1 (waist reduction) › the block stands on underbust and upper chest, so nothing can be counted "
            "from the waist. Use `ease` at underbust or upper chest; less than nothing takes in.",
        ),
        (
            "bust reduction: {by: 1%}",
            "r.yaml:6:5: step 1 (bust reduction) › the block stands on underbust and upper chest, so nothing can be counted "
            "from the bust. Use `ease` at underbust or upper chest; less than nothing takes in.",
        ),
        (
            "ease: {underbust: 5 mm, waist: 10 mm}",
            "r.yaml:6:36: step 1 (ease) › waist › the block stands on underbust and upper chest, so nothing can be counted "
            "from the waist. Use `ease` at underbust or upper chest; less than nothing takes in.",
        ),
    ],
)
def test_ease_and_reduction_are_counted_from_what_the_block_stands_on(step: str, says: str) -> None:
    """A waist that no measure of this block stands at can have no ease."""
    assert told("{lower: underbust, upper: upper chest}", step) == says


def test_an_ordinary_block_has_no_ease_at_the_ribs() -> None:
    """There the cone is what waist and bust make it."""
    with pytest.raises(RecipeError) as caught:
        read_recipe(recipe_text("ease: {underbust: 5 mm}", TOP, HEM, ONE), "r.yaml")
    assert str(caught.value) == (
        "r.yaml:5:23: step 1 (ease) › underbust › the block stands on waist and bust, so nothing can be counted from the "
        "underbust. Use `ease` at waist or bust; less than nothing takes in."
    )


def test_a_raised_waist_is_a_waist() -> None:
    """Where the block stands on it, a waist reduction is booked there."""
    assert read("{lower: raised waist, upper: bust}", "waist reduction: {by: 2%}").steps[0].kind == "waist reduction"
