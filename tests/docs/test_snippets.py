"""What the pages show of recipes and wearers really reads."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from tests.docs.pages import Box, boxes

from fanblock.fitting.notes import read_notes
from fanblock.garment.reading import read_garment
from fanblock.make import draft_pattern
from fanblock.problems import RecipeError
from fanblock.recipe.blockreading import DrawingWords, block_kind
from fanblock.recipe.decode import decode, decode_fields
from fanblock.recipe.dialreading import DialEntry
from fanblock.recipe.findings import Findings
from fanblock.recipe.library import shipped_recipes
from fanblock.recipe.notes import read_sources
from fanblock.recipe.phrase import Vocabulary
from fanblock.recipe.reading import MEASURE_NAMES, read_recipe
from fanblock.recipe.stepreading import read_steps
from fanblock.steps.table import BY_NAME
from fanblock.wearer.library import open_wearer
from fanblock.wearer.reading import read_wearer
from fanblock.yamlfile import Listing, Node, Table, read_yaml

WEARER = "wearer: 1\nname: somebody\nunits: cm\nmeasures: {bust: 92, waist: 73, bust to waist: 16}\n"


def names(box: Box) -> str:
    """A name for a box: its page and its first line."""
    return f"{box.where} {box.text.splitlines()[0]}"


def kind_of(box: Box) -> str:
    """What a box holds, by its first line."""
    first = box.text.lstrip()
    if first.startswith("- "):
        return "steps"
    return first.split(":", 1)[0]


def node_of(text: str) -> Node:
    """A box as it was typed, read to nodes."""
    return (
        read_yaml(f"it:\n{''.join(f'  {line}' + chr(10) for line in text.splitlines())}", "box", RecipeError)
        .entries[0]
        .value
    )


def some(*kinds: str) -> list[Box]:
    """The boxes of these kinds."""
    return [box for box in boxes("yaml") if kind_of(box) in kinds]


def test_every_box_is_of_a_kind_that_is_read_here() -> None:
    """No snippet slips through unread."""
    kinds = {"steps", "recipe", "wearer", "dials", "figure", "sources", "block", "garment", "fit"}
    assert {kind_of(box) for box in boxes("yaml")} <= kinds


@pytest.mark.parametrize("box", some("recipe"), ids=names)
def test_whole_recipes_read_and_draw_soundly(box: Box) -> None:
    """A whole recipe in a page reads without problems and makes a sound pattern for the demo wearer."""
    assert draft_pattern(open_wearer("ferrywoman"), read_recipe(box.text, "page.yaml")).sound


@pytest.mark.parametrize("box", some("wearer"), ids=names)
def test_whole_wearers_read(box: Box) -> None:
    """A whole wearer in a page reads without problems."""
    read_wearer(box.text, "page.yaml")


@pytest.mark.parametrize("box", some("garment"), ids=names)
def test_whole_garments_read(box: Box) -> None:
    """A whole garment in a page reads without problems."""
    read_garment(box.text, "page.yaml")


@pytest.mark.parametrize("box", some("fit"), ids=names)
def test_whole_notes_read(box: Box) -> None:
    """The notes of a fitting in a page read without problems."""
    read_notes(box.text, "page.yaml")


@pytest.mark.parametrize("box", some("figure"), ids=names)
def test_parts_of_wearers_read(box: Box) -> None:
    """A part of a wearer reads below the measures."""
    assert read_wearer(WEARER + box.text, "page.yaml").figure


@pytest.mark.parametrize("box", some("steps"), ids=names)
def test_steps_decode(box: Box) -> None:
    """Every step in a page decodes; it may speak of the dials of any shipped recipe."""
    dials = tuple(sorted({dial.name for recipe in shipped_recipes() for dial in recipe.dials}))
    findings = Findings(Vocabulary(dials=dials, measures=MEASURE_NAMES))
    node = node_of(box.text)
    steps = read_steps(node, BY_NAME, findings)
    assert [str(problem) for problem in findings.problems] == []
    assert isinstance(node, Listing)
    assert len(steps) == len(node)


@pytest.mark.parametrize("box", some("block"), ids=names)
def test_blocks_name_a_drawing(box: Box) -> None:
    """What a recipe says of a block that somebody has decodes as that."""
    findings = Findings(Vocabulary())
    node = read_yaml(box.text, "box", RecipeError).get("block")
    assert isinstance(node, Table)
    assert block_kind(node) is DrawingWords
    assert decode_fields(node, DrawingWords, "block", findings).from_.endswith(".svg")


@pytest.mark.parametrize("box", some("dials", "sources"), ids=names)
def test_parts_of_recipes_decode(box: Box) -> None:
    """Dials and sources shown by themselves decode."""
    findings = Findings(Vocabulary(measures=MEASURE_NAMES))
    table = read_yaml(box.text, "box", RecipeError)
    for entry in table:
        if entry.name == "dials":
            assert decode(entry.value, Mapping[str, DialEntry], "dials", findings)
        else:
            assert isinstance(entry.value, Listing)
            assert read_sources(tuple(entry.value), findings)
    assert [str(problem) for problem in findings.problems] == []
