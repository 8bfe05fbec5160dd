"""Places and lengths on any block: fans of every drop, tilted ones, and ones bent from the side."""

from __future__ import annotations

import subprocess
import sys
import time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fanblock.block.fan import fan
from fanblock.block.ruled import Block
from fanblock.block.tilt import tilted
from fanblock.tolerances import CHORD_MM
from fanblock.wearer.model import Tilt

BACK, FRONT = "center back", "center front"

BLOCKS = {
    "ordinary": fan(340.0, 440.0, 160.0),
    "great drop": fan(475.0, 600.0, 140.0, side_ratio=0.55),
    "nearly straight": fan(439.9995, 440.0, 160.0),
    "straight": fan(440.0, 440.0, 160.0),
    "waist over bust": fan(540.0, 500.0, 160.0),
    "short back": tilted(fan(340.0, 440.0, 160.0), Tilt(BACK, 19.0)),
    "long front": tilted(fan(475.0, 600.0, 140.0), Tilt(FRONT, -12.0, 0.3)),
    "bent from the side": tilted(fan(340.0, 440.0, 160.0, side_ratio=0.52), Tilt(BACK, 9.0, to="side")),
    "tilted and bent both ways": tilted(
        tilted(tilted(fan(440.0, 440.0, 160.0), Tilt(BACK, 9.0, to="side")), Tilt(BACK, 9.0, 0.7)),
        Tilt(FRONT, -6.0, to="side"),
    ),
}

blocks = st.sampled_from(sorted(BLOCKS)).map(BLOCKS.__getitem__)
arounds = st.floats(-0.3, 1.3)
heights = st.floats(-0.5, 1.6)


@settings(max_examples=200, deadline=None)
@given(blocks, arounds, heights)
def test_where_undoes_at(block: Block, around: float, height: float) -> None:
    """A place found from its point is the place the point was made from, outside the block too."""
    found = block.where(block.at(around, height))
    assert (float(found[0]), float(found[1])) == pytest.approx((around, height), abs=1e-9)


@pytest.mark.parametrize("name", sorted(BLOCKS))
def test_places_broadcast_and_points_come_last(name: str) -> None:
    """Arrays of around and height broadcast; a single place is one point."""
    block = BLOCKS[name]
    many = block.at(np.linspace(0.0, 1.0, 5)[:, np.newaxis], np.linspace(0.0, 1.0, 3))
    assert many.shape == (5, 3, 2)
    assert block.at(0.5, 0.5).shape == (2,)
    np.testing.assert_allclose(many[2, 1], block.at(0.5, 0.5), atol=1e-12)
    around, height = block.where(many)
    assert around.shape == height.shape == (5, 3)


@pytest.mark.parametrize("name", sorted(BLOCKS))
def test_the_centre_front_stands_upright_on_the_origin(name: str) -> None:
    """Every block is drawn from the same corner, however it was tilted."""
    block = BLOCKS[name]
    np.testing.assert_allclose(block.at(0.0, [0.0, 1.0]), [[0.0, 0.0], [0.0, block.center_front_mm]], atol=1e-9)


@pytest.mark.parametrize("name", sorted(BLOCKS))
@pytest.mark.parametrize("height", [-0.5, 0.0, 0.37, 1.0, 1.6])
def test_level_lengths_agree_with_quadrature_of_the_points(name, height, arc_length) -> None:
    """The closed form (or the fixed quadrature of bent blocks) agrees with adaptive quadrature over drawn
    points.
    """
    block = BLOCKS[name]
    assert block.level_length_mm(height) == pytest.approx(arc_length(block, height), abs=1e-4)
    assert block.level(height).length_mm == pytest.approx(block.level_length_mm(height), abs=CHORD_MM)


@settings(max_examples=100, deadline=None)
@given(blocks, st.floats(0.0, 1.0), heights, st.floats(-80.0, 80.0))
def test_a_distance_walked_along_a_level_is_the_length_of_that_part(
    block: Block, around: float, height: float, distance: float
) -> None:
    """`along` and `level_part_mm` undo each other, in both directions, and parts of a level add up."""
    there = block.along(around, height, distance)
    assert block.level_part_mm(height, around, there) == pytest.approx(distance, abs=1e-9)
    whole = block.level_part_mm(height, 0.0, there) + block.level_part_mm(height, there, 1.0)
    assert whole == pytest.approx(block.level_length_mm(height), abs=1e-9)


def test_lengths_take_arrays_and_give_floats_for_single_values() -> None:
    """Arrays in, arrays out; single numbers in, plain floats out."""
    block = BLOCKS["bent from the side"]
    assert isinstance(block.level_length_mm(0.5), float)
    assert isinstance(block.along(0.2, 0.5, 10.0), float)
    assert block.level_length_mm(np.linspace(0.0, 1.0, 4)).shape == (4,)
    around = np.linspace(0.0, 1.0, 6)[:, np.newaxis]
    height = np.linspace(0.0, 1.0, 4)
    assert block.along(around, height, 7.0).shape == (6, 4)
    np.testing.assert_allclose(block.level_part_mm(height, around, block.along(around, height, 7.0)), 7.0, atol=1e-9)


@pytest.mark.parametrize("name", sorted(BLOCKS))
def test_slopes_and_directions_agree_with_small_steps(name: str) -> None:
    """dP/du and the ruling's direction are those of points close by, each side of the side."""
    block, step = BLOCKS[name], 1e-6
    around, height = np.array([0.1, 0.4, 0.45, 0.6, 0.9]), np.array([-0.4, 0.2, 0.9, 1.0, 1.5])
    steps = (block.at(around + step, height) - block.at(around - step, height)) / (2.0 * step)
    np.testing.assert_allclose(block.around_slope(around, height), steps, atol=1e-5)
    rulings = block.at(around, 1.0) - block.at(around, 0.0)
    lengths = np.hypot(*rulings.T)
    np.testing.assert_allclose(block.ruling_length_mm(around), lengths, rtol=1e-12)
    np.testing.assert_allclose(block.ruling_direction(around), rulings / lengths[:, np.newaxis], atol=1e-12)


@pytest.mark.parametrize("name", sorted(BLOCKS))
@pytest.mark.parametrize("height", [-0.5, 0.0, 0.5, 1.6])
def test_a_level_keeps_to_the_chord_tolerance(name: str, height: float) -> None:
    """Half way between two points of a level's curve the block stands no further off than the tolerance."""
    block = BLOCKS[name]
    curve = block.level(height, 0.1, 0.95)
    around, _ = block.where(curve.points)
    middle = block.at((around[1:] + around[:-1]) / 2.0, height)
    chord = np.diff(curve.points, axis=0)
    away = middle - curve.points[:-1]
    off = np.abs(chord[:, 0] * away[:, 1] - chord[:, 1] * away[:, 0]) / np.hypot(*chord.T)
    assert off.max() < CHORD_MM
    np.testing.assert_allclose(curve.start, block.at(0.1, height), atol=1e-9)
    np.testing.assert_allclose(curve.end, block.at(0.95, height), atol=1e-9)


def test_the_rulings_of_a_fan_cross_at_its_apex_and_nowhere_nearer() -> None:
    """Bust 88, waist 68, ruling 16: the apex lies w·d/(b − w) = 544 mm, 3.4 rulings, below the waist."""
    block = BLOCKS["ordinary"]
    assert block.crossing_height(-3.39, 5.0) is None
    assert block.crossing_height(-4.0, 5.0) == pytest.approx(-3.4, abs=1e-9)
    assert BLOCKS["straight"].crossing_height(-50.0, 50.0) is None
    assert BLOCKS["waist over bust"].crossing_height(-50.0, 50.0) == pytest.approx(13.5, abs=1e-9)


def test_it_is_light() -> None:
    """Hundreds of points take well under a millisecond (a generous limit: machines differ)."""
    block, around = BLOCKS["bent from the side"], np.linspace(0.0, 1.0, 300)
    started = time.perf_counter()
    for _ in range(50):
        block.at(around, 0.4)
    assert (time.perf_counter() - started) / 50.0 < 2e-3


def test_drawing_a_block_does_not_load_the_heavy_libraries() -> None:
    """scipy and shapely stay unloaded: they cost most of a second before the first line is drawn."""
    code = (
        "import sys; from fanblock.block.from_body import block_of;"
        " from fanblock.block.guide_words import chapters_of;"
        " sys.exit('scipy' in sys.modules or 'shapely' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
