"""The program as a whole: help, exit codes, odd terminals, closed pipes, and faults of its own."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import click
import pytest
from tests.cli.conftest import Run

from fanblock.cli.main import main, program
from fanblock.version import __version__

HEAVY = ("numpy", "shapely", "scipy", "networkx", "pikepdf", "uharfbuzz", "resvg_py", "yaml")
PROGRAM = (sys.executable, "-m", "fanblock")


def commands() -> list[tuple[str, ...]]:
    """Return all commands, those of groups too."""
    found = []
    for name, command in program.commands.items():
        found.append((name,))
        if isinstance(command, click.Group):
            found += [(name, inner) for inner in command.commands]
    return found


@pytest.mark.parametrize("asked", ["--version", "--help", "draft --help", "new --help"])
def test_help_and_version_load_no_heavy_library(asked: str) -> None:
    """What only tells about the program does not load what draws."""
    code = (
        "import sys; from fanblock.cli.main import main; main(sys.argv[1:]); "
        f"print(sorted(set({HEAVY!r}) & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code, *asked.split()], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "[]"


def test_the_version_is_told(run: Run) -> None:
    """The version is the package's own."""
    ran = run("--version")
    assert (ran.code, ran.out) == (0, f"fanblock {__version__}\n")


@pytest.mark.parametrize("command", commands(), ids=" ".join)
def test_every_command_explains_itself_with_an_example(run: Run, command: tuple[str, ...]) -> None:
    """The help of each command that does something shows how it is typed."""
    ran = run(*command, "--help")
    assert ran.code == 0
    if command != ("new",):
        assert f"Example:\n    fanblock {' '.join(command)}" in ran.out


def test_no_command_at_all_shows_the_help_and_is_a_wrong_command_line(run: Run) -> None:
    """Typed alone, the program tells what it can do."""
    ran = run()
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("Usage: fanblock")


def test_a_wrong_command_line_ends_with_two_also_for_machines(run: Run) -> None:
    """An unknown option ends with 2; with --json the reason is a document."""
    assert run("draft", "--wrong").code == 2
    ran = run("recipes", "--json", "--wrong")
    assert (ran.code, ran.err) == (2, "")
    (problem,) = json.loads(ran.out)["problems"]
    assert problem["code"] == "usage"
    assert problem["remedy"] == "See `fanblock recipes --help`."


def test_a_fault_of_our_own_ends_with_three_and_a_report_to_paste(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    """The report holds versions and our own lines, but no measure, no name and no folder."""

    def break_down() -> None:
        raise RuntimeError("waist 739.8 of 'the pilot' in /home/pilot/secret/me.yaml")

    monkeypatch.setattr(program.commands["wearers"], "callback", break_down)
    ran = run("wearers")
    assert (ran.code, ran.out) == (3, "")
    assert f"fanblock {__version__}, Python " in ran.err
    assert "command: fanblock wearers\n" in ran.err
    assert "RuntimeError: waist # of '…' in me.yaml\n" in ran.err
    assert "fanblock/cli/main.py:" in ran.err
    assert not any(
        word in ran.err for word in ("739", "the pilot", "/pilot/", "secret", str(Path.home()), str(Path.cwd()))
    )


def test_a_fault_of_our_own_is_a_document_for_machines(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    """With --json the answer stays one document even then."""
    monkeypatch.setattr(program.commands["recipes"], "callback", lambda **_: 1 // 0)
    ran = run("recipes", "--json")
    assert ran.code == 3
    assert json.loads(ran.out)["problems"][0]["code"] == "bug"
    assert "ZeroDivisionError" in ran.err


def test_an_interrupted_draft_ends_with_130_and_leaves_nothing(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Stopped in the middle of writing, nothing stands in the folder."""
    real = Path.write_bytes

    def interrupted(path: Path, data: bytes) -> int:
        if path.name == "pattern.svg":
            raise KeyboardInterrupt
        return real(path, data)

    monkeypatch.setattr(Path, "write_bytes", interrupted)
    ran = run("draft", "ferrywoman", "stays-three-panels", "--out", "s", "--paper", "a0")
    assert (ran.code, ran.out, ran.err.strip()) == (130, "", "Stopped. Nothing was half written.")
    assert list(tmp_path.iterdir()) == []


def test_a_reader_that_goes_away_is_no_error() -> None:
    """When what reads the answer stops reading, the program ends quietly."""
    with subprocess.Popen([*PROGRAM, "recipes"], stdout=subprocess.PIPE, stderr=subprocess.PIPE) as running:
        assert running.stdout is not None
        running.stdout.close()
        assert running.stderr is not None
        said = running.stderr.read()
    assert (running.returncode, said) == (0, b"")


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="needs a device that is always full")
def test_an_answer_that_cannot_be_written_is_told_plainly() -> None:
    """A full disk behind the answer is a problem in words, not a fault of ours."""
    with open("/dev/full", "w", encoding="utf-8") as full:
        done = subprocess.run([*PROGRAM, "wearers"], stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert done.returncode == 1
    assert done.stderr == (
        "the answer cannot be written (no space left on device). Make room on the disk it goes to.\n"
    )


@pytest.mark.parametrize("encoding", ["ascii", "cp437", "latin-1"])
def test_an_odd_terminal_gets_plainer_signs(encoding: str) -> None:
    """A terminal without curved quotation marks gets straight ones; nothing breaks."""
    environment = {**os.environ, "PYTHONIOENCODING": encoding}
    order = [*PROGRAM, "draft", "nobody", "stays-three-panels", "--out", "s"]
    done = subprocess.run(order, capture_output=True, env=environment, check=False)
    assert done.returncode == 1
    assert done.stderr.decode(encoding).startswith('there is no demo wearer "nobody", and no file of that name.')


def test_signs_that_steer_a_terminal_are_not_passed_on(run: Run) -> None:
    """What was typed cannot recolour the screen or ring the bell."""
    ran = run("draft", "no\x1b[31mbody\x07", "stays-three-panels", "--out", "s")
    assert "\x1b" not in ran.err
    assert "\x07" not in ran.err


def test_main_answers_with_a_code_and_never_raises(capsys: pytest.CaptureFixture[str]) -> None:
    """Whatever is typed, the program's entry returns a number."""
    for typed in (["draft", ""], ["check", "\udcff"], ["explain", "a\0b"], ["block", "", "--out", ""]):
        assert main(typed) in (1, 2)
    capsys.readouterr()
