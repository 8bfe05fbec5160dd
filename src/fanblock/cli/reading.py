"""Opening what people name: the two files of a draft, so that the problems of both are told together."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from fanblock.problems import FanblockError, Problem

if TYPE_CHECKING:
    from fanblock.recipe.model import Recipe
    from fanblock.wearer.model import Wearer


def holds_wearer(typed: str) -> bool:
    """Tell whether a name or path is a wearer's: a demo wearer, or a file that calls itself one."""
    from fanblock.shipped import recipe_ids, wearer_names
    from fanblock.yamlfile import LARGEST_BYTES, read_yaml

    if typed in recipe_ids() or typed in wearer_names():
        return typed in wearer_names()
    try:
        with Path(typed).open("rb") as file:
            names = read_yaml(file.read(LARGEST_BYTES), typed).names
    except (OSError, ValueError, FanblockError):
        return False
    return "wearer" in names and "recipe" not in names


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
