"""The file a new garment starts from: its wearer, its recipe, and every dial at its default to be turned."""

from __future__ import annotations

import json
import textwrap
from collections.abc import Iterator

from fanblock.garment.library import named_recipe, named_wearer
from fanblock.garment.model import FORMAT
from fanblock.problems import FanblockError, Problem
from fanblock.recipe.dials import dial_values
from fanblock.recipe.model import Recipe

_WIDTH = 92

_HEAD = """\
A garment: one wearer, one recipe, and what is peculiar to this one piece of clothing. `fanblock draft` draws it; each \
draft goes into a folder of its own, and what a fitting changes is kept here."""

_CLOTH = """\
The cloth, by layer, as it lies in the shop. Take away the # before a line to use it."""

_LAYERS = """\
# cloth:
#   outer: {width: 140 cm, shrinks: {warp: 3%, weft: 2%}, nap: no, selvedge: 1 cm}
#   lining: {width: 110 cm}"""


def starter_garment(path: str, wearer: str, recipe: str) -> str:
    """Return the text of a new garment file at ``path``; FanblockError when its wearer or its recipe cannot be opened."""
    problems: list[Problem] = []
    opened: list[Recipe] = []
    for opening in (lambda: named_wearer(wearer, path), lambda: opened.append(named_recipe(recipe, path))):
        try:
            opening()
        except FanblockError as error:
            problems += error.problems
    if problems:
        raise FanblockError(problems)
    return "\n".join(_lines(wearer, recipe, opened[0])) + "\n"


def _lines(wearer: str, recipe: str, opened: Recipe) -> Iterator[str]:
    yield _comment(_HEAD)
    yield ""
    yield f"garment: {FORMAT}"
    yield f"wearer: {_quoted(wearer)}"
    yield f"recipe: {_quoted(recipe)}"
    yield "draft: 1"
    rows = dial_values(opened)
    if rows:
        purposes = {spec.name: " ".join(spec.purpose.split()) for spec in opened.dials}
        yield ""
        yield "# dials:"
        amounts = {name: words.partition(" of ")[0] for name, words, _ in rows}
        yield from (f"#   {name}: {amounts[name]}    # {purposes[name]}".rstrip(" #") for name in amounts)
    yield ""
    yield _comment(_CLOTH)
    yield _LAYERS


def _comment(text: str) -> str:
    return textwrap.fill(text, _WIDTH, initial_indent="# ", subsequent_indent="# ")


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
