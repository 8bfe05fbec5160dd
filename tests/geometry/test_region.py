"""Regions and masks against areas known from school and against shapely itself."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from fanblock.geometry import raster, region

SQUARE = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]])


def test_area_is_signed() -> None:
    """A square of 10 has 100; run the other way, minus 100."""
    assert region.area_mm2(SQUARE) == 100.0
    assert region.area_mm2(SQUARE[::-1]) == -100.0


def test_grown_square_keeps_its_corners() -> None:
    """A square grown by 1 all round with mitred corners has 144."""
    assert region.area_mm2(region.grown(SQUARE, 1.0)) == pytest.approx(144.0)


def test_overlaps_give_the_shared_area() -> None:
    """Two squares lapped by 2 share 20; touching ones share nothing and are not named."""
    found = region.overlaps([SQUARE, SQUARE + np.array([8.0, 0.0]), SQUARE + np.array([0.0, 10.0])])
    assert [pair[:2] for pair in found] == [(0, 1)]
    assert found[0][2] == pytest.approx(20.0)


def test_united_bridges_what_lies_apart() -> None:
    """Two squares 5 apart become one ring that holds both."""
    ring = region.united([SQUARE, SQUARE + np.array([15.0, 0.0])])
    assert shapely.Polygon(ring).covers(shapely.Polygon(SQUARE))
    assert shapely.Polygon(ring).covers(shapely.Polygon(SQUARE + np.array([15.0, 0.0])))


def test_split_gives_every_part_once() -> None:
    """A square cut by two uprights gives three parts, left to right, their areas adding up."""
    parts = region.split(SQUARE, [np.array([[x, -1.0], [x, 11.0]]) for x in (6.0, 3.0)])
    assert [round(region.area_mm2(part)) for part in parts] == [30, 30, 40]


def test_a_cut_that_ends_inside_divides_nothing() -> None:
    """A slit leaves the square whole."""
    assert len(region.split(SQUARE, [np.array([[5.0, -1.0], [5.0, 5.0]])])) == 1


def test_gap_and_lines() -> None:
    """Distances between rings and runs; a run is held only when all of it lies within."""
    assert region.gap_mm(SQUARE, SQUARE + np.array([13.0, 0.0])) == pytest.approx(3.0)
    assert region.gap_of_lines_mm(SQUARE[:2], SQUARE[2:]) == pytest.approx(10.0)
    assert region.holds_line(SQUARE, np.array([[1.0, 1.0], [9.0, 9.0]]))
    assert not region.holds_line(SQUARE, np.array([[1.0, 1.0], [11.0, 9.0]]))


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.floats(1.0, 39.0), st.floats(1.0, 29.0)), min_size=3, max_size=9, unique=True))
def test_filled_cells_are_those_whose_middles_lie_inside(points: list[tuple[float, float]]) -> None:
    """The mask agrees with shapely's point-in-polygon at every cell not on the line itself."""
    hull = shapely.MultiPoint(points).convex_hull
    if hull.geom_type != "Polygon":
        return
    ring = np.asarray(hull.exterior.coords)[:-1]
    mask = raster.filled(ring, np.zeros(2), 1.0, (30, 40))
    for row in range(30):
        for column in range(40):
            middle = shapely.Point(column + 0.5, row + 0.5)
            if hull.exterior.distance(middle) > 1e-6:
                assert mask[row, column] == hull.contains(middle)


def test_free_corners_find_the_only_room() -> None:
    """In a grid taken but for a 2 × 3 hole there is one place for a 2 × 3 rectangle and none for 3 × 3."""
    taken = np.ones((6, 8), dtype=np.bool_)
    taken[2:4, 4:7] = False
    table = raster.sums(taken)
    assert np.argwhere(raster.free_corners(table, 2, 3)).tolist() == [[2, 4]]
    assert not raster.free_corners(table, 3, 3).any()
    assert raster.free_corners(table, 7, 1).size == 0


def test_stamped_line_leaves_no_gap() -> None:
    """A slanting line marks a chain of cells in which each touches the next."""
    mask = raster.stamped([np.array([[0.5, 0.5], [18.5, 7.2]])], np.zeros(2), 1.0, (10, 20))
    assert mask.any(axis=0)[:19].all()


def test_counted_points_add_up() -> None:
    """Cells hold as many points as a histogram by numpy finds there; points off the grid are not counted."""
    points = np.random.default_rng(5).uniform(-2.0, 12.0, (500, 2))
    counts = raster.counted(points, np.zeros(2), 2.0, (4, 5))
    wanted, _, _ = np.histogram2d(points[:, 1], points[:, 0], (np.arange(0.0, 9.0, 2.0), np.arange(0.0, 11.0, 2.0)))
    assert np.array_equal(counts, wanted)


def test_a_filled_outline_may_reach_off_the_grid() -> None:
    """Of an outline that reaches beyond the grid the part on it is filled, and nothing where none is."""
    assert raster.filled(SQUARE - 5.0, np.zeros(2), 1.0, (8, 9)).sum() == 25
    assert not raster.filled(SQUARE + 20.0, np.zeros(2), 1.0, (8, 9)).any()


def test_a_thinned_run_stays_near() -> None:
    """A half circle of a thousand points needs far fewer to stay within 0.02 mm, by shapely's distances."""
    turn = np.linspace(0.0, np.pi, 1000)
    run = 20.0 * np.stack((np.cos(turn), np.sin(turn)), axis=1)
    thin = region.thinned(run, 0.02)
    assert len(thin) < 100
    assert np.array_equal(thin[[0, -1]], run[[0, -1]])
    assert shapely.hausdorff_distance(shapely.LineString(thin), shapely.LineString(run), 0.1) <= 0.02 + 1e-9
