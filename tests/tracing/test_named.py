"""Which line of a drawing is meant by a name, and what is told when none is, or more than one."""

from __future__ import annotations

import pytest
from tests.tracing.drawings import BACK, BLOCK, BUST, FRONT, WAIST, svg

from fanblock.block.from_drawing import LINES
from fanblock.problems import RecipeError
from fanblock.tracing.named import named_lines

RUN = 'd="M 50 250 Q 230 200 420 240"'
LOST = "Give that line this name, as its id or its label."


def told(body: str) -> list[str]:
    """Return what is wrong with the names of a drawing."""
    with pytest.raises(RecipeError) as caught:
        named_lines(svg(body), "d.svg", LINES, RecipeError)
    return [str(problem) for problem in caught.value.problems]


@pytest.mark.parametrize(
    "waist",
    [
        f'<path id="waist" {RUN}/>',
        f'<path id="path7" inkscape:label="Waist" {RUN}/>',
        f'<path id="path7" {RUN}><title>waist</title></path>',
        f'<path id="block-waist" data-name="waist" {RUN}/>',
        f'<g inkscape:groupmode="layer" inkscape:label="WAIST"><path {RUN}/></g>',
        f'<g id="waist"><g><path id="waist" {RUN}/></g></g>',
    ],
)
def test_a_line_is_called_by_its_id_its_label_its_title_or_its_group(waist: str) -> None:
    """As vector editors keep names: they come to the same line."""
    found = named_lines(svg("\n".join((waist, BUST, FRONT, BACK))), "d.svg", LINES, RecipeError)
    assert found.by_name["waist"].curve.length_mm == pytest.approx(373.77, abs=0.01)
    assert (sorted(found.by_name), found.in_pixels) == (sorted(LINES), False)


@pytest.mark.parametrize("front", ["center-front", "Centre_Front", "CENTER FRONT", "centre front"])
def test_centres_are_spelt_as_one_likes(front: str) -> None:
    """Center or centre, with a blank, a hyphen or an underscore, in any letters."""
    body = BLOCK.replace('"center front"', f'"{front}"')
    assert named_lines(svg(body), "d.svg", LINES, RecipeError).by_name["center front"].place.line == 4


def test_a_name_that_no_line_has_is_told_where_it_may_be_meant() -> None:
    """A misspelt one by its own line; where none is near, with the names there are."""
    assert told(BLOCK.replace('"waist"', '"wiast"')) == [
        f"d.svg:2:1: no line is called “waist”. Did you mean “wiast”? {LOST}"
    ]
    assert told(BLOCK.replace('"waist"', '"path12"').replace('"bust"', '"q7"')) == [
        f"d.svg:1:1: no line is called “bust”. The lines there are: path12, q7. {LOST}",
        f"d.svg:1:1: no line is called “waist”. The lines there are: path12, q7. {LOST}",
    ]
    assert told("") == [f"d.svg:1:1: no line is called “{name}”. {LOST}" for name in sorted(LINES)]


def test_a_name_that_two_lines_have_is_told() -> None:
    """So is one line of two names, and a group of several lines."""
    assert told(BLOCK + '\n<path id="x" inkscape:label="Waist" d="M0 0L10 10"/>') == [
        "d.svg:6:1: a second line is called “waist”; the first stands in line 2. Give one of them another name."
    ]
    assert told("\n".join((WAIST.replace("/>", "><title>bust</title></path>"), FRONT, BACK))) == [
        "d.svg:2:1: one line is called “waist” and “bust”. Leave it one name."
    ]
    first = '<g id="waist"><path d="M0 0L9 9"/>'
    assert told(BLOCK.replace('id="waist"', "") + first + '<path d="M0 0L9 8"/></g>') == [
        f"d.svg:5:{len(BACK + first) + 1}: a second line is called “waist”; the first stands in line 5. Give one of them another name."
    ]


def test_thousands_of_other_lines_are_no_trouble() -> None:
    """Only so many names are compared."""
    others = "".join(f'<path id="a{number}" d="M0 0"/>' for number in range(20_000))
    assert told(others)[0].startswith(
        "d.svg:1:1: no line is called “bust”. The lines there are: a0, a1, a10, a100, a101, a102 …"
    )
