"""Worked frustums from published pages: the block must give their arcs, radii, angles and areas, and not
their slips.

A block is one half of a sheet, so half perimeters go in and twice the turn and the area come out. Lengths
stand for whatever unit the page uses, a hundred of ours to one of theirs.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from fanblock.block.fan import fan
from fanblock.block.guide import guide_of
from fanblock.block.ruled import Block

UNIT = 100.0


def frustum(small: float, large: float, slant: float) -> Block:
    """The half sheet of a frustum from its two perimeters and its slant."""
    return fan(UNIT * small / 2.0, UNIT * large / 2.0, UNIT * slant)


def of_radii(small: float, large: float, height: float) -> Block:
    """The half sheet of a frustum from its radii and its upright height."""
    return frustum(math.tau * small, math.tau * large, math.hypot(large - small, height))


def cone(perimeter: float, slant: float) -> Block:
    """The half sheet of a whole cone: its upper half as the block, the rest carried on below the waist."""
    return frustum(perimeter / 2.0, perimeter, slant / 2.0)


def area(block: Block, lowest: float = 0.0) -> float:
    """Area of the whole sheet by the corners of its drawn outline (shoelace), in the page's unit."""
    around = np.linspace(0.0, 1.0, 4001)
    x, y = np.concatenate((block.at(around, lowest), block.at(around[::-1], 1.0))).T
    return abs(float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))) / UNIT**2


def radii(block: Block) -> tuple[float, float]:
    """Outer and inner radius, as a lath would be drilled for drawing it by hand."""
    waist, bust = (arc.string_mm for arc in guide_of(block).arcs)
    assert waist is not None
    assert bust is not None
    return bust / UNIT, waist / UNIT


def angle_deg(block: Block) -> float:
    """Angle of the whole sheet, from its drawn centre lines."""
    (front, back) = block.ruling_direction(np.array([0.0, 1.0]))
    half = math.atan2(float(back[0] * front[1] - back[1] * front[0]), float(front @ back))
    return 2.0 * math.degrees(half) % 360.0


def slant(block: Block) -> float:
    """Length of the drawn centre front."""
    return float(np.hypot(*(block.at(0.0, 1.0) - block.at(0.0, 0.0)))) / UNIT


def test_sector_of_arc_14_and_radius_7_has_area_49() -> None:
    """Longfield, Sheet Metal Drafting (1921), p. 82: arc 14 in, radius 7 in, 49 square inches."""
    assert area(cone(14.0, 7.0), lowest=-1.0) == pytest.approx(49.0, abs=1e-4)


def test_cone_of_diameter_5_has_circumference_15_7080() -> None:
    """Longfield, Sheet Metal Drafting (1921), p. 82: base 5, slant 12, circumference 15.7080 (with pi
    3.1416).
    """
    block = cone(5.0 * 3.1416, 12.0)
    assert 2.0 * block.level(1.0).length_mm / UNIT == pytest.approx(15.7080, abs=5e-5)
    assert area(block, lowest=-1.0) == pytest.approx(94.248, abs=5e-4)
    assert block.level_length_mm(-1.0) == pytest.approx(0.0, abs=1e-9)


def test_frustum_6_by_3_altitude_3_follows_the_right_triangle() -> None:
    """Longfield, p. 128: leg 3 − 1 1/2 = 1 1/2, slant is the hypotenuse; the cut-off cone is as long
    again.
    """
    outer, inner = radii(of_radii(1.5, 3.0, 3.0))
    assert (outer, inner) == pytest.approx((2.0 * math.hypot(3.0, 1.5), math.hypot(3.0, 1.5)), rel=1e-12)


def test_frustum_of_diameters_3_1_8_and_2_1_2_opens_exactly_15_degrees() -> None:
    """Longfield, p. 128, exercise 30C (its answer was not seen; by his rule the angle is 360 (R − r)/s)."""
    block = frustum(math.pi * 2.5, math.pi * 3.125, 7.5)
    assert radii(block) == pytest.approx((37.5, 30.0), rel=1e-12)
    assert angle_deg(block) == pytest.approx(360.0 * (3.125 - 2.5) / 2.0 / 7.5, abs=1e-9) == 15.0


def test_duct_adaptor() -> None:
    """ceemrr.com, Drawings and Nets 6: diameters 5 and 8, upright 4 in: radii 7.12 and 11.39, 126.4°."""
    block = of_radii(2.5, 4.0, 4.0)
    assert radii(block) == pytest.approx((11.39, 7.12), abs=0.005)
    assert angle_deg(block) == pytest.approx(126.4, abs=0.05)


def test_frustum_of_radii_10_and_20() -> None:
    """analyzemath.com, Conical Frustum: radii 10 and 20, height 25: sqrt 725, 2 sqrt 725, 133.7°."""
    block = of_radii(10.0, 20.0, 25.0)
    assert radii(block) == pytest.approx((2.0 * math.sqrt(725.0), math.sqrt(725.0)), rel=1e-12)
    assert angle_deg(block) == pytest.approx(133.7, abs=0.05)


def test_lampshade_agrees_but_for_its_inner_radius() -> None:
    """mathcentral.uregina.ca QQ.09.11: diameters 8 and 40, height 21: slant 26.4, R 33, 142° cut
    away.

    Its inner radius 6.75 is wrong (the upright 26.25 was taken off instead of the slant): an arc of that
    radius is 25.70 long, where the small end needs 25.13.
    """
    block = of_radii(4.0, 20.0, 21.0)
    outer, inner = radii(block)
    assert slant(block) == pytest.approx(26.4, abs=0.05)
    assert outer == pytest.approx(33.0, abs=0.05)
    assert 360.0 - angle_deg(block) == pytest.approx(142.0, abs=0.5)
    assert inner == pytest.approx(6.6002, abs=5e-5)
    assert abs(inner - 6.75) > 0.14
    assert math.radians(angle_deg(block)) * inner == pytest.approx(8.0 * math.pi, rel=1e-9)
    assert math.radians(angle_deg(block)) * 6.75 == pytest.approx(25.70, abs=0.005)


def test_costume_band_lies_between_its_two_readings() -> None:
    """mathcentral.uregina.ca QQ.09.07: arcs 32 and 44 in, 8 in apart: R 30.3, r 22.1, 83.2°, two
    digits.

    Whether the 8 in are slant or upright is not said: a tape on cloth shows the slant. The published set
    closes the outer arc (44.00) but not the inner (32.09); the block closes both.
    """
    along = frustum(32.0, 44.0, 8.0)
    upright = of_radii(32.0 / math.tau, 44.0 / math.tau, 8.0)
    assert (*radii(along), angle_deg(along)) == pytest.approx((29.333, 21.333, 85.944), abs=0.001)
    assert (*radii(upright), angle_deg(upright)) == pytest.approx((30.158, 21.933, 83.595), abs=0.001)
    assert (*radii(upright), angle_deg(upright)) == pytest.approx((30.3, 22.1, 83.2), rel=0.01)
    assert math.radians(83.2) * 22.1 == pytest.approx(32.09, abs=0.005)
    assert math.radians(angle_deg(upright)) * radii(upright)[1] == pytest.approx(32.0, rel=1e-9)


@pytest.mark.parametrize(
    ("one", "other", "height", "published"),
    [(1.0, 2.0, 3.0, 29.80377), (5.0, 6.0, 7.0, 244.3586), (7.0, 10.0, 3.0, 226.587)],
)
def test_areas_of_a_puzzle_program(one: float, other: float, height: float, published: float) -> None:
    """perplexus.info problem 1466, answer program: lateral areas to six or seven digits."""
    assert area(of_radii(one, other, height)) == pytest.approx(published, rel=1e-6)


@pytest.mark.parametrize(
    ("large", "small", "length", "published", "outer", "inner", "turn_rad"),
    [(24.0, 12.0, 6.0, 108.0, 12.0, 6.0, 2.0), (18.0, 6.0, 4.0, 48.0, 6.0, 2.0, 3.0)],
)
def test_school_frustums_from_perimeters_and_slant(
    large: float, small: float, length: float, published: float, outer: float, inner: float, turn_rad: float
) -> None:
    """esaral.com 32221 (24, 12, 6: 108) and shaalaa.com 75946 (18, 6, 4: 48): the same three measures as
    ours.
    """
    block = frustum(small, large, length)
    assert area(block) == pytest.approx(published, rel=1e-6)
    assert radii(block) == pytest.approx((outer, inner), rel=1e-12)
    assert 2.0 * block.turn_rad == turn_rad
    assert angle_deg(block) == pytest.approx(math.degrees(turn_rad), abs=1e-9)


def test_bucket_agrees_but_for_its_height(roll_up) -> None:
    """esaral.com 17813: radii 5 and 8, slant 5: area 204.28 (with 22/7), and a height of sqrt 13, which
    is wrong: 4.
    """
    block = frustum(math.tau * 5.0, math.tau * 8.0, 5.0)
    assert area(block) == pytest.approx(204.28 * math.pi * 7.0 / 22.0, abs=0.01)
    height = roll_up(block).height_mm / UNIT
    assert height == pytest.approx(4.0, abs=1e-9)
    assert abs(height - math.sqrt(13.0)) > 0.39


def test_frustum_of_diameters_32_and_20() -> None:
    """esaral.com 66385: diameters 32 and 20, slant 10: 260 pi; then R 80/3, r 50/3 and 216°."""
    block = frustum(20.0 * math.pi, 32.0 * math.pi, 10.0)
    assert area(block) == pytest.approx(260.0 * math.pi, rel=1e-6)
    assert radii(block) == pytest.approx((80.0 / 3.0, 50.0 / 3.0), rel=1e-12)
    assert angle_deg(block) == pytest.approx(216.0, abs=1e-9)


def test_disk_of_10_for_a_base_of_6_keeps_216_degrees() -> None:
    """mathwords.com, Cone Angle: disk of radius 10, base of radius 6: 216° kept, 144° cut away."""
    kept = angle_deg(cone(12.0 * math.pi, 10.0))
    assert (kept, 360.0 - kept) == pytest.approx((216.0, 144.0), abs=1e-9)


def test_forge_cone_of_45_degrees() -> None:
    """anvilfire.com, cones (1999): half apex angle 45° takes 254.6° of the disk."""
    assert angle_deg(of_radii(1.0, 2.0, 1.0)) == pytest.approx(254.6, abs=0.05)


@pytest.mark.parametrize(("waist", "bust", "length"), [(340.0, 440.0, 160.0), (290.0, 360.0, 130.0)])
def test_chord_and_rise_follow_the_handbook_formulas(waist: float, bust: float, length: float) -> None:
    """mathforum.org Dr. Math 55270 (2001) and 65796 (2004): S = Rs/(R − r), c = 2R sin(a/2), h = R(1 −
    cos(a/2)).
    """
    guide = guide_of(fan(waist, bust, length))
    outer = bust * length / (bust - waist)
    turn = bust / outer
    arc = guide.arcs[1]
    assert arc.string_mm == pytest.approx(outer, rel=1e-12)
    assert arc.chord_mm == pytest.approx(2.0 * outer * math.sin(turn / 2.0), rel=1e-12)
    assert arc.rise_mm == pytest.approx(outer * (1.0 - math.cos(turn / 2.0)), rel=1e-9)
