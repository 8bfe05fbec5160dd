"""Pages to read: the cover, the block's sheet, the guide for drawing by hand, the form for measuring."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
import shapely
from defusedxml import ElementTree
from tests.sheet.real import drafted, shipped
from tests.sheet.sample import sample

from fanblock.sheet.blocksheet import block_sheet
from fanblock.sheet.cover import cover
from fanblock.sheet.drawing import Drawing, Stroke, Words
from fanblock.sheet.guidepages import guide_html, guide_pages
from fanblock.sheet.ink import ink_points, words_corners
from fanblock.sheet.layout import tiled_layout
from fanblock.sheet.measureform import FIRST, measure_form
from fanblock.sheet.paper import A4, LETTER, Paper
from fanblock.sheet.papercheck import paper_findings
from fanblock.sheet.pdf import tiled_sheets
from fanblock.sheet.sewing import joining
from fanblock.sheet.sewingpictures import steps_of
from fanblock.sheet.squares import SQUARE_NAME
from fanblock.sheet.tiles import below_header
from fanblock.wearer.measures import MEASURES

PATTERNS = {"sample": sample(), **shipped()}
PAPER = pytest.mark.parametrize("paper", [A4, LETTER], ids=["a4", "letter"])


def words(drawing: Drawing) -> list[Words]:
    """The texts of a drawing."""
    return [item for group in drawing.groups for item in group.items if isinstance(item, Words)]


def said(drawings: Sequence[Drawing]) -> str:
    """All texts of some pages in one."""
    return " ".join(item.text for drawing in drawings for item in words(drawing))


def assert_printable(drawings: Sequence[Drawing], paper: Paper) -> None:
    """All ink lies within what a home printer reaches, and no two texts lie over one another."""
    area = below_header(paper)
    for drawing in drawings:
        points = ink_points(drawing.groups)
        assert points[:, 0].min() > area.left - 0.3
        assert points[:, 0].max() < area.right + 0.3
        assert points[:, 1].min() > area.bottom - 0.3
        assert points[:, 1].max() < area.top + 0.3
        boxes = [(item.text, shapely.Polygon(words_corners(item))) for item in words(drawing)]
        for index, (text, box) in enumerate(boxes):
            for other, beside in boxes[index + 1 :]:
                assert box.intersection(beside).area < 0.5, (text, other)


@PAPER
@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_cover_is_printable(name: str, paper: Paper) -> None:
    """The cover keeps within the printable part, each of its pages with clear marks to measure it by: the first a test
    square, strips to prick by another, the rest two pairs of bars.
    """
    pattern = PATTERNS[name]
    drawing, plan = tiled_layout(pattern, paper)
    pages = cover(pattern, paper, drawing, plan)
    text_only = [
        Drawing(page.title, page.width_mm, page.height_mm, tuple(g for g in page.groups if g.name != "page map"))
        for page in pages
    ]
    assert_printable(text_only, paper)
    assert [group.name for group in pages[0].groups].count(SQUARE_NAME) == 1
    for page in pages:
        measured = [group for group in page.groups if group.name == SQUARE_NAME]
        assert len(measured) in (1, 2)
        sizes = np.array([np.ptp(ink_points([group]), axis=0) for group in measured]).max(axis=0)
        assert (sizes > 4 * 25.4 - 0.5).all()
        others = [group for group in page.groups if group.name not in (SQUARE_NAME, "page map")]
        for group in measured:
            ground = shapely.MultiPoint(ink_points([group])).envelope
            for item in (item for group in others for item in group.items if isinstance(item, Words)):
                assert not ground.intersects(shapely.Polygon(words_corners(item))), item.text


@PAPER
def test_pages_to_read_are_few_and_their_check_of_scale_holds(paper: Paper) -> None:
    """Stays of five panels take six sheets to read at most, and every page carries 100 mm and 4 in both ways."""
    pattern = PATTERNS["ferrywoman stays-five-panels"]
    drawing, plan = tiled_layout(pattern, paper)
    first = cover(pattern, paper, drawing, plan)
    assert len(first) <= 6
    laid = tiled_sheets(drawing, paper, ("stays",), first, plan)
    found = {
        one.code.removeprefix(f"paper-{paper.name.lower()}-"): one
        for one in paper_findings(paper, laid.drawing, laid.pages)
    }
    assert all(one.state == "holds" for one in found.values()), found


@PAPER
@pytest.mark.parametrize("recipe", ["stays-five-panels", "jacket-pleated-skirts", "gown-bodice-open-front"])
def test_the_sewing_order_stands_in_pictures_numbered_as_its_sentences(recipe: str, paper: Paper) -> None:
    """Every picture is on a page, under the sentences, with the number of the one that tells of its seam."""
    pattern = drafted("ferrywoman", recipe)
    drawing, plan = tiled_layout(pattern, paper)
    pages = cover(pattern, paper, drawing, plan)
    frames = [
        item for page in pages for group in page.groups for item in group.items if getattr(item, "name", "") == "frame"
    ]
    steps = steps_of(pattern)
    assert len(frames) == len(steps)
    texts = [item.text for page in pages for item in words(page)]
    heads = [text for text in texts if re.fullmatch(r"\d+\. (?:whip|sew) (\w+) to \1", text)]
    lines = joining(pattern)
    assert len(heads) == len(steps)
    for head, step in zip(heads, steps, strict=True):
        number, _, letters = head.partition(". ")
        assert f"{step.letter} to {step.letter}" in letters
        assert f"{step.letter} to {step.letter}" in lines[int(number) - 1]
    least = min(item.size_mm for page in pages[1:] for item in words(page))
    assert least >= 2.4


def test_first_page_alone_is_enough_to_begin() -> None:
    """Garment, wearer, draft and code, the square, the key, the map and the cut list stand on the first page."""
    pattern = PATTERNS["sample"]
    drawing, plan = tiled_layout(pattern, A4)
    first = cover(pattern, A4, drawing, plan)[0]
    text = said([first])
    needed = (
        "Trial stays",
        "ferrywoman",
        "draft 2 · code 7F3A",
        "Measure the square now",
        "left half",
        "strength 2 pairs",
    )
    for part in needed:
        assert part in text
    assert {"page map", SQUARE_NAME} <= {group.name for group in first.groups}


def test_cover_tells_how_to_sew_and_what_to_beware_of() -> None:
    """The five numbers, the order of seams, the key to the marks and the cautions follow."""
    pattern = PATTERNS["sample"]
    drawing, plan = tiled_layout(pattern, A4)
    text = said(cover(pattern, A4, drawing, plan))
    for part in (
        "68.6 cm",
        "Join A to A: piece 1 (front) to piece 2 (side)",
        "For the toile",
        "straight grain",
        "pregnancy",
        "clinician",
    ):
        assert part in text
    assert text.index("Join A to A") < text.index("Join B to B")


def test_cover_tells_what_the_report_tells_to_look_at() -> None:
    """What warns and the wearer's own notes are in print too, and no name stands in back ticks."""
    pattern = PATTERNS["ferrywoman stays-five-panels"]
    warned = [one.says for one in pattern.findings if one.state == "warns"]
    noted = [note.says for note in pattern.notes if note.kind in ("wearer", "body", "guess")]
    assert warned
    assert noted
    drawing, plan = tiled_layout(pattern, A4)
    text = said(cover(pattern, A4, drawing, plan))
    assert "`" not in text
    spaceless = re.sub(r"[\s–]", "", text).lower()
    for says in (*warned, *noted):
        assert re.sub(r"[\s–`]", "", says.removeprefix("GUESSED: ")).lower() in spaceless


def test_the_key_to_the_marks_shows_only_what_is_used() -> None:
    """Stays without a fold have no line for one; with a slit they have that."""
    pattern = PATTERNS["ferrywoman stays-five-panels"]
    drawing, plan = tiled_layout(pattern, A4)
    text = said(cover(pattern, A4, drawing, plan))
    assert "slit up to the bar" in text
    assert "lay on the fold" not in text
    folded = replace(pattern, panels=(replace(pattern.panels[0], fold="center front"), *pattern.panels[1:]))
    assert "lay on the fold" in said(cover(folded, A4, drawing, plan))


def test_cover_of_an_unsound_pattern_says_so() -> None:
    """NOT SOUND stands under the title and on every page after it."""
    pattern = sample(sound=False)
    drawing, plan = tiled_layout(pattern, A4)
    pages = cover(pattern, A4, drawing, plan)
    assert all("NOT SOUND" in said([page]) for page in pages)


@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_block_sheet_is_at_true_scale_and_named(name: str) -> None:
    """The drawn waist and bust are as long as the block's, the lines are named, all ink lies on the sheet."""
    pattern = PATTERNS[name]
    sheet = block_sheet(pattern.block, pattern.body)
    strokes = {item.name: item for group in sheet.groups for item in group.items if isinstance(item, Stroke)}
    for line, half in (("waist", pattern.block.half_waist_mm), ("bust", pattern.block.half_bust_mm)):
        run = shapely.LineString(ink_points_of(strokes[line]))
        assert run.length == pytest.approx(half, abs=0.05)
    assert {"center front", "center back", "side", "50% around", "25% level"} <= set(strokes)
    points = ink_points(sheet.groups)
    assert points.min() > 0.0
    assert points[:, 0].max() < sheet.width_mm
    assert points[:, 1].max() < sheet.height_mm


def ink_points_of(stroke: Stroke) -> list[tuple[float, float]]:
    """Points along a stroke, by the formula of the cubic Bézier."""
    found = []
    for a, b, c, d in stroke.beziers:
        for step in range(41):
            t = step / 40.0
            x, y = (1 - t) ** 3 * a + 3 * t * (1 - t) ** 2 * b + 3 * t * t * (1 - t) * c + t**3 * d
            found.append((float(x), float(y)))
    return found


@PAPER
@pytest.mark.parametrize("name", sorted(PATTERNS))
def test_guide_pages_are_printable_and_hold_the_table(name: str, paper: Paper) -> None:
    """The guide keeps within its pages and gives the points its text speaks of."""
    pattern = PATTERNS[name]
    pages = guide_pages(pattern.block, pattern.body, paper)
    assert_printable(pages, paper)
    last = said(pages[-1:])
    assert "by points on a grid" in last
    assert "waist, up" in last
    assert all("waist, up" not in said([page]) for page in pages[:-1])


def test_guide_as_a_page_needs_nothing_else() -> None:
    """The HTML guide parses, reaches for nothing outside and escapes names."""
    pattern = sample(hostile="<b>&")
    text = guide_html(pattern.block, pattern.body)
    ElementTree.fromstring(text.split("\n", 1)[1])
    assert not re.search(r"https?:|<b>|<script", text)


@PAPER
def test_measure_form_names_every_measure_once(paper: Paper) -> None:
    """Each measure stands in the form with how it is taken; the needed three have two stars, those for stays one."""
    pages = measure_form(paper)
    assert_printable(pages, paper)
    rows = [item.text for page in pages for item in words(page)]
    for name, measure in MEASURES.items():
        stars = " **" if measure.needed else " *" if measure.for_stays else ""
        assert rows.count(f"{name}{stars}") == 1
    assert {name for name, measure in MEASURES.items() if measure.for_stays} == {
        "raised", "underarm", "back length", "hip", "front arc"
    }  # fmt: skip
    assert "Nothing is deducted here" in said(pages)
    assert "in doubt ask a clinician" in said(pages)


@PAPER
def test_measure_form_shows_every_number_on_its_figure(paper: Paper) -> None:
    """The number before each measure stands once on the figure too, and all for stays are on the first page."""
    first = measure_form(paper)[0]
    figure = next(group for group in first.groups if group.name == "figure")
    numbers = sorted(int(item.text) for item in figure.items if isinstance(item, Words) and item.text.isdigit())
    assert numbers == list(range(1, len(MEASURES) + 1))
    rows = [item.text for item in words(first)]
    for name in FIRST:
        assert any(row.rstrip(" *") == name for row in rows)
