"""Recipes with faults in them: the whole of what is said about each."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from fanblock.problems import RecipeError
from fanblock.recipe.reading import read_recipe

TABLE = Path(__file__).parent / "samples" / "bad-recipes.txt"


@dataclass(frozen=True)
class Bad:
    """One row of the table: changes to the sample recipe, and the lines that must come back."""

    name: str
    changes: tuple[tuple[str, str], ...]
    says: str


def rows() -> list[Bad]:
    """Return the rows of the table of bad recipes."""
    return [_row(block) for block in TABLE.read_text(encoding="utf-8").split("\n\n") if block.startswith("#")]


def _row(block: str) -> Bad:
    lines = block.strip("\n").split("\n")
    out = [_unescaped(line) for line in lines if line.startswith("<")]
    put = [_unescaped(line) for line in lines if line.startswith(">")]
    says = [line for line in lines if line[0] not in "#<>"]
    return Bad(lines[0][2:], tuple(zip(out, put, strict=True)), "\n".join(says))


def _unescaped(line: str) -> str:
    return line[2:].replace("\\n", "\n")


@pytest.mark.parametrize("bad", rows(), ids=lambda bad: bad.name)
def test_a_bad_recipe_is_refused_with_every_problem_in_its_place(bad: Bad, trial_text: str) -> None:
    """Each fault is told with its place, where it stands in the work, what is wrong and what to do."""
    text = trial_text
    for out, put in bad.changes:
        assert out in text
        text = text.replace(out, put, 1)
    with pytest.raises(RecipeError) as caught:
        read_recipe(text, "r.yaml")
    assert str(caught.value) == bad.says


def test_the_table_has_many_rows_and_no_name_twice() -> None:
    """The table of bad recipes covers at least 80 faults."""
    names = [bad.name for bad in rows()]
    assert len(names) == len(set(names)) >= 80


STARS = "recipe: 1\na: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n"

FILES = {
    "an empty file": ("", "r.yaml:1:1: the file is empty."),
    "a comment only": ("# nothing\n", "r.yaml:1:1: the file is empty."),
    "a list": ("- recipe\n- 1\n", "r.yaml:1:1: the file holds a list. Begin lines with a name and a colon."),
    "a text": ("recipe\n", "r.yaml:1:1: the file holds a text. Begin lines with a name and a colon."),
    "a bracket left open": (
        "recipe: 1\nneeds: [bust, waist\nname: x\n",
        "r.yaml:3:5: a bracket is not closed or a comma is missing. "
        "Look at the brackets in this line and the one above.",
    ),
    "a tab": (
        "recipe: 1\ndials:\n\tgap: 1\n",
        "r.yaml:3:1: a tab stands where spaces should. Indent with spaces.",
    ),
    "a tag": (
        "recipe: !!python/name:os.system 1\n",
        "r.yaml:1:9: “tag:yaml.org,2002:python/name:os.system” is a tag. "
        "Leave it out, or use quotation marks if you meant an exclamation mark.",
    ),
    "two documents": (
        "recipe: 1\n---\nrecipe: 1\n",
        "r.yaml:2:1: a second document begins here. Keep one in a file, without ---.",
    ),
    "a list of steps that is empty": (
        "recipe: 1\nname: x\nmakes: stays\nsteps: []\n",
        "r.yaml:4:8: steps › got an empty list, needs a list of steps, each behind a dash. Begin with `- top edge: …`.",
    ),
    "steps that are a text": (
        "recipe: 1\nname: x\nmakes: stays\nsteps: all\n",
        "r.yaml:4:8: steps › got “all”, needs a list of steps, each behind a dash. Begin with `- top edge: …`.",
    ),
}


@pytest.mark.parametrize("name", FILES)
def test_a_file_that_is_no_recipe_is_refused_in_words(name: str) -> None:
    """What is not YAML, not a table or not plain data is refused before anything else is looked at."""
    text, says = FILES[name]
    with pytest.raises(RecipeError) as caught:
        read_recipe(text, "r.yaml")
    assert str(caught.value) == says


def test_repeated_references_are_refused_and_never_followed() -> None:
    """Values that refer to one another could grow without end; each of them is refused."""
    with pytest.raises(RecipeError) as caught:
        read_recipe(STARS, "r.yaml")
    assert [str(problem.place) for problem in caught.value.problems] == [
        "r.yaml:2:4",
        "r.yaml:3:4",
        "r.yaml:3:8",
        "r.yaml:3:12",
        "r.yaml:4:5",
        "r.yaml:4:9",
    ]


def test_deep_nesting_is_refused() -> None:
    """A file nested deeper than anybody writes is refused, not followed to its end."""
    with pytest.raises(RecipeError, match="nested more than 50 deep"):
        read_recipe("recipe: 1\nsteps: " + "[" * 60 + "]" * 60, "r.yaml")
    with pytest.raises(RecipeError):
        read_recipe("recipe: 1\nsteps: " + "[" * 5000 + "]" * 5000, "r.yaml")


def test_the_format_number_is_read_before_anything_else() -> None:
    """A recipe of a later format is refused for that alone, whatever else it holds."""
    with pytest.raises(RecipeError) as caught:
        read_recipe("recipe: 7\nnovelty: {}\n", "r.yaml")
    assert str(caught.value) == (
        "r.yaml:1:9: recipe › got “7” as the format number. "
        "This version reads format 1; a newer version may read this file."
    )
