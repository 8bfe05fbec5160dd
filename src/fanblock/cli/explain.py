"""``fanblock explain``: a recipe with nothing left unsaid."""

from __future__ import annotations

from collections.abc import Mapping

import click

from fanblock.cli.arguments import settings_option
from fanblock.cli.screen import say


@click.command(short_help="Print a recipe with nothing left unsaid.")
@click.argument("recipe")
@settings_option
def explain(recipe: str, settings: Mapping[str, str]) -> int:
    """Print all of RECIPE, with its dials set and every default filled in.

    RECIPE is the id of a shipped recipe (see `fanblock recipes`) or a file. What is printed is a recipe
    too: keep it in a file and change it.

    \b
    Example:
      fanblock explain stays-five-panels --set "gap=4 cm"
    """
    from fanblock.recipe.explain import explained
    from fanblock.recipe.library import open_recipe

    say(explained(open_recipe(recipe), settings).rstrip("\n"))
    return 0
