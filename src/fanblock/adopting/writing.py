"""The adopted recipe as text: what it is based on, the steps that differ, and a table of what was moved as comments."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass
from itertools import groupby
from typing import Any

from fanblock.adopting.changing import Change, step_calls
from fanblock.adopting.kept import Kept
from fanblock.adopting.table import Row
from fanblock.draft.corners import EdgeSpec
from fanblock.recipe.decode import key_of
from fanblock.recipe.explain import quoted
from fanblock.recipe.model import FORMATS, Recipe
from fanblock.recipe.words import amount_text, height_text, position_text
from fanblock.terms import Dial, Height, Position

WIDTH = 100


def recipe_text(
    kept: Kept,
    recipe: Recipe,
    set_recipe: Recipe,
    changes: Sequence[Change],
    rows: Sequence[Row],
    notes: Sequence[str],
    based_on: str,
    name: str,
) -> str:
    """Return the text of a recipe with these changes."""
    lines = [
        *_comment(kept, rows, notes),
        f"recipe: {FORMATS[-1]}",
        f"name: {quoted(name)}",
        f"based on: {quoted(based_on)}",
    ]
    lines += _dials(recipe, set_recipe, changes)
    lines.append("changes:")
    for (_, put), group in groupby(changes, key=lambda one: (one.step, one.put)):
        same = list(group)
        if put:
            lines += _change(same[0], same[1:])
        else:
            for change in same:
                lines += _change(change)
    return "\n".join(lines) + "\n"


def table_lines(rows: Sequence[Row]) -> list[str]:
    """Return the rows as lines of even columns."""
    cells = [("line", "where", "moved", "left over")]
    cells += [(row.line, row.at, row.moved, f"{row.left_mm:.1f} mm") for row in rows]
    wide = [max(len(row[number]) for row in cells) for number in range(4)]
    return ["  ".join(f"{cell:{width}}" for cell, width in zip(row, wide, strict=True)).rstrip() for row in cells]


def _comment(kept: Kept, rows: Sequence[Row], notes: Sequence[str]) -> Iterator[str]:
    yield f"# Lines moved on the drawing of draft {kept.number} (code {kept.code}) for {' '.join(kept.wearer.split())}."
    yield "#"
    yield from (f"#   {line}" for line in table_lines(rows))
    yield "#"
    for note in notes:
        yield from textwrap.wrap(f"Not in here: {note}.", WIDTH, initial_indent="# ", subsequent_indent="#   ")


def _dials(recipe: Recipe, set_recipe: Recipe, changes: Sequence[Change]) -> Iterator[str]:
    """Yield the dials: those that were turned for the draft stay so, those that nothing uses any more are dropped."""
    told = []
    used = _used(recipe, changes)
    for spec, now in zip(recipe.dials, set_recipe.dials, strict=True):
        if spec.name not in used:
            told.append(f"  {spec.name}: drop")
        elif spec.default != now.default:
            text = amount_text(now.default)
            bare = text.removesuffix(f" of {spec.of}") if spec.of else text
            told.append(f"  {spec.name}: {{default: {bare}}}")
    if told:
        yield "dials:"
        yield from told


def _used(recipe: Recipe, changes: Sequence[Change]) -> set[str]:
    changed = {change.step: change for change in changes if not change.put}
    found: set[str] = set()
    for step, call in zip(recipe.steps, step_calls(recipe), strict=True):
        change = changed.get(call)
        for field in fields(step.options):  # type: ignore[arg-type]
            value = getattr(step.options, field.name)
            if change is not None and (change.whole or field.name in change.options):
                value = change.options.get(field.name)
            found |= _dial_names(value)
    return found | _dial_names(recipe.block)


def _dial_names(value: Any) -> set[str]:
    if isinstance(value, Dial):
        return {value.name}
    if is_dataclass(value) and not isinstance(value, type):
        return set().union(*(_dial_names(getattr(value, field.name)) for field in fields(value)))
    if isinstance(value, tuple):
        return set().union(*(_dial_names(item) for item in value))
    if hasattr(value, "items"):
        return set().union(*(_dial_names(key) | _dial_names(item) for key, item in value.items()))
    return set()


def _change(change: Change, also: Sequence[Change] = ()) -> Iterator[str]:
    """Yield the lines of one order; ``also`` are steps that are put in the same place behind it."""
    if change.put:
        yield f"  - {change.put}: {quoted(change.step)}"
        yield "    put:"
    elif change.whole:
        yield f"  - replace: {quoted(change.step)}"
        yield "    with:"
    else:
        yield f"  - in: {quoted(change.step)}"
        yield "    set:"
    for one in (change, *also):
        dash, inner = ("- ", "          ") if also else ("", "        ")
        if one.whole:
            yield f"      {dash}{one.whole}:"
        else:
            inner = "      "
        for key, value in one.options.items():
            yield from (f"{inner}{line}" for line in _option(key.replace("_", " "), value))


def _option(key: str, value: Any) -> Iterator[str]:
    """Yield the lines of one option; one that is not given has none."""
    if value is None or value == {}:
        return
    if isinstance(value, Mapping):
        yield f"{key}: {{{', '.join(f'{height_text(height)}: {amount_text(mm)}' for height, mm in value.items())}}}"
    elif isinstance(value, tuple):
        yield f"{key}:"
        for item in value:
            yield from (f"  {line}" for line in _item(item))
    elif isinstance(value, Height):
        yield f"{key}: {height_text(value)}"
    elif isinstance(value, str):
        yield f"{key}: {quoted(value)}"
    elif isinstance(value, bool):
        yield f"{key}: {'yes' if value else 'no'}"
    else:
        yield f"{key}: {amount_text(value)}"


def _item(item: Position | EdgeSpec) -> Iterator[str]:
    if isinstance(item, Position):
        yield f"- {position_text(item)}"
        return
    dash = "- "
    for field in fields(item):
        value = getattr(item, field.name)
        if value == field.default:
            continue
        if field.name == "through":
            yield f"{dash}through:"
            yield from (f"    - {position_text(position)}" for position in value)
        else:
            text = ("yes" if value else "no") if isinstance(value, bool) else quoted(value)
            yield f"{dash}{key_of(field)}: {text}"
        dash = "  "
