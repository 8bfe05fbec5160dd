"""How pleats fold, in cross-section: worked out from the creases on the pieces, and drawn with their numbers."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.halves.unevens import uneven
from tests.samples import RECIPES, RED, THREE, TOP, made, recipe, side_back, side_front
from tests.sheet.real import drafted

from fanblock.finish.toile import toile_of
from fanblock.make import draft_pattern
from fanblock.pattern.model import PLEAT_HEAD, WAIST, Pattern
from fanblock.recipe.library import open_recipe
from fanblock.sheet.drawing import Stroke, Words
from fanblock.sheet.layout import pieces_of
from fanblock.sheet.paper import A4
from fanblock.sheet.pleatfolds import run_of, sections_of
from fanblock.sheet.pleatheads import INSIDE, OUTSIDE
from fanblock.sheet.pleatpicture import WIDE_MM, pleat_pages, pleat_picture
from fanblock.sheet.report import report_html

SEAMS = (side_front(spring="0 mm"), side_back(spring="0 mm"))
KNIFE = "pleats: {at: side back, kind: knife, number: 3, depth: 30 mm, toward: back, cloth: front}"
SHARED = "pleats: {at: side front, kind: knife, number: 3, depth: 30 mm, toward: back}"
INVERTED = "pleats: {at: center back, kind: inverted, depth: 45 mm}"


def jacket(*more: str) -> Pattern:
    """A jacket with deep skirts and a seam at the centre back, and more steps."""
    return made(recipe(TOP, "hem: {height: waist - 160 mm}", *SEAMS, RED, THREE, *more))


def test_a_double_box_pleat_as_in_the_jacket_of_the_national_trust() -> None:
    """Double box pleats in the side and centre back seams are published (National Trust 1348750). By hand, with folds of 4 cm:
    four folds a side are 16 cm of cloth, they lie in four layers on the panel, the box is two folds or 8 cm wide, and its
    cloth ends where it began, on the line of the seam."""
    side, center = sections_of(drafted("innkeeper", "jacket-pleated-skirts"))
    assert (side.name, side.kind, side.letter) == ("At the side seam", "double box pleat, turned in", "C")
    assert (center.name, center.kind, center.letter) == ("At the centre back", "double box pleat, turned in", "")
    for section in (side, center):
        for run in (section.fronts, section.backs):
            assert run is not None
            places = [(round(x, 3), level) for x, level in run.corners[1:]]
            into = [
                (0.0, 0),
                (0.0, -1),
                (-40.0, -1),
                (-40.0, -2),
                (0.0, -2),
                (0.0, -3),
                (-40.0, -3),
                (-40.0, -4),
                (0.0, -4),
            ]
            assert np.array(places) == pytest.approx(np.array(into))
            assert [bend.outward for bend in run.bends] == [True, False, True, False]
            assert run.end == pytest.approx((0.0, -4.0), abs=1e-9)
        assert section.says == (
            "At the head one fold is 4 cm wide, the box inside 8 cm. The cloth is 16 cm (4 folds) from either side; folded it takes "
            "up nothing of the seam."
        )


@pytest.mark.parametrize("recipe_id", RECIPES)
def test_every_shipped_recipe_with_pleats_shows_them(recipe_id: str) -> None:
    """One section for each place with pleat heads, and folded away the cloth comes back to the line of the seam."""
    pattern = drafted("ferrywoman", recipe_id)
    heads = {edge.name for panel in pattern.panels for edge in panel.edges if edge.kind == PLEAT_HEAD}
    found = sections_of(pattern)
    assert len(found) == len(heads)
    assert (pleat_picture(pattern) is None) == (not heads)
    for section in found:
        assert section.fronts.end[0] == pytest.approx(0.0, abs=0.01)
        assert section.backs is not None
        assert section.backs.end == pytest.approx(section.fronts.end, abs=0.01)


@pytest.mark.parametrize("wearer", ["apprentice", "ferrywoman", "innkeeper", "pilot"])
def test_numbers_and_words_are_those_on_the_pieces(wearer: str) -> None:
    """Whoever looks from the picture to the piece finds the same number and the same words beside the line."""
    pattern = drafted(wearer, "jacket-pleated-skirts")
    on_pieces = {mark.says for panel in pattern.panels for mark in panel.marks if mark.kind == "crease"}
    printed = {
        item.text
        for piece in pieces_of(pattern)
        for item in piece.group.items
        if isinstance(item, Words) and item.text.startswith("fold ")
    }
    assert printed == on_pieces
    bends = [
        bend for section in sections_of(pattern) for run in (section.fronts, section.backs) if run for bend in run.bends
    ]
    assert {f"fold {bend.number}: {bend.says}" for bend in bends} == on_pieces
    assert all(bend.says.startswith("outward") == bend.outward for bend in bends)


def test_knife_pleats_lie_one_way_and_an_inverted_one_behind() -> None:
    """Cloth of one panel alone zigzags down to where the next begins; an inverted pleat lies inside, below level 0."""
    alone = sections_of(jacket(KNIFE))[0]
    assert (alone.kind, alone.letter != "") == ("3 knife pleats", True)
    assert alone.backs is not None
    assert alone.backs.bends == ()
    assert alone.says.startswith(
        "At the head one fold is 30 mm wide. The cloth is 180 mm (6 folds), all from the front;"
    )
    both = sections_of(jacket(SHARED))[0]
    assert both.kind == "3 knife pleats"
    assert both.backs is not None
    assert both.backs.end[1] == both.fronts.end[1]
    inverted = sections_of(jacket(INVERTED))[0]
    assert inverted.kind == "box pleat, turned in"
    assert min(level for _, level in inverted.fronts.corners) == -2.0


@given(st.lists(st.floats(10.0, 60.0), min_size=1, max_size=8), st.booleans())
def test_folded_in_half_and_half_again_cloth_ends_where_it_began(folds: list[float], outward: bool) -> None:
    """Every fold there and back takes up nothing, whichever way it goes; the length of the run is the cloth's."""
    creases, at = [], 0.0
    for number, fold in enumerate(folds):
        creases += [(at, 2 * number + 1, outward, ""), (at + fold, 2 * number + 2, not outward, "")]
        at += 2.0 * fold
    run = run_of(creases, at, 50.0)
    assert run.end[0] == pytest.approx(0.0, abs=1e-9)
    flat = sum(abs(b[0] - a[0]) for a, b in zip(run.corners[1:], run.corners[2:], strict=False))
    assert flat == pytest.approx(at)


def skirted() -> Pattern:
    """A bodice with a skirt of its own, pleated to its waist: six knife pleats of 25 mm folds in one half."""
    seams = tuple(step.replace(", [19%, hem]", "").replace(", [70%, hem]", "") for step in SEAMS)
    pleats = "pleats: {number: 6, depth: 25 mm, between: [40%, 100%]}"
    skirt = f"skirt: {{name: skirt, to: [front, side, back], kind: pleated, depth: 14 cm, {pleats}}}"
    return made(recipe(TOP, "hem: {height: waist}", *seams, RED, THREE, skirt))


def test_a_skirt_pleated_to_a_waist_comes_to_its_length() -> None:
    """Six knife pleats take 2 x 25 mm each: the cloth is 300 mm longer than the waist it is sewn to, and folded as long."""
    pattern = skirted()
    pieces = [panel for panel in pattern.panels if panel.name.startswith("skirt")]
    waist = sum(
        pattern.by_name[seam.back.panel].edge(seam.back.edge).curve.length_mm
        for seam in pattern.seams
        if seam.front.panel in {piece.name for piece in pieces}
        and pattern.by_name[seam.front.panel].edge(seam.front.edge).kind == WAIST
    )
    (section,) = sections_of(pattern)
    assert section.backs is None
    cloth = sum(edge.curve.length_mm for piece in pieces for edge in piece.edges if edge.kind == WAIST)
    assert cloth - waist == pytest.approx(300.0, abs=0.5)
    assert f"of cloth become {waist:.1f} mm when the pleats are folded" in section.says
    assert "the others are alike" in section.says


@pytest.mark.parametrize("steps", [(KNIFE, SHARED, INVERTED), (SHARED,)])
def test_the_picture_keeps_within_itself(steps: tuple[str, ...]) -> None:
    """No line and no word goes beyond its edges, and no two numbers stand on one another."""
    drawing = pleat_picture(jacket(*steps))
    assert drawing is not None
    for group in drawing.groups:
        for item in group.items:
            if isinstance(item, Stroke):
                points = item.beziers.reshape(-1, 2)
                assert points.min() >= -0.01
                assert points[:, 0].max() <= WIDE_MM
                assert points[:, 1].max() <= drawing.height_mm
            else:
                assert 0.0 <= item.x <= WIDE_MM
                assert -0.01 <= item.y <= drawing.height_mm
        numbers = [(item.x, item.y) for item in group.items if isinstance(item, Words) and item.text.isdigit()]
        assert len({(round(x, 1), round(y, 1)) for x, y in numbers}) == len(numbers)


def test_it_stands_in_the_report_and_on_a_page_of_its_own_with_a_square() -> None:
    """Between the strip of seams and the words; on paper after the order of sewing. A toile has its pleats too."""
    pattern = drafted("innkeeper", "jacket-pleated-skirts")
    page = report_html(pattern)
    assert (
        page.index("which seam is sewn when")
        < page.index("how the pleats fold, in cross-section")
        < page.index("Join A to A")
    )
    assert "how the pleats fold" not in report_html(drafted("innkeeper", "gown-bodice-1770s"))
    (sheet,) = pleat_pages(pattern, A4)
    names = [group.name for group in sheet.groups]
    assert any("square" in name for name in names)
    assert sum(name.startswith("pleats At") for name in names) == 2
    assert len(sections_of(toile_of(pattern))) == 2


def test_halves_that_differ_show_their_pleats_once_where_they_are_alike() -> None:
    """The folds of a jacket are as deep on either half, whatever the wearer's sides are."""
    pattern = draft_pattern(uneven(), open_recipe("jacket-pleated-skirts"))
    assert [section.name for section in sections_of(pattern)] == ["At the side seam", "At the centre back"]


def test_the_finished_head_is_shown_from_outside_and_inside() -> None:
    """Once for all boxes, and for no other pleats; what lies outside and inside is written on every section."""
    drawing = pleat_picture(jacket(INVERTED))
    assert drawing is not None
    assert [group.name for group in drawing.groups] == ["pleats At the centre back", "pleat heads"]
    words = [item.text for group in drawing.groups for item in group.items if isinstance(item, Words)]
    assert {"outside", "inside", OUTSIDE, INSIDE} <= set(words)
    knife = pleat_picture(jacket(KNIFE))
    assert knife is not None
    assert all(group.name != "pleat heads" for group in knife.groups)
