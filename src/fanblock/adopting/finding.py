"""The recipe that a draft was made by, found again, and what a recipe based on it calls it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from fanblock.problems import Problem, RecipeError
from fanblock.recipe.bases import Bases, bases_beside, shipped_base
from fanblock.recipe.library import open_recipe
from fanblock.recipe.model import Recipe
from fanblock.shipped import recipe_ids
from fanblock.units import shown

ENDINGS = (".yaml", ".yml")


@dataclass(frozen=True, slots=True, eq=False)
class Origin:
    """The recipe a draft was made by, what it is called in ``based on``, and what finds it from there."""

    recipe: Recipe
    based_on: str
    bases: Bases


def origin_of(recipe_id: str, named: str | None, folder: str, out: str | None) -> Origin:
    """Return the recipe called ``recipe_id``; ``named`` is what the maker says it is, ``out`` the file she wants.

    A recipe of her own is looked for beside the new file and beside the draft's folder. Raises RecipeError when it is not
    there, is another, or lies where a recipe in ``out`` could not name it.
    """
    if named is None and recipe_id in recipe_ids():
        return Origin(open_recipe(recipe_id), recipe_id, shipped_base)
    path = named if named is not None else _beside(recipe_id, folder, out)
    recipe = open_recipe(path)
    if recipe.id != recipe_id:
        what = f"the draft was made by {shown(recipe_id)}, not by {shown(recipe.id)}."
        raise RecipeError([Problem("adopt-recipe", "recipe", what, "Name the recipe that it was made by.")])
    if path in recipe_ids():
        return Origin(recipe, path, shipped_base)
    beside = Path(out or path).parent
    if not Path(path).resolve().is_relative_to(beside.resolve()):
        what = f"{shown(path)} lies outside the folder of the new recipe."
        raise RecipeError(
            [Problem("adopt-recipe", "out", what, "Write the new recipe into the folder of the old one.")]
        )
    based_on = Path(path).resolve().relative_to(beside.resolve()).as_posix()
    return Origin(recipe, based_on, bases_beside(str(out or path)))


def _beside(recipe_id: str, folder: str, out: str | None) -> str:
    for place in _places(folder, out):
        for ending in ENDINGS:
            if (place / f"{recipe_id}{ending}").is_file():
                return str(place / f"{recipe_id}{ending}")
    what = f"the draft was made by a recipe of your own, {shown(recipe_id)}, and it does not lie beside it."
    raise RecipeError([Problem("adopt-recipe", "", what, f"Say where it is, like --recipe {recipe_id}.yaml.")])


def _places(folder: str, out: str | None) -> Iterator[Path]:
    if out is not None:
        yield Path(out).parent
    yield Path(folder).parent
    yield Path(folder)
    yield Path()
