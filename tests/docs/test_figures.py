"""The pictures of the pages: every one is what its script draws today."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

import pytest
from tests.docs.pages import DOCS, PAGES, make, text_of

NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
POINT = 0.35
"""Most a coordinate may differ, in points of the picture: a third of a line's width."""

LARGEST_BYTES = 60_000
FIGURES = make().figure_names()


@pytest.mark.parametrize("name", FIGURES)
def test_a_picture_is_up_to_date(name: str) -> None:
    """Drawn anew, a picture has the same words and lines, and coordinates within a third of a line's width."""
    kept, drawn = text_of(DOCS / "figures" / f"{name}.svg"), make().drawn(name)
    assert NUMBER.sub("#", drawn) == NUMBER.sub("#", kept), "run: python docs/make.py"
    pairs = zip(NUMBER.findall(drawn), NUMBER.findall(kept), strict=True)
    assert max(abs(float(new) - float(old)) for new, old in pairs) <= POINT, "run: python docs/make.py"


@pytest.mark.parametrize("name", FIGURES)
def test_a_picture_is_plain_svg_of_fair_size_that_says_what_it_shows(name: str) -> None:
    """A picture is well-formed XML, holds nothing that runs, has a title and stays under 60 KB."""
    text = text_of(DOCS / "figures" / f"{name}.svg")
    root = ET.fromstring(text)
    assert len(text.encode()) <= LARGEST_BYTES
    kinds = {element.tag.rpartition("}")[2] for element in root.iter()}
    assert kinds <= {"svg", "title", "rect", "polygon", "polyline", "circle", "text"}
    title = root.find("{http://www.w3.org/2000/svg}title")
    assert title is not None
    assert title.text


def test_every_picture_has_a_script_and_a_page() -> None:
    """No picture is left over: each is drawn by a script and shown on some page."""
    drawn = {path.stem for path in (DOCS / "figures").glob("*.svg")}
    shown = {found for page in PAGES for found in re.findall(r"figures/([\w-]+)\.svg", text_of(page))}
    assert drawn == set(FIGURES)
    assert shown == drawn


def test_words_lie_within_their_pictures() -> None:
    """No line of words runs out of its picture (widths by the house's own font)."""
    from fanblock.sheet.font import width_mm

    for name in FIGURES:
        root = ET.fromstring(text_of(DOCS / "figures" / f"{name}.svg"))
        wide = float(root.get("width", "0"))
        for words in root.iter("{http://www.w3.org/2000/svg}text"):
            if words.get("transform"):
                continue
            x, size = float(words.get("x", "0")), float(words.get("font-size", "0"))
            length = width_mm(words.text or "", size, words.get("font-weight") == "bold")
            left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[words.get("text-anchor", "start")] * length
            assert left >= 4.0, (name, words.text)
            assert left + length <= wide - 4.0, (name, words.text)
