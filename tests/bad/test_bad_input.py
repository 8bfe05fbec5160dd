"""What people get wrong on the command line and in their files: the exit code and the whole of what is said.

The cases stand in ``cases.txt``: a name after ``#``, the command after ``$``, the exit code, and every line that must
come on standard error. Nothing may come on standard output, and no file may be written.
"""

from __future__ import annotations

import os
import shlex
import shutil
from dataclasses import dataclass
from pathlib import Path

import pytest

from fanblock.cli.main import main

HERE = Path(__file__).parent


@dataclass(frozen=True)
class Bad:
    """One case: its name, the arguments, the exit code and what is said."""

    name: str
    arguments: tuple[str, ...]
    code: int
    says: str


def cases() -> list[Bad]:
    """Return the cases of the table."""
    blocks = (HERE / "cases.txt").read_text("utf-8").strip("\n").split("\n\n")
    return [_case(block.split("\n")) for block in blocks if block.startswith("# ")]


def _case(lines: list[str]) -> Bad:
    name, command, code, *says = lines
    arguments = shlex.split(command.removeprefix("$ fanblock"))
    return Bad(name.removeprefix("# "), tuple(arguments), int(code), "".join(f"{line}\n" for line in says))


@pytest.mark.parametrize("bad", cases(), ids=lambda bad: bad.name)
def test_what_is_wrong_is_told_whole_and_nothing_is_written(
    bad: Bad, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Each case ends with its exit code and says exactly its lines."""
    shutil.copytree(HERE / "files", tmp_path / "work")
    monkeypatch.chdir(tmp_path / "work")
    before = sorted(os.listdir())
    code = main(bad.arguments)
    said = capsys.readouterr()
    assert said.err == bad.says
    assert (code, said.out) == (bad.code, "")
    assert sorted(os.listdir()) == before


def test_the_table_has_many_cases_and_no_name_twice() -> None:
    """At least twenty mistakes are covered."""
    names = [bad.name for bad in cases()]
    assert len(names) == len(set(names)) >= 20
