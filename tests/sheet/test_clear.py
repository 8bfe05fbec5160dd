"""Where a page is clear: the places of test squares, page names and titles."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from fanblock.sheet.clear import box_place, held, measured_on, square_place
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.ink import Box, ink_points, words_corners
from fanblock.sheet.squares import line, square_at, square_box

PAGE = Box(0.0, 0.0, 190.0, 260.0)


def page(*strokes: Stroke) -> Drawing:
    """A page with those strokes on it."""
    return Drawing("page", 190.0, 260.0, (Group("g", strokes),))


def tub(left: float, bottom: float, right: float, top: float) -> Stroke:
    """A piece: a closed cutting line round a rectangle."""
    return line([(left, bottom), (right, bottom), (right, top), (left, top)], "cut", "cut line", closed=True)


def covered(x: float, y: float) -> shapely.Polygon:
    """The ground a square at that corner takes."""
    room = square_box(x, y)
    return shapely.box(room.left, room.bottom, room.right, room.top)


def test_a_square_goes_where_nothing_is() -> None:
    """On a page with ink everywhere but in its upper right, the square stands there and meets none."""
    lines = [line([(0.0, y), (190.0, y)], "cut") for y in range(0, 130, 5)]
    lines += [line([(0.0, y), (65.0, y)], "cut") for y in range(130, 260, 5)]
    x, y, met = square_place(held(page(*lines).groups), PAGE)
    assert met == 0
    assert x > 65.0
    assert y > 125.0


def test_a_square_prefers_clear_paper_to_the_inside_of_a_piece() -> None:
    """A large empty piece would hold it without touching a line; the strip of clear paper above is better."""
    piece = tub(5.0, 5.0, 185.0, 140.0)
    x, y, met = square_place(held(page(piece).groups), PAGE)
    assert met == 0
    assert not covered(x, y).intersects(shapely.box(5.0, 5.0, 185.0, 140.0))


def test_a_square_inside_a_piece_keeps_off_its_slits() -> None:
    """Where pieces fill the page the square lies in one, at least 3 mm from every slit and cutting line."""
    slits = [line([(60.0, 250.0), (60.0, 5.0)], "slit"), line([(62.0, 5.0), (62.0, 20.0)], "slit")]
    strokes = [tub(1.0, 1.0, 189.0, 259.0), *slits]
    x, y, met = square_place(held(page(*strokes).groups), PAGE)
    assert met == 0
    lines = ink_points([Group("g", (*slits, strokes[0]))])
    room = square_box(x, y)
    near = np.maximum(
        np.maximum(room.left - lines[:, 0], lines[:, 0] - room.right),
        np.maximum(room.bottom - lines[:, 1], lines[:, 1] - room.top),
    )
    assert near.min() > 3.0


def test_a_square_prefers_ink_inside_it_to_ink_beneath_its_lines() -> None:
    """Where there is no empty place the pattern's line runs through the hollow, not under the words."""
    middle = line([(95.0, 110.0), (95.0, 120.0)], "cut")
    x, y, met = square_place(held(page(middle).groups), Box(0.0, 0.0, 116.0, 260.0))
    assert met == 0
    assert 0.0 <= x <= 6.0
    assert 0.0 <= y <= 260.0 - 108.0


def test_a_square_always_has_a_place() -> None:
    """A page covered all over, and an area smaller than the square, still give a place."""
    lines = tuple(line([(0.0, y), (190.0, y)], "cut") for y in range(0, 260, 2))
    _, _, met = square_place(held(page(*lines).groups), PAGE)
    assert met > 0
    assert square_place(held(()), Box(5.0, 6.0, 50.0, 50.0))[:2] == pytest.approx((5.5, 6.5), abs=2.0)


def test_a_box_goes_to_clear_paper_nearest_its_wish() -> None:
    """A page's name moves off a piece to clear paper; with none it stands in the piece; with neither, nowhere."""
    piece = held(page(tub(-5.0, 100.0, 195.0, 300.0)).groups)
    place = box_place(piece, PAGE, 20.0, 10.0, (20.0, 250.0))
    assert place is not None
    assert place[1] + 10.0 < 100.0
    whole = held(page(tub(-5.0, -5.0, 195.0, 300.0)).groups)
    assert box_place(whole, PAGE, 20.0, 10.0, (20.0, 250.0)) == pytest.approx((10.0, 245.0), abs=2.0)
    full = held(page(*(line([(0.0, y), (190.0, y)], "cut") for y in range(0, 260, 4))).groups)
    assert box_place(full, PAGE, 20.0, 10.0, (20.0, 250.0)) is None


def test_placing_is_the_same_every_time() -> None:
    """Two askings give the same place."""
    carried = held((*page(tub(20.0, 20.0, 90.0, 200.0)).groups, square_at(60.0, 100.0)))
    assert square_place(carried, PAGE) == square_place(carried, PAGE)


def grounds(groups: tuple[Group, ...]) -> list[shapely.Polygon]:
    """The ground each group takes."""
    return [shapely.MultiPoint(ink_points([group])).envelope for group in groups]


def pens(group: Group) -> set[str]:
    """The pens a group is drawn with."""
    return {item.pen for item in group.items if isinstance(item, Stroke)}


def test_bars_stand_clear_of_one_another_and_firm_where_they_cross_nothing() -> None:
    """In a piece without room for a square two pairs of bars stand apart, drawn like the square's."""
    slits = tuple(line([(x, 120.0), (x, 259.0)], "slit") for x in (40.0, 90.0, 140.0))
    level, upright = measured_on(held(page(tub(1.0, 1.0, 189.0, 259.0), *slits).groups), PAGE)
    one, other = grounds((level, upright))
    assert one.distance(other) > 1.0
    assert pens(level) == pens(upright) == {"scale"}


def test_bars_that_must_cross_lines_are_pale_and_cross_no_words() -> None:
    """Lines 14 mm apart leave no room for upright bars; they cross some, pale, where no words stand. Level ones fit between."""
    lines = [line([(0.0, y), (190.0, y)], "channel") for y in range(0, 260, 14)]
    words = [Words("center front", x, y, 5.0) for x in (2.0, 38.0) for y in range(3, 250, 14)]
    carried = held((Group("g", (*lines, *words)),))
    written = shapely.union_all([shapely.Polygon(words_corners(item)) for item in words])
    assert written.bounds[2] < 190.0 - 110.0
    for group, ground, pen in zip(
        found := measured_on(carried, PAGE), grounds(found), ("scale", "scale pale"), strict=True
    ):
        assert not ground.intersects(written)
        assert pens(group) == {pen}
