"""``block: {from: …}``: a recipe on a block that somebody has already, and where its drawing may lie."""

from __future__ import annotations

import os
import time
from dataclasses import replace
from pathlib import Path

import pytest
from tests.samples import BODIES, TOP, block, body, failed, recipe_text, separate
from tests.tracing.drawings import BLOCK, svg

from fanblock.block.bowed import BowBlock
from fanblock.make import draft_pattern
from fanblock.pattern.model import Finding, Pattern
from fanblock.problems import GeometryError, RecipeError
from fanblock.recipe.explain import explained
from fanblock.recipe.library import open_recipe
from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_recipe
from fanblock.sheet.blocksheet import block_sheet
from fanblock.sheet.json import pattern_data
from fanblock.sheet.svg import write_svg
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.model import Wearer

SEWN = ("hem: {height: waist}", separate("whole"))


def written(folder: Path, name: str = "my-block.svg", of: str = "ordinary") -> Path:
    """Write the block of a body of the catalogue as a drawing, as the program draws it; returns its path."""
    made = block(of)
    assert isinstance(made, BowBlock)
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(write_svg(block_sheet(made, body(of))), encoding="utf-8")
    return path


def kept(folder: Path, text: str, name: str = "r.yaml") -> str:
    """Write a recipe into a folder and return its path as one would type it."""
    (folder / name).write_text(text, encoding="utf-8")
    return str(folder / name)


def own(drawing: str, *steps: str) -> str:
    """Return the text of a recipe on a drawing; its block stands in line 4."""
    return recipe_text(TOP, *(steps or SEWN)).replace("steps:", f"block: {{from: {drawing}}}\nsteps:")


def on_drawing(base: str, drawing: str = "my-block.svg") -> str:
    """Return the text of a recipe that draws a shipped one on a drawing."""
    return f"recipe: 1\nname: On my block\nbased on: {base}\nblock: {{from: {drawing}}}\n"


def told(folder: Path, text: str) -> str:
    """Return what is wrong with such a recipe, its folder left out."""
    with pytest.raises(RecipeError) as caught:
        open_recipe(kept(folder, text))
    return str(caught.value).replace(f"{folder}{os.sep}", "")


def finding(pattern: Pattern, code: str) -> Finding:
    """Return one check."""
    return next(one for one in pattern.findings if one.code == code)


@pytest.mark.parametrize(
    "base",
    ["stays-three-panels", "stays-five-panels", "stays-1690s", "bodies-1560s", "kirtle-bodice-front-lacing", "jumps"],
)
def test_any_recipe_runs_on_a_traced_block(base: str, tmp_path: Path) -> None:
    """Drawn on the tracing of a wearer's own block it has the same pieces as drawn from her measures, to a hair."""
    written(tmp_path, of="short in the back")
    traced = draft_pattern(BODIES["short in the back"], open_recipe(kept(tmp_path, on_drawing(base))))
    made = draft_pattern(BODIES["short in the back"], open_recipe(base))
    assert failed(traced) == []
    for one, other in zip(traced.panels, made.panels, strict=True):
        assert [edge.name for edge in one.edges] == [edge.name for edge in other.edges]
        lengths = [edge.curve.length_mm for edge in one.edges]
        assert lengths == pytest.approx([edge.curve.length_mm for edge in other.edges], abs=0.05)


def test_how_it_differs_from_the_measures_is_told_and_is_no_failure(tmp_path: Path) -> None:
    """A block 20 mm larger all round, its lines 7 and 16 mm longer, warns four times; the garment is as large as the block."""
    written(tmp_path)
    wearer = BODIES["ordinary"]
    lengths = {**wearer.sets[0].values, "bust": 860.0, "waist": 660.0, "raised": 168.0, "bust to waist at back": 151.0}
    smaller = Wearer("sample", (replace(wearer.sets[0], values=Fixed(lengths)),), (), (), "mm")
    found = draft_pattern(smaller, open_recipe(kept(tmp_path, own("my-block.svg"))))
    assert failed(found) == []
    assert [(one.code, one.state, one.says) for one in found.findings if one.code.startswith("block-")] == [
        ("block-waist", "warns", "waist of the traced block 680.0 mm, 20.0 mm more than your measures say"),
        ("block-bust", "warns", "bust of the traced block 880.0 mm, 20.0 mm more than your measures say"),
        (
            "block-center-front",
            "warns",
            "center front of the traced block 175.0 mm, 7.0 mm more than your measures say",
        ),
        ("block-center-back", "warns", "center back of the traced block 175.0 mm, 16.0 mm more than your measures say"),
    ]
    waist = next(girth for girth in found.girths if girth.name == "waist")
    assert (waist.body_mm, waist.base_mm) == (660.0, pytest.approx(680.0, abs=0.01))
    assert finding(found, "girth-worn-waist").says.startswith("worn waist 680.0 mm; block 680.0 mm + ease 0.0 mm")
    assert "the block is traced from my-block.svg: it is as it was drawn, and not made from your measures" in [
        note.says for note in found.notes
    ]
    assert pattern_data(found)["block"]["traced_from"] == "my-block.svg"


def test_a_block_that_is_as_measured_says_so(tmp_path: Path) -> None:
    """Differences that no tape shows are not told as differences."""
    written(tmp_path)
    found = draft_pattern(BODIES["ordinary"], open_recipe(kept(tmp_path, own("my-block.svg"))))
    assert finding(found, "block-waist").says == "waist of the traced block 680.0 mm, as your measures say"
    assert {one.state for one in found.findings if one.code.startswith("block-")} == {"holds"}


def test_a_block_far_smaller_than_the_body_is_refused(tmp_path: Path) -> None:
    """Cloth cut to another body's block would lace in more than a tenth: nobody is laced by mistake."""
    written(tmp_path)
    recipe = open_recipe(kept(tmp_path, own("my-block.svg")))
    with pytest.raises(GeometryError) as caught:
        draft_pattern(BODIES["bust is waist"], recipe)
    assert str(caught.value) == (
        "body › the lacing would take in 24.4% of the waist; more than 10% is not drawn. Is this the block of this body, and "
        "is its drawing at true scale? If you must, draft again with `--despite reduction`."
    )


def test_the_code_of_a_pattern_stands_for_the_drawing_too(tmp_path: Path) -> None:
    """Another drawing under the same name makes another code; the same one, saved anew with a comment, does not."""

    def code(recipe: Recipe) -> str:
        return draft_pattern(BODIES["ordinary"], recipe).title.code

    path = written(tmp_path)
    recipe = kept(tmp_path, own("my-block.svg"))
    first, one = open_recipe(recipe), code(open_recipe(recipe))
    path.write_text(path.read_text("utf-8").replace("</svg>", "<!-- saved -->\n</svg>"), encoding="utf-8")
    assert (open_recipe(recipe), code(open_recipe(recipe))) == (first, one)
    written(tmp_path, of="short in the back")
    assert open_recipe(recipe) != first
    assert code(open_recipe(recipe)) != one


def test_a_recipe_written_out_names_its_drawing(tmp_path: Path) -> None:
    """Saved beside the drawing, what `explain` prints is the same recipe."""
    written(tmp_path, "blocks/mine.svg")
    recipe = open_recipe(kept(tmp_path, own("blocks/mine.svg")))
    assert "\nblock: {from: blocks/mine.svg}\n" in explained(recipe)
    assert open_recipe(kept(tmp_path, explained(recipe), "again.yaml")).block == recipe.block


def test_a_drawing_lies_beside_the_recipe_that_names_it(tmp_path: Path) -> None:
    """A base in a folder of its own finds its drawing there, also when a recipe elsewhere is based on it."""
    written(tmp_path, "shared/my-block.svg")
    kept(tmp_path / "shared", own("my-block.svg"), "base.yaml")
    text = "recipe: 1\nname: S\nbased on: shared/base.yaml\nchanges:\n  - replace: hem\n    with: {hem: {height: waist - 1 cm}}\n"
    made = draft_pattern(BODIES["ordinary"], open_recipe(kept(tmp_path, text)))
    assert made.block.traced_from == "my-block.svg"


def test_problems_of_a_drawing_are_told_at_its_own_lines(tmp_path: Path) -> None:
    """Beside those of the recipe, in one go; a base's drawing is not for the recipe above it to put right."""
    (tmp_path / "my-block.svg").write_bytes(svg(BLOCK.replace('"waist"', '"wiast"')))
    lost = "my-block.svg:2:1: no line is called “waist”. Did you mean “wiast”? Give that line this name, as its id or its label."
    assert told(tmp_path, own("my-block.svg", "hemm: {height: waist}", separate("whole"))) == (
        f"{lost}\nr.yaml:14:5: step 2 › there is no step “hemm”. Did you mean “hem”?"
    )
    kept(tmp_path, own("my-block.svg"), "base.yaml")
    over = "recipe: 1\nname: S\nbased on: base.yaml\ndials:\n  d: {default: 1 cm}\n"
    assert told(tmp_path, over) == lost


NO_WAY = "Name a file in this folder, such as `my-block.svg`."
AWAY = {
    "/etc/hostname": f"got “/etc/hostname”, which does not go on from the folder of this recipe. {NO_WAY}",
    "~/my-block.svg": f"got “~/my-block.svg”, which does not go on from the folder of this recipe. {NO_WAY}",
    "C:/block.svg": f"got “C:/block.svg”, which does not go on from the folder of this recipe. {NO_WAY}",
    "file:///etc/hostname": f"got “file:///etc/hostname”, which does not go on from the folder of this recipe. {NO_WAY}",
    "../my-block.svg": "“../my-block.svg” lies outside the folder of this recipe. Put both into one folder.",
    "link.svg": "“link.svg” lies outside the folder of this recipe. Put both into one folder.",
    "sub": "the file “sub” cannot be opened (is a directory).",
    "pipe": "“pipe” is no plain file. Name a file such as `my-block.svg`.",
    "none.svg": "there is no drawing “none.svg”. Look at its name and folder.",
}


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
@pytest.mark.parametrize("name", AWAY)
def test_a_drawing_lies_in_the_folder_of_the_recipe_or_below_it(name: str, tmp_path: Path) -> None:
    """A path that leads anywhere else, and what is no plain file, is refused before anything is read."""
    folder = tmp_path / "mine"
    folder.mkdir()
    written(tmp_path)
    (folder / "sub").mkdir()
    (folder / "link.svg").symlink_to(tmp_path / "my-block.svg")
    os.mkfifo(folder / "pipe")
    begun = time.perf_counter()
    assert told(folder, own(f'"{name}"')) == f"r.yaml:4:15: block › from › {AWAY[name]}"
    assert time.perf_counter() - begun < 5.0


def test_a_recipe_from_a_text_alone_can_name_no_drawing() -> None:
    """It lies in no folder, so there is nothing beside it."""
    with pytest.raises(RecipeError) as caught:
        read_recipe(own("my-block.svg"), "r.yaml")
    assert str(caught.value) == (
        "r.yaml:4:15: block › from › got “my-block.svg”, but this recipe lies in no folder where a drawing could be. "
        "Save it in a file, in the folder of the drawing."
    )


def test_from_stands_alone() -> None:
    """A drawing has its girths in it: none can be said besides."""
    with pytest.raises(RecipeError) as caught:
        read_recipe(own("my-block.svg, lower: underbust"), "r.yaml")
    assert str(caught.value) == "r.yaml:4:29: block › “lower” is not known here. Legal here: from."
