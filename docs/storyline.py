"""The ferrywoman's story, told by running it: the page's own commands, in their order, in a fresh folder.

What stands between the commands on the page is done here as the page tells it: her notes are typed into the file that the
program began for her, and the front of the top edge is moved on the drawing.
"""

from __future__ import annotations

import contextlib
import io
import os
import re
import shlex
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from tempfile import mkdtemp

import numpy as np

from fanblock.block.ruled import Block
from fanblock.cli.main import main
from fanblock.cli.screen import wrapped
from fanblock.garment.keeping import draft_folder
from fanblock.garment.library import draft_garment, open_garment
from fanblock.geometry.curve import Curve
from fanblock.pattern.model import Edge, Pattern
from fanblock.sheet.json import pattern_json
from fanblock.sheet.phrases import stamp
from fanblock.sheet.svg import write_svg
from fanblock.sheet.tapes import tape_sentence
from fanblock.sheet.views import Views

PAGE = Path(__file__).resolve().parent / "story.md"
LOWERED_MM, REACH = 12.0, 0.12
"""How much lower she draws the top edge in front, and how far round that runs out, as a share of the half round."""

_BOX = re.compile(r"^```(?P<kind>[a-z]+)\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL)

Hooks = Mapping[str, Callable[[Path], None]]
"""What somebody does by hand in the folder, by the beginning of the command that it comes before."""

Run = Callable[[str, Path], tuple[int, str]]
"""Runs a command line in a folder, and gives its exit code and what it said."""


def commands(page: str) -> tuple[str, ...]:
    """Return the program's command lines on a page, in their order, without the words behind them."""
    lines = [line for box in _BOX.finditer(page) if box["kind"] == "sh" for line in box["text"].splitlines()]
    return tuple(line.split("  #")[0].strip() for line in lines if line.startswith("fanblock "))


def run(line: str, folder: Path) -> tuple[int, str]:
    """Run one command line in a folder; return its exit code and everything it said."""
    home, said = Path.cwd(), io.StringIO()
    os.chdir(folder)
    try:
        with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
            code = main(shlex.split(line)[1:])
    except SystemExit as end:
        code = int(end.code or 0)
    finally:
        os.chdir(home)
    return code, said.getvalue()


def run_all(lines: tuple[str, ...], folder: Path, by_hand: Hooks, command: Run = run) -> Mapping[str, str]:
    """Run command lines in their order, doing by hand what belongs between; AssertionError for one that fails."""
    answers = {}
    for line in lines:
        for begins, do in by_hand.items():
            if line.startswith(begins):
                do(folder)
        code, answers[line] = command(line, folder)
        if code:
            raise AssertionError(f"{line}\n{answers[line]}")
    return answers


@cache
def told() -> tuple[Path, Mapping[str, str]]:
    """Run the whole story; return its folder and what each of its commands said.

    A draft leaves only its numbers and its drawing, and says what it always says first: nobody opens its pages here.
    """
    page, folder = PAGE.read_text(encoding="utf-8"), Path(mkdtemp(prefix="story-"))
    return folder, run_all(commands(page), folder, hooks(page), _lightly)


def _lightly(line: str, folder: Path) -> tuple[int, str]:
    words = shlex.split(line)[1:]
    if words[0] != "draft":
        return run(line, folder)
    made = _pattern(str(folder / words[1]))
    home = Path(draft_folder(str(folder / words[1]), made.title.draft))
    home.mkdir()
    _write(home / "pattern.json", pattern_json(made))
    _write(home / "pattern.svg", write_svg(Views(made).flat))
    return 0, head(made)


def head(made: Pattern) -> str:
    """Return the first lines that are said of a draft, which speak of the tape."""
    title = made.title
    first = f"{title.garment}, {title.period}, for {title.wearer} ({stamp(title)})"
    return f"{wrapped(first)}\n{wrapped(tape_sentence(made))}"


def hooks(page: str) -> Hooks:
    """Return what she does by hand."""
    notes = next(box["text"] for box in _BOX.finditer(page) if box["kind"] == "yaml" and box["text"].startswith("fit:"))
    return {
        "fanblock fit ": lambda folder: _write(folder / "stays-fitting-1.yaml", notes),
        "fanblock adopt ": lambda folder: _write(folder / "edited.svg", _edited(folder / "stays-2.yaml")),
        "fanblock draft stays-3.yaml": _with_new_recipe,
    }


def answer(line: str) -> str:
    """Return what a command of the story said; of a draft only its first lines."""
    return told()[1][f"fanblock {line}"].rstrip()


def pattern(name: str) -> Pattern:
    """Return the draft that one of the story's garment files is at."""
    return _pattern(str(told()[0] / name))


@cache
def _pattern(path: str) -> Pattern:
    return draft_garment(open_garment(path))


def edited_pattern() -> Pattern:
    """Return her second draft as she moved its lines on the drawing."""
    return _moved(pattern("stays-2.yaml"))


def _write(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8")


def _edited(garment: Path) -> str:
    return write_svg(Views(_moved(draft_garment(open_garment(str(garment))))).flat)


def _moved(pattern: Pattern) -> Pattern:
    panels = (
        replace(panel, edges=tuple(_lowered(edge, pattern.block) for edge in panel.edges)) for panel in pattern.panels
    )
    return replace(pattern, panels=tuple(panels))


def _lowered(edge: Edge, block: Block) -> Edge:
    if edge.kind != "top":
        return edge
    around, height = block.where(edge.curve.points)
    down = LOWERED_MM * np.exp(-((around / REACH) ** 2)) / block.ruling_length_mm(around)
    return replace(edge, curve=Curve.through(block.at(around, height - down)))


def _with_new_recipe(folder: Path) -> None:
    """A copy of the second garment file with two words changed."""
    text = (folder / "stays-2.yaml").read_text(encoding="utf-8")
    _write(
        folder / "stays-3.yaml",
        text.replace('"stays-five-panels"', '"low-stays.yaml"').replace("draft: 2\n", "draft: 3\n", 1),
    )
