"""A garment opened: its file read, and the wearer and the recipe that it names, with the problems of all told together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from fanblock.garment.model import Garment
from fanblock.garment.reading import read_garment
from fanblock.make import draft_pattern
from fanblock.ownfile import Shelf, own_bytes
from fanblock.pattern.model import Pattern
from fanblock.problems import FanblockError, GarmentError, Problem, nearest
from fanblock.recipe.bases import bases_beside, file_beside
from fanblock.recipe.model import Recipe
from fanblock.recipe.phrase import UnreadableError
from fanblock.recipe.reading import read_source
from fanblock.shipped import wearer_names, wearer_text
from fanblock.units import shown
from fanblock.wearer.model import Wearer
from fanblock.wearer.reading import read_wearer

Opening = TypeVar("Opening")


@dataclass(frozen=True, slots=True)
class Opened:
    """A garment with the wearer and the recipe it names, and the path of its file."""

    garment: Garment
    wearer: Wearer
    recipe: Recipe
    path: str


def open_garment(path: str) -> Opened:
    """Return the garment in the file at a path, with its wearer and its recipe; FanblockError with all problems."""
    shelf = Shelf(
        "garment", "garment", (), "Look at its name and folder, or begin one with `fanblock new garment`.", GarmentError
    )
    garment = read_garment(own_bytes(path, shelf), path)
    problems: list[Problem] = []
    wearer = tried(lambda: named_wearer(garment.wearer, path), problems)
    recipe = tried(lambda: named_recipe(garment.recipe, path), problems)
    if wearer is None or recipe is None:
        raise FanblockError(problems)
    return Opened(garment, wearer, recipe, path)


def draft_garment(opened: Opened, *, despite: tuple[str, ...] = ()) -> Pattern:
    """Return the pattern of a garment: its recipe for its wearer, its dials set and its changes made."""
    garment = opened.garment
    return draft_pattern(
        opened.wearer,
        opened.recipe,
        garment.dials,
        over=garment.over or None,
        draft=garment.draft,
        despite=despite,
        alterations=garment.alterations,
        own=garment.own_alterations,
    )


def tried(opening: Callable[[], Opening], problems: list[Problem]) -> Opening | None:
    """Return what is opened; what is wrong with it goes to the other problems."""
    try:
        return opening()
    except FanblockError as error:
        problems += error.problems
        return None


def named_wearer(name: str, path: str) -> Wearer:
    """Return the wearer that the garment file at ``path`` names; FanblockError when there is none."""
    if name in wearer_names():
        return read_wearer(wearer_text(name), f"{name}.yaml")
    try:
        file, text = file_beside(path, name, "garment", "a demo wearer")
    except UnreadableError as error:
        raise GarmentError([Problem("garment-wearer", f"{path}: wearer", error.what, error.remedy)]) from None
    except FileNotFoundError:
        what = f"there is no wearer {shown(name)} beside this garment, and no demo wearer of that name."
        raise GarmentError(
            [Problem("garment-wearer", f"{path}: wearer", what, nearest(name, wearer_names()))]
        ) from None
    return read_wearer(text, str(file))


def named_recipe(name: str, path: str) -> Recipe:
    """Return the recipe that the garment file at ``path`` names; FanblockError when there is none."""
    try:
        base = bases_beside(path)(name)
    except UnreadableError as error:
        raise GarmentError([Problem("garment-recipe", f"{path}: recipe", error.what, error.remedy)]) from None
    return read_source(base, Path(name).stem)
