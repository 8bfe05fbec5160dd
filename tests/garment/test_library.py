"""Garments opened and drafted: the files they name, the drafts that are kept."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from fanblock.garment.keeping import draft_folder, refuse_other_draft
from fanblock.garment.library import draft_garment, open_garment
from fanblock.garment.starter import starter_garment
from fanblock.make import draft_pattern
from fanblock.problems import ExportError, FanblockError
from fanblock.recipe.dials import dial_values
from fanblock.recipe.library import open_recipe
from fanblock.shipped import recipe_ids, wearer_text
from fanblock.wearer.library import open_wearer


def written(folder: Path, text: str, name: str = "g.yaml") -> str:
    """Return the path of a file with this text."""
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return str(path)


def garment(wearer: str = "ferrywoman", recipe: str = "stays-five-panels", more: str = "") -> str:
    """Return a garment file's text."""
    return f"garment: 1\nwearer: {wearer}\nrecipe: {recipe}\n{more}"


def test_a_garment_without_changes_is_the_recipe_for_the_wearer(tmp_path: Path) -> None:
    """Same input, same code, same pieces as when both are named one by one."""
    made = draft_garment(open_garment(written(tmp_path, garment(more="dials: {gap: 4 cm}\n"))))
    plain = draft_pattern(open_wearer("ferrywoman"), open_recipe("stays-five-panels"), {"gap": "4 cm"})
    assert made.title == plain.title
    assert made.girths == plain.girths


def test_a_change_is_made_and_told(tmp_path: Path) -> None:
    """A seam let out by 4 mm at the waist widens the worn waist by 8 mm in all."""
    more = "draft: 2\nchanges:\n  - {take: {seam: side front, at: waist, more: -4 mm}}\n"
    made = draft_garment(open_garment(written(tmp_path, garment(more=more))))
    assert made.title.draft == 2
    assert next(girth for girth in made.girths if girth.name == "waist").altered_mm == pytest.approx(-8.0)


def test_files_beside_the_garment_are_found(tmp_path: Path) -> None:
    """A wearer's file and a recipe's file in the garment's folder, wherever the program is called from."""
    written(tmp_path, wearer_text("ferrywoman"), "me.yaml")
    written(
        tmp_path, "recipe: 1\nbased on: stays-five-panels\nname: Mine\ndials: {gap: {default: 4 cm}}\n", "mine.yaml"
    )
    opened = open_garment(written(tmp_path, garment("me.yaml", "mine.yaml")))
    assert (opened.wearer.name, opened.recipe.name) == ("ferrywoman", "Mine")


def test_what_a_garment_names_and_is_not_there_is_told_together(tmp_path: Path) -> None:
    """A wearer and a recipe that are both missing come in one answer, each with what is near."""
    path = written(tmp_path, garment("ferywoman", "stays-five-panel"))
    with pytest.raises(FanblockError) as caught:
        open_garment(path)
    assert str(caught.value) == (
        f"{path}: recipe › there is no shipped recipe “stays-five-panel”, and no file of that name beside this one. "
        "Did you mean “stays-five-panels” or “stays-three-panels” or “stays-1770s-four-panels”?\n"
        f"{path}: wearer › there is no wearer “ferywoman” beside this garment, and no demo wearer of that name. "
        "Did you mean “ferrywoman”?"
    )


@pytest.mark.parametrize("wearer", ["../me.yaml", "/etc/hostname", "~/me.yaml", "C:me.yaml"])
def test_a_garment_leads_nowhere_else(tmp_path: Path, wearer: str) -> None:
    """A file that came from a stranger cannot have others opened outside its folder."""
    (tmp_path / "in").mkdir()
    written(tmp_path, wearer_text("ferrywoman"), "me.yaml")
    with pytest.raises(FanblockError, match="folder of this garment"):
        open_garment(written(tmp_path / "in", garment(wearer)))


def test_a_new_garment_draws_as_it_stands(tmp_path: Path) -> None:
    """The file one begins with is sound, and its dials are those of the recipe."""
    path = tmp_path / "mine.yaml"
    text = starter_garment(str(path), "ferrywoman", "stays-five-panels")
    path.write_text(text, encoding="utf-8")
    assert draft_garment(open_garment(str(path))).sound
    path.write_text(text.replace("#dials:", "dials:").replace("#  gap: 2 in", "  gap: 30 mm"), encoding="utf-8")
    assert draft_garment(open_garment(str(path))).gap_mm == pytest.approx(30.0)


@pytest.mark.parametrize("recipe", recipe_ids())
@pytest.mark.parametrize("wearer", ["ferrywoman", "innkeeper"])
def test_every_dial_of_a_new_garment_may_be_set_as_it_is_written(wearer: str, recipe: str) -> None:
    """In her own units, rounded as a tape shows them, no dial is beyond its limits or far from the recipe's default."""
    dials = re.findall(
        r"^#  ([a-z ]+): ([^#{\n]+?) *(?:#.*)?$", starter_garment("g.yaml", wearer, recipe), re.MULTILINE
    )
    opened = open_recipe(recipe)
    defaults = {name: number for name, _, number in dial_values(opened)}
    assert dict(dials).keys() == defaults.keys()
    for name, _, number in dial_values(opened, dict(dials)):
        assert number == pytest.approx(defaults[name], abs=1.6)


def test_drafts_are_kept(tmp_path: Path) -> None:
    """A folder that holds a draft takes the same again, and no other."""
    title = draft_garment(open_garment(written(tmp_path, garment()))).title
    folder = Path(draft_folder(str(tmp_path / "g.yaml"), title.draft))
    refuse_other_draft(str(folder), title)
    folder.mkdir()
    (folder / "pattern.json").write_text(json.dumps({"draft": 1, "code": title.code}))
    refuse_other_draft(str(folder), title)
    (folder / "pattern.json").write_text(json.dumps({"draft": 1, "code": "AAAA"}))
    with pytest.raises(ExportError, match=r"holds draft 1 with the code AAAA.* Drafts are kept\. Count up `draft`"):
        refuse_other_draft(str(folder), title)
