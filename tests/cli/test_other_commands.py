"""The commands around drafting: demo, new, recipes, explain, check, wearers, block."""

from __future__ import annotations

import json
from pathlib import Path

import pypdfium2
import pytest
from tests.cli.conftest import Run

from fanblock.cli.recipes import covers
from fanblock.recipe.library import open_recipe
from fanblock.recipe.reading import read_recipe
from fanblock.shipped import recipe_ids, wearer_names


def test_the_demo_is_sound_and_says_what_to_open_and_what_next(run: Run, tmp_path: Path) -> None:
    """The first command a stranger types works, tells which file to open, and how to go on."""
    ran = run("demo")
    assert ran.code == 0
    assert "Open first: " in ran.out
    assert "fanblock draft me.yaml stays-five-panels" in " ".join(ran.out.split())
    assert (tmp_path / "fanblock-demo" / "report.html").is_file()


def test_a_new_wearer_needs_three_measures_and_then_drafts(run: Run, tmp_path: Path) -> None:
    """The file begun for a wearer asks for three measures; filled in, it drafts as the messages say."""
    assert run("new", "wearer", "me.yaml", "--units", "in").code == 0
    blank = run("draft", "me.yaml", "stays-three-panels", "--out", "s")
    assert [line.split(" › ")[1] for line in blank.err.splitlines()] == ["bust", "waist", "bust to waist"]
    text = (tmp_path / "me.yaml").read_text("utf-8")
    for name, inches in (("bust", "36 1/4"), ("waist", "29"), ("bust to waist", "6 1/2")):
        text = text.replace(f"\n  {name}:\n", f"\n  {name}: {inches}\n")
    (tmp_path / "me.yaml").write_text(text, encoding="utf-8")
    drawn = run("draft", "me.yaml", "stays-three-panels", "--out", "s", "--paper", "a0")
    assert drawn.code == 0
    assert "GUESSED" in drawn.out
    assert ", for me (" in drawn.out


def test_a_new_recipe_checks_and_carries_the_name_given(run: Run, tmp_path: Path) -> None:
    """The recipe begun for an author is well written from the start."""
    run("new", "recipe", "r.yaml", "--name", 'The pilot\'s "first": stays')
    assert run("check", "r.yaml").out == 'OK  r.yaml: The pilot\'s "first": stays, 10 steps, 3 dials\n'
    assert (tmp_path / "r.yaml").read_bytes().count(b"\r") == 0


def test_the_form_is_two_files_of_pages_of_the_right_size(run: Run, tmp_path: Path) -> None:
    """The form is made for ISO 216 A4 and for ANSI Letter, read back in points."""
    assert run("new", "form").code == 0
    for name, size in (("measures-a4.pdf", (595.28, 841.89)), ("measures-letter.pdf", (612.0, 792.0))):
        with pypdfium2.PdfDocument(tmp_path / name) as document:
            assert document.get_page_size(0) == pytest.approx(size, abs=0.02)


@pytest.mark.parametrize("command", [("wearer", "x.yaml"), ("recipe", "x.yaml")])
def test_what_is_there_is_never_overwritten(run: Run, tmp_path: Path, command: tuple[str, str]) -> None:
    """A file of that name stays as it was, and the exit code is 1."""
    (tmp_path / "x.yaml").write_text("mine")
    ran = run("new", *command)
    says = "“x.yaml” is already there, and was left as it is. Name another, or move it away first.\n"
    assert (ran.code, ran.out, ran.err) == (1, "", says)
    assert (tmp_path / "x.yaml").read_text() == "mine"


def test_one_form_in_the_way_keeps_both_from_being_written(run: Run, tmp_path: Path) -> None:
    """Of the two forms either both are written or none."""
    (tmp_path / "measures-letter.pdf").write_bytes(b"mine")
    assert run("new", "form").code == 1
    assert [path.name for path in tmp_path.iterdir()] == ["measures-letter.pdf"]


def test_recipes_as_json_name_what_a_program_needs(run: Run) -> None:
    """Each shipped recipe is listed with id, name, makes, period, needs and dials."""
    listed = json.loads(run("recipes", "--json").out)["recipes"]
    assert [one["id"] for one in listed] == list(recipe_ids())
    assert all({"id", "name", "makes", "period", "needs", "dials"} <= one.keys() for one in listed)
    gap = next(dial for one in listed for dial in one["dials"] if dial["name"] == "gap")
    assert gap.keys() == {"name", "default", "least", "most", "for"}


def test_recipes_are_chosen_by_kind_and_by_year(run: Run) -> None:
    """Only what makes the kind and was worn in the year is listed; nothing found says how to see all."""
    every = json.loads(run("recipes", "--json", "--makes", "Stays", "--period", "1775").out)["recipes"]
    assert every
    assert all(one["makes"] == "stays" and covers(one["period"], 1775) for one in every)
    none = run("recipes", "--period", "1066")
    assert (none.code, none.out) == (0, "No recipe is of that kind and time. `fanblock recipes` lists them all.\n")


@pytest.mark.parametrize("recipe_id", recipe_ids())
def test_what_explain_prints_is_the_same_recipe_again(run: Run, recipe_id: str) -> None:
    """Read back, the explanation has the steps of the recipe with its dials in their place."""
    ran = run("explain", recipe_id)
    again = read_recipe(ran.out, "again.yaml")
    assert len(again.steps) == len(open_recipe(recipe_id).steps)
    assert run("explain", recipe_id, "--set", "gap=1cm").out != ran.out


def test_check_tells_all_problems_of_all_files(run: Run, tmp_path: Path) -> None:
    """Good files get a line, bad ones all their problems, and one bad file makes the exit code 1."""
    run("new", "recipe", "good.yaml")
    text = (tmp_path / "good.yaml").read_text("utf-8")
    (tmp_path / "bad.yaml").write_text(text.replace("makes: stays ", "makes: stais "), encoding="utf-8")
    ran = run("check", "bad.yaml", "gone.yaml", "good.yaml", "pilot")
    assert ran.code == 1
    assert ran.out == (
        "OK  good.yaml: good, 10 steps, 3 dials\nOK  pilot: the wearer pilot, 15 measures over the shift\n"
    )
    assert ran.err == (
        "bad.yaml:6:8: makes › got “stais”, which is not one of the words known here. Did you mean “stays”?\n"
        "there is no recipe file “gone.yaml”. Look at its name and folder.\n"
    )
    told = json.loads(run("check", "bad.yaml", "good.yaml", "--json").out)["checked"]
    assert [(one["file"], one["ok"]) for one in told] == [("bad.yaml", False), ("good.yaml", True)]
    assert (told[0]["problems"][0]["line"], told[0]["problems"][0]["column"]) == (6, 8)


def test_every_demo_wearer_is_listed_with_its_three_measures(run: Run) -> None:
    """The list of wearers shows who there is to try on."""
    said = run("wearers").out
    assert all(f"\n{name}\n" in f"\n{said}" for name in wearer_names())
    assert "bust 36 1/4 in, waist 29 1/8 in, bust to waist 6 1/4 in" in said


def test_a_block_comes_with_its_numbers_and_its_guide(run: Run, tmp_path: Path) -> None:
    """Half waist and half bust are half the tape; the sheet and the guide are written."""
    ran = run("block", "innkeeper", "--out", "b", "--paper", "a4")
    assert ran.code == 0
    assert "half waist                  49.0 cm\n" in ran.out
    assert "half bust                   59.0 cm\n" in ran.out
    assert {path.name for path in (tmp_path / "b").iterdir()} == {
        "block-a4.pdf", "block.png", "block.svg", "guide-a4.pdf", "guide.html",
    }  # fmt: skip
