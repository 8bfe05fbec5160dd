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
        said=(Said(BY_WORDS["digs under the arm in front"], 8.0), Said(BY_WORDS["gapes at the centre front"], 12.0)),
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
        "Did you mean “digs under the arm in front” or “digs behind the arm”?",
        "n.yaml:8:5: notes › 2 › got 120 mm for “gapes at the centre front”, needs up to 30 mm. "
        "It means what you pinch in all, both sides together.",
        "n.yaml:9:5: notes › 3 › there is no sentence “a word of mine”. "
        "Write one of the sentences of the correction sheet.",
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
