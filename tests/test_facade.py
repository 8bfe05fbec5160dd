"""The names a notebook uses: they are listed, they cost nothing to import, and they do the walk."""

from __future__ import annotations

import base64
import pickle
import re
import subprocess
import sys
import tomllib
from pathlib import Path
from xml.etree import ElementTree

import pytest

import fanblock
from fanblock import FanblockError, RecipeError, WearerError
from fanblock.drafted import Drafted

CHECKOUT = Path(__file__).resolve().parents[1]
ROOMS = {path.stem for path in Path(fanblock.__file__).parent.iterdir() if path.stem != "__pycache__"}


@pytest.fixture(scope="module")
def pattern() -> Drafted:
    """Return a pattern drafted the way the module's own text shows."""
    wearer = fanblock.open_wearer("ferrywoman")
    recipe = fanblock.open_recipe("stays-three-panels")
    return fanblock.draft_pattern(wearer, recipe, {"gap": "4 cm"})


def test_every_name_listed_is_there_and_hides_no_room() -> None:
    """A function named like a module would be lost as soon as that module is imported."""
    assert fanblock.__all__ == sorted(fanblock.__all__)
    assert all(hasattr(fanblock, name) for name in fanblock.__all__)
    assert not ROOMS & set(fanblock.__all__)


def test_importing_does_no_work() -> None:
    """The package imports none of the libraries that draw, nor reads a file."""
    code = "import sys, fanblock; print(sorted(name for name in sys.modules if name.startswith('fanblock')))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "['fanblock', 'fanblock.problems', 'fanblock.version']"


def test_the_version_is_the_one_of_the_project_file() -> None:
    """One number, in two places that must agree."""
    project = tomllib.loads((CHECKOUT / "pyproject.toml").read_text("utf-8"))["project"]
    assert fanblock.__version__ == project["version"]


def test_a_pattern_shows_itself_as_a_picture(pattern: Drafted) -> None:
    """In a notebook the pattern is an SVG picture, well formed, in a page that runs nothing."""
    shown = pattern._repr_html_()
    found = re.search(r'src="data:image/svg\+xml;base64,([^"]+)"', shown)
    assert found is not None
    root = ElementTree.fromstring(base64.b64decode(found[1]))
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    assert "<script" not in shown
    assert "Whether it fits only a toile tells." in shown


def test_a_pattern_prints_as_one_line(pattern: Drafted) -> None:
    """What a console shows is a line of words and not a page of numbers."""
    assert re.fullmatch(
        r"<Half-boned stays, three panels a side for ferrywoman, draft 1 · code \w{4}: 3 panels a half, SOUND>",
        repr(pattern),
    )


def test_a_pattern_saves_its_files(pattern: Drafted, tmp_path: Path) -> None:
    """``save`` writes the whole set on the papers named."""
    written = pattern.save(tmp_path / "s", ["a4", "roll 914"])
    assert {path.name for path in written} == {
        "guide.html", "pattern-a4.pdf", "pattern-roll-914-mm.pdf", "pattern.dxf", "pattern.json", "pattern.svg",
        "report.html", "sheet.png",
    }  # fmt: skip
    assert {path.name for path in (tmp_path / "s").iterdir()} == {path.name for path in written}


def test_files_can_be_read_from_text_and_opened_from_a_path(tmp_path: Path) -> None:
    """A wearer's text read here or opened from a file is the same wearer."""
    text = "wearer: 1\nname: pilot\nunits: cm\nmeasures: {bust: 74, waist: 59, bust to waist: 14}\n"
    (tmp_path / "pilot.yaml").write_text(text, encoding="utf-8")
    assert fanblock.read_wearer(text) == fanblock.open_wearer(tmp_path / "pilot.yaml")
    recipe = fanblock.open_recipe("stays-three-panels")
    assert fanblock.read_recipe(fanblock.explained(recipe)).name == recipe.name


def test_a_block_is_made_from_a_body() -> None:
    """Half the waist of the block is half the tape."""
    block = fanblock.block_of(fanblock.body_of(fanblock.open_wearer("innkeeper")))
    assert block.half_waist_mm == pytest.approx(490.0)


def test_problems_are_data_and_survive_pickling() -> None:
    """An error carries its problems, each with its place, wherever it is sent."""
    with pytest.raises(WearerError) as caught:
        fanblock.read_wearer("wearer: 1\nname: x\n", "x.yaml")
    again = pickle.loads(pickle.dumps(caught.value))
    assert isinstance(again, FanblockError)
    assert again.problems == caught.value.problems
    with pytest.raises(RecipeError):
        fanblock.open_recipe("no-such-recipe")


def test_the_names_there_are_can_be_asked_for() -> None:
    """Demo wearers and shipped recipes are listed by name."""
    assert "ferrywoman" in fanblock.wearer_names()
    assert "stays-five-panels" in fanblock.recipe_ids()
