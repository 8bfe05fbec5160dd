"""The font: widths as other libraries read them from the same outlines, and subsets that hold what was
asked for."""

from __future__ import annotations

import io

import pytest
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

from fanblock.sheet.font import fitted, font_file, subset_of, width_mm


@pytest.mark.parametrize(("bold", "weight"), [(False, 400), (True, 700)])
def test_widths_are_those_of_the_font(bold: bool, weight: int) -> None:
    """Letters that do not kern are as wide as fontTools finds them in the same font at the same weight."""
    face = TTFont(font_file())
    fewer = Subsetter(Options(layout_features=[]))
    fewer.populate(text="HINO")
    fewer.subset(face)
    face = instantiateVariableFont(face, {"wght": weight})
    names, advances = face.getBestCmap(), face["hmtx"]
    wanted = sum(advances[names[ord(letter)]][0] for letter in "HIHNOH") / face["head"].unitsPerEm * 10.0
    assert width_mm("HIHNOH", 10.0, bold) == pytest.approx(wanted, abs=0.01)


def test_letters_that_overhang_stand_closer() -> None:
    """Kerning counts: A beside V takes less room than both alone, as in any printed book."""
    assert width_mm("AV", 10.0) < width_mm("A", 10.0) + width_mm("V", 10.0)


def test_a_subset_holds_its_letters_and_little_else() -> None:
    """fontTools finds exactly the letters asked for; those the font lacks are left out and drawn as its
    empty box."""
    face = subset_of(["Waist ½", "✂"])
    read = TTFont(io.BytesIO(face.data))
    assert set(read.getBestCmap()) == {ord(letter) for letter in "Waist ½"}
    assert len(face.data) < 6000
    assert [glyph.number for glyph in face.shaped("✂")] == [0]


def test_a_subset_sets_words_as_the_whole_font_does() -> None:
    """Words are as wide by a subset, which goes into files, as by the whole font, which they were measured
    by."""
    text = "Two pairs AV To, 3 × 4"
    width = sum(glyph.advance for glyph in subset_of([text]).shaped(text)) * 5.0 / 1000.0
    assert width == pytest.approx(width_mm(text, 5.0), abs=0.0001)


def test_the_same_letters_give_the_same_bytes() -> None:
    """A subset does not depend on the order or number of the texts."""
    assert subset_of(["ab", "c"]).data == subset_of(["cba", "bc"]).data


def test_words_too_long_end_in_an_ellipsis() -> None:
    """What does not fit is cut short with an ellipsis, and then fits; what fits is left alone."""
    short = fitted("Pair of stays for the ferrywoman", 3.0, 20.0)
    assert short.endswith("…")
    assert width_mm(short, 3.0) <= 20.0
    assert fitted("stays", 3.0, 20.0) == "stays"
    assert width_mm("", 3.0) == 0.0


@pytest.mark.parametrize("text", ["", " ", "\t\n", "\u200b"])
def test_blank_text_has_no_width(text: str) -> None:
    """Text without a letter to show is no wider than nothing, and has nothing to shorten."""
    assert width_mm(text, 3.0) == 0.0
    assert fitted(text, 3.0, 0.0) == ""
