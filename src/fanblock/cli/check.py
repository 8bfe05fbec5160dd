"""``fanblock check``: is what I wrote well written?"""

from __future__ import annotations

import click

from fanblock.cli.arguments import machine_option
from fanblock.cli.problems import problem_record, tell_problems
from fanblock.cli.screen import say, say_document, wrapped
from fanblock.problems import FanblockError


@click.command()
@click.argument("recipes", metavar="RECIPE...", nargs=-1, required=True)
@machine_option
def check(recipes: tuple[str, ...], machine: bool) -> int:
    """Read each RECIPE and tell everything that is wrong in all of them.

    RECIPE is the id of a shipped recipe or a file. Nothing is drawn.

    \b
    Example:
      fanblock check my-jacket.yaml my-stays.yaml
    """
    from fanblock.recipe.library import open_recipe

    records = []
    wrong = 0
    for typed in dict.fromkeys(recipes):
        try:
            recipe = open_recipe(typed)
        except FanblockError as error:
            wrong += 1
            records.append({"recipe": typed, "ok": False, "problems": [problem_record(one) for one in error.problems]})
            if not machine:
                tell_problems(error, machine)
            continue
        records.append({"recipe": typed, "ok": True, "problems": []})
        if not machine:
            steps, dials = len(recipe.steps), len(recipe.dials)
            say(wrapped(f"{typed}: {recipe.name}, {steps} steps, {dials} dials", "OK  "))
    if machine:
        say_document({"recipes": records})
    return 1 if wrong else 0
