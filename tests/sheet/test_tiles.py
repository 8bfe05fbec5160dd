"""Pages to be joined: which there are, what they show, and that their marks meet."""

from __future__ import annotations

import numpy as np
import pytest
from tests.sheet.paper_samples import WORDS, sheet

from fanblock.geometry.bezier import polyline
from fanblock.problems import ExportError
from fanblock.sheet.clear import held
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.ink import Box, ink_points
from fanblock.sheet.pagemap import page_map
from fanblock.sheet.paper import A3, A4, LETTER, Paper, roll
from fanblock.sheet.tilemarks import SMALL_MM, tile_page
from fanblock.sheet.tiles import (
    TilePlan,
    below_header,
    field_on,
    plan_tiles,
    printable,
    tile_name,
    window_on,
)

PAPERS = [A4, LETTER, A3]


def lines(*runs: list[tuple[float, float]], size: float = 1000.0) -> Drawing:
    """A drawing of bare lines."""
    strokes = tuple(Stroke(polyline(run), "cut") for run in runs)
    return Drawing("lines", size, size, (Group("g", strokes),))


@pytest.mark.parametrize("paper", PAPERS, ids=lambda paper: paper.name)
def test_every_bit_of_ink_is_on_a_page(paper: Paper) -> None:
    """Each point of the drawing lies in the field of a page, or in the outermost strip beside one."""
    plan, points = plan_tiles(sheet(), paper), ink_points(sheet().groups)
    shown = np.zeros(len(points), dtype=bool)
    for tile in plan.tiles:
        x, y = plan.shift(tile)
        window = window_on(paper).moved(-x, -y)
        inside = (points >= (window.left, window.bottom)) & (points <= (window.right, window.top))
        shown |= inside.all(axis=1)
    assert shown.all()


@pytest.mark.parametrize("paper", PAPERS, ids=lambda paper: paper.name)
def test_pages_without_ink_are_not_made(paper: Paper) -> None:
    """Every page that is made has ink in its field, and the empty corner of the sheet has no page."""
    plan, points = plan_tiles(sheet(), paper), ink_points(sheet().groups)
    for tile in plan.tiles:
        own = tile.field.grown(paper.overlap_mm)
        inside = (points > (own.left, own.bottom)) & (points < (own.right, own.top))
        assert inside.all(axis=1).any()
    if paper is not A3:
        assert len(plan.tiles) < plan.rows * plan.columns


def test_pages_touched_by_one_slanting_line_only() -> None:
    """A line from corner to corner of a metre square is printed on the pages it crosses, fewer than half."""
    plan = plan_tiles(lines([(0.0, 0.0), (1000.0, 1000.0)]), A4)
    assert plan.rows * plan.columns >= 20
    assert len(plan.tiles) <= plan.rows + plan.columns - 1


def test_a_drawing_that_fits_one_page_takes_one() -> None:
    """What is no larger than a page's window takes one page without joints."""
    window = window_on(A4)
    plan = plan_tiles(lines([(0.0, 0.0), (window.width_mm - 3.0, window.height_mm - 3.0)]), A4)
    assert [tile.name for tile in plan.tiles] == ["A1"]
    assert plan.joints == ()


def test_pieces_are_not_cut_by_a_join_that_can_lie_between_them() -> None:
    """Of the ways to lay two pages the one is taken whose join crosses no piece, though others come first."""
    wide = field_on(A4).width_mm
    sides = [(0.0, wide - 1.0), (wide + 9.0, wide + 144.0)]
    groups = tuple(
        Group(
            f"{left:g}", (Stroke(polyline([(left, 0), (right, 0), (right, 90), (left, 90)], True), "grain", "", True),)
        )
        for left, right in sides
    )
    plan = plan_tiles(Drawing("two", 400.0, 100.0, groups), A4)
    first, second = plan.tiles
    assert sides[0][1] < first.field.right == second.field.left < sides[1][0]


def test_pages_are_named_by_row_letter_and_column_number() -> None:
    """Rows from the top are letters, columns from the left numbers; after Z comes AA."""
    assert [tile_name(0, 0), tile_name(1, 2), tile_name(25, 9), tile_name(26, 0), tile_name(52, 1)] == [
        "A1", "B3", "Z10", "AA1", "BA2",
    ]  # fmt: skip
    names = [tile.name for tile in plan_tiles(sheet(), A4).tiles]
    assert names == sorted(names)
    top = max(plan_tiles(sheet(), A4).tiles, key=lambda tile: tile.field.top)
    assert top.row == 0


@pytest.mark.parametrize("paper", PAPERS, ids=lambda paper: paper.name)
def test_neighbours_overlap_by_a_strip(paper: Paper) -> None:
    """Fields meet without a gap, and a page also shows the 10 mm of its left and upper neighbour."""
    plan = plan_tiles(sheet(), paper)
    for joint in plan.joints:
        over, under = joint.over.field, joint.under.field
        x, y = plan.shift(joint.under)
        window = window_on(paper).moved(-x, -y)
        if joint.upright:
            assert over.right == pytest.approx(under.left) == pytest.approx(joint.at_mm)
            assert over.right - window.left == pytest.approx(10.0)
        else:
            assert over.bottom == pytest.approx(under.top) == pytest.approx(joint.at_mm)
            assert window.top - over.bottom == pytest.approx(10.0)


def joint_marks(plan: TilePlan, tile_index: int) -> list[np.ndarray]:
    """Ends of the half marks on one page, in the drawing's frame."""
    tile = plan.tiles[tile_index]
    shift = np.array(plan.shift(tile))
    _, over = tile_page(plan, tile, held(sheet().groups), WORDS, "")
    marks = next(group for group in over if group.name == "joints")
    return [
        np.vstack((item.beziers[:1, 0], item.beziers[-1:, 3])) - shift
        for item in marks.items
        if isinstance(item, Stroke) and item.pen == "join"
    ]


def test_half_marks_meet_when_pages_are_joined() -> None:
    """Laid by the drawing's frame, every half mark on one page has its other half on another, end on end."""
    plan = plan_tiles(sheet(), A4)
    halves = [np.sort(mark, axis=0) for index in range(len(plan.tiles)) for mark in joint_marks(plan, index)]
    assert len(halves) == 4 * len(plan.joints)
    keys = [tuple(np.round(half, 3).ravel()) for half in halves]
    assert all(keys.count(key) == 2 for key in keys)


def test_only_right_and_lower_edges_are_cut() -> None:
    """Lines to cut along lie on the right and lower edge of the field, and only where a page joins there."""
    plan = plan_tiles(sheet(), A4)
    field = field_on(A4)
    for tile in plan.tiles:
        _, over = tile_page(plan, tile, held(sheet().groups), WORDS, "")
        cuts = [
            item.beziers.reshape(-1, 2)
            for group in over
            for item in group.items
            if isinstance(item, Stroke) and item.pen == "trim"
        ]
        joins = [joint for joint in plan.joints if joint.over == tile]
        assert len(cuts) == len(joins)
        for cut in cuts:
            right = np.allclose(cut[:, 0], field.right)
            assert right or np.allclose(cut[:, 1], field.bottom)


def test_every_edge_that_joins_names_its_neighbour() -> None:
    """A page says on each joined edge which page belongs there, and nothing on the others."""
    plan = plan_tiles(sheet(), A4)
    for tile in plan.tiles:
        _, over = tile_page(plan, tile, held(sheet().groups), WORDS, "")
        said = [item.text for group in over for item in group.items if isinstance(item, Words)]
        joined = [text.split("joins ")[1].split(",")[0] for text in said if "joins " in text]
        around = {joint.under.name for joint in plan.joints if joint.over == tile}
        around |= {joint.over.name for joint in plan.joints if joint.under == tile}
        assert sorted(joined) == sorted(around)


@pytest.mark.parametrize("paper", PAPERS, ids=lambda paper: paper.name)
def test_pages_keep_inside_what_printers_reach(paper: Paper) -> None:
    """Everything on a page besides the drawing lies inside the margins, and no words are under 2.5 mm."""
    drawing = sheet()
    plan, ink, reach = plan_tiles(drawing, paper), held(drawing.groups), printable(paper).grown(0.65)
    for tile in plan.tiles:
        under, over = tile_page(plan, tile, ink, (*WORDS, "a very long name " * 20), "page 12 of 34")
        points = ink_points([*under, *over])
        assert (points >= (reach.left, reach.bottom)).all()
        assert (points <= (reach.right, reach.top)).all()
        sizes = [item.size_mm for group in (*under, *over) for item in group.items if isinstance(item, Words)]
        assert min(sizes) >= SMALL_MM >= 2.5


def test_the_header_says_what_the_page_is() -> None:
    """Garment, wearer, draft, code, page name, count, and how to print it."""
    plan = plan_tiles(sheet(), A4)
    _, over = tile_page(plan, plan.tiles[0], held(sheet().groups), WORDS, "page 2 of 9")
    said = [item.text for item in over[0].items if isinstance(item, Words)]
    assert said == [
        "A1",
        "print at 100 %, no scaling · page 2 of 9",
        "front-laced stays · ferrywoman · draft 2 · code 7F3A",
    ]


def test_the_page_map_shows_every_page_once() -> None:
    """Each page's name stands on the map once, inside the room given; fields without a page are hatched."""
    plan, room = plan_tiles(sheet(), A4), Box(20.0, 50.0, 120.0, 130.0)
    group = page_map(plan, sheet(), room)
    names = [item.text for item in group.items if isinstance(item, Words)]
    assert sorted(names) == sorted(tile.name for tile in plan.tiles)
    ink = ink_points([group])
    assert (ink > (room.left - 1.0, room.bottom - 1.0)).all()
    assert (ink < (room.right + 1.0, room.top + 1.0)).all()


def test_a_first_page_keeps_below_the_header() -> None:
    """The room for a first page is the printable sheet without the band of words."""
    assert below_header(A4) == Box(10.0, 10.0, 200.0, 281.0)


def test_what_cannot_be_tiled_is_refused() -> None:
    """A roll, paper too small for a test square, and an empty drawing are refused in words."""
    says = " cannot be joined from pages. Choose A4, Letter or A3, or print it in one piece."
    for paper in (roll(914.0), Paper("A6", 105.0, 148.0)):
        with pytest.raises(ExportError) as caught:
            plan_tiles(sheet(), paper)
        assert str(caught.value) == f"paper › {paper.name}{says}"
    with pytest.raises(ExportError) as caught:
        plan_tiles(Drawing("empty", 100.0, 100.0, ()), A4)
    assert str(caught.value) == "drawing › There is nothing on the drawing to print."


def test_marks_of_a_join_keep_off_words() -> None:
    """Along a join with words everywhere but in two places, the marks stand in those, and name and map stand over lines."""
    field = field_on(A4)
    join = field.width_mm - 9.0
    ends = [Stroke(polyline([(0.0, 0.0), (2 * field.width_mm - 20.0, 0.5)]), "cut")]
    words = [
        Words("toward center front", join - 20.0, y, 3.0)
        for y in range(4, 250, 7)
        if not (60 < y < 90 or 170 < y < 200)
    ]
    drawing = Drawing("d", 400.0, 260.0, (Group("g", (*ends, *words)),))
    plan = plan_tiles(drawing, A4)
    (joint,) = [joint for joint in plan.joints if joint.upright]
    near = [item for item in words if abs(item.x + 20.0 - joint.at_mm) < 25.0]
    assert near
    for mark in joint.marks_mm:
        assert min(abs(item.y + 1.0 - mark) for item in near) > 4.0


def test_names_on_the_map_stand_over_the_lines_of_pieces() -> None:
    """A line through the middle of a page's cell does not strike out its name: the name comes last, on white."""
    drawing = lines([(0.0, 0.0), (300.0, 400.0)])
    group = page_map(plan_tiles(drawing, A4), drawing, Box(0.0, 0.0, 100.0, 100.0))
    pens = [item.pen if isinstance(item, Stroke) else "words" for item in group.items]
    first = pens.index("words")
    assert "mini" in pens[:first]
    assert set(pens[first - 1 :]) == {"words", "blank"}
