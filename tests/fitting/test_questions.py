"""What a garment is asked: only of what it has, the same on the sheet, in the blank file and in the terminal."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest
from click.testing import CliRunner

from fanblock.cli.asking import asked_notes
from fanblock.fitting.fit import fitted
from fanblock.fitting.form import correction_sheet
from fanblock.fitting.levels import wanted_mm
from fanblock.fitting.notes import Notes, Pinch, Said, read_notes
from fanblock.fitting.parts import ABSENT, parts_of
from fanblock.fitting.questions import Questions, questions_of
from fanblock.fitting.sentences import BY_WORDS, SENTENCES
from fanblock.fitting.starter import starter_notes
from fanblock.garment.library import Opened
from fanblock.garment.model import Garment
from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.problems import GarmentError
from fanblock.recipe.library import open_recipe
from fanblock.sheet.drawing import Drawing, Words
from fanblock.sheet.paper import A4, LETTER, Paper
from fanblock.shipped import recipe_ids
from fanblock.wearer.library import open_wearer

STAYS, JACKET, BODIES, COLLAR = "stays-five-panels", "jacket-pleated-skirts", "bodies-1560s", "falling-collar"


@cache
def pattern_of(recipe: str) -> Pattern:
    """Return a recipe drafted for the wearer who has measures over the shift and over stays."""
    return draft_pattern(open_wearer("ferrywoman"), open_recipe(recipe))


def asked(recipe: str) -> Questions:
    """Return what its garment is asked."""
    return questions_of(pattern_of(recipe))


def words_asked(recipe: str) -> str:
    """Return all sentences it is asked, as one text."""
    return "\n".join(one.words for one in asked(recipe).spoken)


HAS = {
    "tabs": {"tabs"},
    "strap": {"straps"},
    "point d": {"point"},
    "point t": {"point"},
    "sleeve": {"sleeves"},
    "armhole": {"armhole"},
    "skirts": {"skirts"},
    "pleats": {"pleats"},
    "collar": {"collar"},
    "over the top": {"holds the bust"},
}
"""Words of sentences that speak of a part, and the part."""


@pytest.mark.parametrize("recipe", recipe_ids())
def test_only_of_what_it_has(recipe: str) -> None:
    """No sentence speaks of a part that is not there; every sentence names parts that are known."""
    parts = parts_of(pattern_of(recipe))
    for sentence in asked(recipe).spoken:
        for word, needs in HAS.items():
            assert word not in sentence.words or needs <= parts, sentence.words
    assert all(part in ABSENT for sentence in SENTENCES for part in (*sentence.of, *sentence.advice_of))


def test_parts_are_seen_in_the_pieces() -> None:
    """By the trade, no source: what these garments have, told by looking at their pictures."""
    tabbed = {"body", "bones", "holds the bust", "tabs", "point"}
    assert parts_of(pattern_of(STAYS)) == tabbed | {"no armhole"}
    assert parts_of(pattern_of(BODIES)) == tabbed | {"armhole", "straps"}
    sewn = {"body", "armhole", "sleeves", "elbow sleeves", "straps", "skirts", "pleats"}
    assert parts_of(pattern_of(JACKET)) == sewn
    assert "point" not in parts_of(pattern_of("kirtle-bodice-front-lacing"))
    assert "long sleeves" in parts_of(pattern_of("short-jacket-flared-skirts"))
    assert parts_of(pattern_of(COLLAR)) == {"collar", "shoulder line"}
    assert parts_of(pattern_of("ruffle-strip")) == set()


def test_edges_that_meet_have_no_gap() -> None:
    """A pinned jacket is asked whether its edges meet, a buttoned doublet whether its centre lines do; stays for the gap."""
    assert asked(JACKET).how.startswith("The edges in front: do they meet, at four heights?")
    assert asked("doublet-bodice-1570s").how.startswith("Where it closes: do the two drawn lines of the centre front")
    assert asked(STAYS).how == "The gap: is it as wide above as below? Measure it at four heights."
    assert asked("stays-1790s-transitional").gap == "gaps, together"
    assert asked("kirtle-bodice-side-lacing").gap == "both gaps, together"
    assert {level: mm for level, _, mm in asked(JACKET).levels} == dict.fromkeys(
        ("top", "bust", "middle", "waist"), 0.0
    )
    assert asked(COLLAR).levels == ()


def test_an_opening_over_a_stomacher_is_wanted_as_wide_as_it_is_drawn() -> None:
    """The gown stands open by its dials, 10 cm at the waist, and wider the higher: what was wanted is not one number."""
    wanted = wanted_mm(pattern_of("gown-bodice-open-front"))
    assert wanted["waist"] == pytest.approx(100.0, abs=0.1)
    assert wanted["top"] > wanted["bust"] > wanted["middle"] > wanted["waist"]
    done = fitted(opened("gown-bodice-open-front"), Notes(1, gap_mm=wanted))
    assert {told.reading for told in done.told} == {"as it was wanted"}


def test_a_garment_is_measured_at_its_own_girths() -> None:
    """Short stays are cut to ribs and upper chest, and asked about them."""
    assert [called for _, called, _ in asked("short-stays-regency").levels] == [
        "top",
        "upper chest",
        "middle",
        "underbust",
    ]
    done = fitted(opened("short-stays-regency"), Notes(1, gap_mm={"waist": 50.0}))
    assert done.told[0].changed == ("wearer: underbust 13/32 in larger",)
    before, after = (one.sets[0].values["underbust"] for one in (open_wearer("ferrywoman"), done.opened.wearer))
    assert after - before == pytest.approx(10.0, abs=0.2)


def opened(recipe: str) -> Opened:
    """Return a garment of the wearer with two sets."""
    return Opened(Garment("f.yaml", recipe), open_wearer("ferrywoman"), open_recipe(recipe), "g.yaml")


def test_the_law_of_the_gap_holds_where_none_is_wanted() -> None:
    """Edges that stand 12 mm apart at the waist and lie 8 mm over one another at the bust: out by 12, in by 8, in all."""
    done = fitted(opened(JACKET), Notes(1, gap_mm={"bust": -8.0, "waist": 12.0}, keep="garment"))
    before, after = (
        {girth.name: 2.0 * (girth.block_mm - girth.takes_mm) for girth in one.girths}
        for one in (done.before, done.after)
    )
    assert after["waist"] - before["waist"] == pytest.approx(12.0, abs=0.1)
    assert after["bust"] - before["bust"] == pytest.approx(-8.0, abs=0.5)
    assert done.told[0].words == "gap of 15/32 in at the waist"
    assert done.told[1].words == "the edges lie 5/16 in over one another at the bust"


def test_what_a_garment_cannot_have_is_told_together() -> None:
    """Sentences of another garment that come in by file, each with why."""
    said = tuple(
        Said(BY_WORDS[words], 8.0) for words in ("the tabs curl out", "the bust is not lifted", "the straps fall")
    )
    with pytest.raises(GarmentError) as caught:
        fitted(opened(JACKET), Notes(1, said=said))
    rest = "Take the line out, or write down what you see in your own words: that is kept and changes nothing."
    assert set(str(caught.value).splitlines()) == {
        f"notes › the tabs curl out › this garment cannot show that: it has no tabs. {rest}",
        "notes › the bust is not lifted › this garment cannot show that: it is worn over stays, and they hold the bust. "
        f"{rest}",
    }
    with pytest.raises(GarmentError) as caught:
        fitted(opened(COLLAR), Notes(1, gap_mm={"top": 3.0}, pinches=(Pinch("side", "middle", 5.0),)))
    assert str(caught.value).splitlines()[0] == (
        "gap › this garment cannot show that: it is not cut to a body. Take it out, and keep to the sentences of its own sheet."
    )


def test_a_dial_that_is_not_there_becomes_spring() -> None:
    """By hand: 3 cm more all round over the two seams of a half that hang is 7.5 mm a seam."""
    skirted = opened("short-jacket-flared-skirts")
    flutes = Said(BY_WORDS["the skirts are tight over the hip"], 30.0)
    assert fitted(skirted, Notes(1, said=(flutes,))).told[0].changed[0].startswith("this garment: the dial “hip room”")


def test_advice_is_told_only_where_it_is_of_use() -> None:
    """Tabs and bones are spoken of where there are some."""
    folds = Said(BY_WORDS["folds across the back of the waist"], 10.0)
    assert "tabs" in fitted(opened(STAYS), Notes(1, said=(folds,))).told[0].advice
    assert fitted(opened(JACKET), Notes(1, said=(folds,))).told[0].advice == ""


def texts(pages: tuple[Drawing, ...]) -> list[str]:
    """Return all words on the pages."""
    return [item.text for page in pages for group in page.groups for item in group.items if isinstance(item, Words)]


@pytest.mark.parametrize("recipe", [STAYS, JACKET, "short-jacket-flared-skirts", BODIES, COLLAR])
@pytest.mark.parametrize("paper", [A4, LETTER], ids=["A4", "Letter"])
def test_the_sheet_asks_for_every_sentence(paper: Paper, recipe: str) -> None:
    """Two pages at most, every sentence that the garment may have and no other, nothing outside, nothing on one another."""
    questions = asked(recipe)
    pages = correction_sheet(paper, "a garment", questions)
    assert len(pages) <= 2
    told = " ".join(texts(pages))
    for sentence in questions.spoken:
        assert all(word in told for word in sentence.words.split())
    whole = set(texts(pages)) & set(BY_WORDS)
    assert whole <= {sentence.words for sentence in questions.spoken}
    assert len(whole) >= len(questions.spoken) - 4
    for page in pages:
        for group in page.groups:
            for item in group.items:
                x = [item.x] if isinstance(item, Words) else item.beziers[..., 0].ravel().tolist()
                y = [item.y] if isinstance(item, Words) else item.beziers[..., 1].ravel().tolist()
                assert 5.0 < min(x) <= max(x) < page.width_mm - 5.0
                assert 5.0 < min(y) <= max(y) < page.height_mm - 5.0
            boxed = sorted(
                (item.beziers[..., 0].min().round(1), -item.beziers[..., 1].max().round(1))
                for item in group.items
                if not isinstance(item, Words) and item.closed
            )
            for (left, high), (next_left, low) in pairwise(boxed):
                assert left != next_left or low - high > 6.0


@pytest.mark.parametrize("recipe", [STAYS, JACKET, COLLAR, "bodice-regency"])
def test_a_blank_file_reads_as_nothing_noted(recipe: str) -> None:
    """What one begins with is sound, and each of its lines is one a file may hold."""
    text = starter_notes(3, asked(recipe))
    assert read_notes(text, "n.yaml") == Notes(3)
    blank = text.replace("#gap", "gap").replace("#  top", "  top").replace("#  bust", "  bust")
    assert read_notes(blank, "n.yaml") == Notes(3)
    head, _, sentences = text.partition("notes:\n")
    used = f"{head}notes:\n{sentences.replace('#  - ', '  - ')}"
    said = {said.sentence.words for said in read_notes(used, "n.yaml").said}
    assert said == {sentence.words for sentence in asked(recipe).spoken}


def test_a_terminal_asks_the_same() -> None:
    """A collar is asked for its two measures of the neck and no gap; every answer is a line of the notes."""
    import click

    @click.command()
    def ask() -> None:
        click.echo(asked_notes(1, asked(COLLAR)), err=True)

    result = CliRunner().invoke(ask, input="body\n1\n8 mm\n\n")
    assert result.exception is None, result.output
    assert "Gap" not in result.output
    assert "bones" not in result.output
    notes = read_notes(result.output[result.output.index("fit: 1") :], "n.yaml")
    assert notes.said == (Said(BY_WORDS["the collar chokes"], 8.0),)
