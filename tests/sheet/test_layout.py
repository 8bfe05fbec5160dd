"""Whole sheets: everything on the paper, the long line on pages there are anyway, NOT SOUND where it belongs."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from tests.sheet.real import drafted, shipped
from tests.sheet.sample import sample

from fanblock.problems import ExportError
from fanblock.sheet.alongside import along_mm, firm_runs
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.ink import ink_points
from fanblock.sheet.layout import is_tiled, laid_out, pieces_of, tiled_layout
from fanblock.sheet.paper import A0, A3, A4, LETTER, Paper, roll
from fanblock.sheet.squares import SQUARE_NAME
from fanblock.sheet.tiles import plan_tiles

SHEETS = [None, A0, roll(914.0), A4, LETTER]


def named(drawing: Drawing, name: str) -> list[Group]:
    """The groups of that name."""
    return [group for group in drawing.groups if group.name == name]


def texts(drawing: Drawing) -> list[str]:
    """Every text of a drawing."""
    return [item.text for group in drawing.groups for item in group.items if isinstance(item, Words)]


@pytest.mark.parametrize("paper", SHEETS, ids=lambda paper: paper.name if paper else "screen")
@pytest.mark.parametrize("name", sorted(shipped()))
def test_all_ink_lies_within_the_drawing(name: str, paper: Paper | None) -> None:
    """Nothing is drawn outside the sheet, but for the width of a pen."""
    drawing = laid_out(shipped()[name], paper)
    points = ink_points(drawing.groups)
    assert points.min() > -1.0
    assert points[:, 0].max() < drawing.width_mm + 1.0
    assert points[:, 1].max() < drawing.height_mm + 1.0


@pytest.mark.parametrize("paper", SHEETS, ids=lambda paper: paper.name if paper else "screen")
def test_pieces_on_a_sheet_do_not_overlap(paper: Paper | None) -> None:
    """The cut lines of all pieces lie apart, as shapely sees them."""
    drawing = laid_out(drafted("ferrywoman", "stays-five-panels"), paper)
    rings = [
        shapely.Polygon(item.beziers.reshape(-1, 2)[::4]).buffer(0)
        for group in drawing.groups
        for item in group.items
        if isinstance(item, Stroke) and item.name == "cut line"
    ]
    assert len(rings) == 5
    for index, one in enumerate(rings):
        assert all(one.distance(other) > 2.0 for other in rings[index + 1 :])


def test_the_screen_sheet_has_square_line_and_title() -> None:
    """Without paper the sheet carries one test square, the long line and the title block."""
    drawing = laid_out(sample())
    assert len(named(drawing, SQUARE_NAME)) == 1
    assert len(named(drawing, "long line")) == 1
    assert "draft 2 · code 7F3A" in texts(drawing)


def test_the_long_line_is_500_mm_on_pages() -> None:
    """On joined pages the line measures 500 mm, level or upright."""
    drawing, _ = tiled_layout(sample(), A4)
    line = next(item for item in named(drawing, "long line")[0].items if isinstance(item, Stroke))
    ends = line.beziers[[0, -1], [0, 3]]
    assert np.hypot(*(ends[1] - ends[0])) == pytest.approx(500.0, abs=1e-9)


@pytest.mark.parametrize("name", sorted(shipped()))
def test_the_long_line_costs_no_page(name: str) -> None:
    """With the line there are no more pages than without it."""
    drawing, plan = tiled_layout(shipped()[name], A4)
    bare = tuple(group for group in drawing.groups if group.name not in ("long line", "tags"))
    without = plan_tiles(Drawing("", drawing.width_mm, drawing.height_mm, bare), A4)
    assert len(plan.tiles) <= len(without.tiles)


@pytest.mark.parametrize("paper", [A4, LETTER, A3], ids=lambda paper: paper.name)
@pytest.mark.parametrize("wearer", ["ferrywoman", "innkeeper", "apprentice", "pilot"])
@pytest.mark.parametrize("recipe", ["stays-five-panels", "stays-three-panels"])
def test_both_ends_of_the_long_line_are_printed_whole(wearer: str, recipe: str, paper: Paper) -> None:
    """Each end bar lies on one page, 3 mm or more inside what is kept of it: neither cut off nor covered."""
    drawing, plan = tiled_layout(drafted(wearer, recipe), paper)
    bars = [
        item.beziers[:, [0, 3]].reshape(-1, 2)
        for item in named(drawing, "long line")[0].items
        if isinstance(item, Stroke) and np.ptp(item.beziers.reshape(-1, 2), axis=0).max() == pytest.approx(8.0)
    ]
    assert len(bars) == 2
    for bar in bars:
        kept = [tile.field.grown(-3.0) for tile in plan.tiles]
        assert any((bar >= (box.left, box.bottom)).all() and (bar <= (box.right, box.top)).all() for box in kept)


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
@pytest.mark.parametrize("name", ["ferrywoman stays-five-panels", "innkeeper stays-three-panels"])
def test_no_line_runs_along_a_join(name: str, paper: Paper) -> None:
    """No cutting, stitch or slit line stays within 3 mm of a join for more than 15 mm."""
    drawing, plan = tiled_layout(shipped()[name], paper)
    assert along_mm(firm_runs(drawing.groups), plan) == 0.0


@pytest.mark.parametrize("name", sorted(shipped()))
def test_the_plan_covers_everything_that_is_drawn(name: str) -> None:
    """Every bit of ink lies on a page of the plan that is handed on."""
    drawing, plan = tiled_layout(shipped()[name], A4)
    points = ink_points(drawing.groups)
    covered = np.zeros(len(points), dtype=bool)
    for tile in plan.tiles:
        box = tile.field.grown(A4.overlap_mm + 0.5)
        covered |= (points >= (box.left, box.bottom)).all(axis=1) & (points <= (box.right, box.top)).all(axis=1)
    assert covered.all()


def test_every_page_says_which_piece_it_shows() -> None:
    """A piece over several pages carries its number and name on each page that shows a good part of it."""
    pattern = drafted("innkeeper", "stays-five-panels")
    drawing, plan = tiled_layout(pattern, A4)
    names = {f"{panel.number} {panel.name}": panel for panel in pattern.panels}
    said = [item for group in drawing.groups for item in group.items if isinstance(item, Words)]
    for group in drawing.groups:
        if group.name not in names:
            continue
        panel = names[group.name]
        ring = next(item for item in group.items if isinstance(item, Stroke) and item.name == "cut line")
        shape = shapely.Polygon(ring.beziers.reshape(-1, 2)[::4]).buffer(0)
        for tile in plan.tiles:
            field = shapely.box(tile.field.left, tile.field.bottom, tile.field.right, tile.field.top)
            shown = shape.intersection(field)
            if shown.area < 4000.0:
                continue
            here = [words.text for words in said if shown.buffer(1.0).covers(shapely.Point(words.x, words.y))]
            assert any(text == str(panel.number) or text.startswith(f"{panel.number} ·") for text in here), group.name


def test_not_sound_stands_on_every_page_and_under_everything() -> None:
    """An unsound pattern says so once on each page, in the first group, so that it hides no line."""
    drawing, plan = tiled_layout(sample(sound=False), A4)
    assert drawing.groups[0].name == "not sound"
    marks = [item for item in drawing.groups[0].items if isinstance(item, Words)]
    for tile in plan.tiles:
        assert any(
            tile.field.left < words.x < tile.field.right and tile.field.bottom < words.y < tile.field.top
            for words in marks
        )
    assert not named(tiled_layout(sample(), A4)[0], "not sound")


@pytest.mark.parametrize("paper", [None, A0, roll(914.0)], ids=["screen", "a0", "roll"])
def test_not_sound_stands_on_one_page_sheets(paper: Paper | None) -> None:
    """So does every sheet in one piece."""
    assert laid_out(sample(sound=False), paper).groups[0].name == "not sound"


def test_a_roll_too_narrow_is_refused() -> None:
    """A roll narrower than a piece is refused with both widths."""
    with pytest.raises(ExportError, match=r"^sheet › the widest piece is \d+ mm and the paper offers \d+ mm\. "):
        laid_out(sample(), roll(210.0))


def test_small_sheets_are_joined_and_large_ones_are_not() -> None:
    """A4 and Letter are joined; A0 and rolls are printed in one piece."""
    assert [is_tiled(paper) for paper in (A4, LETTER, A0, roll(914.0))] == [True, True, False, False]


def test_pieces_handed_on_change_nothing() -> None:
    """Drawing from pieces already made gives the same sheet."""
    pattern = sample()
    first, second = laid_out(pattern), laid_out(pattern, pieces=pieces_of(pattern))
    assert np.array_equal(ink_points(first.groups), ink_points(second.groups))
