"""Dials turned: a recipe with every dial replaced by the amount it is set to, everywhere.

A dial is a length or a share. What is set must be of the dial's kind and lie within its least and most; a
name that is no dial of the recipe is refused with the nearest that are.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any

from fanblock.problems import Problem, RecipeError, nearest
from fanblock.recipe.model import DialSpec, Recipe, Step
from fanblock.recipe.parts import negated, parse_setting
from fanblock.recipe.phrase import UnreadableError, Vocabulary
from fanblock.recipe.words import amount_text, spoken
from fanblock.terms import Amount, Around, Dial, Height, Length, Share
from fanblock.units import shown, spoken_length, typed_length

Settings = Mapping[str, Amount | str]
"""What dials are set to, by name: amounts, or texts as typed."""


SOLD_IN_MM = frozenset({"bone"})
"""Dials that are told in millimetres to everybody: flat bones are sold by their width in them (common practice, no source)."""


def with_dials(recipe: Recipe, settings: Settings | None = None) -> Recipe:
    """Return the recipe with every dial set, to ``settings`` or to its default, and put in its place.

    The dials stay in the recipe, their defaults being what they were set to. Raises RecipeError with every
    setting that cannot be used.
    """
    values = _values(recipe, settings or {})
    steps = tuple(_turned(step, values) for step in recipe.steps)
    block = _resolved(recipe.block, values)
    dials = tuple(replace(spec, default=values[spec.name]) for spec in recipe.dials)
    return replace(recipe, steps=steps, dials=dials, block=block)


def dial_values(
    recipe: Recipe, settings: Settings | None = None, units: str = ""
) -> tuple[tuple[str, str, float], ...]:
    """Return (name, in words, as a number) for each dial as set: millimetres for lengths, ratios for shares.

    What was typed is told in the unit it was typed in, a default in ``units``, the wearer's, or in the recipe's own. Raises RecipeError as :func:`with_dials` does.
    """
    settings = settings or {}
    values = _values(recipe, settings)
    rows = []
    for spec in recipe.dials:
        value = values[spec.name]
        number = value.mm if isinstance(value, Length) else value.ratio
        rows.append((spec.name, _told(spec.name, value, settings.get(spec.name), recipe.units, units), number))
    return tuple(rows)


def _told(name: str, value: Length | Share, setting: Amount | str | None, own: str, units: str) -> str:
    """A dial's amount in words."""
    if units and isinstance(value, Length) and not isinstance(setting, str):
        return spoken_length(value.mm, "mm" if name in SOLD_IN_MM else units)
    return spoken(value, _unit(setting, own or units))


def limit_fault(spec: DialSpec, value: Length | Share, unit: str = "mm") -> tuple[str, str] | None:
    """Return what is wrong with a setting of the dial's kind and what to do; None within its limits."""
    size = _size(value)
    for limit, word, beyond in (
        (spec.least, "less than its least", -1),
        (spec.most, "more than its most", 1),
    ):
        if limit is not None and (size - _size(limit)) * beyond > 0.0:
            return f"{spoken(bare(value), unit)} is {word}, {spoken(bare(limit), unit)}.", _range(spec, unit)
    return None


def _range(spec: DialSpec, unit: str) -> str:
    if spec.least is not None and spec.most is not None:
        return f"Set it from {spoken(bare(spec.least), unit)} to {spoken(bare(spec.most), unit)}."
    if spec.most is not None:
        return f"Set it to {spoken(bare(spec.most), unit)} or less."
    return f"Set it to {spoken(bare(spec.least), unit)} or more." if spec.least is not None else ""


def bare(value: Length | Share) -> Length | Share:
    """Return a setting without the measure it is a share of, as a person types it."""
    return replace(value, of="") if isinstance(value, Share) else value


def _size(value: Length | Share) -> float:
    return value.mm if isinstance(value, Length) else value.ratio


def _unit(setting: Amount | str | None, units: str) -> str:
    """Return the unit to speak in: the one that was typed, else the recipe's own, else millimetres."""
    if isinstance(setting, str):
        try:
            return typed_length(setting, units or None).unit
        except ValueError:
            pass
    return units or "mm"


def _values(recipe: Recipe, settings: Settings) -> dict[str, Length | Share]:
    specs = {spec.name: spec for spec in recipe.dials}
    problems = [_no_dial(name, specs) for name in sorted(settings) if name not in specs]
    values: dict[str, Length | Share] = {}
    for name, spec in specs.items():
        values[name] = spec.default
        if name in settings:
            try:
                values[name] = _setting(spec, settings[name], recipe.units)
            except UnreadableError as error:
                problems.append(Problem("dial", "", f"dial {shown(name)}: {error.what}", error.remedy))
    if problems:
        raise RecipeError(problems)
    return values


def _no_dial(name: str, specs: Mapping[str, DialSpec]) -> Problem:
    remedy = nearest(name, specs) if specs else "This recipe has no dials."
    return Problem("dial", "", f"there is no dial {shown(name)}.", remedy)


def _setting(spec: DialSpec, setting: Amount | str, units: str) -> Length | Share:
    """Return a setting as an amount of the dial's own kind and within its limits; raises UnreadableError."""
    got = setting if isinstance(setting, str) else amount_text(setting)
    if isinstance(setting, str):
        typed = setting.strip().removesuffix(f" of {spec.of}") if spec.of else setting
        value: Amount = parse_setting(typed, Vocabulary(units=units))
    else:
        value = setting
    if isinstance(value, Dial) or isinstance(value, Length) != isinstance(spec.default, Length):
        example = "a length such as `50 mm`" if isinstance(spec.default, Length) else "a percentage such as `3%`"
        raise UnreadableError(f"got {shown(got)}, needs {example}.")
    if isinstance(value, Share):
        if value.of not in ("", spec.of):
            raise UnreadableError(f"got {shown(got)}, but it is a share of {spec.of or 'what its place says'}.")
        value = replace(value, of=spec.of)
    fault = limit_fault(spec, value, _unit(setting, units))
    if fault is not None:
        raise UnreadableError(*fault)
    return value


def _turned(step: Step, values: Mapping[str, Length | Share]) -> Step:
    try:
        return replace(step, options=_resolved(step.options, values))
    except UnreadableError as error:
        where = f"step {step.number} ({step.kind})"
        raise RecipeError([Problem("dial", where, error.what, error.remedy, step.place)]) from error


def _resolved(value: Any, values: Mapping[str, Length | Share]) -> Any:
    """Return a value with every dial in it replaced; a height or around never adds a negative amount."""
    if isinstance(value, Dial):
        return values[value.name]
    if isinstance(value, Height | Around):
        if not isinstance(value.plus, Dial):
            return value
        plus = values[value.plus.name]
        return replace(value, plus=negated(plus), sign=-value.sign) if _size(plus) < 0.0 else replace(value, plus=plus)
    if is_dataclass(value) and not isinstance(value, type):
        changed = {field.name: _resolved(getattr(value, field.name), values) for field in fields(value)}
        return replace(value, **changed)
    if isinstance(value, tuple):
        return tuple(_resolved(item, values) for item in value)
    if isinstance(value, Mapping):
        resolved = {_resolved(key, values): _resolved(item, values) for key, item in value.items()}
        if len(resolved) < len(value):
            raise UnreadableError(
                "as the dials are set, two of its entries stand at one height.", "Turn one of the dials."
            )
        return resolved
    return value
