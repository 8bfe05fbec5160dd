"""What several commands are given: kinds of argument, and the options they share."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, TypeVar

import click

from fanblock.problems import ExportError, nearest
from fanblock.sheet.paper import PAPERS, Paper, roll
from fanblock.units import parse_length, shown

Command = TypeVar("Command", bound=Callable[..., Any])

REFUSALS = ("reduction", "turn", "waist")
"""What is refused but may be drawn all the same with ``--despite``."""

MOST_DRAFTS = 999


class NoCommandError(click.UsageError):
    """Nothing was asked for; the message is the help."""


class Commands(click.Group):
    """Commands that are listed in the order one meets them; a mistyped one is told what is near."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Return the arguments that are left; NoCommandError when there are none at all."""
        if not args:
            raise NoCommandError(ctx.get_help(), ctx)
        return super().parse_args(ctx, args)

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands' names as they were added."""
        return list(self.commands)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command that is asked for; a usage error when there is none of that name."""
        if args and args[0] not in self.commands and not args[0].startswith("-"):
            raise click.UsageError(f"There is no command {shown(args[0])}. {nearest(args[0], self.commands)}", ctx)
        return super().resolve_command(ctx, args)


def roll_widths(context: click.Context, parameter: click.Parameter, typed: tuple[str, ...]) -> tuple[Paper, ...]:
    """Return the rolls of the widths that were typed; a usage error for one that is no width or cannot be used."""
    return tuple(_roll(one, context, parameter) for one in typed)


def _roll(typed: str, context: click.Context, parameter: click.Parameter) -> Paper:
    try:
        return roll(parse_length(typed))
    except ValueError:
        says = f'{shown(typed)} is no width with its unit. Write it like --roll "90 cm".'
    except ExportError as error:
        says = " ".join(f"{problem.what} {problem.remedy}" for problem in error.problems)
    raise click.BadParameter(says, context, parameter)


def draft_number(context: click.Context, parameter: click.Parameter, typed: str | None) -> int | None:
    """Return the number of a draft, None where none was typed; a usage error when it is none from 1 to 999."""
    if typed is None:
        return None
    if not (typed.isascii() and typed.isdigit() and 1 <= int(typed[:4]) <= MOST_DRAFTS):
        says = f"{shown(typed)} is not a whole number from 1 to {MOST_DRAFTS}."
        raise click.BadParameter(says, context, parameter)
    return int(typed)


def turned_dials(context: click.Context, parameter: click.Parameter, typed: tuple[str, ...]) -> Mapping[str, str]:
    """Return dials and what they are set to; a usage error for a text without both, and for a dial turned twice."""
    settings: dict[str, str] = {}
    for one in typed:
        dial, _, amount = (" ".join(part.split()) for part in one.partition("="))
        if not (dial and amount):
            says = f'{shown(one)} turns no dial. Write it like --set "gap=4 cm".'
            raise click.BadParameter(says, context, parameter)
        if dial in settings:
            raise click.BadParameter(f"The dial {shown(dial)} is set twice. Set it once.", context, parameter)
        settings[dial] = amount
    return settings


def machine_option(command: Command) -> Command:
    """Give a command ``--json``."""
    says = "One JSON document for other programs, instead of text for people."
    return click.option("--json", "machine", is_flag=True, help=says)(command)


def settings_option(command: Command) -> Command:
    """Give a command ``--set``, which may stand several times."""
    says = 'Turn a dial of the recipe, like --set "gap=4 cm". May stand several times.'
    return click.option("--set", "settings", metavar="DIAL=AMOUNT", callback=turned_dials, multiple=True, help=says)(
        command
    )


def paper_options(command: Command) -> Command:
    """Give a command ``--paper`` and ``--roll``, which may stand several times."""
    names = click.Choice(tuple(PAPERS), case_sensitive=False)
    papers = (
        "What to print on, or `projector` for a page to throw on the cloth. May stand several times. Without it: A4 and "
        "Letter pages to join, and A0 in one piece."
    )
    rolls = 'A roll of paper as a copy shop has it, by its width, like --roll "90 cm".'
    command = click.option("--roll", "rolls", metavar="WIDTH", callback=roll_widths, multiple=True, help=rolls)(command)
    return click.option("--paper", "papers", type=names, multiple=True, help=papers)(command)


def papers_of(papers: Sequence[str], rolls: Sequence[Paper]) -> tuple[Paper, ...]:
    """Return the papers asked for, each once, in the order asked; none when nothing was asked."""
    return tuple(dict.fromkeys([*(PAPERS[name.lower()] for name in papers), *rolls]))
