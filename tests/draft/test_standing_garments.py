"""Garments on a block of other girths: sums, words and warnings hold where the block stands."""

from __future__ import annotations

import json
import re
from functools import cache

import pytest
from tests.samples import BODIES, failed, made, recipe_text, seam, separate, wearer

from fanblock.make import draft_pattern
from fanblock.pattern.model import Finding, Girth, Pattern
from fanblock.problems import GeometryError
from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_recipe
from fanblock.sheet.json import pattern_json
from fanblock.sheet.report import report_html
from fanblock.sheet.tapes import tape_data, tape_numbers, tape_sentence
from fanblock.wearer.library import open_wearer

TOP = """top edge:
      through:
        - [center front, upper chest + 10 mm]
        - [22%, bust + 25 mm]
        - [36%, underarm - 30 mm]
        - [56%, underarm - 25 mm]
        - [78%, bust + 20 mm]
        - [center back, bust + 40 mm]"""
HEM = "hem: {height: underbust - 20 mm}"
SIDE = seam("side seam", "46%, top edge", "44%, hem", share="1", below_waist="sewn")
TWO = separate("front", "back")
RIBS = "{lower: underbust, upper: upper chest}"


def short(*extra: str, block: str = RIBS, hem: str = HEM, makes: str = "short stays", top: str = TOP) -> Recipe:
    """Return a recipe of two panels a side on a block of these girths."""
    text = recipe_text(top, hem, SIDE, *extra, TWO, makes=makes)
    return read_recipe(text.replace("steps:", f"block: {block}\nsteps:"), "r.yaml")


MEASURED = wearer(
    920.0, 740.0, 160.0, raised=178.0, underarm=200.0, back_length=400.0, hip=980.0, underbust=780.0,
    underbust_height=95.0, upper_chest=890.0, upper_chest_height=200.0, raised_waist=762.0, raised_waist_height=60.0,
)  # fmt: skip


@cache
def pattern(*extra: str, block: str = RIBS, hem: str = HEM) -> Pattern:
    """Return the pattern of such a recipe for a body that was measured everywhere."""
    return draft_pattern(MEASURED, short(*extra, block=block, hem=hem))


def girth(found: Pattern, name: str) -> Girth:
    """Return the sums at one level."""
    return next(one for one in found.girths if one.name == name)


def finding(found: Pattern, code: str) -> Finding:
    """Return one check."""
    return next(one for one in found.findings if one.code == code)


def test_the_worn_girth_adds_up_where_the_block_stands() -> None:
    """Ribs of 780 mm with ease of minus 12 mm are worn as 768, within half a millimetre; so says the check."""
    found = pattern("ease: {underbust: -12 mm, upper chest: 8 mm}")
    assert failed(found) == []
    ribs, chest = girth(found, "underbust"), girth(found, "upper chest")
    assert 2.0 * (ribs.parts_mm + ribs.open_mm + ribs.gap_mm) == pytest.approx(768.0, abs=0.1)
    assert 2.0 * (chest.block_mm - chest.takes_mm) == pytest.approx(898.0, abs=0.1)
    assert (ribs.body_mm, ribs.base_mm, ribs.ease_mm) == (780.0, 780.0, -12.0)
    assert finding(found, "girth-worn-underbust").says == (
        "worn underbust 768.0 mm; body 780.0 mm + ease -12.0 mm - reduction 0.0 mm"
    )
    assert {"girth-at-underbust", "girth-at-upper-chest", "girth-0", "girth-100"} <= {
        one.code for one in found.findings
    }


def test_the_block_is_held_against_the_girths_it_was_fitted_to() -> None:
    """Ribs and chest by the tape, not waist and bust, which this cone does not have."""
    codes = [one.code for one in pattern().findings if one.family == "block"]
    assert codes[:4] == ["block-underbust", "block-upper-chest", "block-center-front", "block-center-back"]
    assert {one.state for one in pattern().findings if one.family == "block"} == {"holds"}


def test_what_gussets_must_give_is_told() -> None:
    """At a bust of 920 this cone has 780 + 110 · (178 - 95)/(200 - 95) = 867 mm (by hand): 53 mm are for the gussets."""
    told = finding(pattern(), "girth-bust")
    assert told.number == pytest.approx(780.0 + 110.0 * 83.0 / 105.0 - 920.0, abs=0.01)
    assert told.says == "at your bust the cone is 53.0 mm tighter than you: gussets or gathers must give it"


def test_tape_and_report_speak_of_the_ribs() -> None:
    """What ends above the waist is told from the girth it stands on; nobody is sent to a waist line that is not there."""
    found = pattern()
    numbers = tape_numbers(found)
    assert (numbers.level, numbers.worn) == ("underbust", "underbust")
    assert numbers.front_mm == pytest.approx(200.0 + 10.0 - 95.0, abs=0.5)
    assert tape_sentence(found).startswith("Above the underbust it stands centre front 115.")
    assert tape_sentence(found).endswith("; the underbust as worn is 780.0 mm.")
    assert tape_data(found)["worn_underbust"] == pytest.approx(780.0)
    text = re.sub(r"<[^>]*>", " ", report_html(found))
    assert "Look in this order: the underbust line against a tied string" in text
    assert "the underbust line right round" in text


def test_a_stranger_finds_the_girths_in_the_file() -> None:
    """The JSON names what the block stands on, and counts ease and target from there alone."""
    data = json.loads(pattern_json(pattern("ease: {underbust: -12 mm}")))
    assert data["block"]["stands_on"] == [
        {"girth": "underbust", "height": pytest.approx(95.0 / 178.0, abs=1e-6), "body": 780.0, "block": 780.0},
        {"girth": "upper chest", "height": pytest.approx(200.0 / 178.0, abs=1e-6), "body": 890.0, "block": 890.0},
    ]
    assert data["block"]["traced_from"] is None
    rows = {row["level"]: row for row in data["girths"]}
    assert (rows["underbust"]["target"], rows["underbust"]["body"]) == (768.0, 780.0)
    assert (rows["waist"]["target"], rows["waist"]["body"], rows["waist"]["ease"]) == (None, 740.0, None)
    assert {"underbust", "upper chest", "waist", "bust"} == set(data["panels"][0]["levels"])


def test_a_girth_that_was_guessed_makes_it_provisional() -> None:
    """Whoever did not measure the chest is told that the block stands on a guess, and in the notes how it came.

    Between the table's busts of 34 1/8 and 35 1/4 in ribs are 6 1/8 to 6 1/4 in less: at 880 mm 157 mm (by hand).
    """
    found = draft_pattern(BODIES["ordinary"], short())
    warned = {one.code: one.says for one in found.findings if one.code.startswith("guessed-")}
    assert set(warned) == {f"guessed-{name}{end}" for name in ("underbust", "upper-chest") for end in ("", "-height")}
    assert warned["guessed-underbust"] == (
        "PROVISIONAL: the block stands on underbust, and that was guessed: measure it and draft again"
    )
    notes = [note.says for note in found.notes]
    assert "GUESSED: underbust: 723.0 mm, from the bust by a size table (ASTM D5585-11e1)" in notes
    assert not any("raised waist" in note for note in notes)


def test_a_high_waisted_garment_is_reduced_at_its_own_waist() -> None:
    """On a block of raised waist and bust 2 % of 762 mm are taken in at the raised waist, and told so."""
    hem = "hem: {height: raised waist}"
    found = pattern(
        "waist reduction: {by: 2%}", "ease: {bust: 20 mm}", block="{lower: raised waist, upper: bust}", hem=hem
    )
    assert failed(found) == []
    high = girth(found, "raised waist")
    assert high.reduction_mm == pytest.approx(15.24)
    assert 2.0 * (high.parts_mm + high.open_mm + high.gap_mm) == pytest.approx(762.0 * 0.98, abs=0.5)
    assert finding(found, "reduction").says == "the lacing takes in 2.0% of the raised waist"
    assert 2.0 * (girth(found, "bust").block_mm - girth(found, "bust").takes_mm) == pytest.approx(940.0, abs=0.1)


def test_cloth_over_the_natural_waist_counts_as_lacing() -> None:
    """This cone comes to 680 mm at a waist of 740: cloth over it takes in 8 %, at 800 more than 10, which is refused."""
    over = short(hem="hem: {height: waist - 20 mm}", top=TOP)
    text = finding(draft_pattern(MEASURED, over), "reduction")
    assert (text.state, text.says) == ("warns", "the lacing takes in 8.0% of the waist")
    assert text.number == pytest.approx(1.0 - (780.0 - 110.0 * 95.0 / 105.0) / 740.0, abs=1e-4)
    thick = wearer(920.0, 800.0, 160.0, **{name.replace(" ", "_"): mm for name, mm in MEASURED.sets[0].values.items()
                                            if name not in ("bust", "waist", "bust to waist")})  # fmt: skip
    with pytest.raises(GeometryError) as caught:
        draft_pattern(thick, over)
    assert str(caught.value) == (
        "body › the lacing would take in 14.9% of the waist; more than 10% is not drawn. End it above the waist, or let it "
        "stand on the waist. If you must, draft again with `--despite reduction`."
    )


def test_a_bell_is_told_with_its_own_girths() -> None:
    """From ribs of 620 to a chest of 890 in 105 mm half the block turns 74°: that is refused by those names."""
    values = {name.replace(" ", "_"): mm for name, mm in MEASURED.sets[0].values.items()}
    for name in ("bust", "waist", "bust_to_waist"):
        del values[name]
    with pytest.raises(GeometryError) as caught:
        draft_pattern(wearer(920.0, 740.0, 160.0, **{**values, "underbust": 620.0}), short(makes="bodice"))
    assert str(caught.value) == (
        "body › half the block turns 74°: a drop of 270.0 mm from upper chest to underbust in so short a length makes a "
        "bell, not a garment. Measure both girths and their heights again. If it is right, draft with `--despite turn`."
    )


def test_over_stays_ribs_are_predicted_and_say_so() -> None:
    """The pilot has no measures over stays: her ribs are predicted, and the notes ask to measure again."""
    text = recipe_text(TOP, HEM, SIDE, TWO, makes="spencer")
    worn = text.replace("steps:", f"worn over: stays\nblock: {RIBS}\nsteps:")
    found = draft_pattern(open_wearer("pilot"), read_recipe(worn, "r.yaml"))
    assert failed(found) == []
    told = [note.says for note in found.notes if note.says.startswith("PREDICTED, MEASURE AGAIN OVER STAYS: underbust")]
    assert len(told) == 1
    assert girth(found, "underbust").base_mm == pytest.approx(650.0 * 0.98 + 18.85, abs=0.01)


@pytest.mark.parametrize("name", ["ordinary", "large drop", "very short", "short in the back", "uneven", "very large"])
def test_it_is_sound_on_many_bodies(name: str) -> None:
    """Short, long, tilted, bent: the same recipe adds up and sews up."""
    assert failed(made(short("ease: {underbust: -10 mm, upper chest: 6 mm}"), name)) == []
