"""One order of an adopted recipe: a step with other options, or one that is new; and what the steps of a recipe are called."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fanblock.recipe.model import Recipe

BY_THEIR_NAMES = frozenset({"seam", "level seam"})
"""The kinds of steps that a recipe calls by their own names; all others go by kind, and number where there are several."""


@dataclass(frozen=True, slots=True)
class Change:
    """One step with other options: what it is called in ``changes`` and the options that differ.

    ``whole`` is its kind where the whole step is put in the place of the old one, or, where ``put`` says so, ``before`` or
    ``after`` it.
    """

    step: str
    options: Mapping[str, Any]
    whole: str = ""
    put: str = ""


def step_calls(recipe: Recipe) -> tuple[str, ...]:
    """Return what every step of a recipe is called in ``changes``."""
    often, met = Counter(step.kind for step in recipe.steps), Counter[str]()
    calls = []
    for step in recipe.steps:
        options: Any = step.options
        met[step.kind] += 1
        number = f"{step.kind} {met[step.kind]}" if often[step.kind] > 1 else step.kind
        calls.append(options.name if step.kind in BY_THEIR_NAMES else number)
    return tuple(calls)
