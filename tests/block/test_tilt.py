"""Tilts: what they change, what they must leave alone, and what they refuse."""

from __future__ import annotations

from itertools import permutations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from fanblock.block.fan import fan
from fanblock.block.lean import center_lean_deg
from fanblock.block.ruled import Block
from fanblock.block.tilt import tilted
from fanblock.problems import GeometryError
from fanblock.tolerances import BLOCK_MM
from fanblock.wearer.model import Tilt

BACK, FRONT = "center back", "center front"
BODIES = [
    (340.0, 440.0, 160.0),
    (481.5, 487.0, 160.0),
    (540.0, 500.0, 160.0),
    (475.0, 600.0, 140.0),
    (290.0, 360.0, 130.0),
]
GRID = np.linspace(0.0, 1.0, 21)[:, np.newaxis], np.linspace(0.0, 1.0, 9)


def centres(block: Block) -> tuple[float, float]:
    """Centre front and centre back, from the drawn points."""
    front, back = block.at([0.0, 1.0], 1.0) - block.at([0.0, 1.0], 0.0)
    return float(np.hypot(*front)), float(np.hypot(*back))


def test_stays_block_tilted_three_quarters_of_an_inch_at_the_back() -> None:
    """Common practice, no source: bust 38 1/2, waist 32, 6 1/4 between, back short by 3/4 in; the front
    stays.
    """
    inch = 25.4
    block = tilted(fan(16.0 * inch, 19.25 * inch, 6.25 * inch), Tilt(BACK, 0.75 * inch))
    assert centres(block) == pytest.approx((6.25 * inch, 5.5 * inch), abs=1e-9)
    assert block.level(0.0).length_mm == pytest.approx(16.0 * inch, abs=BLOCK_MM)
    assert block.level(1.0).length_mm == pytest.approx(19.25 * inch, abs=BLOCK_MM)


@pytest.mark.parametrize(("waist", "bust", "length"), BODIES)
@pytest.mark.parametrize("height", [0.0, 0.5, 1.0])
@pytest.mark.parametrize("take", [19.0, -19.0, 0.001])
@pytest.mark.parametrize("at", [BACK, FRONT])
def test_one_centre_loses_the_take_and_all_else_keeps_its_length(
    waist, bust, length, height, take, at, arc_length
) -> None:
    """Exact to a millionth of a mm at the centres; waist and bust by quadrature of the drawn points."""
    block = tilted(fan(waist, bust, length), Tilt(at, take, height))
    expected = (length, length - take) if at == BACK else (length - take, length)
    assert centres(block) == pytest.approx(expected, abs=1e-9)
    assert arc_length(block, 0.0) == pytest.approx(waist, abs=1e-4)
    assert arc_length(block, 1.0) == pytest.approx(bust, abs=1e-4)


@pytest.mark.parametrize(("waist", "bust", "length"), BODIES)
def test_levels_of_a_tilted_block_run_at_one_speed(waist: float, bust: float, length: float) -> None:
    """Around is share of arc at every level: a level cut at equal arounds falls into equal lengths of one
    arc.
    """
    block = tilted(fan(waist, bust, length), Tilt(BACK, 19.0))
    points = block.at(np.linspace(0.0, 1.0, 41), 0.4)
    chords = np.hypot(*np.diff(points, axis=0).T)
    assert np.ptp(chords) < 1e-9
    skipped = np.hypot(*(points[2:] - points[:-2]).T)
    assert np.ptp(skipped) < 1e-9


@pytest.mark.parametrize(("waist", "bust", "length"), BODIES)
@pytest.mark.parametrize("at", [BACK, FRONT])
def test_a_tilt_to_the_side_changes_nothing_before_the_side(waist, bust, length, at, arc_length) -> None:
    """Everything from the far centre line to the side stays; the taken one loses the take; girths stay."""
    plain = fan(waist, bust, length, side_ratio=0.45)
    block = tilted(plain, Tilt(at, 9.0, to="side"))
    expected = (length, length - 9.0) if at == BACK else (length - 9.0, length)
    assert centres(block) == pytest.approx(expected, abs=1e-9)
    kept = np.linspace(0.0, 0.45, 9) if at == BACK else np.linspace(0.45, 1.0, 9)
    np.testing.assert_allclose(block.ruling_length_mm(kept), length, atol=1e-9)
    for height in (0.0, 0.5, 1.0):
        gaps = [np.hypot(*np.diff(each.at(kept, height), axis=0).T) for each in (plain, block)]
        np.testing.assert_allclose(gaps[1], gaps[0], atol=1e-9)
    assert arc_length(block, 0.0) == pytest.approx(waist, abs=1e-4)
    assert arc_length(block, 1.0) == pytest.approx(bust, abs=1e-4)
    step = 1e-6
    slopes = block.around_slope([0.45 - step, 0.45 + step], 0.0)
    np.testing.assert_allclose(slopes[0], slopes[1], atol=1e-2)


def test_the_height_of_a_tilt_to_the_side_is_not_looked_at() -> None:
    """Where the wedge stands has no meaning there."""
    plain = fan(340.0, 440.0, 160.0)
    one, other = (tilted(plain, Tilt(BACK, 9.0, height, "side")) for height in (0.1, 7.0))
    np.testing.assert_array_equal(one.at(*GRID), other.at(*GRID))


@pytest.mark.parametrize(("waist", "bust", "length"), BODIES)
def test_the_order_of_tilts_does_not_matter(waist, bust, length, apart) -> None:
    """Three tilts in any order: equal centre lengths, and shapes that lie on each other within 0.05 mm."""
    tilts = (Tilt(BACK, 12.0, 0.4), Tilt(FRONT, 8.0, 0.6), Tilt(BACK, 6.0, to="side"))
    shapes = []
    for order in permutations(tilts):
        block = fan(waist, bust, length)
        for tilt in order:
            block = tilted(block, tilt)
        assert centres(block) == pytest.approx((length - 8.0, length - 18.0), abs=1e-9)
        assert sorted(block.corrections, key=repr) == sorted(tilts, key=repr)
        shapes.append(block.at(*GRID))
    assert max(apart(shapes[0], shape) for shape in shapes[1:]) < 0.05


@settings(max_examples=60, deadline=None)
@given(
    st.floats(280.0, 600.0),
    st.floats(-40.0, 140.0),
    st.floats(130.0, 200.0),
    st.floats(-20.0, 20.0),
    st.floats(0.0, 1.0),
    st.sampled_from(["", "side"]),
    st.floats(0.4, 0.6),
)
def test_a_mirrored_figure_has_the_mirrored_block(
    waist: float, drop: float, length: float, take: float, height: float, to: str, side: float
) -> None:
    """Front and back exchanged, the same tilt at the other centre gives the same sheet seen in a mirror."""
    assume(to == "" or abs(take) < 10.0)
    one = tilted(fan(waist, waist + drop, length, side), Tilt(BACK, take, height, to))
    other = tilted(fan(waist, waist + drop, length, 1.0 - side), Tilt(FRONT, take, height, to))
    around, level = np.linspace(-0.2, 1.2, 8)[:, np.newaxis], np.linspace(-0.5, 1.5, 5)
    here, there = one.at(around, level).reshape(-1, 2), other.at(1.0 - around, level).reshape(-1, 2)
    p, q = here[:, 0] + 1j * here[:, 1], -there[:, 0] + 1j * there[:, 1]
    p, q = p - p.mean(), q - q.mean()
    turn = np.vdot(q, p)
    np.testing.assert_allclose(p, q * turn / abs(turn), atol=1e-7)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.3, 3.0), st.floats(-15.0, 15.0), st.sampled_from(["", "side"]))
def test_doubling_measures_and_take_doubles_the_sheet(by: float, take: float, to: str) -> None:
    """A body larger all over by one factor, its tilt too, has the same sheet, larger by that factor.

    Left to the shape itself: the reach within which rulings must not cross is the cutter's and does not
    grow.
    """
    assume(abs(take) < 12.0 * min(1.0, by))
    small = tilted(fan(340.0, 440.0, 160.0), Tilt(BACK, take, 0.5, to))
    try:
        large = tilted(fan(340.0 * by, 440.0 * by, 160.0 * by), Tilt(BACK, take * by, 0.5, to))
    except GeometryError:
        assume(by < 1.0)
        return
    np.testing.assert_allclose(large.at(*GRID), small.at(*GRID) * by, atol=1e-7)


def test_centre_lines_lean_by_what_their_corners_show() -> None:
    """Square on a fan; after a tilt, within the four degrees that a point at the waist still bears."""
    plain = fan(481.5, 487.0, 160.0)
    assert center_lean_deg(plain) == pytest.approx((0.0, 0.0), abs=1e-9)
    for take in (19.0, -19.0):
        block = tilted(plain, Tilt(BACK, take))
        front, back = center_lean_deg(block)
        assert max(abs(front), abs(back)) < 4.0
        assert front < 0.0 < back if take > 0.0 else back < 0.0 < front
        tiny = block.at(1e-7, 0.0)
        assert front == pytest.approx(-np.degrees(np.arctan2(tiny[1], tiny[0])), abs=1e-4)


@pytest.mark.parametrize(
    ("tilt", "text"),
    [
        (
            Tilt(BACK, 10.0, 1.2),
            "tilt at center back › the wedge stands at 120 % of the way from waist to bust; outside 0 % to"
            " 100 % it would change nothing. Put it between the waist and the bust.",
        ),
        (Tilt("centre bakc", 10.0), "tilt › cannot be at “centre bakc”. Did you mean “center back”?"),
        (Tilt(BACK, 10.0, to="sied"), "tilt at center back › cannot run to “sied”. Did you mean “side”?"),
        (
            Tilt(BACK, 200.0),
            "tilt at center back › taking 20.0 cm from a line of 16.0 cm is more than the sheet can give. Take less.",
        ),
        (
            Tilt(BACK, 120.0),
            "tilt at center back › taking 12.0 cm from a line of 16.0 cm is more than the sheet can give. Take less.",
        ),
        (
            Tilt(BACK, 100.0),
            "tilt at center back › the upright lines of the block run into each other 9.7 cm below the"
            " waist. Take less, or measure again.",
        ),
    ],
)
def test_refusals_say_what_to_do(tilt: Tilt, text: str) -> None:
    """The whole message, for bust 88, waist 68, bust to waist 16."""
    with pytest.raises(GeometryError) as caught:
        tilted(fan(340.0, 440.0, 160.0), tilt)
    assert str(caught.value) == text
