"""``notches``: their place and length are kept for finishing."""

from __future__ import annotations

from tests.samples import GAP, HEM, RED, THREE, TOP, recipe, side_back, side_front, worked


def test_place_and_length_are_kept() -> None:
    """A share of the seam above the waist and a length in millimetres; 40 % and 5 mm where nothing is said."""
    steps = (GAP, TOP, HEM, side_front(), side_back(), RED, THREE)
    work = worked(recipe(*steps, "notches: {at: 30%, tick: 1/4 in}"))
    assert (work.notch_at, work.tick_mm) == (0.3, 6.35)
    plain = worked(recipe(*steps))
    assert (plain.notch_at, plain.tick_mm) == (0.4, 5.0)
