"""The command adopt: it tells what was moved, and writes a recipe only where one was asked for and there is something in it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.adopting.editing import STAYS, folder_of, pattern_of, redrawn, seam_moved
from tests.cli.conftest import Run

SAID = """Moved:
  line       where          moved               left over
"""


@pytest.fixture(scope="module")
def edited(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a drawing on which the side seam was moved 5 mm back at the waist."""
    path = tmp_path_factory.mktemp("edited") / "my.svg"
    path.write_bytes(redrawn(STAYS, "ferrywoman", seam_moved(pattern_of(STAYS, "ferrywoman").block, "side seam", 5.0)))
    return path


def test_without_a_file_to_write_it_only_tells(run: Run, edited: Path, tmp_path: Path) -> None:
    """The table comes, the program says how to go on, and the folder stays empty."""
    ran = run("adopt", edited, "--from", folder_of(STAYS, "ferrywoman"))
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith(SAID)
    assert "  side seam  at the waist   5.0 mm to the back  0.0 mm\n" in ran.out
    assert "Nothing was written." in ran.out
    assert list(tmp_path.iterdir()) == []


def test_the_recipe_it_writes_is_well_written_and_is_not_written_over(run: Run, edited: Path, tmp_path: Path) -> None:
    """It checks, tells the table in comments, carries the name given, and a second run leaves it alone."""
    command = ("adopt", edited, "--from", folder_of(STAYS, "ferrywoman"), "--out", "mine.yaml", "--name", "Mine")
    assert run(*command).code == 0
    text = (tmp_path / "mine.yaml").read_text("utf-8")
    assert "#   side seam  at the waist   5.0 mm to the back  0.0 mm\n" in text
    assert "name: Mine\nbased on: stays-five-panels\nchanges:\n  - in: side seam\n" in text
    assert run("check", "mine.yaml").code == 0
    assert run(*command).code == 1
    assert (tmp_path / "mine.yaml").read_text("utf-8") == text


def test_a_drawing_that_was_not_touched_makes_no_recipe(run: Run, tmp_path: Path) -> None:
    """There is nothing to put into one, and that is no fault."""
    folder = folder_of(STAYS, "ferrywoman")
    ran = run("adopt", folder / "pattern.svg", "--from", folder, "--out", "mine.yaml")
    assert (ran.code, ran.out) == (
        0,
        "Nothing that can be adopted was moved by more than 0.05 mm or drawn new.\n"
        "No recipe is written: there is nothing to put into one.\n",
    )
    assert not (tmp_path / "mine.yaml").exists()


def test_other_programs_get_one_document(run: Run, edited: Path) -> None:
    """Every row with its numbers, the notes and the text of the recipe."""
    ran = run("adopt", edited, "--from", folder_of(STAYS, "ferrywoman"), "--json")
    document = json.loads(ran.out)
    row = next(row for row in document["moved"] if row["at"] == "at the waist")
    assert row["mm"] == pytest.approx(5.0, abs=0.1)
    assert document["recipe"].startswith("# Lines moved on the drawing of draft 1")
    assert document["written"] is None


def test_a_draft_by_a_recipe_of_ones_own_is_based_on_that(run: Run, edited: Path, tmp_path: Path) -> None:
    """The recipe is found beside the new one, and named from there; one that is not there is asked for."""
    folder = tmp_path / "draft"
    folder.mkdir()
    text = (folder_of(STAYS, "ferrywoman") / "pattern.json").read_text("utf-8")
    (folder / "pattern.json").write_text(text.replace('"stays-five-panels"', '"own"'), "utf-8")
    missing = run("adopt", edited, "--from", "draft", "--out", "mine.yaml")
    assert missing.code == 1
    assert missing.err == (
        "the draft was made by a recipe of your own, “own”, and it does not lie beside it. Say where it is, like --recipe "
        "own.yaml.\n"
    )
    own = "recipe: 1\nname: Own\nbased on: stays-five-panels\ndials: {gap: {default: 51 mm}}\n"
    (tmp_path / "own.yaml").write_text(own, "utf-8")
    assert run("adopt", edited, "--from", "draft", "--out", "mine.yaml").code == 0
    assert "based on: own.yaml\n" in (tmp_path / "mine.yaml").read_text("utf-8")
