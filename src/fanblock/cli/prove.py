"""``fanblock prove``: a recipe drafted for many bodies, and for how many of them the drawing is sound."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from fanblock.cli.arguments import REFUSALS, machine_option, settings_option
from fanblock.cli.bug import bug_report
from fanblock.cli.screen import say, say_document, tell, working, wrapped

if TYPE_CHECKING:
    from fanblock.proving.people import People
    from fanblock.proving.trial import Trial
    from fanblock.recipe.model import Recipe

FINE, AT_FAULT, OUR_BUG, INTERRUPTED = 0, 1, 3, 130
_MOST_REPORTS = 3
_MOST_WORKERS = 61


@click.command(short_help="Try a recipe on many bodies.")
@click.argument("recipes", metavar="RECIPE...", nargs=-1, required=True)
@click.option("--people", metavar="FILE.csv", help="The bodies to try. Without it: 300 invented ones of every size.")
@click.option("--units", type=click.Choice(("cm", "in", "mm")), help="What a bare number in the people's file means.")
@click.option("--out", "folder", metavar="FOLDER", help="Where a picture and a table go. It is made if need be.")
@click.option(
    "--workers",
    type=click.IntRange(1, _MOST_WORKERS),
    metavar="N",
    help="How many bodies to draft at the same time. Without it: as many as the machine has cores.",
)
@settings_option
@click.option(
    "--over",
    type=click.Choice(("shift", "stays")),
    default="shift",
    show_default=True,
    help="What the people's measures were taken over.",
)
@click.option(
    "--despite", type=click.Choice(REFUSALS), multiple=True, help="Draw what would be refused for this reason."
)
@machine_option
def prove(
    recipes: tuple[str, ...],
    people: str | None,
    units: str | None,
    folder: str | None,
    workers: int | None,
    settings: Mapping[str, str],
    over: str,
    despite: tuple[str, ...],
    machine: bool,
) -> int:
    """Draft each RECIPE for many bodies and tell for how many it is SOUND, and for what kind it is not.

    A table of people names its measures in its first row, like `name,bust (cm),waist (cm),bust to waist (cm)`,
    and has a row for each body. This proves sound drawing, never fit. The exit code is 0 when every recipe is
    sound for every body, and 1 when not.

    \b
    Example:
      fanblock prove my-stays.yaml --people company.csv --out proof
    """
    with working("reading"):
        from fanblock.output import refuse_file
        from fanblock.proving.csvfile import open_people
        from fanblock.proving.people import invented_people
        from fanblock.proving.trial import prove as tried

    if folder is not None:
        refuse_file(folder)
    opened = _opened(recipes, settings)
    bodies = open_people(people, units, over) if people is not None else invented_people(units or "cm")
    if not machine:
        _say_people(bodies)
    trials: list[Trial] = []
    documents: list[dict[str, Any]] = []
    for recipe, stem in zip(opened, _stems(opened), strict=True):
        with _progress(recipe.id, len(bodies.persons)) as done:
            describe = partial(bug_report, arguments=("prove",), commands=("prove",))
            trial = tried(
                recipe, bodies, settings, over=over, despite=despite, workers=workers, describe=describe, done=done
            )
        trials.append(trial)
        names = _write(trial, folder, stem) if folder is not None and trial.outcomes else ()
        documents.append(_tell(trial, folder, names, machine))
        if trial.stopped:
            break
    untried = [recipe.id for recipe in opened[len(trials) :]]
    _end(trials, documents, untried, machine)
    return _code(trials)


def _opened(typed: Sequence[str], settings: Mapping[str, str]) -> list[Recipe]:
    """Return the recipes, each once, dials tried; FanblockError with the problems of all."""
    from fanblock.problems import FanblockError, Problem, RecipeError
    from fanblock.recipe.dials import with_dials
    from fanblock.recipe.library import open_recipe

    problems: list[Problem] = []
    found: list[Recipe] = []
    for one in dict.fromkeys(typed):
        try:
            recipe = open_recipe(one)
            with_dials(recipe, settings)
            found.append(recipe)
        except FanblockError as error:
            problems += error.problems
    if problems:
        raise RecipeError(dict.fromkeys(problems))
    return found


def _stems(recipes: Sequence[Recipe]) -> list[str]:
    """File names for recipes: their ids, numbered where two are alike."""
    from fanblock.sheet.writing import identifier

    taken: set[str] = set()
    return [identifier(recipe.id, taken) for recipe in recipes]


@contextmanager
def _progress(what: str, bodies: int) -> Iterator[Callable[[int], None]]:
    """Show on a terminal how far the work is; elsewhere nothing."""
    import sys

    if sys.stderr is None or not sys.stderr.isatty():
        yield lambda more: None
        return
    with click.progressbar(length=bodies, label=what, file=sys.stderr, show_pos=True) as bar:
        yield bar.update


def _write(trial: Trial, folder: str, stem: str) -> tuple[str, ...]:
    """Write a trial's picture and table and return their names."""
    from fanblock.output import write_all
    from fanblock.proving.picture import picture_svg
    from fanblock.proving.table import table_csv
    from fanblock.sheet.png import WIDEST_PX, to_png

    with working("drawing the picture"):
        svg = picture_svg(trial)
        files = {
            f"{stem}.svg": svg.encode(),
            f"{stem}.png": to_png(svg, WIDEST_PX),
            f"{stem}.csv": table_csv(trial).encode("utf-8-sig"),
        }
    write_all(folder, files)
    return tuple(files)


def _say_people(people: People) -> None:
    from fanblock.proving.summary import NOBODY

    count = len(people.persons)
    says = NOBODY if people.invented else f"{count} {'row' if count == 1 else 'rows'} in {people.source}."
    say(wrapped(says))
    for text in people.left_out:
        say(wrapped(f"left out: the column {text}", "LOOK  "), style="look")
    say()


_SET = {"head": ("", "head"), "good": ("  ", "good"), "bad": ("  ", "bad"), "plain": ("  ", "")}


def _tell(trial: Trial, folder: str | None, names: Sequence[str], machine: bool) -> dict[str, Any]:
    """Tell of one recipe, and return what other programs are told of it."""
    from fanblock.proving.summary import document, sentences

    if not machine:
        for kind, text in sentences(trial):
            indent, style = _SET.get(kind, ("  - " if kind == "item" else "      ", ""))
            say(wrapped(text, indent), style=style)
        if folder is not None and names:
            say(wrapped(f"Picture and table: {', '.join(str(Path(folder) / name) for name in names)}", "  "))
        say()
    return document(trial, names)


def _end(trials: Sequence[Trial], documents: Sequence[Any], untried: Sequence[str], machine: bool) -> None:
    from fanblock.proving.summary import CAVEAT
    from fanblock.proving.trial import BROKEN

    stopped = any(trial.stopped for trial in trials)
    if machine:
        say_document({"proved": documents, "stopped": stopped, "not_tried": list(untried), "proves": CAVEAT})
    else:
        if stopped:
            more = f" Not tried at all: {', '.join(untried)}." if untried else ""
            say(wrapped(f"Stopped. What was done is told above.{more}"))
        say(wrapped(CAVEAT))
    reports = dict.fromkeys(outcome.report for trial in trials for outcome in trial.of(BROKEN))
    for report in list(reports)[:_MOST_REPORTS]:
        tell(report)
    if len(reports) > _MOST_REPORTS:
        tell(f"And {len(reports) - _MOST_REPORTS} more reports, not alike.")


def _code(trials: Sequence[Trial]) -> int:
    from fanblock.proving.trial import BROKEN, SOUND

    if any(trial.stopped for trial in trials):
        return INTERRUPTED
    if any(trial.of(BROKEN) for trial in trials):
        return OUR_BUG
    return FINE if all(len(trial.of(SOUND)) == len(trial.outcomes) for trial in trials) else AT_FAULT
