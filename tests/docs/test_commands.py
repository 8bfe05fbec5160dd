"""Every command line that the pages show is one the program takes."""

from __future__ import annotations

import re
import shlex
from itertools import pairwise

import click
import pytest
from tests.docs.pages import DOCS, PAGES, boxes, prose, text_of

from fanblock.cli.main import program
from fanblock.recipe.dials import with_dials
from fanblock.recipe.library import open_recipe
from fanblock.shipped import recipe_ids

INLINE = re.compile(r"`(fanblock [^`]+)`")


def lines() -> list[str]:
    """All command lines: those in boxes, and those in the run of a text."""
    boxed = [line for box in boxes("sh") for line in box.text.splitlines() if line.startswith("fanblock ")]
    inline = [found for page in PAGES for found in INLINE.findall(prose(page))]
    return sorted({*boxed, *inline})


def taken(command: click.Command, arguments: list[str], parent: click.Context | None = None) -> None:
    """Read the arguments as the program would, and run nothing."""
    context = command.make_context((parent and command.name) or "fanblock", list(arguments), parent=parent)
    if isinstance(command, click.Group):
        rest = [*context._protected_args, *context.args]
        name, found, rest = command.resolve_command(context, rest)
        assert found is not None, name
        taken(found, rest, context)


@pytest.mark.parametrize("line", lines())
def test_a_command_line_is_taken(line: str) -> None:
    """A command line from a page is read without a word of complaint."""
    words = shlex.split(line, comments=True)[1:]
    if words[-1:] not in (["--version"], ["--help"]) and not only_names(words):
        taken(program, words)


@pytest.mark.parametrize("line", [line for line in lines() if "--set" in line])
def test_dials_are_turned_as_far_as_they_go(line: str) -> None:
    """A dial that a page turns is one of that recipe's, and within its limits."""
    words = shlex.split(line, comments=True)
    recipe = next(word for word in words if word in recipe_ids())
    pairs = [word.split("=", 1) for before, word in pairwise(words) if before == "--set"]
    assert pairs
    with_dials(open_recipe(recipe), {dial.strip(): amount.strip() for dial, amount in pairs})


def test_the_dials_named_on_the_toile_page_are_dials() -> None:
    """What the page about fitting bids turn can be turned in the five-panel stays."""
    named = set(re.findall(r"dial `([^`]+)`", text_of(DOCS / "toile.md")))
    assert named
    assert named <= {dial.name for dial in open_recipe("stays-five-panels").dials}


def only_names(words: list[str]) -> bool:
    """Whether a line only names a command, as a text does that speaks of it."""
    command: click.Command = program
    for word in words:
        if not isinstance(command, click.Group) or word not in command.commands:
            return False
        command = command.commands[word]
    return True


def test_pages_show_commands() -> None:
    """There are such lines at all, and each of the program's commands is shown once at least."""
    shown = {shlex.split(line)[1] for line in lines()}
    assert shown >= {"demo", "new", "draft", "recipes", "explain", "check", "block"}
