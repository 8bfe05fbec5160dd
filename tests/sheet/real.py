"""Patterns as the program drafts them: the shipped stays for the demo wearers."""

from __future__ import annotations

from functools import cache

from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.recipe.reading import read_recipe
from fanblock.shipped import recipe_text, wearer_text
from fanblock.wearer.reading import read_wearer


@cache
def drafted(wearer: str, recipe: str) -> Pattern:
    """The pattern of a shipped recipe for a demo wearer."""
    person = read_wearer(wearer_text(wearer), f"{wearer}.yaml")
    return draft_pattern(person, read_recipe(recipe_text(recipe), f"{recipe}.yaml"))


def shipped() -> dict[str, Pattern]:
    """A few drafted patterns by name: small and large, three and five panels."""
    pairs = (("ferrywoman", "stays-five-panels"), ("innkeeper", "stays-three-panels"), ("pilot", "stays-five-panels"))
    return {f"{wearer} {recipe}": drafted(wearer, recipe) for wearer, recipe in pairs}
