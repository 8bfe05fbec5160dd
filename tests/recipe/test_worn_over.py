"""``worn over``: a garment that goes over stays is drawn from measures over them without anybody having to ask."""

from __future__ import annotations

import pytest

from fanblock.make import draft_pattern
from fanblock.problems import RecipeError, WearerError
from fanblock.recipe.explain import explained
from fanblock.recipe.library import open_recipe
from fanblock.recipe.reading import read_recipe
from fanblock.recipe.starter import starter_recipe
from fanblock.wearer.library import open_wearer

GOWN = "gown-bodice-1770s"


def text(layer: str = "") -> str:
    """Return a recipe's text, worn over a layer if one is named."""
    return starter_recipe("Trial").replace("makes:", f"worn over: {layer}\nmakes:" if layer else "makes:", 1)


def test_a_recipe_that_says_nothing_is_worn_over_the_shift() -> None:
    """Stays and jumps need no word about it; the word comes back when the recipe is written out."""
    assert read_recipe(text(), "r.yaml").worn_over == "shift"
    over = read_recipe(text("stays"), "r.yaml")
    assert over.worn_over == "stays"
    assert "worn over: stays\n" in explained(over)
    assert read_recipe(explained(over), "r.yaml").worn_over == "stays"


def test_another_layer_is_not_known() -> None:
    """There are two layers to measure over."""
    with pytest.raises(RecipeError) as caught:
        read_recipe(text("petticoat"), "r.yaml")
    line = text("petticoat").splitlines().index("worn over: petticoat") + 1
    assert str(caught.value) == f"r.yaml:{line}:12: worn over › got “petticoat”, needs `shift` or `stays`."


def test_a_gown_is_drawn_over_the_stays_by_itself() -> None:
    """The ferrywoman has a set over her stays, and her gown is cut to it."""
    pattern = draft_pattern(open_wearer("ferrywoman"), open_recipe(GOWN))
    assert pattern.body.over == "stays"
    assert pattern.body.length_mm("bust to waist") == pytest.approx(7.125 * 25.4)
    assert not any(note.says.startswith("PREDICTED") for note in pattern.notes)
    assert "the bust line is where the bust is over stays: `bust to waist` taken over them" in {
        note.says for note in pattern.notes
    }


def test_who_was_not_measured_over_stays_gets_a_pattern_that_says_measure_again() -> None:
    """The pilot has one set: every measure of hers over stays is a prediction, and each is marked."""
    pattern = draft_pattern(open_wearer("pilot"), open_recipe(GOWN))
    assert pattern.sound
    marked = [note.says for note in pattern.notes if note.says.startswith("PREDICTED, MEASURE AGAIN OVER STAYS: ")]
    assert [text.split(": ")[1] for text in marked] == ["bust", "bust to waist", "waist"]


def test_a_layer_asked_for_stands_before_the_recipes() -> None:
    """Asked for over the shift a gown is drawn over the shift; asked for over stays without a set it is refused."""
    assert draft_pattern(open_wearer("pilot"), open_recipe(GOWN), over="shift").body.over == "shift"
    with pytest.raises(WearerError, match="no measures over stays"):
        draft_pattern(open_wearer("pilot"), open_recipe(GOWN), over="stays")


def test_two_layers_give_two_codes() -> None:
    """Sheets drawn over different layers cannot be mixed up."""
    wearer, recipe = open_wearer("ferrywoman"), open_recipe(GOWN)
    codes = {draft_pattern(wearer, recipe, over=over).title.code for over in (None, "shift", "stays")}
    assert len(codes) == 2
