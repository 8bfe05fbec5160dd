"""Lines of a drawing at true scale: units, pages, transformations, and every kind of stroke."""

from __future__ import annotations

import math

import mpmath
import numpy as np
import pytest
from shapely import LineString, affinity
from tests.tracing.drawings import svg

from fanblock.geometry.curve import Curve
from fanblock.problems import RecipeError
from fanblock.tracing.named import named_lines

ZIGZAG = [(10.0, 20.0), (110.0, 20.0), (150.0, 90.0)]
D = "M 10 20 L 110 20 L 150 90"


def line(body: str, page: str = 'width="400mm" height="300mm" viewBox="0 0 400 300"') -> Curve:
    """Return the line called x of a drawing."""
    return named_lines(svg(body, page), "d.svg", ("x",), RecipeError).by_name["x"].curve


def told(body: str, page: str = 'width="400mm" height="300mm" viewBox="0 0 400 300"') -> str:
    """Return what is wrong with it."""
    with pytest.raises(RecipeError) as caught:
        line(body, page)
    return str(caught.value)


@pytest.mark.parametrize(
    ("unit", "mm"),
    [
        ("mm", 1.0),
        ("cm", 10.0),
        ("in", 25.4),
        ("pt", 25.4 / 72.0),
        ("pc", 25.4 / 6.0),
        ("px", 25.4 / 96.0),
        ("", 25.4 / 96.0),
    ],
)
def test_a_page_of_any_unit_is_true(unit: str, mm: float) -> None:
    """1 in is 2.54 cm, 72 pt, 6 pc and 96 px (W3C, CSS Values and Units 3, absolute lengths)."""
    found = line(f'<path id="x" d="{D}"/>', f'width="40{unit}" height="30{unit}" viewBox="0 0 400 300"')
    assert found.length_mm == pytest.approx((100.0 + math.hypot(40.0, 70.0)) * mm / 10.0, rel=1e-9)


def test_a_page_without_a_view_box_counts_in_pixels() -> None:
    """Then one unit is one pixel, 96 to the inch, whatever the page is measured in (W3C, SVG 1.1, 7.2)."""
    found = line('<line id="x" x1="0" y1="0" x2="96" y2="0"/>', 'width="200mm" height="200mm"')
    assert found.length_mm == pytest.approx(25.4)


def test_a_page_keeps_its_shape_unless_told_otherwise() -> None:
    """A view box of another shape is fitted in whole (xMidYMid meet), or stretched when the drawing says so."""
    page = 'width="400mm" height="300mm" viewBox="0 0 100 100"'
    across, up = '<path id="x" d="M 0 0 H 100"/>', '<path id="x" d="M 0 0 V 100"/>'
    assert [line(body, page).length_mm for body in (across, up)] == pytest.approx([300.0, 300.0])
    stretched = f'{page} preserveAspectRatio="none"'
    assert [line(body, stretched).length_mm for body in (across, up)] == pytest.approx([400.0, 300.0])


def test_y_runs_up() -> None:
    """What is lower on the page has the smaller y."""
    found = line('<path id="x" d="M 10 20 L 10 50"/>')
    assert found.end[1] - found.start[1] == pytest.approx(-30.0)


@pytest.mark.parametrize(
    ("outer", "inner", "matrix"),
    [
        ("translate(5 -7)", "", lambda run: affinity.translate(run, 5.0, -7.0)),
        ("", "rotate(30)", lambda run: affinity.rotate(run, 30.0, origin=(0, 0))),
        ("rotate(-20 100 50)", "", lambda run: affinity.rotate(run, -20.0, origin=(100, 50))),
        ("scale(1.5 .5)", "", lambda run: affinity.scale(run, 1.5, 0.5, origin=(0, 0))),
        ("", "skewX(15)", lambda run: affinity.skew(run, 15.0, 0.0, origin=(0, 0))),
        ("matrix(-1 0 0 1 300 0)", "", lambda run: affinity.affine_transform(run, [-1, 0, 0, 1, 300, 0])),
        ("translate(30) scale(2)", "rotate(90)",
         lambda run: affinity.translate(affinity.scale(affinity.rotate(run, 90.0, origin=(0, 0)), 2, 2, origin=(0, 0)), 30.0)),
    ],
)  # fmt: skip
def test_transformations_are_followed_through_all_groups(outer, inner, matrix) -> None:  # type: ignore[no-untyped-def]
    """The corners of a line lie where shapely puts them (its y runs down as the drawing's does)."""
    found = line(f'<g transform="{outer}"><a><g transform="{inner}"><path id="x" d="{D}"/></g></a></g>')
    due = np.array(matrix(LineString(ZIGZAG)).coords) * (1.0, -1.0)
    np.testing.assert_allclose([found.start, found.end], due[[0, -1]], atol=1e-6)
    assert np.hypot(*(found.points - due[1]).T).min() < 1e-6


def test_a_drawing_within_a_drawing_has_a_page_of_its_own() -> None:
    """Half a page wide, its hundred units are 200 mm."""
    inner = '<svg x="100" y="0" width="50%" height="200" viewBox="0 0 100 100"><path id="x" d="M 0 0 H 100"/></svg>'
    found = line(inner)
    assert (found.length_mm, found.start[0]) == pytest.approx((200.0, 100.0))


def quadratic_mm() -> float:
    """Length of the parabola from (0, 0) by (100, 0) to (100, 100), by quadrature: 100 · 2∫√((1−t)² + t²) dt."""
    return float(200.0 * mpmath.quad(lambda t: mpmath.sqrt((1 - t) ** 2 + t**2), [0, 1]))


@pytest.mark.parametrize(
    ("body", "mm"),
    [
        ('<line id="x" x1="0" y1="0" x2="30" y2="40"/>', 50.0),
        ('<polyline id="x" points="0,0 30,40 30,50"/>', 60.0),
        ('<path id="x" d="m 0 0 h 30 v 40 l -30 0"/>', 100.0),
        ('<path id="x" d="M 0 0 A 100 100 0 0 1 100 100"/>', 50.0 * math.pi),
        ('<path id="x" d="M0 0 a 50 50 0 1 0 100 0"/>', 50.0 * math.pi),
        ('<path id="x" d="M 0 0 Q 100 0 100 100"/>', quadratic_mm()),
        ('<path id="x" d="M 0 0 C 10 0 20 0 30 0 S 50 0 60 0"/>', 60.0),
        ('<path id="x" d="M 0 0 Q 10 0 20 0 T 40 0"/>', 40.0),
    ],
)
def test_every_kind_of_stroke_has_its_length(body: str, mm: float) -> None:
    """Straight lines, circles (πr), parabolas by quadrature: within a hundredth of a millimetre."""
    assert line(body).length_mm == pytest.approx(mm, abs=0.01)


@pytest.mark.parametrize(
    ("body", "says"),
    [
        ('<path id="x" d="M 0 0 L 9 9 L 0 9 Z"/>', "is closed: its end is joined to its beginning. Open it: a line of a block "
         "has two ends."),
        ('<path id="x" d="M 0 0 L 9 9 M 20 0 L 29 9 M 40 0 L 49 9"/>', "lies in 3 pieces. Join them to one line."),
        ('<rect id="x" width="10" height="10"/>', "is a closed shape. Draw it as a line with two ends."),
        ('<use id="x" href="#y"/>', "is a clone of another. Draw it as a line with two ends."),
        ('<path id="x" d="M 5 5"/>', "has no length. Draw it from corner to corner."),
        ('<path id="x"/>', "has no length. Draw it from corner to corner."),
        ('<path id="x" d="M 0 0 L 0 0"/>', "has no length. Draw it from corner to corner."),
        ('<path id="x" d="M 0 0 L 1e999 0"/>', "is longer than 20 m. Look at the size of the drawing."),
        ('<path id="x" d="M 0 0 Q 1e9 0 5 5"/>', "is longer than 20 m. Look at the size of the drawing."),
        ('<path id="x" d="M 0 0 A 1 q 8"/>', "cannot be read. Save it from the drawing program as plain SVG."),
        (f'<path id="x" d="M 0 0{" L 1 1" * 40_000}"/>', "has more than 200000 characters. Draw it with fewer points."),
        ('<path id="x" style="fill:none;transform: scale(2)" d="M 0 0 L 9 9"/>', "is moved by a style. Save it from the "
         "drawing program as plain SVG."),
    ],
)  # fmt: skip
def test_what_is_no_open_line_is_told(body: str, says: str) -> None:
    """Each with the line of the file it stands in."""
    assert told(body) == f"d.svg:2:1: the line “x” {says}"


@pytest.mark.parametrize("page", ['viewBox="0 0 400 300"', 'width="100%" height="100%"', 'width="40em" height="3mm"'])
def test_a_drawing_that_does_not_say_how_large_it_is_is_refused(page: str) -> None:
    """Pixels can be read as 96 to the inch; a share of somebody's window cannot be read at all."""
    assert told(f'<path id="x" d="{D}"/>', page) == (
        "d.svg:1:1: the drawing does not say how large it is, so nobody can tell how long its lines are. "
        "Give the page a width and a height in mm, cm or in, and save it again."
    )
