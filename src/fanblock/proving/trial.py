"""A recipe tried on many bodies: what became of each.

A body comes out *sound* (every check holds or only wants a look), *not sound* (a check fails), *refused* (its
row, its body or a step says why nothing is drawn) or *broken* (a fault of our own).
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from fanblock.checks.finding import FAILS
from fanblock.geometry.curve import Points, frozen
from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.problems import FanblockError, Problem
from fanblock.proving.people import People, Person, middle_people
from fanblock.proving.pool import for_each
from fanblock.recipe.dials import with_dials
from fanblock.recipe.model import Recipe
from fanblock.wearer.model import SHIFT, STAYS

SOUND, NOT_SOUND, REFUSED, BROKEN = "sound", "not sound", "refused", "broken"
STATES = (SOUND, NOT_SOUND, REFUSED, BROKEN)

OUTLINE_MM = 0.25
"""Most an outline kept for the picture may stand off the one that was drawn."""


@dataclass(frozen=True, slots=True)
class Cause:
    """Why a body is not sound: a check's or a problem's code, and what it says."""

    code: str
    says: str


@dataclass(frozen=True, slots=True, eq=False)
class Outcome:
    """What became of one body; ``outlines`` are its panels' stitch lines in the block's frame, thinned."""

    person: Person
    state: str
    causes: tuple[Cause, ...] = ()
    outlines: tuple[Points, ...] = ()
    report: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Trial:
    """A recipe and what became of every body that was tried, in the order of the rows.

    ``median`` and ``mean`` are bodies of middle measures, drafted beside them for the picture. ``stopped``
    tells that Ctrl-C ended the work, so that bodies are missing.
    """

    recipe: Recipe
    people: People
    over: str
    outcomes: tuple[Outcome, ...]
    median: Outcome | None
    mean: Outcome | None
    stopped: bool

    def of(self, state: str) -> tuple[Outcome, ...]:
        """Return the bodies that came out ``sound``, ``not sound``, ``refused`` or ``broken``."""
        return tuple(outcome for outcome in self.outcomes if outcome.state == state)


def plain_report(error: BaseException) -> str:
    """Return an unexpected error in one line."""
    return f"{type(error).__name__}: {error}"


def prove(
    recipe: Recipe,
    people: People,
    settings: Mapping[str, str] | None = None,
    *,
    over: str = SHIFT,
    despite: Collection[str] = (),
    workers: int | None = None,
    describe: Callable[[BaseException], str] = plain_report,
    done: Callable[[int], None] = lambda more: None,
) -> Trial:
    """Return what becomes of a recipe on every one of ``people``; the same for any number of ``workers``.

    ``settings`` turn dials; RecipeError when they cannot be used. ``over`` says what the measures were taken
    over. ``despite`` names refusals that are overridden. ``workers`` are processes, all cores when None. ``describe`` makes the report of an unexpected error,
    in the process that met it. ``done`` is told how many more bodies are done. Ctrl-C ends the work and is
    told in ``stopped``; it is not raised.
    """
    with_dials(recipe, settings)
    attempt = partial(
        try_person,
        recipe=recipe,
        settings=dict(settings or {}),
        over=over,
        despite=tuple(despite),
        units=people.units,
        describe=describe,
    )
    outcomes, stopped = for_each(attempt, people.persons, workers, done, _lost)
    middle = middle_people(people.persons)
    median, mean = (attempt(person) for person in middle) if middle else (None, None)
    return Trial(recipe, people, over, tuple(one for one in outcomes if one is not None), median, mean, stopped)


def try_person(
    person: Person,
    *,
    recipe: Recipe,
    settings: Mapping[str, str],
    over: str,
    units: str,
    despite: Collection[str] = (),
    describe: Callable[[BaseException], str] = plain_report,
) -> Outcome:
    """Return what becomes of a recipe on one person; never raises but for Ctrl-C."""
    if person.faults:
        return Outcome(person, REFUSED, tuple(_cause(problem) for problem in person.faults))
    try:
        with np.errstate(all="ignore"):  # whether the numbers are good is what the checks are for
            layer = over if over == STAYS else None  # measured over the shift, a gown is drawn from what they predict
            pattern = draft_pattern(person.wearer(over, units), recipe, settings, over=layer, despite=despite)
        outlines = tuple(thinned(panel.loop()) for panel in pattern.panels)
    except FanblockError as error:
        return Outcome(person, REFUSED, tuple(_cause(problem) for problem in error.problems))
    except Exception as error:
        says = f"fanblock met a fault of its own ({type(error).__name__})."
        return Outcome(person, BROKEN, (Cause("bug", says),), report=describe(error))
    failed = _failed(pattern)
    return Outcome(person, NOT_SOUND if failed else SOUND, failed, outlines)


def _lost(person: Person) -> Outcome:
    says = "fanblock met a fault of its own (its process died)."
    return Outcome(person, BROKEN, (Cause("bug", says),), report="A process died while it drafted.")


def _failed(pattern: Pattern) -> tuple[Cause, ...]:
    return tuple(Cause(finding.code, finding.says) for finding in pattern.findings if finding.state == FAILS)


def _cause(problem: Problem) -> Cause:
    """A problem without its place in a file and without the body's name, which stand beside it anyway."""
    trail = "" if problem.where.startswith("wearer ") else problem.where
    return Cause(problem.code, str(replace(problem, where=trail, place=None)))


def thinned(ring: Points, off_mm: float = OUTLINE_MM) -> Points:
    """Return as few of a closed ring's points as stay within ``off_mm`` of it, to a hundredth of a millimetre."""
    run = np.vstack((ring, ring[:1]))
    far = int(np.argmax(np.hypot(*(run - run[0]).T)))
    keep = {0, far}
    open_runs = [(0, far), (far, len(run) - 1)]
    while open_runs:
        first, last = open_runs.pop()
        if last - first < 2:
            continue
        (x, y), between = run[last] - run[first], run[first + 1 : last] - run[first]
        off = np.abs(x * between[:, 1] - y * between[:, 0]) / max(float(np.hypot(x, y)), off_mm)
        worst = int(np.argmax(off))
        if off[worst] > off_mm:
            middle = first + 1 + worst
            keep.add(middle)
            open_runs += [(first, middle), (middle, last)]
    return frozen(np.round(ring[sorted(keep)], 2))
