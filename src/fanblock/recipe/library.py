"""The recipes at hand: those that come with the program, by id, and a person's own files, by path."""

from __future__ import annotations

from pathlib import Path

from fanblock.ownfile import Shelf, own_bytes
from fanblock.problems import RecipeError
from fanblock.recipe.bases import Base, bases_beside, drawings_beside, shipped_base
from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_source
from fanblock.shipped import recipe_ids, recipe_text


def shipped_recipes() -> tuple[Recipe, ...]:
    """Return all recipes that come with the program, sorted by id."""
    return tuple(_shipped(recipe_id) for recipe_id in recipe_ids())


def open_recipe(id_or_path: str) -> Recipe:
    """Return a shipped recipe by its id, or the recipe in the file at a path.

    An id is looked up in the list of shipped recipes and nowhere else; what is not in that list is the path
    of a file. Raises RecipeError when there is neither, or when the recipe needs its author's hand.
    """
    if id_or_path in recipe_ids():
        return _shipped(id_or_path)
    text, path = own_bytes(id_or_path, _shelf()), Path(id_or_path)
    beside = bases_beside(id_or_path), drawings_beside(id_or_path)
    return read_source(Base(text, id_or_path, str(path.resolve()), *beside), path.stem)


def _shipped(recipe_id: str) -> Recipe:
    return read_source(Base(recipe_text(recipe_id), f"{recipe_id}.yaml", recipe_id, shipped_base), recipe_id)


def _shelf() -> Shelf:
    return Shelf("recipe", "shipped recipe", recipe_ids(), "Look at its name and folder.", RecipeError)
