"""SVG: true to scale as other libraries read it, named so that a person finds the pieces, safe with any
text."""

from __future__ import annotations

import io
import re

import numpy as np
import pytest
import svgelements
from defusedxml import ElementTree
from tests.sheet.paper_samples import sheet

from fanblock.geometry.bezier import polyline
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.squares import square_at
from fanblock.sheet.svg import write_svg
from fanblock.tolerances import READ_BACK_MM

SVG = "{http://www.w3.org/2000/svg}"
PX_PER_MM = 96.0 / 25.4


def read(text: str) -> svgelements.SVG:
    """The drawing as svgelements sees it, in CSS pixels of 1/96 in."""
    return svgelements.SVG.parse(io.StringIO(text), ppi=96)


@pytest.mark.parametrize(
    ("name", "wide_mm", "high_mm"), [("100 mm", 100.0, 100.0), ("4 in", 101.6, 0.0), ("4 in upright", 0.0, 101.6)]
)
def test_the_test_square_reads_back_true(name: str, wide_mm: float, high_mm: float) -> None:
    """svgelements finds the square and both bars as large as they say, within 0.01 mm."""
    drawing = Drawing("square", 200.0, 150.0, (square_at(20.0, 30.0),))
    found = read(write_svg(drawing)).select(lambda e: isinstance(e, svgelements.Path))
    box = next(part for part in found if part.values.get("data-name") == name).bbox(with_stroke=False)
    assert (box[2] - box[0]) / PX_PER_MM == pytest.approx(wide_mm, abs=READ_BACK_MM)
    assert (box[3] - box[1]) / PX_PER_MM == pytest.approx(high_mm, abs=READ_BACK_MM)
    if wide_mm:
        assert box[0] / PX_PER_MM == pytest.approx(20.0, abs=READ_BACK_MM)
    if high_mm:
        assert box[3] / PX_PER_MM == pytest.approx(150.0 - 30.0, abs=READ_BACK_MM)


def test_the_sheet_has_its_size_in_millimetres() -> None:
    """Width, height and view box are the drawing's own, in millimetres."""
    root = ElementTree.fromstring(write_svg(sheet()))
    assert (root.get("width"), root.get("height")) == ("620.0000mm", "480.0000mm")
    assert root.get("viewBox") == "0 0 620.0000 480.0000"


def test_curves_read_back_as_they_were_drawn() -> None:
    """Every point svgelements finds along a curve lies where the Béziers put it, turned to y down."""
    stroke = sheet().groups[0].items[0]
    assert isinstance(stroke, Stroke)
    drawing = Drawing("one", 620.0, 480.0, (Group("g", (stroke,)),))
    (path,) = read(write_svg(drawing)).select(lambda e: isinstance(e, svgelements.Path))
    ends = [segment.end for segment in path if not isinstance(segment, svgelements.Move)]
    wanted = stroke.beziers[:, 3] * (1.0, -1.0) + (0.0, 480.0)
    assert np.array([(end.x, end.y) for end in ends]) / PX_PER_MM == pytest.approx(wanted, abs=READ_BACK_MM)


def test_groups_and_edges_carry_names() -> None:
    """One group a piece with its name as title; named lines are found by id; ids never repeat."""
    root = ElementTree.fromstring(write_svg(sheet()))
    groups = root.findall(f"{SVG}g")
    assert [group.get("data-name") for group in groups] == ["1 · front", "2 · side", "long line", "3 · back"]
    assert [group.get("id") for group in groups] == ["n1-front", "n2-side", "long-line", "n3-back"]
    assert groups[0].find(f"{SVG}title").text == "1 · front"
    assert groups[0].find(f"{SVG}path").get("id") == "n1-front-cut-line"
    ids = [one.get("id") for one in root.iter() if one.get("id")]
    assert len(ids) == len(set(ids))


def test_numbers_are_fixed() -> None:
    """No exponent, no minus zero, four decimals in every path."""
    tiny = Stroke(polyline([(0.000001, 0.0), (-0.000001, 10.0), (123456.789, 5.0)]), "cut")
    text = write_svg(Drawing("n", 10.0, 10.0, (Group("g", (tiny,)),)))
    (data,) = re.findall(r' d="([^"]*)"', text)
    assert data == "M 0.0000 10.0000 L 0.0000 0.0000 L 123456.7890 5.0000"


HOSTILE = "</text><script>alert(1)</script> & \"' ]]> \x00\u202e <!ENTITY x>"


def test_hostile_text_stays_text() -> None:
    """Markup in titles, names and words comes back as the characters it is made of; a strict parser takes
    the file."""
    words = Words(HOSTILE, 5.0, 5.0, 3.0)
    stroke = Stroke(polyline([(0, 0), (1, 1)]), "cut", HOSTILE)
    text = write_svg(Drawing(HOSTILE, 50.0, 50.0, (Group(HOSTILE, (words, stroke)),)), embed_font=True)
    root = ElementTree.fromstring(text, forbid_dtd=True)
    said = "</text><script>alert(1)</script> & \"' ]]> <!ENTITY x>"
    assert root.find(f"{SVG}title").text == said
    group = root.find(f"{SVG}g")
    assert group.get("data-name") == said
    assert group.find(f"{SVG}text").text == said
    assert not [one for one in root.iter() if one.tag.endswith("script")]


def test_words_stand_and_turn_as_drawn() -> None:
    """Anchor, size, weight and turn are kept; a turn against the clock is negative where y points down."""
    words = Words("WL", 10.0, 20.0, 3.5, "middle", 90.0, bold=True)
    root = ElementTree.fromstring(write_svg(Drawing("w", 50.0, 50.0, (Group("g", (words,)),))))
    text = root.find(f"{SVG}g/{SVG}text")
    assert text.get("transform") == "rotate(-90.0000 10.0000 30.0000)"
    assert (text.get("text-anchor"), text.get("font-size"), text.get("font-weight")) == (
        "middle",
        "3.5000",
        "bold",
    )
    assert text.get("font-family").split(", ")[0] == "Source Sans 3"


def test_the_same_drawing_gives_the_same_bytes() -> None:
    """Two runs write the same file, with and without the font in it; with it the file is larger."""
    drawing = sheet()
    assert write_svg(drawing) == write_svg(sheet())
    assert write_svg(drawing, embed_font=True) == write_svg(sheet(), embed_font=True)
    assert "data:font/ttf;base64," in write_svg(drawing, embed_font=True)
    assert "data:" not in write_svg(drawing).replace("data-name", "")
