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
    corners = [guide.corners[f"center {end} {level}"] for level in ("waist", "bust") for end in ("front", "back")]
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


def placed(first: np.ndarray, first_mm: float, second: np.ndarray, second_mm: float) -> np.ndarray:
    """The point that far from two others, below the line from the first to the second."""
    run = second - first
    apart = float(np.hypot(*run))
    along = (first_mm**2 - second_mm**2 + apart**2) / (2.0 * apart)
    off = math.sqrt(first_mm**2 - along**2)
    unit = run / apart
    return first + along * unit + off * np.array([unit[1], -unit[0]])


@pytest.mark.parametrize(
    "tilt", [Tilt("center back", 19.0, 0.5), Tilt("center front", 10.0, 0.3), Tilt("center back", -12.0, 0.8)]
)
def test_the_lengths_of_a_tilt_place_the_cut_off_part(tilt: Tilt) -> None:
    """Struck from the bust's ends with centre lines and diagonals, both ends of the waist come to lie where the tilt
    puts them: as far apart as they were, since the cut-off part is rigid.
    """
    plain = fan(340.0, 440.0, 160.0)
    (wedge,) = guide_of(tilted(plain, tilt)).wedges
    assert (wedge.cut_from_mm, wedge.cut_to_mm) == pytest.approx((160.0 * tilt.height_ratio,) * 2)
    assert (wedge.taken_line_mm, wedge.far_line_mm) == pytest.approx((160.0 - tilt.take_mm, 160.0), abs=1e-9)
    lines = {tilt.at: wedge.taken_line_mm}
    front, back = (lines.get(f"center {end}", wedge.far_line_mm) for end in ("front", "back"))
    bust = plain.at(np.array([0.0, 1.0]), 1.0)
    front_waist = placed(bust[0], front, bust[1], wedge.front_to_back_mm)
    back_waist = placed(bust[0], wedge.back_to_front_mm, bust[1], back)
    chord = float(np.hypot(*(plain.at(1.0, 0.0) - plain.at(0.0, 0.0))))
    assert float(np.hypot(*(back_waist - front_waist))) == pytest.approx(chord, abs=1e-6)


def test_the_cut_is_shown_where_it_is_made() -> None:
    """The cut runs along its level of the block drawn first, from one centre line to the other."""
    guide = guide_of(tilted(fan(340.0, 440.0, 160.0), Tilt("center back", 19.0, 0.5)))
    for level, share in (("waist", 0.5), ("bust", 0.5)):
        for end in (0, -1):
            there, cut = guide.first[level][end], guide.wedges[0].cut[end]
            assert math.hypot(there.x_mm - cut.x_mm, there.y_mm - cut.y_mm) == pytest.approx(160.0 * share)


def test_the_words_of_a_tilt_give_four_lengths_and_no_hinge() -> None:
    """The lower part is cut loose and placed by two centre lines and two diagonals, which a straight ruler shows."""
    guide = guide_of(tilted(fan(340.0, 440.0, 160.0), Tilt("center back", 19.0)))
    chapters = {chapter.title: chapter.lines for chapter in chapters_of(guide)}
    assert chapters["Take in the centre back"] == (
        "Cut right through along the level: from the centre back, 8.0 cm above the waist, to the centre front,"
        " 8.0 cm above the waist there. The lower part is now loose.",
        "Slide its centre back over the upper part's, and turn it, until a straight ruler shows all of these:"
        " centre back, waist to bust, 14.1 cm; centre front, waist to bust, 16.0 cm; from the waist of the centre"
        " front to the bust of the centre back 40.9 cm; from the waist of the centre back to the bust of the centre"
        " front 41.0 cm. Then tape it down.",
        "Any three of the four fix its place and the fourth checks it. The lap runs out from about 1.9 cm at the"
        " centre back to next to nothing at the centre front; go by the ruler, not by the lap.",
        "Rule both centre lines again, straight from waist to bust. Waist and bust keep their shapes and lengths.",
    )
    assert chapters["Or draw it by points on a grid"][0] == (
        "The grid gives the finished block, already taken in: draw it so and nothing is cut."
    )


def test_no_two_chapters_have_one_heading() -> None:
    """Two tilts at one centre line are told apart: one that ends at the side says so, and alike ones are counted."""
    block = fan(340.0, 440.0, 160.0)
    twice = Tilt("center back", 12.0, 0.4), Tilt("center back", 7.0, 0.7)
    for tilt in (*twice, Tilt("center back", 5.0, to="side")):
        block = tilted(block, tilt)
    chapters = chapters_of(guide_of(block))
    titles = [chapter.title for chapter in chapters]
    assert len(set(titles)) == len(titles)
    assert [title for title in titles if title.startswith("Take in")] == [
        "Take in the centre back, 1 of 2",
        "Take in the centre back, 2 of 2",
        "Take in the centre back, as far as the side",
    ]
    told = next(chapter.lines[0] for chapter in chapters if "side" in chapter.title)
    assert f"in the table at the end, under “{titles[-1]}”" in told


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
        "Rule an upright line 23.6 cm from the left edge of the paper; carry it past the edge if the pin needs it.",
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


def test_inches_are_told_to_half_a_sixteenth() -> None:
    """An eighth of an inch, 3.2 mm, is too coarse to draw by; by hand: 80 mm are 3.1496 in, and 5/32 in are 0.15625 in."""
    guide = guide_of(tilted(fan(340.0, 440.0, 160.0), Tilt("center back", -19.0)), "in")
    chapters = {chapter.title: chapter.lines for chapter in chapters_of(guide)}
    assert chapters["Let out the centre back"][0] == (
        "Cut right through along the level: from the centre back, 3 5/32 in above the waist, to the"
        " centre front, 3 5/32 in above the waist there. The lower part is now loose."
    )
