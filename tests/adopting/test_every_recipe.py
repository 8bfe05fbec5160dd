"""Untouched is untouched, for every recipe that comes with the program: no edge, no mark and no piece was moved."""

from __future__ import annotations

import pytest
from tests.adopting.editing import folder_of, svg_of
from tests.samples import RECIPES

from fanblock import open_recipe
from fanblock.adopting.kept import open_kept
from fanblock.adopting.moved import compared
from fanblock.adopting.strokes import found_strokes
from fanblock.draft.band import BandSpec

WEARER = "ferrywoman"
GARMENTS = [recipe for recipe in RECIPES if not isinstance(open_recipe(recipe).block, BandSpec)]


@pytest.mark.parametrize("recipe", GARMENTS)
def test_no_line_of_an_untouched_drawing_was_moved(recipe: str) -> None:
    """Every line lies within 0.05 mm of where it was drafted, and none is a stranger."""
    panels = open_kept(str(folder_of(recipe, WEARER))).panels
    found = found_strokes(svg_of(recipe, WEARER).encode(), "my.svg", panels)
    drawn = compared(found, panels)
    edges = (*drawn.edges, *(edge for edges in drawn.added.values() for edge in edges))
    assert [(edge.panel, edge.name) for edge in edges if edge.is_moved] == []
    assert [(mark.panel, mark.name) for mark in drawn.marks if mark.is_moved] == []
    assert drawn.notes == ()
    assert [element.attributes.get("id") for element in found.strangers if element.attributes.get("id")] == []
