"""What must be put right before good cloth is cut stands on the cover, in red, under the verdict."""

from __future__ import annotations

from tests.sheet.real import drafted

from fanblock.make import draft_pattern
from fanblock.recipe.library import open_recipe
from fanblock.sheet.cover import cover, provisos
from fanblock.sheet.drawing import Words
from fanblock.sheet.layout import tiled_layout
from fanblock.sheet.paper import A4
from fanblock.wearer.reading import read_wearer

AT_REST = """
wearer: 1
name: ferrywoman
taken: {on: 2026-04-12, over: shift}
units: cm
measures: {bust: 91, waist: 73, bust to waist: 15.5}
"""


def test_a_bust_measured_at_rest_is_provisional_on_paper() -> None:
    """Three measures without `raised` make provisional stays, and the cover says so; with it nothing is said."""
    pattern = draft_pattern(read_wearer(AT_REST, "f.yaml"), open_recipe("stays-five-panels"))
    assert provisos(pattern) == (
        "PROVISIONAL: the bust was measured at rest. Measure `raised` and draft again before you cut good cloth.",
    )
    drawing, plan = tiled_layout(pattern, A4)
    said = " ".join(
        item.text
        for group in cover(pattern, A4, drawing, plan)[0].groups
        for item in group.items
        if isinstance(item, Words)
    )
    assert "PROVISIONAL" in said
    assert provisos(drafted("ferrywoman", "stays-five-panels")) == ()


def test_predicted_measures_are_told_on_paper() -> None:
    """A gown goes over stays; where nobody measured over them, the cover asks to measure again."""
    assert provisos(drafted("pilot", "gown-bodice-1770s")) == (
        "PREDICTED from measures over the shift: measure again laced in the stays, before you cut.",
    )
