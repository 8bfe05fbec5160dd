"""The pages tell one story: their commands, copied in order into a fresh folder, do what the next of them needs."""

from __future__ import annotations

import importlib
import io
import shlex
import sys
from pathlib import Path
from types import ModuleType

import pytest
from tests.docs.pages import DOCS, ROOT, make, text_of

from fanblock.shipped import wearer_text

NOTES = "fit: 1\ndraft: 1\nunits: in\ngap: {top: 2, waist: 2 1/2}\nnotes:\n  - digs under the arm in front\n"
QUICKLY = ("--no-pictures", "--paper", "a4")
"""What a draft is drawn with here: pictures and other papers have tests of their own."""


def storyline() -> ModuleType:
    """Return what runs the commands of a page."""
    make()  # puts its folder on the path
    return importlib.import_module("storyline")


def fill_in(folder: Path) -> None:
    """Measures are typed into the file that was begun, as the page says."""
    (folder / "me.yaml").write_text(wearer_text("ferrywoman"), encoding="utf-8")


def begin(folder: Path) -> None:
    """What is there before a fitting: a wearer, a garment, a draft."""
    fill_in(folder)
    (folder / "my-stays.yaml").write_text("garment: 1\nwearer: me.yaml\nrecipe: stays-three-panels\n", encoding="utf-8")
    quickly("fanblock draft my-stays.yaml", folder)


def note(folder: Path) -> None:
    """The notes are typed into the file that was begun for them; it must be there."""
    path = folder / "my-stays-fitting-1.yaml"
    assert path.is_file()
    path.write_text(NOTES, encoding="utf-8")


def move_a_line(folder: Path) -> None:
    """The front of the top edge is lowered on the draft that the page names."""
    assert (folder / "my-stays-draft-2" / "pattern.svg").is_file()
    moved = storyline()._edited(folder / "my-stays-2.yaml")
    (folder / "edited.svg").write_text(moved, encoding="utf-8")


def quickly(line: str, folder: Path) -> tuple[int, str]:
    """Run one command line; whoever is asked something presses Enter."""
    words = shlex.split(line)
    if words[1] == "demo":  # has its own test
        return 0, ""
    if words[1] == "draft" and words[3:] in ([], ["--toile"]):
        return storyline()._lightly(line, folder)  # type: ignore[no-any-return]
    if words[1] == "draft":
        words += [QUICKLY[0]] if "--roll" in words else QUICKLY
    before, sys.stdin = sys.stdin, io.StringIO("\n" * 200)
    try:
        return storyline().run(shlex.join(words), folder)  # type: ignore[no-any-return]
    finally:
        sys.stdin = before


HANDS = {
    "fanblock check me.yaml": fill_in,
    "fanblock draft me.yaml": fill_in,
    "fanblock fit my-stays.yaml": note,
    "fanblock adopt ": move_a_line,
}


@pytest.mark.parametrize("page", [ROOT / "README.md", DOCS / "start-here.md"], ids=lambda page: page.name)
def test_a_page_from_its_first_command_to_its_last(page: Path, tmp_path: Path) -> None:
    """Every command ends well, and the files are there that the next one and the words between speak of."""
    lines = [line for line in storyline().commands(text_of(page)) if "--version" not in line]
    answers = storyline().run_all(tuple(lines), tmp_path, HANDS, quickly)
    there = {path.name for path in tmp_path.iterdir()}
    assert there >= {"me-2.yaml", "my-stays-2.yaml", "my-stays-fitting-1.yaml", "my-stays-fitting-1-a4.pdf"}
    assert there >= {"my-stays-draft-1", "my-stays-draft-2"}
    assert "my-notes.yaml" not in text_of(page)
    assert all("fault of its own" not in said for said in answers.values())


def test_the_page_about_the_fitting(tmp_path: Path) -> None:
    """Its commands follow one another too, from a garment at its first draft to the questions about its second."""
    begin(tmp_path)
    lines = storyline().commands(text_of(DOCS / "fitting.md"))
    storyline().run_all(lines, tmp_path, HANDS, quickly)
    assert (tmp_path / "my-stays-3.yaml").is_file()
    assert (tmp_path / "what-moved" / "compared.png").is_file()


def test_the_story_says_what_the_commands_say(tmp_path: Path) -> None:
    """Its drafts are drawn lightly when the page is made; what they say first is what the command says first."""
    begin(tmp_path)
    (tmp_path / "g.yaml").write_text("garment: 1\nwearer: me.yaml\nrecipe: stays-three-panels\n", encoding="utf-8")
    code, said = storyline().run("fanblock draft g.yaml --no-pictures --paper a4", tmp_path)
    assert code == 0
    light = storyline()._lightly("fanblock draft my-stays.yaml", _other(tmp_path))[1]
    assert said.split("\n\n")[0].split() == light.split()


def _other(folder: Path) -> Path:
    home = folder / "other"
    home.mkdir()
    for name in ("me.yaml", "my-stays.yaml"):
        (home / name).write_text((folder / name).read_text(encoding="utf-8"), encoding="utf-8")
    return home


def test_the_story_tells_the_notes_in_full_and_the_right_lines() -> None:
    """The lines of her garment file that she changes are those that the program wrote there."""
    folder, answers = storyline().told()
    third = (folder / "stays-3.yaml").read_text(encoding="utf-8")
    assert 'recipe: "low-stays.yaml"' in third
    assert "draft: 3\n" in third
    assert third.count("raised:") == 1
    lowered = answers["fanblock compare stays-2.yaml stays-3.yaml"]
    assert "centre front, centre front     11 1/2 in         11 in  -15/32 in" in lowered
    second = (folder / "ferrywoman-2.yaml").read_text(encoding="utf-8")
    assert "      waist: 29.67 in" in second
    assert wearer_text("ferrywoman").splitlines()[0] in second.splitlines()
