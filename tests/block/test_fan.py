"""The untilted block: its shape against a second formula, any drop, and its refusals."""

from __future__ import annotations

import math

import mpmath
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fanblock.block.fan import fan
from fanblock.block.guide import guide_of
from fanblock.problems import GeometryError
from fanblock.tolerances import BLOCK_MM

DROPS = [100.0, 0.001, 0.0, -0.001, -60.0]

halves = st.floats(250.0, 800.0)
rulings = st.floats(100.0, 260.0)


def test_the_perfect_hand_vector() -> None:
    """Bust 88, waist 68, bust to waist 16: numbers that can be worked with a pencil (own working, no
    source).
    """
    guide = guide_of(fan(340.0, 440.0, 160.0))
    waist, bust = guide.arcs
    assert (bust.string_mm, waist.string_mm) == pytest.approx((704.0, 544.0), rel=1e-12)
    assert math.degrees(bust.length_mm / 704.0) == pytest.approx(35.8099, abs=5e-5)
    assert (bust.chord_mm, bust.rise_mm) == pytest.approx((432.87, 34.10), abs=0.005)
    x, y = fan(340.0, 440.0, 160.0).at(np.linspace(0.0, 1.0, 4001), 1.0).T
    low_x, low_y = fan(340.0, 440.0, 160.0).at(np.linspace(1.0, 0.0, 4001), 0.0).T
    x, y = np.concatenate((x, low_x)), np.concatenate((y, low_y))
    area = abs(float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))) / 2.0
    assert area == pytest.approx(62400.0, abs=0.01)
    box = guide.width_mm - 40.0, guide.height_mm - 40.0
    assert box == pytest.approx((432.87, 186.35), abs=0.01)


@pytest.mark.parametrize("drop", DROPS)
def test_every_point_agrees_with_fifty_digit_radii(drop: float) -> None:
    """The apex form with radius and angle, worked in fifty digits, gives the same points to a millionth
    of a mm.
    """
    bust, length = 440.0, 160.0
    waist = bust - drop
    block = fan(waist, bust, length)
    with mpmath.workdps(50):
        turn = (mpmath.mpf(bust) - mpmath.mpf(waist)) / length
        for around in (-0.3, 0.0, 0.25, 0.5, 1.0, 1.3):
            for height in (-0.8, 0.0, 0.5, 1.0, 1.8):
                if turn == 0:
                    expected = (waist * around, height * length)
                else:
                    radius = mpmath.mpf(waist) / turn + mpmath.mpf(height) * length
                    angle = turn * mpmath.mpf(around)
                    flat = radius * mpmath.sin(angle), radius * mpmath.cos(angle) - mpmath.mpf(waist) / turn
                    expected = tuple(map(float, flat))
                assert block.at(around, height) == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("drop", DROPS)
def test_rolled_up_it_closes_and_measures_what_was_asked(drop, roll_up, arc_length) -> None:
    """Whatever the drop, the sheet rolled into a body shows waist, bust and bust to waist to 0.01 mm."""
    block = fan(440.0 - drop, 440.0, 160.0)
    body = roll_up(block)
    assert body.closes_mm < BLOCK_MM
    assert (body.waist_mm, body.bust_mm, body.upright_mm) == pytest.approx(
        (2.0 * (440.0 - drop), 880.0, 160.0), abs=BLOCK_MM
    )
    assert 2.0 * arc_length(block, 0.0) == pytest.approx(2.0 * (440.0 - drop), abs=BLOCK_MM)
    assert 2.0 * arc_length(block, 1.0) == pytest.approx(880.0, abs=BLOCK_MM)


def test_stays_block_34_27_with_6_and_a_quarter_between() -> None:
    """Common practice, no source: bust 34, waist 27 and 6 1/4 in between give half arcs of 17 and 13 1/2
    in.
    """
    inch = 25.4
    block = fan(27.0 * inch / 2.0, 34.0 * inch / 2.0, 6.25 * inch)
    assert block.level(1.0).length_mm == pytest.approx(17.0 * inch, abs=BLOCK_MM)
    assert block.level(0.0).length_mm == pytest.approx(13.5 * inch, abs=BLOCK_MM)
    assert (block.center_front_mm, block.center_back_mm) == pytest.approx((158.75, 158.75), abs=1e-9)


@settings(max_examples=60, deadline=None)
@given(halves, halves, rulings, st.floats(0.25, 4.0))
def test_doubling_the_measures_doubles_the_sheet(waist: float, bust: float, length: float, by: float) -> None:
    """A body larger all over by one factor has the same block, larger by that factor."""
    around, height = np.linspace(-0.3, 1.3, 9)[:, np.newaxis], np.linspace(-0.5, 1.5, 5)
    small = fan(waist, bust, length).at(around, height)
    large = fan(waist * by, bust * by, length * by).at(around, height)
    np.testing.assert_allclose(large, small * by, rtol=1e-9, atol=1e-8)


@settings(max_examples=60, deadline=None)
@given(halves, halves, rulings)
def test_upside_down_it_is_the_fan_of_waist_and_bust_exchanged(waist: float, bust: float, length: float) -> None:
    """Waist and bust exchanged give the same sheet standing on its head."""
    around = np.linspace(0.0, 1.0, 9)
    sheet = fan(waist, bust, length).at(around, 0.25)
    other = fan(bust, waist, length).at(around, 0.75)
    np.testing.assert_allclose(other, np.array([0.0, length]) + sheet * np.array([1.0, -1.0]), atol=1e-8)


def test_a_measure_of_nothing_is_refused() -> None:
    """Every length that is not over nought is named, all together."""
    with pytest.raises(GeometryError) as caught:
        fan(0.0, 440.0, -160.0, side_ratio=1.0)
    assert str(caught.value) == (
        "block › bust to waist › is -160 mm, but must be longer than nothing.\n"
        "block › half waist › is 0 mm, but must be longer than nothing.\n"
        "block › side › must lie between the centre front and the centre back."
    )
