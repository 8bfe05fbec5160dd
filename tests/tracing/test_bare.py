"""Drawings that would do more than be one: refused, quickly, with the line they stand in."""

from __future__ import annotations

import time

import pytest
from tests.tracing.drawings import BLOCK, PAGE, svg

from fanblock.block.from_drawing import read_tracing
from fanblock.problems import RecipeError
from fanblock.tracing.bare import LARGEST_BYTES, plain_name, read_elements

ENTITIES = "".join(f'<!ENTITY l{n} "{f"&l{n - 1};" * 10}">' for n in range(1, 10))
LAUGHS = f'<!DOCTYPE svg [<!ENTITY l0 "lol">{ENTITIES}]>\n'
"""Each entity is ten of the one before it: a few hundred bytes that would become ten thousand million."""

OUTSIDE = '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]>\n'
OLD = '<?xml version="1.0"?>\n<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">\n'

TYPE = (
    "the drawing is refused: it has a document type (a line that begins with <!DOCTYPE), which may lead anywhere. "
    "Delete that line, or save it from the drawing program as plain SVG."
)
NO_READING = "the drawing is refused: it cannot be read as a drawing"
SAVE = "Save it from the drawing program as plain SVG."

REFUSED = {
    "a bomb of entities": (svg(BLOCK + "<text>&l9;</text>", before=LAUGHS), f"d.svg:1:1: {TYPE}"),
    "a file from elsewhere": (svg(BLOCK + "<text>&x;</text>", before=OUTSIDE), f"d.svg:1:1: {TYPE}"),
    "an old document type": (svg(BLOCK, before=OLD), f"d.svg:2:1: {TYPE}"),
    "groups without end": (
        svg("<g>" * 1_000_000),
        "d.svg:2:181: the drawing is refused: its groups lie more than 60 deep in one another. "
        "Keep the lines that are wanted, and delete the rest.",
    ),
    "too many elements": (
        svg("<g/>" * 200_000),
        "d.svg:2:200001: the drawing is refused: it has more than 50000 elements. "
        "Keep the lines that are wanted, and delete the rest.",
    ),
    "too large": (
        b"<svg>" + b" " * LARGEST_BYTES,
        f"d.svg:1:1: the drawing is refused: it is larger than 20 million bytes. {SAVE}",
    ),
    "a picture": (
        b"\x89PNG\r\n\x1a\n" + b"\0" * 99,
        f"d.svg:1:1: {NO_READING} (not well-formed (invalid token)). {SAVE}",
    ),
    "nothing": (b"", f"d.svg:1:1: {NO_READING} (no element found). {SAVE}"),
    "half a file": (svg(BLOCK)[:-9], f"d.svg:5:1: {NO_READING} (unclosed token). {SAVE}"),
    "a web page": (b"<html><body/></html>", f"d.svg:1:1: the drawing is refused: it is no SVG drawing. {SAVE}"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_no_drawing_is_refused_at_once(name: str) -> None:
    """Each is told with its line, in a second or two at the most."""
    data, says = REFUSED[name]
    begun = time.perf_counter()
    with pytest.raises(RecipeError) as caught:
        read_elements(data, "d.svg", RecipeError)
    assert str(caught.value) == says
    assert time.perf_counter() - begun < 5.0


def test_a_photograph_to_trace_over_may_lie_in_the_file() -> None:
    """Ten million characters of a picture do no harm and take no time."""
    begun = time.perf_counter()
    found = read_tracing(svg(f'<image href="data:{"A" * 10_000_000}"/>{BLOCK}'), "d.svg", "d.svg", RecipeError)
    assert found.waist.length_mm == pytest.approx(373.77, abs=0.01)
    assert time.perf_counter() - begun < 5.0


@pytest.mark.parametrize(
    "beside",
    [
        "<script>alert(1)</script>",
        "<style>* {transform: scale(2)}</style>",
        '<defs><path id="waist" d="M 0 0 L 1 1"/></defs>',
        '<symbol><g id="bust"><path d="M 0 0 L 1 1"/></g></symbol>',
        '<image href="file:///etc/hostname"/><use href="https://example.org/x.svg#y"/>',
        "<!-- <path id='waist'/> -->",
    ],
)
def test_what_is_not_drawn_is_not_looked_at(beside: str) -> None:
    """Scripts, styles, things kept for later and pictures change nothing."""
    plain = read_tracing(svg(BLOCK), "d.svg", "d.svg", RecipeError)
    assert read_tracing(svg(beside + BLOCK), "d.svg", "d.svg", RecipeError).digest == plain.digest


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
def test_a_drawing_may_be_written_in_any_letters(encoding: str) -> None:
    """What an editor saves as 16-bit text is read as well."""
    assert read_elements(svg(BLOCK).decode().encode(encoding), "d.svg", RecipeError).tag == "svg"


@pytest.mark.parametrize(
    ("typed", "plain"),
    [
        ("Center-Front", "center front"), ("centre_front", "center front"), ("CENTRE  BACK", "center back"),
        (" waist ", "waist"), ("waist2", "waist2"),
    ],
)  # fmt: skip
def test_names_are_compared_as_they_are_meant(typed: str, plain: str) -> None:
    """Capitals, hyphens, underscores and the other spelling make no difference."""
    assert plain_name(typed) == plain


def test_an_element_knows_its_place() -> None:
    """Line and column count from 1, as editors count them."""
    root = read_elements(svg(f"  {BLOCK}"), "d.svg", RecipeError)
    assert [(one.line, one.column) for one in root.children] == [(2, 3), (3, 1), (4, 1), (5, 1)]
    assert root.attributes["viewBox"] == PAGE.split('viewBox="')[1].rstrip('"')
