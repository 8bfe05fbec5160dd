"""Blocks of bodies: the tilts that taut lengths ask for are found, and the wearer's own come on top."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fanblock.block.from_body import block_of
from fanblock.block.ruled import Block
from fanblock.problems import GeometryError
from fanblock.wearer.body import Body
from fanblock.wearer.model import Tilt

GIRTHS = {"bust": 910.0, "waist": 730.0, "bust to waist": 155.0}
SIDE, BACK = "bust to waist at side", "bust to waist at back"


def ferrywoman(figure: tuple[Tilt, ...] = (), side_ratio: float = 0.5, **lengths: float) -> Body:
    """The ferrywoman over her shift, with further measures in mm (underscores stand for blanks)."""
    more = {name.replace("_", " "): value for name, value in lengths.items()}
    return Body("ferrywoman", "shift", {**GIRTHS, **more}, figure=figure, side_ratio=side_ratio)


def upright(block: Block, around: float) -> float:
    """Waist to bust at an around, from the drawn points."""
    return float(np.hypot(*(block.at(around, 1.0) - block.at(around, 0.0))))


def test_three_measures_make_a_plain_fan() -> None:
    """Bust, waist and bust to waist, nothing else: no corrections, both centres alike."""
    block = block_of(ferrywoman())
    assert block.corrections == ()
    assert (block.half_bust_mm, block.half_waist_mm) == (455.0, 365.0)
    assert [upright(block, around) for around in (0.0, 0.5, 1.0)] == pytest.approx([155.0] * 3, abs=1e-9)


def test_the_block_stands_on_the_raised_bust_where_it_was_measured() -> None:
    """Raised by 25 mm, all rulings are as much longer; a guess of how stays hold the bust changes
    nothing.
    """
    assert block_of(ferrywoman(raised=180.0)).center_front_mm == pytest.approx(180.0, abs=1e-9)
    assert block_of(ferrywoman(held_bust_to_waist=180.0)).center_front_mm == pytest.approx(155.0, abs=1e-9)


def test_a_back_length_alone_gives_one_tilt_at_the_centre_back() -> None:
    """15 mm shorter behind than in front, at rest or raised alike."""
    block = block_of(ferrywoman(raised=180.0, bust_to_waist_at_back=140.0))
    (found,) = block.corrections
    assert (found.at, found.to) == ("center back", "")
    assert found.take_mm == pytest.approx(15.0, abs=1e-9)
    assert (upright(block, 0.0), upright(block, 1.0)) == pytest.approx((180.0, 165.0), abs=1e-9)


def test_a_side_length_alone_gives_a_tilt_that_is_right_at_the_side() -> None:
    """The side is where the wearer's arcs put it."""
    block = block_of(ferrywoman(side_ratio=0.54, bust_to_waist_at_side=150.0))
    (found,) = block.corrections
    assert (found.at, found.to) == ("center back", "")
    assert (upright(block, 0.0), upright(block, 0.54)) == pytest.approx((155.0, 150.0), abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(st.floats(-8.0, 8.0), st.floats(-8.0, 8.0), st.floats(0.4, 0.6), st.sampled_from([0.0, 25.0]))
def test_three_taut_lengths_are_all_met(side: float, back: float, ratio: float, lift: float) -> None:
    """Front, side and back come out as measured, each raised alike; girths are untouched."""
    measures = {SIDE: 155.0 + side, BACK: 155.0 + side + back, "raised": 155.0 + lift}
    body = Body("ferrywoman", "shift", {**GIRTHS, **measures}, side_ratio=ratio)
    block = block_of(body)
    got = [upright(block, around) for around in (0.0, ratio, 1.0)]
    assert got == pytest.approx([155.0 + lift, 155.0 + lift + side, 155.0 + lift + side + back], abs=1e-5)
    assert [tilt.to for tilt in block.corrections] in (["", "side"], [""], ["side"], [])
    assert block.level_length_mm(0.0) == pytest.approx(365.0, abs=1e-9)
    assert block.level_length_mm(1.0) == pytest.approx(455.0, abs=1e-9)


def test_the_figures_own_tilts_come_on_top() -> None:
    """A wedge the wearer asks for is taken besides what the lengths ask for, and all are on record."""
    own = Tilt("center front", 4.0, 0.5)
    block = block_of(ferrywoman(figure=(own,), bust_to_waist_at_side=151.0, bust_to_waist_at_back=143.0))
    assert (upright(block, 0.0), upright(block, 1.0)) == pytest.approx((151.0, 143.0), abs=1e-9)
    assert own in block.corrections
    assert [tilt.to for tilt in block.corrections] == ["", "", "side"]


def test_a_side_length_no_tilt_can_give_is_refused() -> None:
    """A slip of the tape (half the length) is named with the measures to take again."""
    with pytest.raises(GeometryError) as caught:
        block_of(ferrywoman(bust_to_waist_at_side=60.0))
    assert str(caught.value) == (
        "bust to waist at side › no tilt can give the block this length; the others are too unlike it."
        " Measure bust to waist again at the front, the side and the back."
    )
