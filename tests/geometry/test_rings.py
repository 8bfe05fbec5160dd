"""Closed rings: simple or not, united, narrow somewhere, and what one leaves out of another."""

from __future__ import annotations

import numpy as np
import pytest

from fanblock.geometry import rings
from fanblock.geometry.region import area_mm2

SQUARE = np.array([[0.0, 0.0], [100.0, 0.0], [100.0, 100.0], [0.0, 100.0]])
BOW_TIE = SQUARE[[0, 2, 1, 3]]
WAISTED = np.array(
    [[0, 0], [100, 0], [100, 45], [60, 50], [100, 55], [100, 100], [0, 100], [0, 55], [40, 50], [0, 45.0]]
)
"""Two rooms joined by a neck 20 mm wide."""


def test_a_ring_that_crosses_itself_is_not_simple() -> None:
    """A square is simple; with two corners swapped it crosses itself."""
    assert rings.is_simple(SQUARE)
    assert not rings.is_simple(BOW_TIE)


def test_united_rings_are_one_outer_ring() -> None:
    """Two squares lapped by half make one ring of the area of both less the lap, counter-clockwise."""
    assert area_mm2(rings.united(SQUARE, SQUARE + np.array([50.0, 0.0]))) == pytest.approx(15000.0)


def test_what_does_not_touch_makes_no_ring() -> None:
    """Two squares apart are no ring."""
    with pytest.raises(ValueError, match=r"^the cut line does not make one ring$"):
        rings.united(SQUARE, SQUARE + np.array([200.0, 0.0]))


def test_a_neck_is_found_at_its_width() -> None:
    """Two rooms with a neck of 20 mm between hold together to 19 mm and not to 21."""
    neck = WAISTED.copy()
    assert rings.holds_together(neck, 19.0)
    assert not rings.holds_together(neck, 21.0)


def test_what_is_left_out_is_measured() -> None:
    """A square moved by a tenth leaves a tenth of the other out, and nothing of itself."""
    assert rings.left_out_mm2(SQUARE, SQUARE + np.array([10.0, 0.0])) == pytest.approx(1000.0)
    assert rings.left_out_mm2(SQUARE, SQUARE) == 0.0
    assert rings.left_out_mm2(SQUARE, BOW_TIE) == pytest.approx(0.0)
