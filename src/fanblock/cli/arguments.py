"""What several commands are given: kinds of argument, and the options they share."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, TypeVar

import click

from fanblock.problems import ExportError
from fanblock.sheet.paper import PAPERS, Paper, roll
from fanblock.units import parse_length, shown

Command = TypeVar("Command", bound=Callable[..., Any])

REFUSALS = ("reduction", "turn", "waist")
"""What is refused but may be drawn all the same with ``--despite``."""

DRAFTS = click.IntRange(1, 999)


class RollWidth(click.ParamType):
    """The width of a roll of paper, with its unit; becomes the paper."""

    name = "WIDTH"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Paper:
        """Return the roll; a usage error when the width is no length or no roll is so wide."""
        if isinstance(value, Paper):
            return value
        try:
            return roll(parse_length(str(value)))
        except ValueError as error:
            self.fail(str(error), param, ctx)
        except ExportError as error:
            self.fail(" ".join(f"{problem.what} {problem.remedy}" for problem in error.problems), param, ctx)


class Setting(click.ParamType):
    """A dial turned: its name, an equals sign, and what it is set to."""

    name = "DIAL=AMOUNT"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> tuple[str, str]:
        """Return the dial's name and its setting; a usage error when there is no equals sign."""
        if isinstance(value, tuple):
            return value
        dial, equals, amount = (part.strip() for part in str(value).partition("="))
        if not (dial and equals and amount):
            self.fail(f'{shown(str(value))} turns no dial. Write it like --set "gap=4 cm".', param, ctx)
        return " ".join(dial.split()), amount


def settings_of(pairs: Sequence[tuple[str, str]]) -> Mapping[str, str]:
    """Return dials and their settings; a usage error when one dial is turned twice."""
    settings: dict[str, str] = {}
    for dial, amount in pairs:
        if dial in settings:
            raise click.UsageError(f"The dial {shown(dial)} is set twice. Set it once.")
        settings[dial] = amount
    return settings


def machine_option(command: Command) -> Command:
    """Give a command ``--json``."""
    says = "One JSON document for other programs, instead of text for people."
    return click.option("--json", "machine", is_flag=True, help=says)(command)


def settings_option(command: Command) -> Command:
    """Give a command ``--set``, which may stand several times."""
    says = 'Turn a dial of the recipe, like --set "gap=4 cm". May stand several times.'
    return click.option("--set", "settings", type=Setting(), multiple=True, help=says)(command)


def paper_options(command: Command) -> Command:
    """Give a command ``--paper`` and ``--roll``, which may stand several times."""
    names = click.Choice(tuple(PAPERS), case_sensitive=False)
    papers = "What to print on. May stand several times. Without it: A4 and Letter pages to join, and A0 in one piece."
    rolls = 'A roll of paper as a copy shop has it, by its width, like --roll "90 cm".'
    command = click.option("--roll", "rolls", type=RollWidth(), multiple=True, help=rolls)(command)
    return click.option("--paper", "papers", type=names, multiple=True, help=papers)(command)


def papers_of(papers: Sequence[str], rolls: Sequence[Paper]) -> tuple[Paper, ...]:
    """Return the papers asked for, each once, in the order asked; none when nothing was asked."""
    return tuple(dict.fromkeys([*(PAPERS[name.lower()] for name in papers), *rolls]))
