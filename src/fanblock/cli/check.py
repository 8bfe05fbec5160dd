"""``fanblock check``: is what I wrote well written?"""

from __future__ import annotations

import click

from fanblock.cli.arguments import machine_option
from fanblock.cli.problems import problem_record, tell_problems
from fanblock.cli.reading import holds_wearer
from fanblock.cli.screen import say, say_document, wrapped
from fanblock.problems import FanblockError


@click.command(short_help="Tell what is wrong in recipes and wearers.")
@click.argument("recipes", metavar="RECIPE...", nargs=-1, required=True)
@machine_option
def check(recipes: tuple[str, ...], machine: bool) -> int:
    """Read each RECIPE and tell everything that is wrong in all of them.

    RECIPE is the id of a shipped recipe or a file; a wearer's file is read as well. Nothing is drawn.

    \b
    Example:
      fanblock check my-jacket.yaml my-stays.yaml
    """
    records = []
    wrong = 0
    for typed in dict.fromkeys(recipes):
        try:
            says = _summary(typed)
        except FanblockError as error:
            wrong += 1
            records.append({"file": typed, "ok": False, "problems": [problem_record(one) for one in error.problems]})
            if not machine:
                tell_problems(error, machine)
            continue
        records.append({"file": typed, "ok": True, "problems": []})
        if not machine:
            say(wrapped(f"{typed}: {says}", "OK  "))
    if machine:
        say_document({"checked": records})
    return 1 if wrong else 0


def _summary(typed: str) -> str:
    """Read a recipe, or a wearer, and return it in a few words; FanblockError with everything wrong in it."""
    from fanblock.recipe.library import open_recipe
    from fanblock.wearer.library import open_wearer

    if holds_wearer(typed):
        wearer = open_wearer(typed)
        measures = ", ".join(f"{len(one.values)} measures over the {one.over}" for one in wearer.sets)
        return f"the wearer {wearer.name}, {measures}"
    recipe = open_recipe(typed)
    return f"{recipe.name}, {len(recipe.steps)} steps, {len(recipe.dials)} dials"
