"""One page a shipped recipe, one recipe a page, each with its picture, dials, checks and sources."""

from __future__ import annotations

import pytest
from tests.docs.pages import DOCS, make, text_of

from fanblock.recipe.library import open_recipe
from fanblock.shipped import recipe_ids


def test_pages_and_recipes_match_both_ways() -> None:
    """Every shipped recipe has its page, every page its recipe."""
    assert {path.stem for path in (DOCS / "recipes").glob("*.md")} == set(recipe_ids()), "run: python docs/make.py"


@pytest.mark.parametrize("recipe_id", recipe_ids())
def test_a_recipe_page_tells_all(recipe_id: str) -> None:
    """A recipe's page has its name, its picture, and the parts taken from the program."""
    text = text_of(DOCS / "recipes" / f"{recipe_id}.md")
    assert text.startswith(f"# {open_recipe(recipe_id).name}\n")
    assert f"(../../gallery/{recipe_id}.png)" in text
    assert f"(../../gallery/{recipe_id}.txt)" in text
    parts = {f"{part} {recipe_id}" for part in ("about", "dials", "watch", "sources", "checks")}
    assert parts <= set(make().tables.made_parts(text))
