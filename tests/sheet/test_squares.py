"""Test squares and the long line: their lengths."""

from __future__ import annotations

import numpy as np
import pytest

from fanblock.sheet.drawing import Group, Stroke, Words
from fanblock.sheet.ink import ink_points
from fanblock.sheet.squares import long_line, square_at, square_box


def named(group: Group, name: str) -> Stroke:
    """The stroke of a group that bears a name."""
    return next(item for item in group.items if isinstance(item, Stroke) and item.name == name)


@pytest.mark.parametrize(
    ("name", "wide_mm", "high_mm"),
    [("100 mm", 100.0, 100.0), ("4 in", 4 * 25.4, 0.0), ("4 in upright", 0.0, 4 * 25.4)],
)
def test_square_and_bars_have_their_lengths(name: str, wide_mm: float, high_mm: float) -> None:
    """100 mm, and 4 in at 25.4 mm (exactly: NIST Handbook 44, Appendix C), in both axes, level with one corner."""
    ends = named(square_at(7.0, 9.0), name).beziers[:, [0, 3]].reshape(-1, 2)
    assert np.ptp(ends, axis=0) == pytest.approx([wide_mm, high_mm])
    if wide_mm:
        assert ends[:, 0].min() == pytest.approx(7.0)
    if high_mm:
        assert ends[:, 1].min() == pytest.approx(9.0)


def test_square_and_bars_are_not_taken_for_one_another() -> None:
    """Each bar stands more than 5 mm off the square, and every measured line says what it is."""
    group = square_at(0.0, 0.0)
    square, bar, upright = (named(group, name).beziers for name in ("100 mm", "4 in", "4 in upright"))
    assert bar[..., 1].min() - square[..., 1].max() > 5.0
    assert upright[..., 0].min() - square[..., 0].max() > 5.0
    said = [item.text for item in group.items if isinstance(item, Words)]
    assert said == ["this square: 100 mm", "100 mm", "this bar: 4 in", "this bar: 4 in"]


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
