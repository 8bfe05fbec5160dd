"""What the commands do for a wearer whose left and right differ."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.halves.unevens import SIDES, text

from fanblock.adopting.kept import open_kept
from fanblock.cli.main import main
from fanblock.make import draft_pattern
from fanblock.problems import GeometryError
from fanblock.recipe.library import open_recipe
from fanblock.sheet.json import pattern_json
from fanblock.wearer.reading import read_wearer


def test_a_drawing_of_two_halves_is_not_adopted(tmp_path: Path) -> None:
    """The whole refusal: a recipe draws one half for both."""
    pattern = draft_pattern(read_wearer(text(SIDES), "w.yaml"), open_recipe("stays-three-panels"))
    (tmp_path / "pattern.json").write_text(pattern_json(pattern), encoding="utf-8")
    with pytest.raises(GeometryError) as caught:
        open_kept(str(tmp_path))
    (problem,) = caught.value.problems
    assert (problem.code, problem.what, problem.remedy) == (
        "adopt-halves",
        "has two halves that are not alike, and a recipe draws one for both.",
        "If a fitting changed one half (`half:` in the garment file): draw a copy of the garment file without the changes "
        "that say `half: left` or `half: right`, and move the lines on that drawing; the changes stay in your garment. If the "
        "wearer's left and right differ: draft the recipe for a wearer with one measure for both sides.",
    )


def test_two_blocks_are_drawn_each_in_its_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The right one is drawn as a left one, and says that it is turned over."""
    wearer = tmp_path / "me.yaml"
    wearer.write_text(text(SIDES), encoding="utf-8")
    assert main(["block", str(wearer), "--out", str(tmp_path / "b"), "--paper", "a4"]) == 0
    told = capsys.readouterr().out
    assert "Block of sample, left half, over the shift" in told
    assert "Block of sample, right half, over the shift" in told
    for half in ("left", "right"):
        assert (tmp_path / "b" / half / "block.svg").is_file()
    assert "turn the paper over" in (tmp_path / "b" / "right" / "guide.html").read_text("utf-8")
    assert "turn the paper over" not in (tmp_path / "b" / "left" / "guide.html").read_text("utf-8")


def test_the_file_says_which_half_each_panel_is_of() -> None:
    """Every panel has its half, a whole one is of both, and both blocks are given."""
    data = json.loads(pattern_json(draft_pattern(read_wearer(text(SIDES), "w.yaml"), open_recipe("bodies-1560s"))))
    assert data["half"] == "both: they are not alike"
    assert {panel["name"]: panel["half"] for panel in data["panels"]} == {
        "front": "both",
        "back left": "left",
        "back right": "right",
        **{panel["name"]: panel["half"] for panel in data["panels"] if panel["added"]},
    }
    assert [data["halves"][half]["block"]["waist"] for half in ("left", "right")] == pytest.approx([750.0, 718.0])
