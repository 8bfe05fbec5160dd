"""``construction``: a recipe says whether its pieces are whipped together or sewn, and what follows from it follows."""

from __future__ import annotations

import numpy as np
import pytest
from tests.samples import BODIES, FILE

from fanblock.geometry.meet import foot
from fanblock.make import draft_pattern
from fanblock.pattern.bones import BONE
from fanblock.pattern.model import Pattern
from fanblock.problems import RecipeError
from fanblock.recipe.explain import explained
from fanblock.recipe.library import open_recipe
from fanblock.recipe.reading import read_recipe
from fanblock.shipped import recipe_ids, recipe_text


def text(way: str) -> str:
    """Return the five-panel stays made in a way, their seam allowance left to it; no line of it where it is empty."""
    shipped = recipe_text("stays-five-panels").replace("{seam: 15 mm, center", "{center")
    return shipped.replace("construction: whipped\n", f"construction: {way}\n" if way else "")


def made(way: str) -> Pattern:
    """Return these stays drawn for the ordinary body."""
    return draft_pattern(BODIES["ordinary"], read_recipe(text(way), FILE))


def nearest_mm(pattern: Pattern) -> float:
    """How near the middle of the side's first bone comes to the seam before it."""
    panel = pattern.by_name["side"]
    first = next(channel for channel in panel.channels if channel.kind == BONE)
    seam = panel.edge("side front").curve.points
    return min(foot(seam, point)[0] for point in np.linspace(first.line.start, first.line.end, 30))


def test_a_recipe_says_it_and_is_read_back() -> None:
    """It comes back from the recipe written out in full, and is left out of one that leaves it open."""
    for way in ("whipped", "sewn", ""):
        recipe = read_recipe(text(way), FILE)
        assert recipe.construction == way
        assert read_recipe(explained(recipe), FILE).construction == way
    assert "construction" not in explained(read_recipe(text(""), FILE))


def test_a_recipe_based_on_another_is_made_as_that_is() -> None:
    """Front-lacing stays are based on stays whose panels are whipped."""
    assert open_recipe("stays-front-lacing").construction == "whipped"


def test_a_third_way_is_refused() -> None:
    """The whole refusal, with its place."""
    with pytest.raises(RecipeError) as caught:
        read_recipe(text("glued"), FILE)
    line = text("glued").splitlines().index("construction: glued") + 1
    assert str(caught.value) == f"r.yaml:{line}:15: construction › got “glued”, needs `sewn` or `whipped`."


@pytest.mark.parametrize(("way", "mm"), [("whipped", 13.0), ("sewn", 15.0), ("", 15.0)])
def test_the_allowance_follows(way: str, mm: float) -> None:
    """Half an inch to turn in, 15 mm to press open (common practice: 1.3 to 2 cm, no source)."""
    pattern = made(way)
    assert pattern.construction == way
    assert pattern.by_name["side"].allowances["side front"] == mm


def test_what_a_recipe_says_of_its_seams_holds_either_way() -> None:
    """An allowance that is given is taken."""
    said = text("whipped").replace("{center: 20 mm", "{seam: 18 mm, center: 20 mm")
    pattern = draft_pattern(BODIES["ordinary"], read_recipe(said, FILE))
    assert pattern.by_name["side"].allowances["side front"] == 18.0


def test_a_bones_width_is_left_beside_a_seam_that_is_whipped() -> None:
    """At least a bone and half a channel from the seam; in a sewn garment 4 mm and half a channel (common practice)."""
    channel = next(one for one in made("sewn").by_name["side"].channels if one.kind == BONE)
    assert nearest_mm(made("whipped")) >= channel.bone.width_mm + 0.5 * channel.width_mm - 0.2
    assert nearest_mm(made("sewn")) >= 4.0 + 0.5 * channel.width_mm - 0.2


def test_every_garment_that_is_boned_says_how_it_is_made() -> None:
    """Whoever cuts a boned garment has to know it before the first stitch; its sources tell where it is from."""
    for recipe in map(open_recipe, recipe_ids()):
        if any(step.kind == "channels" for step in recipe.steps):
            assert recipe.construction, recipe.id
            assert any("whipped" in line or "seams sewn" in line for line in recipe.sources), recipe.id
