"""Strips to prick eyelets by, read back from the printed page: every hole where the pattern has it."""

from __future__ import annotations

import io
import json
import re
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pikepdf
import pypdfium2
import pytest
from numpy.typing import NDArray
from tests.sheet.real import drafted

from fanblock.bundle import printed_on
from fanblock.pattern.model import Pattern
from fanblock.sheet.drawing import Drawing, Stroke, Words
from fanblock.sheet.eyeletstrips import strip_pages, strip_rows
from fanblock.sheet.ink import ink_points
from fanblock.sheet.json import pattern_json
from fanblock.sheet.layout import pieces_of
from fanblock.sheet.paper import A4, LETTER, Paper
from fanblock.sheet.papercheck import paper_findings
from fanblock.sheet.squares import SQUARE_NAME

MM = 72.0 / 25.4
"""Points of a PDF in a millimetre: 72 to the inch of 25.4 mm (ISO 32000)."""

NEAR_MM = 0.05
"""Most that a printed distance may differ from the pattern's: a tenth of what a pencil's line is wide."""

PAPER = pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
LACED = pytest.mark.parametrize(
    ("wearer", "recipe"),
    [
        ("ferrywoman", "stays-five-panels"),
        ("innkeeper", "stays-five-panels"),
        ("innkeeper", "stays-front-lacing"),
        ("innkeeper", "kirtle-bodice-side-lacing"),
    ],
)


def drawn(wearer: str, recipe: str, paper: Paper) -> bytes:
    """Return the printed pattern as a PDF file."""
    pattern = drafted(wearer, recipe)
    return printed_on(pattern, paper, pieces_of(pattern))[0].pdf()


def strip_page_numbers(data: bytes) -> list[int]:
    """Return which pages of a file hold strips, by their heading."""
    file = pypdfium2.PdfDocument(data)
    texts = [page.get_textpage().get_text_range() for page in file]
    return [number for number, text in enumerate(texts) if "Strips to prick the eyelets by" in text]


def rings(data: bytes, page: int) -> Iterator[tuple[float, float]]:
    """Yield the middles of the circles on a page, in millimetres from its lower left corner, as its operators draw them."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        matrix, stack, points, curves = np.eye(3), [], [], 0
        for one in pikepdf.parse_content_stream(pdf.pages[page]):
            name = str(one.operator)
            if name == "q":
                stack.append(matrix)
            elif name == "Q":
                matrix = stack.pop()
            elif name == "cm":
                a, b, c, d, e, f = (float(value) for value in one.operands)
                matrix = np.array([[a, b, 0.0], [c, d, 0.0], [e, f, 1.0]]) @ matrix
            elif name == "m":
                points, curves = [[float(value) for value in one.operands]], 0
            elif name == "c":
                points.append([float(value) for value in one.operands][4:])
                curves += 1
            elif name in {"s", "S", "h"} and curves == 4 and len(points) == 5:
                middle = np.append(0.5 * (np.min(points, axis=0) + np.max(points, axis=0)), 1.0) @ matrix
                yield float(middle[0] / MM), float(middle[1] / MM)
                points, curves = [], 0


def columns(data: bytes) -> list[NDArray[np.float64]]:
    """Return the heights of the holes of every piece of strip, from the top down, piece by piece as they stand."""
    found = []
    for page in strip_page_numbers(data):
        by_x: dict[float, list[float]] = {}
        for x, y in rings(data, page):
            by_x.setdefault(round(x, 2), []).append(y)
        found += [-np.sort(-np.array(by_x[x])) for x in sorted(by_x)]
    return found


@PAPER
@LACED
def test_printed_distances_are_those_of_the_file_for_programs(wearer: str, recipe: str, paper: Paper) -> None:
    """Hole to hole on every piece, read from the page's own operators, against `pattern.json`; none is missing."""
    told = json.loads(pattern_json(drafted(wearer, recipe)))["lists"]["lacings"]
    rows = [np.diff(lacing[row]) for lacing in told for row in ("left", "right")]
    pieces = columns(drawn(wearer, recipe, paper))
    assert sum(len(piece) for piece in pieces) == sum(len(row) + 1 for row in rows)
    for piece in pieces:
        steps = -np.diff(piece)
        fits = [
            np.abs(row[at : at + len(steps)] - steps).max(initial=0.0)
            for row in rows
            for at in range(len(row) - len(steps) + 1)
        ]
        assert min(fits) <= NEAR_MM


def by_name(page: Drawing, name: str) -> list[Stroke]:
    """Return the strokes of a page that are called so, or by a number behind it."""
    wanted = re.compile(rf"{name}( \d+)?")
    return [
        item
        for group in page.groups
        for item in group.items
        if isinstance(item, Stroke) and wanted.fullmatch(item.name)
    ]


@PAPER
@LACED
def test_the_first_hole_is_as_far_from_the_top_as_in_the_pattern(wearer: str, recipe: str, paper: Paper) -> None:
    """From the top line of a strip to its first hole, and from its thick side to every hole."""
    pattern = drafted(wearer, recipe)
    firsts = {round(row.down_mm[0], 3) for row in strip_rows(pattern)}
    inset = pattern.lacings[0].from_edge_mm
    for page in strip_pages(pattern, paper):
        sides = [edge.beziers.reshape(-1, 2) for edge in by_name(page, "strip edge")]
        for hole in by_name(page, "hole"):
            ends = hole.beziers.reshape(-1, 2)
            x, y = 0.5 * (ends.min(axis=0) + ends.max(axis=0))
            assert min(abs(abs(x - side[0, 0]) - inset) for side in sides) <= NEAR_MM
            if hole.name == "hole 1":
                downs = {round(float(side[:, 1].max()) - float(y), 3) for side in sides}
                assert downs & firsts


def test_a_strip_that_is_too_long_goes_on_after_its_join() -> None:
    """What the first piece holds above its join and the next below it makes the whole row: no hole lies by the join."""
    pattern = drafted("ferrywoman", "stays-five-panels")
    (page,) = strip_pages(pattern, A4)
    texts = [item.text for group in page.groups for item in group.items if isinstance(item, Words)]
    assert texts.count("LEFT half: join 1") == 2
    assert texts.count("RIGHT half: join 1") == 2
    left, right, left_more, right_more = sorted(by_name(page, "strip edge"), key=lambda edge: edge.beziers[0, 0, 0])
    joins = dict(zip((left, right), _joins(page), strict=True))
    for first, more, row in ((left, left_more, 0), (right, right_more, 1)):
        above, below = _holes(page, first), _holes(page, more)
        over = float(above.min() - joins[first]) + float(more.beziers[..., 1].max() - below.max())
        down = strip_rows(pattern)[row].down_mm
        assert len(above) + len(below) == len(down)
        assert over == pytest.approx(down[len(above)] - down[len(above) - 1], abs=NEAR_MM)
        assert float(above.min() - joins[first]) > 3.0


def _joins(page: Drawing) -> list[float]:
    """Return how high the lines of the joins stand, from left to right."""
    lines = sorted((line.beziers.reshape(-1, 2) for line in by_name(page, "join")), key=lambda line: line[:, 0].min())
    return [float(line[0, 1]) for line in lines]


def _holes(page: Drawing, edge: Stroke) -> NDArray[np.float64]:
    """Return how high the holes of the strip at an edge stand: they are as far from it as from the lacing edge."""
    inset = drafted("ferrywoman", "stays-five-panels").lacings[0].from_edge_mm
    rings_ = [ring.beziers.reshape(-1, 2) for ring in by_name(page, "hole")]
    middles = np.array([0.5 * (ring.min(axis=0) + ring.max(axis=0)) for ring in rings_])
    found: NDArray[np.float64] = middles[np.abs(np.abs(middles[:, 0] - edge.beziers[0, 0, 0]) - inset) < NEAR_MM][:, 1]
    return found


def test_each_half_has_the_strip_of_its_own_row() -> None:
    """In a spiral the rows differ; the lacing edge of the left half is at the right behind and at the left in front."""
    behind = strip_rows(drafted("innkeeper", "stays-five-panels"))
    assert [(row.name, row.backward) for row in behind] == [("LEFT half", True), ("RIGHT half", False)]
    assert behind[0].down_mm != behind[1].down_mm
    before = strip_rows(drafted("innkeeper", "stays-front-lacing"))
    assert [(row.name, row.backward) for row in before] == [("LEFT half", False), ("RIGHT half", True)]
    beside = strip_rows(drafted("innkeeper", "kirtle-bodice-side-lacing"))
    assert [(row.name, row.backward) for row in beside] == [("front", True), ("back", False)]


@PAPER
@LACED
def test_strips_keep_to_the_paper_and_to_themselves(wearer: str, recipe: str, paper: Paper) -> None:
    """Every page has its test square; no ink in the margins; strips lie neither over each other nor over the square."""
    for page in strip_pages(drafted(wearer, recipe), paper):
        assert [group.name for group in page.groups].count(SQUARE_NAME) == 1
        ink = ink_points(page.groups)
        margin = paper.margin_mm
        assert (ink >= margin).all()
        assert (ink <= (paper.width_mm - margin, paper.height_mm - margin)).all()
        boxes = [stroke.beziers.reshape(-1, 2) for stroke in by_name(page, "strip")]
        square = next(group for group in page.groups if group.name == SQUARE_NAME)
        boxes.append(np.vstack([item.beziers.reshape(-1, 2) for item in square.items if isinstance(item, Stroke)]))
        spans = [(box.min(axis=0), box.max(axis=0)) for box in boxes]
        for at, (low, high) in enumerate(spans):
            for other_low, other_high in spans[at + 1 :]:
                assert (low >= other_high).any() or (high <= other_low).any()


def test_every_hole_says_how_far_down_it_is() -> None:
    """As the list beside it says, in the maker's units."""
    pattern = drafted("ferrywoman", "stays-five-panels")
    texts = {
        item.text
        for page in strip_pages(pattern, A4)
        for group in page.groups
        for item in group.items
        if isinstance(item, Words)
    }
    assert {"1 · 3/8 in", "12 · 10 11/16 in"} <= texts


def test_a_garment_that_is_not_laced_has_no_strips() -> None:
    """Nor has one whose eyelets nobody planned."""
    assert strip_pages(drafted("innkeeper", "jacket-pleated-skirts"), A4) == ()


@PAPER
def test_the_papers_of_a_laced_garment_hold(paper: Paper) -> None:
    """The check of paper sees the strips' pages too: to measure on each, nothing in the margins."""
    pattern: Pattern = drafted("ferrywoman", "stays-five-panels")
    laid, _ = printed_on(replace(pattern), paper, pieces_of(pattern))
    assert {finding.state for finding in paper_findings(paper, laid.drawing, laid.pages)} == {"holds"}
