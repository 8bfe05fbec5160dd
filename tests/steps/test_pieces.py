"""``pieces``: a band cut up, and everything a finished pattern then has and has not."""

from __future__ import annotations

import json

import pytest
from tests.samples import BODIES, FILE

from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.problems import FanblockError
from fanblock.recipe.reading import read_recipe
from fanblock.sheet.json import pattern_data
from fanblock.sheet.report import report_html

HEAD = "recipe: 1\nname: Sample\nmakes: cape\nneeds: []\n"


def made(block: str, *steps: str) -> Pattern:
    """Return the pattern of a band for an ordinary body."""
    text = f"{HEAD}block: {block}\nsteps:\n" + "".join(f"  - {step}\n" for step in steps)
    return draft_pattern(BODIES["ordinary"], read_recipe(text, FILE))


@pytest.mark.parametrize(
    ("block", "step", "panels", "seams"),
    [
        ("{inner: neck, outer: 62 cm, depth: 12 cm}", "{name: collar}", 1, 0),
        ("{inner: neck, outer: 62 cm, depth: 12 cm}", "{name: collar, fold: none}", 1, 0),
        ("{inner: neck, circle: 100%, depth: 12 cm}", "{name: cape}", 2, 1),
        ("{inner: neck, circle: 100%, depth: 12 cm, drawn: whole}", "{name: cape}", 2, 1),
        ("{inner: neck, circle: 250%, depth: 12 cm, drawn: whole}", "{name: cape, ends: sewn}", 3, 3),
        ("{inner: neck, circle: 60%, depth: 12 cm, drawn: whole}", "{name: cape, ends: sewn}", 1, 1),
        (
            "{inner: 300% of neck, circle: 0%, depth: 6 cm, drawn: whole, worn: standing}",
            "{name: s, cloth: 60 cm}",
            2,
            1,
        ),
    ],
)
def test_every_band_is_sound(block: str, step: str, panels: int, seams: int) -> None:
    """Halves, wholes, rings and strips pass every check, and have as many pieces and joins as they need."""
    pattern = made(block, f"pieces: {step}")
    assert [finding.says for finding in pattern.findings if finding.state != "holds"] == []
    assert (len(pattern.panels), len(pattern.seams)) == (panels, seams)
    assert all(panel.grain is not None and panel.cut_line is not None for panel in pattern.panels)


def test_nothing_of_waist_and_bust_is_told_of_a_band() -> None:
    """No check, note, number or line of the report speaks of girths, hips, lacing or the body's block."""
    pattern = made("{inner: 38 cm, outer: 62 cm, depth: 12 cm}", "pieces: {name: collar}")
    assert pattern.girths == ()
    assert {finding.family for finding in pattern.findings} == {"block", "joins", "panels", "marks"}
    assert {finding.code for finding in pattern.findings} >= {"band-inner", "band-outer", "band-depth", "band-circle"}
    page = report_html(pattern)
    for word in ("waist", "bust", "girth", "before you lace", "her left side"):
        assert word not in page.lower().replace("&#x27;", "'"), word


def test_a_band_in_json_gives_its_three_lengths() -> None:
    """Other programs read what the band was asked to be in place of waist and bust."""
    pattern = made("{inner: 40 cm, outer: 62 cm, depth: 12 cm}", "pieces: {name: collar}")
    block = json.loads(json.dumps(pattern_data(pattern)))["block"]
    assert [block[key] for key in ("inner", "outer", "depth", "drawn", "worn")] == [400, 620, 120, "half", "hanging"]


def test_allowances_by_name_and_counts_reach_the_pieces() -> None:
    """Long edges have 10 mm if nothing is said; one named keeps the other's; a whole band is cut once."""
    pattern = made(
        "{inner: 40 cm, circle: 50%, depth: 12 cm, drawn: whole}",
        "pieces: {name: cape}",
        "allowances: {outer edge: 22 mm}",
        "cut: {outer: 1, lining: 1}",
    )
    panel = pattern.by_name["cape"]
    assert panel.allowances == {"inner edge": 10.0, "outer edge": 22.0, "first end": 15.0, "last end": 15.0}
    assert panel.cuts == (("outer", 1), ("lining", 1))


@pytest.mark.parametrize(
    ("block", "step", "says"),
    [
        (
            "{inner: neck, circle: 50%, depth: 12 cm}",
            "{name: c, ends: sewn}",
            "r.yaml:7:5: step 1 (pieces) › ends › the band is drawn as a half, from center front to center back. "
            "Say `fold` instead.",
        ),
        (
            "{inner: neck, circle: 50%, depth: 12 cm, drawn: whole}",
            "{name: c, fold: none}",
            "r.yaml:7:5: step 1 (pieces) › fold › the band is drawn whole, so there is no fold. "
            "Say `drawn: half` in `block`.",
        ),
        (
            "{inner: neck, circle: 50%, depth: 12 cm}",
            "{name: c, cloth: 5 cm}",
            "r.yaml:7:5: step 1 (pieces) › cloth › got 50 mm, needs 100 mm or more.",
        ),
        (
            "{inner: neck, circle: 50%, depth: 12 cm}",
            "{name: 7, least: 0}",
            "r.yaml:7:20: step 1 (pieces) › name › “7” cannot be a name. Begin with a letter; use at most 30 letters.\n"
            "r.yaml:7:30: step 1 (pieces) › least › got 0, needs 1 or more.",
        ),
    ],
)
def test_options_that_cannot_be_are_refused(block: str, step: str, says: str) -> None:
    """What a half or a whole has no use for is told with what to say instead."""
    with pytest.raises(FanblockError) as caught:
        made(block, f"pieces: {step}")
    assert str(caught.value) == says
