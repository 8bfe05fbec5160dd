"""A recipe written out in full: every default filled in, every dial put in its place, one option to a line.

What comes back is itself a recipe file: read again it gives the same steps. The dials stand in comments.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from fanblock.recipe.decode import key_of
from fanblock.recipe.dials import Settings, dial_values, with_dials
from fanblock.recipe.model import FORMATS, Recipe, Step
from fanblock.recipe.words import amount_text, around_text, extent_text, height_text, number_text, position_text
from fanblock.terms import Around, Dial, Extent, Height, Length, Position, Share

_PLAIN = re.compile(r"[A-Za-z](?:[A-Za-z0-9 ()/;'.%-]*[A-Za-z0-9).%])?")
_WORDS_WITH_MEANING = frozenset({"null", "true", "false", "yes", "no"})


def explained(recipe: Recipe, settings: Settings | None = None) -> str:
    """Return the recipe as text, in full, with its dials set to ``settings`` or to their defaults.

    Raises RecipeError for settings that cannot be used.
    """
    set_recipe = with_dials(recipe, settings)
    lines = [f"recipe: {FORMATS[-1]}", *_head(set_recipe)]
    rows = dial_values(recipe, settings)
    if rows:
        lines.append("# Dials, as set:")
        purposes = {spec.name: spec.purpose for spec in recipe.dials}
        lines += [f"#   {name}: {words}{_aside(purposes[name])}" for name, words, _number in rows]
    lines.append("steps:")
    for step in set_recipe.steps:
        lines += _step(step)
    return "\n".join(lines) + "\n"


def _head(recipe: Recipe) -> Iterator[str]:
    yield f"name: {quoted(recipe.name)}"
    yield f"makes: {recipe.makes}"
    for key, text in (("period", recipe.period), ("about", recipe.about), ("units", recipe.units)):
        if text:
            yield f"{key}: {quoted(text)}"
    yield f"worn over: {recipe.worn_over}"
    if recipe.construction:
        yield f"construction: {recipe.construction}"
    yield f"needs: {_flow(recipe.needs)}"
    if recipe.block is not None:
        yield f"block: {_flow(recipe.block)}"
    for key, texts in (("sources", recipe.sources), ("watch", recipe.watch)):
        if texts:
            yield f"{key}:"
            yield from (f"  - {quoted(text)}" for text in texts)


def _aside(text: str) -> str:
    return f" ({' '.join(text.split())})" if text else ""


def _step(step: Step) -> Iterator[str]:
    lines = list(_options(step.options))
    if all(line.startswith("#") for line in lines):
        yield f"  - {step.kind}: {{}}"
    else:
        yield f"  - {step.kind}:"
    yield from (f"      {line}" for line in lines)


def _options(options: Any) -> Iterator[str]:
    """Yield the lines of a step's options; one that is not given is told in a comment."""
    for field in fields(options):
        value = getattr(options, field.name)
        if field.metadata.get("rest"):
            yield from (f"{_text(key)}: {_flow(item)}" for key, item in value.items())
        elif value is None:
            yield f"# {key_of(field)}: not given"
        else:
            yield from _option(key_of(field), value)


def _option(key: str, value: Any) -> Iterator[str]:
    if isinstance(value, Mapping) and value:
        yield f"{key}:"
        yield from (f"  {_text(inner)}: {_flow(item)}" for inner, item in value.items())
    elif isinstance(value, tuple) and value and is_dataclass(value[0]) and not isinstance(value[0], Share):
        yield f"{key}:"
        yield from (f"  - {_flow(item)}" for item in value)
    else:
        yield f"{key}: {_flow(value)}"


def _flow(value: Any) -> str:
    """Return a value on one line."""
    if isinstance(value, tuple):
        return f"[{', '.join(_flow(item) for item in value)}]"
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{_text(key)}: {_flow(item)}" for key, item in value.items()) + "}"
    if isinstance(value, Position):
        return position_text(value)
    if is_dataclass(value) and not isinstance(value, Length | Share | Dial | Height | Around | Extent):
        given = (
            (key_of(field), getattr(value, field.name)) for field in fields(value) if not field.metadata.get("unsaid")
        )
        return "{" + ", ".join(f"{key}: {_flow(item)}" for key, item in given if item not in ("", None)) + "}"
    return _text(value)


def _text(value: Any) -> str:
    """Return a single value as the file has it."""
    match value:
        case str():
            return quoted(value)
        case bool():
            return "yes" if value else "no"
        case int() | float():
            return number_text(value)
        case Length() | Share() | Dial():
            return amount_text(value)
        case Extent():
            return extent_text(value)
        case Height():
            return height_text(value)
        case Around():
            return around_text(value)
        case _:
            raise TypeError(f"a recipe has no way to write {type(value).__name__}")


def quoted(text: str) -> str:
    """Return a text as a YAML value, in quotation marks where a bare one would be read otherwise.

    >>> quoted("side front"), quoted("a: b"), quoted("no")
    ('side front', '"a: b"', '"no"')
    """
    plain = _PLAIN.fullmatch(text) is not None and text.casefold() not in _WORDS_WITH_MEANING
    return text if plain else json.dumps(text, ensure_ascii=False)
