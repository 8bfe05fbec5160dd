"""Lines along joins: found where they hide, and pieces moved off them."""

from __future__ import annotations

import numpy as np
import pytest

from fanblock.geometry.bezier import polyline
from fanblock.sheet.alongside import along_mm, alongside_mm, firm_runs, nudged
from fanblock.sheet.drawing import Drawing, Group, Stroke
from fanblock.sheet.ink import Box
from fanblock.sheet.paper import A4
from fanblock.sheet.tiles import plan_tiles

GRID = Box(0.0, 0.0, 300.0, 400.0)


def line(*points: tuple[float, float], pen: str = "cut") -> Group:
    """One line by itself."""
    return Group("g", (Stroke(polyline(points), pen),))


@pytest.mark.parametrize(
    ("points", "length_mm"),
    [
        ([(101.0, 20.0), (101.0, 120.0)], 100.0),  # 1 mm beside the join at 100
        ([(104.0, 20.0), (104.0, 120.0)], 0.0),  # 4 mm beside it
        ([(101.0, 20.0), (101.0, 32.0)], 0.0),  # near, but short
        ([(50.0, 201.0), (150.0, 201.0)], 100.0),  # along the level join at 200
        ([(1.0, 20.0), (1.0, 120.0)], 0.0),  # the outer edge joins nothing
        ([(50.0, 60.0), (150.0, 160.0)], 0.0),  # crosses at half a right angle
    ],
)
def test_lines_along_inner_joins_are_measured(points: list[tuple[float, float]], length_mm: float) -> None:
    """Of three columns and two rows the inner joins are at 100 and 200 across and at 200 up."""
    assert alongside_mm(firm_runs((line(*points),)), GRID, 2, 3) == pytest.approx(length_mm, abs=3.1)


def test_only_lines_that_are_cut_or_stitched_count() -> None:
    """A grain arrow along a join hides nothing."""
    assert len(firm_runs((line((101.0, 20.0), (101.0, 120.0), pen="grain"),))) == 0
    assert alongside_mm(firm_runs(()), GRID, 2, 3) == 0.0


def test_a_piece_is_moved_off_a_join_and_only_a_little() -> None:
    """A rectangle whose side lies on a join moves by 12 mm or less to where none does; its neighbour stays."""
    ring = np.array([[0.0, 0.0], [90.0, 0.0], [90.0, 150.0], [0.0, 150.0]])
    far = tuple(line((1.0, y), (399.0, y)) for y in range(1, 400, 49))
    plan = plan_tiles(Drawing("d", 400.0, 400.0, far), A4)
    join = plan.tiles[0].field.right
    runs = firm_runs((line(*map(tuple, ring), (0.0, 0.0)),))
    shifts = ((join, 100.0), (join + 93.6, 100.0))
    assert along_mm(runs + shifts[0], plan) > 100.0
    moved = nudged([ring, ring], [runs, runs[:0]], shifts, plan, (400.0, 400.0))
    assert along_mm(runs + moved[0], plan) == 0.0
    assert 0.0 < np.hypot(*np.subtract(moved[0], shifts[0])) <= 12.0
    assert moved[1] == shifts[1]
