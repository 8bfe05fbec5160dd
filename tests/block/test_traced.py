"""A traced block answers what any block answers; lengths are measured where no formula knows them."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.tracing.drawings import BLOCK, svg

from fanblock.block.from_drawing import read_tracing
from fanblock.block.ruled import Block
from fanblock.block.traced import TracedBlock
from fanblock.problems import RecipeError
from fanblock.tolerances import CHORD_MM

WAVY = BLOCK.replace("M 50 250 Q 230 200 420 240", "M 50 250 C 150 230 180 250 240 232 S 330 222 420 240").replace(
    "M 20 90 Q 230 40 460 80", "M 20 90 C 100 75 150 40 240 52 S 400 60 460 80"
)
"""Waist and bust with hollows of their own, so that around is share of arc at neither level between."""


def traced(side_ratio: float = 0.45) -> TracedBlock:
    """Return the block of such a drawing."""
    return read_tracing(svg(WAVY), "d.svg", "d.svg", RecipeError).block(side_ratio)


BLOCK_OF_IT = traced()
arounds, heights = st.floats(0.0, 1.0), st.floats(-0.4, 1.4)


@settings(max_examples=100, deadline=None)
@given(st.floats(-0.2, 1.2), heights)
def test_where_undoes_at(around: float, height: float) -> None:
    """A place found from its point is the place the point was made from, beside the block too."""
    found = BLOCK_OF_IT.where(BLOCK_OF_IT.at(around, height))
    assert (float(found[0]), float(found[1])) == pytest.approx((around, height), abs=1e-9)


@settings(max_examples=60, deadline=None)
@given(st.floats(-0.1, 1.1), heights, st.floats(-150.0, 150.0))
def test_along_goes_as_far_as_it_was_asked(around: float, height: float, distance: float) -> None:
    """So far along the level and back again, and so far as the level is measured between."""
    there = BLOCK_OF_IT.along(around, height, distance)
    assert BLOCK_OF_IT.level_part_mm(height, around, there) == pytest.approx(distance, abs=1e-9)
    assert BLOCK_OF_IT.along(there, height, -distance) == pytest.approx(around, abs=1e-9)


@pytest.mark.parametrize("height", [-0.4, 0.0, 0.3, 0.5, 1.0, 1.4])
def test_levels_are_as_long_as_quadrature_of_their_points_says(
    height: float, arc_length: Callable[[Block, float], float]
) -> None:
    """By adaptive quadrature over drawn points within 0.01 mm; the chords of the drawn level are hardly shorter."""
    due = arc_length(BLOCK_OF_IT, height)
    assert BLOCK_OF_IT.level_length_mm(height) == pytest.approx(due, abs=CHORD_MM)
    assert BLOCK_OF_IT.level(height).length_mm == pytest.approx(due, abs=2.0 * CHORD_MM)


def test_around_is_share_of_arc_along_waist_and_bust() -> None:
    """A quarter, a half and three quarters of the traced lines themselves."""
    for height, line in ((0.0, BLOCK_OF_IT.half_waist_mm), (1.0, BLOCK_OF_IT.half_bust_mm)):
        for around in (0.25, 0.5, 0.75):
            assert BLOCK_OF_IT.level_part_mm(height, 0.0, around) == pytest.approx(around * line, abs=0.01)


def test_between_them_it_is_not_and_parts_still_add_up() -> None:
    """Half way up the same shares have other lengths; from end to end they make the level."""
    shares = np.linspace(0.0, 1.0, 9)
    parts = BLOCK_OF_IT.level_part_mm(0.5, shares[:-1], shares[1:])
    assert parts.sum() == pytest.approx(BLOCK_OF_IT.level_length_mm(0.5), abs=1e-9)
    assert np.ptp(parts) > 0.1


def test_the_side_is_where_the_wearer_has_it() -> None:
    """It is a place to count from, and changes neither the sheet nor a length."""
    other = traced(0.6)
    assert (other.side_ratio, BLOCK_OF_IT.side_ratio) == (0.6, 0.45)
    np.testing.assert_array_equal(other.at(0.3, 0.7), BLOCK_OF_IT.at(0.3, 0.7))
    assert other.level_part_mm(0.7, 0.1, 0.9) == pytest.approx(BLOCK_OF_IT.level_part_mm(0.7, 0.1, 0.9), abs=1e-9)


def test_it_says_that_it_was_traced() -> None:
    """By the name of its drawing; it has no corrections of its own."""
    assert (BLOCK_OF_IT.traced_from, BLOCK_OF_IT.corrections) == ("d.svg", ())
