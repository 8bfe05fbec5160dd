"""The recipes at hand: those that come with the program, by id, and a person's own files, by path."""

from __future__ import annotations

from pathlib import Path

from fanblock.problems import Problem, RecipeError, nearest
from fanblock.recipe.bases import Base, bases_beside, shipped_base
from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_source
from fanblock.shipped import recipe_ids, recipe_text
from fanblock.units import shown
from fanblock.yamlfile import LARGEST_BYTES

_ENDINGS = (".yaml", ".yml")


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
    text, path = _file_bytes(id_or_path), Path(id_or_path)
    return read_source(Base(text, id_or_path, str(path.resolve()), bases_beside(id_or_path)), path.stem)


def _shipped(recipe_id: str) -> Recipe:
    return read_source(Base(recipe_text(recipe_id), f"{recipe_id}.yaml", recipe_id, shipped_base), recipe_id)


def _file_bytes(typed: str) -> bytes:
    try:
        with Path(typed).open("rb") as file:
            return file.read(LARGEST_BYTES + 1)
    except (FileNotFoundError, NotADirectoryError) as error:
        raise _not_there(typed) from error
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else "not a file name"
        what = f"the recipe {shown(typed)} cannot be opened ({reason.lower()})."
        remedy = "Name a recipe file, or one of the shipped recipes."
        raise RecipeError([Problem("recipe-unreadable", "", what, remedy)]) from error


def _not_there(typed: str) -> RecipeError:
    looks_like_path = "/" in typed or "\\" in typed or typed.endswith(_ENDINGS)
    if looks_like_path:
        stem = Path(typed).stem
        remedy = f"Write `{stem}` for the shipped recipe." if stem in recipe_ids() else "Look at its name and folder."
        return RecipeError([Problem("no-recipe", "", f"there is no recipe file {shown(typed)}.", remedy)])
    what = f"there is no shipped recipe {shown(typed)}, and no file of that name."
    return RecipeError([Problem("no-recipe", "", what, nearest(typed, recipe_ids()))])
