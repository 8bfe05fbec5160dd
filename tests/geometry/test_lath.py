"""A lath held at points, and the distance of two lines."""

from __future__ import annotations

import numpy as np
import pytest

from fanblock.geometry.lath import apart_mm, lath


def test_a_lath_is_straight_through_two_points_and_nearly_round_through_a_few() -> None:
    """Held at seven points of a quarter circle of 100 mm it keeps within 0.4 mm of it; a free end bends no further."""
    assert lath(np.array([[0.0, 0.0], [30.0, 40.0]]), 5.0) == pytest.approx(np.linspace([0.0, 0.0], [30.0, 40.0], 11))
    turn = np.linspace(0.0, 0.5 * np.pi, 7)
    run = lath(100.0 * np.stack((np.cos(turn), np.sin(turn)), axis=1), 1.0)
    assert np.abs(np.hypot(*run.T) - 100.0).max() < 0.4


def test_a_point_that_repeats_its_neighbour_holds_the_lath_once() -> None:
    """Marks that fall on one place of the ruler are one mark."""
    once = np.array([[0.0, 0.0], [50.0, 10.0], [100.0, 0.0]])
    twice = np.array([[0.0, 0.0], [50.0, 10.0], [50.0, 10.0], [100.0, 0.0]])
    assert lath(twice, 2.0) == pytest.approx(lath(once, 2.0))


def test_lines_are_as_far_apart_as_their_farthest_point() -> None:
    """By hand: a line and one that leaves it by a right-angled triangle of 3, 4 and 5; either way round the same."""
    level, raised = np.array([[0.0, 0.0], [10.0, 0.0]]), np.array([[0.0, 0.0], [5.0, 3.0], [10.0, 0.0]])
    assert apart_mm(level, raised) == pytest.approx(3.0)
    assert apart_mm(raised, level) == pytest.approx(3.0)
