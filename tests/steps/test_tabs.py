"""``tabs``: numbers of slits and shares of the waist are two ways to say one thing."""

from __future__ import annotations

from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, side_back, side_front

from fanblock.terms import Length


def test_corners_are_rounded_by_12_mm_unless_it_is_said() -> None:
    """The default radius is 12 mm, and `square` leaves corners alone."""
    read = recipe(GAP, TOP, HEM, side_front(), side_back(), RED, THREE, "tabs: {slits: {side: 1}}")
    assert read.steps[-1].options.corner == Length(12.0)  # type: ignore[attr-defined]
    step = "tabs: {slits: {front: 1, side: 2, back: 1}, shape: square}"
    pattern = made(
        recipe(GAP, TOP, HEM, side_front(below_waist="open"), side_back(below_waist="open"), RED, THREE, step)
    )
    assert [len(panel.slits) for panel in pattern.panels] == [1, 2, 1]
