"""The order of sewing in pictures: one a seam, what hangs together growing, what is still open shrinking."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from tests.samples import RECIPES
from tests.sheet.real import drafted

from fanblock.pattern.joins import separate_parts
from fanblock.sheet.drawing import Stroke, Words
from fanblock.sheet.report import report_html
from fanblock.sheet.sewing import joining
from fanblock.sheet.sewingpictures import HIGH_MM, WIDE_MM, sewing_strip, steps_of


def test_the_stays_are_joined_from_front_to_back() -> None:
    """Four seams, each with one more panel hanging on, and one letter fewer open."""
    steps = steps_of(drafted("innkeeper", "stays-five-panels"))
    assert [step.letter for step in steps] == ["A", "B", "C", "D"]
    assert [len(step.hanging) for step in steps] == [2, 3, 4, 5]
    assert [step.open_letters for step in steps] == [("B", "C", "D"), ("C", "D"), ("D",), ()]


@pytest.mark.parametrize("recipe", RECIPES)
def test_every_seam_is_sewn_once_and_at_the_end_all_hangs_together(recipe: str) -> None:
    """The steps take every seam of the drafted pieces once; what hangs never comes apart; the join graph agrees."""
    pattern = drafted("innkeeper", recipe)
    steps = steps_of(pattern)
    sewn = [seam for step in steps for seam in step.seams]
    drafted_seams = [seam for seam in pattern.seams if not pattern.by_name[seam.front.panel].layer]
    assert len(sewn) == len(drafted_seams)
    assert {seam.front for seam in sewn} == {seam.front for seam in drafted_seams}
    for before, after in pairwise(steps):
        assert before.hanging <= after.hanging
        assert len(before.open_letters) >= len(after.open_letters)
    if steps:
        parts = [set(part) for part in separate_parts(pattern)]
        for step in steps:
            for seam in step.seams:
                assert any({seam.front.panel, seam.back.panel} <= part for part in parts)


def test_the_pictures_go_in_the_order_of_the_words() -> None:
    """The letters of the strip come in the order in which the sentences tell of them."""
    pattern = drafted("innkeeper", "gown-bodice-1770s")
    said = [pair for line in joining(pattern) for pair in re.findall(r"\b([A-Z]+) to \1\b", line)]
    assert [step.letter for step in steps_of(pattern)] == said


def test_a_picture_shows_one_seam_thick_and_says_how() -> None:
    """Both edges of the seam are thick, the joined pieces filled; whipped or sewn, and what is still open."""
    strip = sewing_strip(drafted("innkeeper", "stays-five-panels"))
    assert strip is not None
    first = strip.groups[0]
    strokes = [item for item in first.items if isinstance(item, Stroke)]
    assert [stroke.name for stroke in strokes if stroke.pen == "sewn"] == ["seam A", "seam A"]
    assert [stroke.name for stroke in strokes if stroke.pen == "paper"] == ["center front", "side front"]
    words = [item.text for item in first.items if isinstance(item, Words)]
    told = next(at for at, line in enumerate(joining(drafted("innkeeper", "stays-five-panels")), 1) if "A to A" in line)
    assert words[-2:] == [f"{told}. whip A to A", "still open: B, C and D"]
    for item in strokes:
        points = item.beziers.reshape(-1, 2)
        assert points[:, 0].min() >= -0.01
        assert points[:, 0].max() <= WIDE_MM + 0.01
        assert points[:, 1].min() >= strip.height_mm - HIGH_MM - 0.01


def test_what_has_no_seams_has_no_pictures() -> None:
    """A collar in one piece is joined to nothing of its own."""
    assert sewing_strip(drafted("innkeeper", "falling-collar")) is None


def test_the_report_shows_them_with_the_words() -> None:
    """In the section on sewing, before the sentences."""
    page = report_html(drafted("innkeeper", "stays-five-panels"))
    assert "The 4 seams of one half, in their order" in page
    assert page.index('class="strip"') < page.index("Whip A to A")


def test_no_words_under_a_picture_are_cut_short() -> None:
    """Many open seams are counted, not named: the words of every picture of a jacket stand there whole."""
    strip = sewing_strip(drafted("ferrywoman", "jacket-pleated-skirts"))
    assert strip is not None
    words = [item.text for group in strip.groups for item in group.items if isinstance(item, Words)]
    assert not any(text.endswith("…") for text in words)
    assert any(text.startswith("still open: ") and text.endswith(" seams") for text in words)
