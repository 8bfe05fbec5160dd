"""Notes files: read whole, the blank one ready to use, or refused with everything that is wrong."""

from __future__ import annotations

import pytest

from fanblock.fitting.notes import Notes, Pinch, Said, WaistLine, read_notes
from fanblock.fitting.sentences import BY_WORDS
from fanblock.problems import GarmentError

TEXT = """\
fit: 1
draft: 2
units: cm
worn: on a stand
bones: eight, at the front and beside the eyelets
gap: {top: 7, bust: 6 cm, middle: 40 mm, waist: 3}
pinch:
  - {at: side, height: 50%, take: 1, half: left}
  - {at: side front, height: top edge, take: -5 mm}
line: {waist: 1 cm above string, where: center back}
keep: garment
notes:
  - digs under the arm in front
  - gapes at the centre front: 12 mm
  - she liked the colour
"""


def test_notes_are_read_whole() -> None:
    """Everything that stands in the file, in millimetres; free words are kept and change nothing."""
    assert read_notes(TEXT, "n.yaml") == Notes(
        draft=2,
        gap_mm={"top": 70.0, "bust": 60.0, "middle": 40.0, "waist": 30.0},
        pinches=(Pinch("side", "middle", 10.0, "left"), Pinch("side front", "top", -5.0)),
        lines=(WaistLine("center back", 10.0),),
        said=(
            Said(BY_WORDS["digs under the arm in front"], 8.0, usual=True),
            Said(BY_WORDS["gapes at the centre front"], 12.0),
        ),
        keep="garment",
        worn="on a stand",
        bones="eight, at the front and beside the eyelets",
        comments=("she liked the colour",),
    )


def test_everything_wrong_with_amounts_is_told_together() -> None:
    """Levels there are not, gaps of another body, lines that say nothing, sentences misspelt, amounts too large."""
    text = (
        "fit: 1\ndraft: 1\ngap: {tp: 7 cm, bust: 60 cm}\npinch: [{at: side, height: 70%, take: 10 cm}]\n"
        "line: {waist: 1 cm over string}\nnotes:\n  - digs under the arm in frnt\n"
        "  - gapes at the centre front: 12 cm\n  - a word of mine: 3 cm\n"
    )
    with pytest.raises(GarmentError) as caught:
        read_notes(text, "n.yaml")
    assert str(caught.value).splitlines() == [
        "n.yaml:3:6: gap › bust › got 600 mm, needs -50 to 400 mm. Measure again.",
        "n.yaml:3:6: gap › tp › there is no level “tp”. Did you mean “top”?",
        "n.yaml:4:8: pinch › 1 › height › there is no level “70%”. Legal here: bust, middle, top, waist.",
        "n.yaml:4:8: pinch › 1 › take › got 100 mm, needs -80 to 80 mm. Measure again.",
        "n.yaml:5:7: line › 1 › waist › got “1 cm over string”. "
        "Write it like `1 cm above string` or `5 mm below string`.",
        "n.yaml:7:5: notes › 1 › there is no sentence “digs under the arm in frnt”. "
        "Did you mean “digs under the arm in front” or “digs behind the arm”? To keep it as your own words, put it in "
        "quotation marks.",
        "n.yaml:8:5: notes › 2 › got 120 mm for “gapes at the centre front”, needs up to 30 mm. "
        "It means what you pinch in all, both sides together.",
        "n.yaml:9:5: notes › 3 › there is no sentence “a word of mine”. "
        "Write one of the sentences of the correction sheet. To keep it as your own words, put all of it in quotation marks.",
    ]


@pytest.mark.parametrize("text", ["garment: 1\n", "fit: 2\ndraft: 1\n", "fit: it\n"])
def test_what_holds_no_notes_is_told(text: str) -> None:
    """Another file in the place of notes."""
    with pytest.raises(
        GarmentError, match=r"does not say that it holds the notes of a fitting\. Begin it with `fit: 1`"
    ):
        read_notes(text, "n.yaml")


def test_a_level_may_be_called_by_the_garments_own_girth() -> None:
    """Short stays and high bodices are measured at other girths."""
    text = "fit: 1\ndraft: 1\nunits: cm\ngap: {top edge: 4, upper chest: 3, middle: 2, underbust: -1}\n"
    assert read_notes(text, "n.yaml").gap_mm == {"top": 40.0, "bust": 30.0, "middle": 20.0, "waist": -10.0}


def noted(*lines: str) -> Notes:
    """Return the notes that these lines make under `notes`."""
    return read_notes("fit: 1\ndraft: 1\nunits: in\nnotes:\n" + "".join(f"  - {line}\n" for line in lines), "n.yaml")


@pytest.mark.parametrize("line", ["The straps fall", "the straps fall.", "The  Straps fall!", "the straps fall"])
def test_capitals_and_full_stops_do_not_matter(line: str) -> None:
    """A sentence is the same sentence however it is begun and ended."""
    assert [said.sentence.words for said in noted(line).said] == ["the straps fall"]


def test_an_amount_may_stand_behind_a_capital() -> None:
    """The spelling of centre does not matter either."""
    (said,) = noted("Gapes at the Center Front: 3/4").said
    assert (said.sentence.words, said.mm) == ("gapes at the centre front", 19.05)


def test_a_missing_colon_is_told() -> None:
    """With the line as it should be, and how to keep the words as they are."""
    with pytest.raises(GarmentError) as caught:
        noted("gapes at the centre front 3/4 in")
    assert str(caught.value) == (
        "n.yaml:5:5: notes › 1 › a colon is missing before the amount in “gapes at the centre front 3/4 in”. Write "
        "`gapes at the centre front: 3/4 in`. To keep it as your own words, put it in quotation marks."
    )


def test_what_stands_in_quotation_marks_is_kept() -> None:
    """However like it is to a sentence, it changes nothing; one that is a sentence to the letter is one."""
    notes = noted('"gapes at the centre frnt"', '"gapes at the centre front 3/4 in"', '"slips down"')
    assert notes.comments == ("gapes at the centre frnt", "gapes at the centre front 3/4 in")
    assert [said.sentence.words for said in notes.said] == ["slips down"]


def test_amounts_are_told_in_the_units_of_the_file() -> None:
    """Inches to who writes inches."""
    with pytest.raises(GarmentError, match=r"got 1 1/2 in for “gapes at the centre front”, needs up to 1 3/16 in\."):
        noted("gapes at the centre front: 1 1/2")


def test_the_usual_amount_is_as_a_tape_shows_it() -> None:
    """8 mm are 5/16 in, on the sheet and on the cloth, and 8 mm to who measures in centimetres."""
    digs = BY_WORDS["digs under the arm in front"]
    assert (digs.usual_mm("in"), digs.usual_mm("cm")) == (7.9375, 8.0)
