"""The first page keeps what it promises: its commands are the real ones, its links lead somewhere."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import click
import pytest

from fanblock.cli.main import program

CHECKOUT = Path(__file__).resolve().parents[1]
README = (CHECKOUT / "README.md").read_text("utf-8")
PAGES = ("README.md", "DEVELOPERS.md")
FRESH = "python3 -m venv .venv && "


def boxes(language: str) -> list[str]:
    """Return the lines of all boxes of one language."""
    found = re.findall(rf"```{language}\n(.*?)```", README, re.DOTALL)
    return [line for box in found for line in box.splitlines() if line.strip()]


def test_there_are_exactly_two_commands_for_a_fresh_machine() -> None:
    """One does the main job and one runs the gate; both begin with nothing but Python."""
    fresh = [line for line in README.splitlines() if line.startswith(FRESH)]
    assert len(fresh) == 2
    assert fresh[0].endswith(".venv/bin/fanblock demo")
    assert fresh[1].endswith(".venv/bin/python .ci/gate")


def test_what_runs_elsewhere_is_the_command_told_here() -> None:
    """``.ci/run`` ends with the README's test command, in full."""
    last = (CHECKOUT / ".ci" / "run").read_text("utf-8").rstrip().splitlines()[-1]
    assert last == [line for line in README.splitlines() if line.startswith(FRESH)][1]


@pytest.mark.parametrize("line", [line for line in boxes("sh") if line.startswith("fanblock ")])
def test_every_command_shown_can_be_typed(line: str) -> None:
    """Commands, arguments and options shown are those there are."""
    words = shlex.split(line, comments=True)[1:]
    command: click.Command = program
    while isinstance(command, click.Group):
        command = command.commands[words.pop(0)]
    command.make_context("fanblock", words)


@pytest.mark.parametrize("page", PAGES)
def test_every_link_leads_to_a_file(page: str) -> None:
    """No link of the first pages is dead."""
    text = (CHECKOUT / page).read_text("utf-8")
    links = re.findall(r"\]\(([^)#]+)", text)
    assert links
    assert [link for link in links if "://" not in link and not (CHECKOUT / link).exists()] == []


def test_the_python_shown_runs() -> None:
    """The lines for a notebook do what they say."""
    shown: dict[str, object] = {}
    exec("\n".join(boxes("python")), shown)
    assert repr(shown["pattern"]).startswith("<Half-boned stays, five panels a side for ferrywoman")
