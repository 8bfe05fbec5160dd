"""Every word of a draft of two halves: each piece says which half it is, and nothing speaks of pairs or of turning over."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache

import pytest
from tests.halves.unevens import alike, uneven

from fanblock.cloth.laying import lays_of
from fanblock.cloth.words import lay_sentences, shopping
from fanblock.garment.model import Cloth
from fanblock.halves.making import toile_of_both
from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.recipe.library import open_recipe
from fanblock.sheet.cover import cover
from fanblock.sheet.drawing import Drawing, Words
from fanblock.sheet.handguide_html import hand_guide_html
from fanblock.sheet.layout import tiled_layout
from fanblock.sheet.paper import A4
from fanblock.sheet.report import report_html
from fanblock.sheet.sewing import joining
from fanblock.sheet.tapes import tape_words
from fanblock.sheet.views import Views

GARMENTS = {"stays-five-panels": "shift", "jacket-pleated-skirts": "stays"}

WRONG = re.compile(
    r"\b(1 pair|\d+ pairs|flip|turn every|mirror image|is mirrored|are mirrored|either half is|as a mirror|cut on the fold|"
    r"wearer's left half, face up)\b",
    re.IGNORECASE,
)
"""What would be right of one half that serves for both."""


@cache
def made(recipe: str) -> Pattern:
    """Return the pattern of a recipe for the uneven wearer."""
    return draft_pattern(uneven(GARMENTS[recipe]), open_recipe(recipe), over=GARMENTS[recipe])


def written(drawings: Iterable[Drawing]) -> Iterator[str]:
    """Yield every text that stands in drawings."""
    for drawing in drawings:
        for group in drawing.groups:
            yield " ".join(item.text for item in group.items if isinstance(item, Words))


def texts(pattern: Pattern) -> Iterator[str]:
    """Yield all that is said of a pattern: report, hand guide, pages to print, cloth."""
    views = Views(pattern)
    yield report_html(pattern, views)
    yield hand_guide_html(pattern)
    drawing, plan = tiled_layout(pattern, A4, views.pieces)
    yield from written((drawing, views.key, *cover(pattern, A4, drawing, plan)))


@pytest.mark.parametrize("recipe", list(GARMENTS))
def test_nothing_speaks_of_pairs_or_of_turning_over(recipe: str) -> None:
    """Whoever cuts by these sheets cuts every piece once for its own half."""
    found = [match[0] for text in texts(made(recipe)) for match in WRONG.finditer(text)]
    assert found == []


@pytest.mark.parametrize("recipe", list(GARMENTS))
def test_a_toile_of_two_halves_has_both(recipe: str) -> None:
    """Its pieces are marked and cut singly, and its words are those of two halves."""
    toile = toile_of_both(made(recipe))
    assert {panel.side for panel in toile.panels} == {"left", "right"}
    assert {count for panel in toile.panels for _, count in panel.cuts} == {1}
    assert [match[0] for text in texts(toile) for match in WRONG.finditer(text)] == []


@pytest.mark.parametrize("recipe", list(GARMENTS))
def test_every_printed_piece_says_its_half(recipe: str) -> None:
    """Number with L or R, and in words which half it is for and that it lies face up."""
    for piece in Views(made(recipe)).pieces:
        words = " ".join(item.text for label in piece.labels for item in label.items if isinstance(item, Words))
        assert piece.panel.label in words
        assert f"{piece.panel.side.upper()} half" in words.replace("LEFT  half", "LEFT half")


def test_the_sewing_is_told_once_and_then_which_pieces_go_together() -> None:
    """What both halves have in common is not told twice."""
    report = report_html(made("stays-five-panels"))
    assert report.count("Whip A to A: piece 1 (center front) to piece 2 (side front)") == 1
    assert (
        "So far this is told of one half. Join the pieces marked L to each other, and those marked R: the halves are alike "
        "in this and not in size, and no piece takes the place of its fellow."
    ) in report


def test_both_heights_under_the_arm_are_told() -> None:
    """A tape is laid on either side."""
    report = report_html(made("stays-five-panels"))
    assert re.search(r"under the arm, at its lowest, [0-9.]+ mm left, [0-9.]+ mm right;", report)
    assert "under the arm on the left, waist to top edge at its lowest" in report
    assert "under the arm on the right, waist to top edge at its lowest" in report


def test_bones_eyelets_and_cloth_are_counted_of_both_halves() -> None:
    """As many bones as both halves have channels, as many holes as both rows, and every piece once on the cloth."""
    pattern = made("stays-five-panels")
    data = report_html(pattern)
    channels = sum(len(panel.channels) for panel in pattern.panels)
    (lacing,) = pattern.lacings
    assert f"{len(lacing.left_mm) + len(lacing.right_mm)} eyelets in all" in data
    (lay, *_) = lays_of(
        pattern, {"outer": Cloth(1400.0), "strength layer": Cloth(1400.0), "lining": Cloth(1400.0)}, "cm"
    )
    assert sorted(laid.shape.label for laid in lay.single) == sorted(panel.label for panel in pattern.panels)
    assert "L and R are the wearer's left and right half: each is cut by itself, from its own outline." in " ".join(
        lay_sentences(lay, "cm")
    )
    bones = [how for what, how in shopping(pattern, [lay]) if what.startswith("bone ")]
    assert sum(int(how.partition("for ")[2].split()[0]) for how in bones) == channels


def test_of_halves_that_are_alike_the_other_words_are_said() -> None:
    """What must not be said above is said where one piece serves for both."""
    even = draft_pattern(alike(0), open_recipe("stays-five-panels"))
    assert {match[0] for text in texts(even) for match in WRONG.finditer(text)} >= {"1 pair", "flip", "are mirrored"}


def test_whole_pieces_are_never_told_to_lie_on_a_fold() -> None:
    """Where every piece is on the fold for others, for two halves that differ each is one whole piece."""
    lines = joining(draft_pattern(uneven(), open_recipe("kirtle-bodice-side-lacing")))
    assert "Join the same seams on the other side: every piece is cut as one whole and is both halves." in lines
    assert "Piece 1 is cut as one whole at the centre front: there is no seam." in lines
    assert not any("on the fold" in line for line in lines)


def test_the_girths_of_a_half_are_told_of_it_alone() -> None:
    """37.5 cm of waist on the left are never told as 75, and the tape is given both halves' pieces where they differ."""
    pattern = made("stays-five-panels")
    said = {finding.code: finding.says for finding in pattern.findings}
    assert said["left-block-waist"] == "Left half: 375.0 mm of waist, by the measures 375.0 mm"
    assert said["right-block-waist"] == "Right half: 359.0 mm of waist, by the measures 359.0 mm"
    assert "gap and takes make up the block's 375.0 mm" in said["left-girth-0"]
    assert not any("taken twice" in says for says in said.values())
    told = dict(tape_words(pattern))
    waists = [next(girth for girth in half.girths if girth.name == "waist").parts_mm for half in pattern.halves]
    for half, mm in zip(("left", "right"), waists, strict=True):
        assert told[f"the pieces of the {half} half, joined, waist"] == f"{mm:.1f} mm"


def test_halves_that_are_alike_are_told_as_a_whole() -> None:
    """Nothing is told of halves on the page of the tape where they do not differ."""
    assert not any("half" in what for what, _ in tape_words(draft_pattern(alike(0), open_recipe("stays-five-panels"))))
