"""Drawing by hand: whoever follows the numbers with pin, ruler or tapes draws the block."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fanblock.block.fan import fan
from fanblock.block.guide import FARTHEST_PIN_MM, MARGIN_MM, MOST_ASTRAY_MM, Guide, guide_of
from fanblock.block.guide_words import chapters_of
from fanblock.block.tilt import tilted
from fanblock.wearer.model import Tilt

BODIES = [(340.0, 440.0, 160.0), (540.0, 480.0, 160.0), (475.0, 600.0, 140.0), (290.0, 360.0, 130.0)]


def drawn_by_pin(guide: Guide, index: int) -> tuple[np.ndarray, float]:
    """Ends of one arc as pin, string and chord place them, and the arc's length swung between them."""
    arc, pin = guide.arcs[index], guide.pin
    assert pin is not None
    assert arc.string_mm is not None
    down = math.sqrt(arc.string_mm**2 - (arc.chord_mm / 2.0) ** 2)
    y = pin.y_mm + math.copysign(down, guide.height_mm / 2.0 - pin.y_mm)
    ends = np.array([[pin.x_mm - arc.chord_mm / 2.0, y], [pin.x_mm + arc.chord_mm / 2.0, y]])
    return ends, 2.0 * arc.string_mm * math.asin(arc.chord_mm / 2.0 / arc.string_mm)


@pytest.mark.parametrize(("waist", "bust", "length"), BODIES)
def test_pin_string_and_chord_draw_the_block(waist: float, bust: float, length: float) -> None:
    """Swung from the pin and cut off by the chords, both arcs are half girths and both centres the
    ruling.
    """
    guide = guide_of(fan(waist, bust, length))
    low, low_length = drawn_by_pin(guide, 0)
    high, high_length = drawn_by_pin(guide, 1)
    assert (low_length, high_length) == pytest.approx((waist, bust), abs=1e-6)
    assert np.hypot(*(high - low).T) == pytest.approx([length, length], abs=1e-6)
    assert float(np.hypot(*(high[1] - low[0]))) == pytest.approx(guide.diagonal_mm, abs=1e-6)
    corners = [
        guide.corners[f"center {end} {level}"] for level in ("waist", "bust") for end in ("front", "back")
    ]
    np.testing.assert_allclose([(c.x_mm, c.y_mm) for c in corners], np.vstack((low, high)), atol=1e-6)


@pytest.mark.parametrize(("waist", "bust", "length"), BODIES)
def test_chord_and_rise_check_the_whole_arc_and_either_half(waist: float, bust: float, length: float) -> None:
    """By Pythagoras alone: half chord and rise meet the string; a half's chord joins an end to the crown."""
    for arc in guide_of(fan(waist, bust, length), levels={"top": 1.4}).arcs:
        assert arc.string_mm is not None
        assert math.hypot(arc.chord_mm / 2.0, arc.string_mm - arc.rise_mm) == pytest.approx(arc.string_mm)
        assert math.hypot(arc.chord_mm / 2.0, arc.rise_mm) == pytest.approx(arc.half_chord_mm)
        half = math.hypot(arc.half_chord_mm / 2.0, arc.string_mm - arc.half_rise_mm)
        assert half == pytest.approx(arc.string_mm)


def test_no_pin_where_the_lath_would_be_too_long_or_there_is_none() -> None:
    """Nearly straight blocks and rectangles are drawn by points; the rectangle says it is one."""
    nearly = guide_of(fan(481.5, 487.0, 160.0))
    assert nearly.pin is None
    assert nearly.tapes is None
    assert nearly.arcs[1].string_mm == pytest.approx(487.0 * 160.0 / 5.5)
    straight = guide_of(fan(440.0, 440.0, 160.0))
    assert straight.pin is None
    assert all(arc.string_mm is None and arc.rise_mm == 0.0 for arc in straight.arcs)
    assert chapters_of(straight)[1].lines == (
        "Bust and waist are alike, so the block is a rectangle 44.0 cm wide and 16.0 cm high from waist to"
        " bust. There is no pin to swing from.",
    )
    close = guide_of(fan(440.0 - 440.0 * 160.0 / (FARTHEST_PIN_MM - 1.0), 440.0, 160.0))
    assert close.pin is not None


@pytest.mark.parametrize("units", ["cm", "in"])
@pytest.mark.parametrize("tilts", [(), (Tilt("center back", 19.0), Tilt("center back", 5.0, to="side"))])
def test_grid_marks_lie_on_the_finished_block_within_the_paper(units: str, tilts: tuple[Tilt, ...]) -> None:
    """Every mark stands at a station and on its level; the lengths joined up are the half girths."""
    block = fan(340.0, 440.0, 160.0)
    for tilt in tilts:
        block = tilted(block, tilt)
    guide = guide_of(block, units, {"top": 1.4})
    assert guide.step_mm == (25.4 if units == "in" else 20.0)
    front = guide.corners["center front waist"], guide.corners["center front bust"]
    base = np.array([front[0].x_mm, front[0].y_mm])
    up = np.array([front[1].x_mm, front[1].y_mm]) - base
    up = up / np.hypot(*up)
    across = np.array([up[1], -up[0]])
    for name, height in (("waist", 0.0), ("bust", 1.0), ("top", 1.4)):
        marks = np.array([(mark.x_mm, mark.y_mm) for mark in guide.marks[name]])
        assert np.abs(marks[:, 0] / guide.step_mm - np.round(marks[:, 0] / guide.step_mm)).max() < 1e-9
        assert marks.min() >= MARGIN_MM - 1e-6
        assert (marks.max(axis=0) <= np.array([guide.width_mm, guide.height_mm]) - MARGIN_MM + 1e-6).all()
        around, found = block.where(np.stack(((marks - base) @ across, (marks - base) @ up), axis=-1))
        np.testing.assert_allclose(found, height, atol=1e-9)
        assert around.min() >= -1e-9
        assert around.max() <= 1.0 + 1e-9
        assert len(marks) == pytest.approx(float(np.ptp(marks[:, 0])) / guide.step_mm + 1.0)


def test_a_wedge_folded_in_paper_falls_short_and_is_then_slid_home() -> None:
    """Turning about the end of the cut until the lap is the take is done here on drawn points, in full."""
    plain, tilt = fan(340.0, 440.0, 160.0), Tilt("center back", 19.0, 0.5)
    (wedge,) = guide_of(tilted(plain, tilt)).wedges
    assert (wedge.cut_from_mm, wedge.cut_to_mm) == pytest.approx((80.0, 80.0))
    assert (wedge.taken_line_mm, wedge.far_line_mm) == pytest.approx((141.0, 160.0), abs=1e-9)
    pivot, cut = plain.at(0.0, 0.5), plain.at(1.0, 0.5)
    foot, head = plain.at(1.0, 0.0), plain.at(1.0, 1.0)
    angles = np.linspace(0.0, 0.1, 200_001)
    arm = cut - pivot
    laps = np.hypot(
        arm[0] * (np.cos(angles) - 1.0) - arm[1] * np.sin(angles),
        arm[0] * np.sin(angles) + arm[1] * (np.cos(angles) - 1.0),
    )
    angle = float(angles[np.argmin(np.abs(laps - 19.0))])
    cosine, sine = math.cos(angle), math.sin(angle)
    x, y = foot - pivot
    folded = pivot + np.array([x * cosine - y * sine, x * sine + y * cosine])
    assert 160.0 - float(np.hypot(*(head - folded))) == pytest.approx(wedge.folded_mm, abs=1e-3)
    assert wedge.folded_mm == pytest.approx(18.0, abs=0.05)


def tapes_drawn(waist: float, bust: float, length: float) -> tuple[float, float, float]:
    """The way without numbers carried out: the pin's distance from the waist, and both girths as stepped."""
    left = np.array([-waist / 2.0, 0.0]), np.array([-bust / 2.0, length])
    run = left[1] - left[0]
    pin_y = float(left[0][1] - left[0][0] * run[1] / run[0])
    girths = []
    for half, radius in ((waist, abs(pin_y)), (bust, abs(length - pin_y))):
        step = half / 8.0
        girths.append(2.0 * 8.0 * 2.0 * radius * math.asin(step / 2.0 / radius))
    return -pin_y, girths[0], girths[1]


@pytest.mark.parametrize(("waist", "bust", "length"), BODIES)
def test_the_way_without_numbers_finds_the_pin_and_owns_its_error(waist, bust, length) -> None:
    """Drawn out in full: the trapezoid's lines meet exactly at the pin, stepping errs by what is said."""
    guide = guide_of(fan(waist, bust, length))
    pin_below, waist_girth, bust_girth = tapes_drawn(waist, bust, length)
    assert pin_below == pytest.approx(waist * length / (bust - waist))
    assert guide.tapes is not None
    assert waist_girth - 2.0 * waist == pytest.approx(guide.tapes.waist_astray_mm, abs=1e-9)
    assert bust_girth - 2.0 * bust == pytest.approx(guide.tapes.bust_astray_mm, abs=1e-9)
    assert guide.tapes.waist_astray_mm + guide.tapes.pencil_astray_mm < MOST_ASTRAY_MM


@pytest.mark.parametrize(("waist", "bust", "length"), BODIES)
def test_a_pencil_half_a_millimetre_out_moves_the_waist_by_what_is_said(waist, bust, length) -> None:
    """Either line of the trapezoid 1 mm too long: with the bust right, the pin gives a waist that much
    astray.
    """
    guide = guide_of(fan(waist, bust, length))
    assert guide.tapes is not None
    worst = 0.0
    for more_waist, more_bust in ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)):
        below, _, _ = tapes_drawn(waist + more_waist, bust + more_bust, length)
        worst = max(worst, abs(2.0 * bust * below / (below + length) - 2.0 * waist))
    assert worst == pytest.approx(guide.tapes.pencil_astray_mm, rel=0.01)


def test_the_slant_lines_of_the_trapezoid_would_not_do_as_centre_lines() -> None:
    """Why the guide warns of them: between them the arc is centimetres short of the half bust."""
    waist, bust, length = BODIES[0]
    radius = bust * length / (bust - waist)
    assert bust - 2.0 * radius * math.atan(bust / 2.0 / radius) > 10.0


def test_it_is_not_offered_where_it_would_be_too_far_astray() -> None:
    """A very sharp fan: steps of an eighth are too coarse."""
    assert guide_of(fan(300.0, 600.0, 130.0)).tapes is None


def test_the_words_name_every_length_of_the_hand_vector() -> None:
    """The pin chapter for bust 88, waist 68, bust to waist 16, whole."""
    chapters = {chapter.title: chapter.lines for chapter in chapters_of(guide_of(fan(340.0, 440.0, 160.0)))}
    assert chapters["Draw the block with a pin and a lath"] == (
        "Rule an upright line 23.6 cm from the left edge of the paper; carry it past the edge if the pin"
        " needs it.",
        "Stick the pin on that line, 49.8 cm below the lower edge of the paper.",
        "Use a lath or a stiff tape, since string stretches, with a hole for the pin and one for the pencil"
        " at each of these distances: waist 54.4 cm, bust 70.4 cm.",
        "Swing every line before you move the pin.",
        "The ends of the waist are 33.4 cm apart in a straight line, half of that either side of the"
        " upright line; mark them on the arc.",
        "The ends of the bust are 43.3 cm apart in a straight line, half of that either side of the upright"
        " line; mark them on the arc.",
        "Rule a line through the left ends and one through the right ends: centre front and centre back."
        " Both point at the pin, and from waist to bust each is 16.0 cm long.",
    )


def test_inches_come_with_centimetres_beside_them() -> None:
    """An eighth of an inch is too coarse to draw by, so the exact length stands beside it."""
    guide = guide_of(tilted(fan(340.0, 440.0, 160.0), Tilt("center back", -19.0)), "in")
    chapters = {chapter.title: chapter.lines for chapter in chapters_of(guide)}
    assert chapters["Let out the centre back"][0] == (
        "Cut along the level from the centre back, 3 1/8 in (8.0 cm) above the waist, to just short of the"
        " centre front, 3 1/8 in (8.0 cm) above the waist there."
    )
