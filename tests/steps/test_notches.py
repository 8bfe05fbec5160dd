"""``notches``: their place and length are kept for finishing."""

from __future__ import annotations

import numpy as np
import pytest
from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, side_back, side_front, worked

from fanblock.sheet.drawing import Stroke
from fanblock.sheet.piece import piece


def test_place_and_length_are_kept() -> None:
    """A share of the seam above the waist and a length in millimetres; 40 % and 5 mm where nothing is said."""
    steps = (GAP, TOP, HEM, side_front(), side_back(), RED, THREE)
    work = worked(recipe(*steps, "notches: {at: 30%, tick: 1/4 in}"))
    assert (work.notch_at, work.tick_mm) == (0.3, 6.35)
    plain = worked(recipe(*steps))
    assert (plain.notch_at, plain.tick_mm) == (0.4, 5.0)


def test_ticks_are_drawn_as_long_as_was_asked() -> None:
    """A quarter inch in the recipe is 6.35 mm on every notch of the pattern, and on the piece that is printed."""
    steps = (GAP, TOP, HEM, side_front(), side_back(), RED, THREE)
    pattern = made(recipe(*steps, "notches: {tick: 1/4 in}"))
    assert {notch.tick_mm for panel in pattern.panels for notch in panel.notches} == {6.35}
    strokes = {item.name: item for item in piece(pattern.panels[0], pattern).group.items if isinstance(item, Stroke)}
    tick = strokes["notch side front 1"].beziers
    assert np.hypot(*(tick[-1, 3] - tick[0, 0])) == pytest.approx(6.35)
