"""Test squares, rulers and the long line: their lengths, and where a square is put."""

from __future__ import annotations

import numpy as np
import pytest

from fanblock.sheet.drawing import Group, Stroke, Words
from fanblock.sheet.ink import Box, ink_points
from fanblock.sheet.squares import free_place, line, long_line, rulers, square_at, square_box


def named(group: Group, name: str) -> Stroke:
    """The stroke of a group that bears a name."""
    return next(item for item in group.items if isinstance(item, Stroke) and item.name == name)


@pytest.mark.parametrize(("name", "side_mm"), [("100 mm", 100.0), ("4 in", 4 * 25.4)])
def test_the_square_has_its_sides(name: str, side_mm: float) -> None:
    """100 mm, and 4 in at 25.4 mm (exactly: NIST Handbook 44, Appendix C), in both axes, from one
    corner."""
    ends = named(square_at(7.0, 9.0), name).beziers[:, 0]
    assert np.ptp(ends, axis=0) == pytest.approx([side_mm, side_mm])
    assert ends.min(axis=0) == pytest.approx([7.0, 9.0])


def test_the_square_stays_in_its_room() -> None:
    """Lines, ticks and words all lie within the room the square says it takes."""
    ink, room = ink_points([square_at(0.0, 0.0)]), square_box()
    assert ink.min() >= room.left - 0.25
    assert ink.max() <= room.right + 0.25


def test_the_long_line_is_half_a_metre() -> None:
    """500 mm from end to end, and its words say so."""
    group = long_line(10.0, 20.0)
    ends = named(group, "500 mm line").beziers
    assert np.hypot(*(ends[-1, 3] - ends[0, 0])) == pytest.approx(500.0)
    assert any(isinstance(item, Words) and "500 mm" in item.text for item in group.items)


def test_rulers_mark_centimetres_and_inches() -> None:
    """Ticks stand at every 10 mm on one side and every half inch on the other, from zero to the end."""
    ticks = [
        item.beziers for item in rulers(0.0, 0.0, 200.0, 150.0).items if isinstance(item, Stroke) and not item.name
    ]
    level = [tick for tick in ticks if tick[0, 0, 1] == 0.0 and tick[0, 0, 0] == tick[0, 3, 0]]
    up = sorted(tick[0, 0, 0] for tick in level if tick[0, 3, 1] > 0.0)
    down = sorted(tick[0, 0, 0] for tick in level if tick[0, 3, 1] < 0.0)
    assert up == pytest.approx(10.0 * np.arange(21))
    assert down == pytest.approx(12.7 * np.arange(16))


def test_a_square_goes_where_nothing_is() -> None:
    """On a page with ink everywhere but in its upper right, the square stands there and meets none."""
    lines = [line([(0.0, y), (190.0, y)], "cut") for y in range(0, 130, 5)]
    lines += [line([(0.0, y), (70.0, y)], "cut") for y in range(130, 260, 5)]
    x, y, met = free_place(ink_points([Group("g", tuple(lines))]), Box(0.0, 0.0, 190.0, 260.0))
    assert met == 0
    assert x > 70.0
    assert y > 125.0


def test_a_square_prefers_ink_inside_it_to_ink_beneath_its_lines() -> None:
    """Where there is no empty place the pattern's line runs through the hollow, not under the words."""
    middle = line([(95.0, 110.0), (95.0, 120.0)], "cut")
    x, y, met = free_place(ink_points([Group("g", (middle,))]), Box(0.0, 0.0, 112.0, 260.0))
    assert met == 0
    assert 0.0 <= x <= 4.0
    assert 0.0 <= y <= 260.0 - 105.0


def test_a_square_always_has_a_place() -> None:
    """A page covered all over, and an area smaller than the square, still give a place."""
    lines = tuple(line([(0.0, y), (190.0, y)], "cut") for y in range(0, 260, 2))
    _, _, met = free_place(ink_points([Group("g", lines)]), Box(0.0, 0.0, 190.0, 260.0))
    assert met > 0
    assert free_place(np.empty((0, 2)), Box(5.0, 6.0, 50.0, 50.0))[:2] == pytest.approx((5.5, 6.5), abs=2.0)
