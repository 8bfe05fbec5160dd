"""The file a new garment starts from: its wearer, its recipe, and every dial at its default to be turned."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator
from types import MappingProxyType

from fanblock.garment.library import named_recipe, named_wearer, tried
from fanblock.garment.model import FORMAT
from fanblock.problems import FanblockError, Problem, RecipeError
from fanblock.recipe.dials import dial_values
from fanblock.recipe.model import Recipe
from fanblock.steps.cut import Cut

_WIDTH = 92

_HEAD = """\
A garment: one wearer, one recipe, and what is peculiar to this one piece of clothing. `fanblock draft` draws it; each \
draft goes into a folder of its own, and what a fitting changes is kept here."""

_CLOTH = """\
The cloth, by layer, as it lies in the shop. Take away the # before a line to use it."""

WIDTHS = MappingProxyType({"in": "54 in", "cm": "140 cm", "mm": "1400 mm"})
"""A width that linen and coutil are sold in, in each unit (common practice, no source)."""


def starter_garment(path: str, wearer: str, recipe: str) -> str:
    """Return the text of a new garment file at ``path``; FanblockError when its wearer or its recipe cannot be opened."""
    problems: list[Problem] = []
    who = tried(lambda: named_wearer(wearer, path), problems)
    what = tried(lambda: named_recipe(recipe, path), problems)
    if who is None or what is None:
        raise FanblockError(problems)
    return "\n".join(_lines(wearer, recipe, what, who.units)) + "\n"


def _lines(wearer: str, recipe: str, opened: Recipe, units: str) -> Iterator[str]:
    yield _comment(_HEAD)
    yield ""
    yield f"garment: {FORMAT}"
    yield f"wearer: {_quoted(wearer)}"
    yield f"recipe: {_quoted(recipe)}"
    yield "draft: 1"
    rows = dial_values(opened, None, units)
    if rows:
        purposes = {spec.name: " ".join(spec.purpose.split()) for spec in opened.dials}
        yield ""
        yield "#dials:"
        amounts = {name: _amount(opened, name, words.partition(" of ")[0]) for name, words, _ in rows}
        yield from (f"#  {name}: {amounts[name]}    # {purposes[name]}".rstrip(" #") for name in amounts)
    yield ""
    yield _comment(_CLOTH)
    yield "#cloth:"
    for number, layer in enumerate(_layers(opened)):
        more = ", shrinks: {warp: 3%, weft: 2%}, nap: no" if not number else ""
        yield f"#  {layer}: {{width: {WIDTHS[units]}{more}}}"


def _amount(recipe: Recipe, name: str, words: str) -> str:
    """A dial's default as its maker would type it; where that, being rounded, is none it may be set to, as the recipe has it."""
    try:
        dial_values(recipe, {name: words})
    except RecipeError:
        return next(own for dial, own, _ in dial_values(recipe) if dial == name).partition(" of ")[0]
    return words


def _layers(recipe: Recipe) -> tuple[str, ...]:
    """Return the layers a recipe's pieces are cut of, in its order."""
    counted = [step.options.layers for step in recipe.steps if isinstance(step.options, Cut)]
    return tuple(dict.fromkeys(layer for layers in counted for layer in layers)) or ("outer",)


def _comment(text: str) -> str:
    return textwrap.fill(text, _WIDTH, initial_indent="# ", subsequent_indent="# ")


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
