"""Opening the two files of a draft, so that the problems of both are told together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fanblock.problems import FanblockError, Problem

if TYPE_CHECKING:
    from fanblock.recipe.model import Recipe
    from fanblock.wearer.model import Wearer


def opened(wearer: str, recipe: str) -> tuple[Wearer, Recipe]:
    """Return a wearer and a recipe by name or path; FanblockError with the problems of both."""
    from fanblock.recipe.library import open_recipe
    from fanblock.wearer.library import open_wearer

    problems: list[Problem] = []
    who = what = None
    try:
        who = open_wearer(wearer)
    except FanblockError as error:
        problems += error.problems
    try:
        what = open_recipe(recipe)
    except FanblockError as error:
        problems += error.problems
    if who is None or what is None:
        raise FanblockError(problems)
    return who, what
