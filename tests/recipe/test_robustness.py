"""Recipes from strangers: whatever is in the file, it is read or refused in words."""

from __future__ import annotations

import contextlib
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from fanblock.problems import RecipeError
from fanblock.recipe.dials import with_dials
from fanblock.recipe.explain import explained
from fanblock.recipe.reading import read_recipe

GOOD = (Path(__file__).parent / "samples" / "trial-stays.yaml").read_text(encoding="utf-8")
TOKENS = (
    "", " ", "\n", "  ", ": ", "- ", ", ", "{", "}", "[", "]", "'", '"', "#", "&a ", "*a", "!t ", "%",
    "~", "null", "yes", "-", "+", "−", "\t", "\xa0", "\u2028", "\x00", "gap", "waist", "hem",
    "top edge", "center back", "side front", "12 mm", "1e9", "nan", "-0%", "99999999999999999999",
    "100%", "3% of waist", "seam", "separate", "tabs", "take", "below waist", "on fold", "steps:",
    "dials:", "units: in\n", "recipe: 1\n", "|", ">\n", "? ", "é", "😀",
)  # fmt: skip


def read(text: str) -> None:
    """Read a text, and use what could be read."""
    refused = None
    try:
        recipe = read_recipe(text, "r.yaml")
    except RecipeError as error:
        refused = error
    if refused is not None:
        assert refused.problems
        assert str(refused).startswith("r.yaml:")
        return
    try:
        turned = with_dials(recipe)
    except RecipeError:
        return
    assert read_recipe(explained(recipe), "r.yaml").steps == turned.steps


@st.composite
def spoilt(draw: st.DrawFn) -> str:
    """Return the sample recipe with up to three runs of it replaced by something else."""
    text = GOOD
    for _ in range(draw(st.integers(1, 3))):
        start = draw(st.integers(0, len(text)))
        end = start + draw(st.integers(0, 30))
        text = text[:start] + draw(st.sampled_from(TOKENS)) + text[end:]
    return text


@settings(max_examples=300, deadline=None)
@given(spoilt())
def test_a_spoilt_recipe_is_read_or_refused(text: str) -> None:
    """Nothing but a RecipeError comes of a recipe with faults, and each problem has its place."""
    read(text)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.one_of(st.sampled_from(TOKENS), st.text(max_size=5)), max_size=40))
def test_any_text_is_read_or_refused(parts: list[str]) -> None:
    """Nothing but a RecipeError comes of any other text."""
    read("recipe: 1\n" + "".join(parts))


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    """A file need not be text at all."""
    with contextlib.suppress(RecipeError):
        read_recipe(data, "r.yaml")
