"""Garment files: read whole, written back to the same, or refused with everything that is wrong."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fanblock.draft.altering import Alteration, RaiseEdge, SpringMore, TakeMore
from fanblock.garment.model import Change, Cloth, Garment
from fanblock.garment.reading import read_garment
from fanblock.garment.writing import garment_text
from fanblock.problems import GarmentError
from fanblock.terms import Around, Height, Length, Share

TEXT = """\
garment: 1
name: Her second pair
wearer: ferrywoman
recipe: stays-five-panels
draft: 2
dials: {gap: 4 cm}
cloth:
  outer: {width: 140 cm, shrinks: {warp: 3%, weft: 1.5%}, nap: yes}
  strength layer: {width: 90 cm, folded: yes, selvedge: 5 mm}
changes:
  - {take: {seam: side front, at: top edge, more: 5 mm}, because: "gapes, in front", draft: 2, on: 2026-05-02}
  - {spring: {seam: side, more: -1 cm}}
  - {raised: {edge: top edge, at: center front, up: 1/2 in}}
notes: [the second toile was better]
"""


def test_a_garment_is_read_whole() -> None:
    """Everything that stands in the file is in the garment, in millimetres and ratios."""
    assert read_garment(TEXT, "g.yaml") == Garment(
        wearer="ferrywoman",
        recipe="stays-five-panels",
        name="Her second pair",
        draft=2,
        dials={"gap": "4 cm"},
        cloth={
            "outer": Cloth(1400.0, 0.03, 0.015, nap=True),
            "strength layer": Cloth(900.0, selvedge_mm=5.0, folded=True),
        },
        changes=(
            Change(
                TakeMore("side front", Height(landmark="top edge"), Length(5.0)), 2, "gapes, in front", "2026-05-02"
            ),
            Change(SpringMore("side", Length(-10.0))),
            Change(RaiseEdge("top edge", Around(landmark="center front"), Length(12.7))),
        ),
        notes=("the second toile was better",),
    )


AMOUNTS = st.floats(-90.0, 90.0).map(lambda mm: Length(round(mm, 3)))
SEAMS = st.sampled_from(["side front", "hind seam", "a: b", 'the "long" one'])
HEIGHTS = st.sampled_from([Height(landmark="waist"), Height(share=Share(0.5)), Height(landmark="top edge")])
ALTERATIONS: st.SearchStrategy[Alteration] = st.one_of(
    st.builds(TakeMore, SEAMS, HEIGHTS, AMOUNTS),
    st.builds(SpringMore, SEAMS, AMOUNTS),
    st.builds(RaiseEdge, st.sampled_from(["top edge", "hem"]), st.just(Around(ratio=0.25)), AMOUNTS),
)
WORDS = st.text(st.characters(codec="utf-8", exclude_categories=("C",)), max_size=30).map(str.strip)
DAYS = st.dates(date(1990, 1, 1), date(2100, 1, 1)).map(date.isoformat)
CLOTHS = st.builds(
    Cloth,
    st.integers(200, 3000).map(float),
    st.sampled_from([0.0, 0.03]),
    st.sampled_from([0.0, 0.125]),
    st.booleans(),
    st.sampled_from([0.0, 64.0]),
    st.sampled_from([0.0, 12.7]),
    st.booleans(),
)
GARMENTS = st.builds(
    Garment,
    st.just("ferrywoman"),
    st.just("stays-five-panels"),
    WORDS,
    st.integers(1, 99),
    st.sampled_from(["", "shift", "stays"]),
    st.dictionaries(st.sampled_from(["gap", "back height"]), st.sampled_from(["4 cm", "3%"])),
    st.dictionaries(st.sampled_from(["outer", "strength layer"]), CLOTHS),
    st.lists(st.builds(Change, ALTERATIONS, st.integers(1, 99), WORDS, st.one_of(st.just(""), DAYS)), max_size=4).map(
        tuple
    ),
    st.lists(WORDS.filter(bool), max_size=3).map(tuple),
)


@settings(max_examples=120, deadline=None, derandomize=True)
@given(GARMENTS)
def test_what_is_written_reads_back_the_same(garment: Garment) -> None:
    """Whatever names and words stand in it, and however odd its lengths are."""
    assert read_garment(garment_text(garment), "g.yaml") == garment


def told(text: str) -> str:
    """Return all that is said about a file."""
    with pytest.raises(GarmentError) as caught:
        read_garment(text, "g.yaml")
    return str(caught.value)


def test_everything_wrong_with_words_is_told_together() -> None:
    """Misspelt keys, missing ones and unreadable places, each with its line and column."""
    text = (
        "garment: 1\nwearer: ferrywoman\nrecipee: stays-five-panels\ncloth:\n  outer: {widht: 110 cm}\n"
        "changes:\n  - {raised: {edge: top edge, at: center frnt, up: 15 mm}}\n"
    )
    assert told(text) == (
        "g.yaml:1:1: `recipe` is missing. Add `recipe`: a shipped recipe's id, or a recipe file by its path from this "
        "file's folder.\n"
        "g.yaml:3:1: “recipee” is not known here. Did you mean “recipe”?\n"
        "g.yaml:5:10: cloth › outer › `width` is missing. Add `width`: from selvedge to selvedge.\n"
        "g.yaml:5:11: cloth › outer › “widht” is not known here. Did you mean “width”?\n"
        "g.yaml:7:35: changes › item 1 › raised › at › got “center frnt”, needs an around such as `center front`, `24%`, "
        "`side + 10 mm`, `center back`. Did you mean “center front” or “center back”?"
    )


def test_everything_wrong_with_amounts_is_told_together() -> None:
    """Cloth as narrow as a ribbon, cloth that felts, no draft, a change that changes nothing, a day that is none."""
    text = (
        "garment: 1\nwearer: ferrywoman\nrecipe: stays-five-panels\ndraft: 0\ncloth:\n"
        "  outer: {width: 11 cm, shrinks: {warp: 30%}}\n  lining: {width: 11%}\n"
        "changes:\n  - {because: gapes}\n  - {spring: {seam: side, more: 1 cm}, on: today}\n"
    )
    assert told(text) == (
        "g.yaml:4:8: draft › got 0, needs a number from 1 to 99.\n"
        "g.yaml:6:3: cloth › lining › width › got a share, needs 150 to 4000 mm.\n"
        "g.yaml:6:3: cloth › outer › shrinks › warp › got 30%, needs 0 % to 20%.\n"
        "g.yaml:6:3: cloth › outer › width › got 110 mm, needs 150 to 4000 mm.\n"
        "g.yaml:9:3: changes › item 1 › holds 0 of `take`, `spring` and `raised`, and needs one. "
        "Give each change a dash of its own.\n"
        "g.yaml:9:3: changes › item 2 › on › “today” is not a date. Write year, month and day, such as 2026-04-12."
    )


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("wearer: 1\nname: x\n", "g.yaml:1:1: wearer › this file is a wearer, not a garment. "
         "Name a recipe after a wearer, or give a garment's file here."),
        ("recipe: 1\n", "g.yaml:1:1: recipe › this file is a recipe, not a garment. "
         "Name a recipe after a wearer, or give a garment's file here."),
        ("name: x\n", "g.yaml:1:1: the file does not say that it is a garment. Begin it with `garment: 1`."),
        ("garment: 2\n", "g.yaml:1:1: garment › the format number is not 1, which is what this fanblock reads. "
         "Write `garment: 1`."),
        ("garment: her stays\n", "g.yaml:1:1: garment › the format number is not 1, which is what this fanblock reads. "
         "Write `garment: 1`."),
    ],
)  # fmt: skip
def test_what_is_no_garment_is_told_apart(text: str, says: str) -> None:
    """A wearer or a recipe in the place of a garment is called by its name."""
    assert told(text) == says
