"""``fanblock recipes``: what can be made."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import click

from fanblock.cli.arguments import machine_option
from fanblock.cli.screen import say, say_document, wrapped

if TYPE_CHECKING:
    from fanblock.recipe.model import Recipe

_YEAR = re.compile(r"\d{4}")


@click.command(short_help="List what can be made.")
@click.option("--makes", metavar="KIND", help="Only what makes this kind of garment, like --makes stays.")
@click.option("--period", type=int, metavar="YEAR", help="Only what was worn in this year, like --period 1775.")
@machine_option
def recipes(makes: str | None, period: int | None, machine: bool) -> int:
    """List the recipes that come with fanblock.

    \b
    Example:
      fanblock recipes --makes stays --period 1780
    """
    from fanblock.recipe.library import shipped_recipes

    found = [recipe for recipe in shipped_recipes() if _asked(recipe, makes, period)]
    if machine:
        say_document({"recipes": [recipe_record(recipe) for recipe in found]})
    elif not found:
        say("No recipe is of that kind and time. `fanblock recipes` lists them all.")
    else:
        for recipe in found:
            _say_recipe(recipe)
        says = (
            "Draw one with `fanblock draft WEARER RECIPE --out FOLDER`; see all of it with `fanblock explain RECIPE`."
        )
        say(wrapped(says))
    return 0


def _asked(recipe: Recipe, makes: str | None, year: int | None) -> bool:
    if makes is not None and " ".join(makes.casefold().split()) != recipe.makes.casefold():
        return False
    return year is None or covers(recipe.period, year)


def covers(period: str, year: int) -> bool:
    """Tell whether a period (``1770-1785``, ``about 1780``) covers a year; one without a year covers none.

    >>> covers("1770-1785", 1780), covers("about 1780", 1781), covers("", 1780)
    (True, False, False)
    """
    years = [int(found) for found in _YEAR.findall(period)]
    return bool(years) and min(years) <= year <= max(years)


def recipe_record(recipe: Recipe) -> dict[str, Any]:
    """Return what other programs are told of a recipe."""
    from fanblock.recipe.words import amount_text

    def text(value: Any) -> str | None:
        return None if value is None else amount_text(value)

    return {
        "id": recipe.id,
        "name": recipe.name,
        "makes": recipe.makes,
        "period": recipe.period,
        "about": recipe.about,
        "needs": list(recipe.needs),
        "dials": [
            {
                "name": dial.name,
                "default": text(dial.default),
                "least": text(dial.least),
                "most": text(dial.most),
                "for": dial.purpose,
            }
            for dial in recipe.dials
        ],
    }


def _say_recipe(recipe: Recipe) -> None:
    say(recipe.id, style="head")
    period = f", {recipe.period}" if recipe.period else ""
    say(wrapped(f"{recipe.name} ({recipe.makes}{period})", "  "))
    if recipe.about:
        say(wrapped(recipe.about, "  "))
    say(wrapped(", ".join(recipe.needs), "  needs: "))
    if recipe.dials:
        from fanblock.recipe.words import spoken

        unit = recipe.units or "mm"
        dials = ", ".join(f"{dial.name} {spoken(dial.default, unit)}" for dial in recipe.dials)
        say(wrapped(dials, "  dials: "))
    say()
