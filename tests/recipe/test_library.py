"""Opening recipes, and the recipe to start from."""

from __future__ import annotations

from pathlib import Path

import pytest

from fanblock.problems import RecipeError
from fanblock.recipe import library
from fanblock.recipe.library import open_recipe, shipped_recipes
from fanblock.recipe.reading import read_recipe
from fanblock.recipe.starter import starter_recipe

SHELF = {"jumps-soft": "", "stays-trial": ""}


@pytest.fixture
def shelf(monkeypatch: pytest.MonkeyPatch, trial_text: str) -> None:
    """Two recipes on the shelf, both the sample."""
    monkeypatch.setattr(library, "recipe_ids", lambda: tuple(SHELF))
    monkeypatch.setattr(library, "recipe_text", lambda recipe_id: trial_text)


@pytest.mark.usefixtures("shelf")
def test_shipped_recipes_are_listed_and_opened_by_id() -> None:
    """A shipped recipe's id is its file's name without the ending."""
    assert [recipe.id for recipe in shipped_recipes()] == ["jumps-soft", "stays-trial"]
    assert open_recipe("stays-trial").id == "stays-trial"
    assert str(open_recipe("stays-trial").steps[0].place) == "stays-trial.yaml:12:5"


@pytest.mark.usefixtures("shelf")
def test_a_recipe_file_is_opened_by_its_path(tmp_path: Path, trial_text: str) -> None:
    """What is no id is the path of a file, whatever its ending; messages name it as it was typed."""
    path = tmp_path / "my stays.yaml"
    path.write_text(trial_text, encoding="utf-8")
    recipe = open_recipe(str(path))
    assert (recipe.id, recipe.steps[0].place.file) == ("my stays", str(path))


REFUSED = {
    "stays-trail": (
        "there is no shipped recipe “stays-trail”, and no file of that name. Did you mean “stays-trial”?"
    ),
    "./nowhere/mine.yaml": "there is no recipe file “./nowhere/mine.yaml”. Look at its name and folder.",
    "stays-trial.yaml": "there is no recipe file “stays-trial.yaml”. "
    "Write `stays-trial` for the shipped recipe.",
    "/": "the recipe “/” cannot be opened (it is a folder). "
    "Name a recipe file, or one of the shipped recipes.",
    "a\0b": "the recipe “a\0b” cannot be opened (not a file name). "
    "Name a recipe file, or one of the shipped recipes.",
}  # fmt: skip


@pytest.mark.usefixtures("shelf")
@pytest.mark.parametrize("typed", REFUSED)
def test_what_is_neither_an_id_nor_a_file_is_refused(typed: str) -> None:
    """The nearest ids are named, or what is wrong with the path."""
    with pytest.raises(RecipeError) as caught:
        open_recipe(typed)
    assert str(caught.value) == REFUSED[typed]


@pytest.mark.usefixtures("shelf")
def test_an_id_never_becomes_a_path(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A file beside the reader that is called like an id does not stand in for the shipped recipe."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "stays-trial").write_text("recipe: 9\n", encoding="utf-8")
    assert open_recipe("stays-trial").makes == "stays"


@pytest.mark.parametrize("name", ["My stays", "a: b", 'O\'Neil "best"', "no", "", "{0} \\ #"])
def test_the_starter_reads_without_problems(name: str) -> None:
    """A new recipe is whole from the beginning, whatever it is called."""
    recipe = read_recipe(starter_recipe(name), "new.yaml")
    assert recipe.name == (name or "My stays")
    assert [step.kind for step in recipe.steps][-1] == "cut"
