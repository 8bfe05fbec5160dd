"""Blocks that stand on other girths than waist and bust: the same cone, fitted elsewhere."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fanblock.block.from_body import block_of, standing_block
from fanblock.block.ruled import Block
from fanblock.problems import GeometryError
from fanblock.tolerances import BLOCK_MM
from fanblock.units import parse_length
from fanblock.wearer.body import Body
from fanblock.wearer.girths import HEIGHT_MEASURES, girth_height_mm, measures_of
from fanblock.wearer.model import Tilt

UNDERBUST_CM, UPPER_CHEST_CM, BUST_CM = 10.0, 20.5, 16.0
"""Heights above the waist that are assumed for the tables, which give none."""

AMERICAN = {
    "00": ("31 1/8", "25 3/4", "31 3/4"), "0": ("31 3/4", "26 1/2", "32 1/4"), "2": ("33", "27 1/4", "33 1/4"),
    "4": ("34 1/8", "28", "34 1/8"), "6": ("35 1/4", "29", "35"), "8": ("36 1/4", "30", "35 7/8"),
    "10": ("37 1/4", "31", "36 3/4"), "12": ("38 3/4", "32 1/2", "38"), "14": ("40 3/8", "34", "39 1/4"),
    "16": ("42 1/8", "35 3/4", "40 5/8"), "18": ("44", "37 5/8", "42 1/4"), "20": ("46", "39 5/8", "43 7/8"),
}  # fmt: skip
"""Bust, underbust and upper chest in inches: ASTM D5585-11e1, table 1."""


def body(figure: tuple[Tilt, ...] = (), side_ratio: float = 0.5, **lengths: float) -> Body:
    """Return a body with these lengths in mm; what is not given is that of an ordinary body."""
    usual = {
        "bust": 920.0, "waist": 740.0, "bust to waist": 160.0, "underbust": 780.0, "underbust height": 95.0,
        "upper chest": 890.0, "upper chest height": 205.0, "raised waist": 765.0, "raised waist height": 60.0,
    }  # fmt: skip
    return Body("sample", "shift", {**usual, **{name.replace("_", " "): mm for name, mm in lengths.items()}},
                figure=figure, side_ratio=side_ratio, units="mm")  # fmt: skip


@pytest.mark.parametrize("size", AMERICAN)
def test_a_block_measures_what_a_size_table_says_at_ribs_and_chest(
    size: str, arc_length: Callable[[Block, float], float]
) -> None:
    """Measured by quadrature along the drawn levels, ribs and upper chest are the table's within 0.01 mm."""
    bust, ribs, chest = (parse_length(text, "in") for text in AMERICAN[size])
    heights = {"underbust_height": 10.0 * UNDERBUST_CM, "upper_chest_height": 10.0 * UPPER_CHEST_CM}
    block = block_of(body(bust=bust, underbust=ribs, upper_chest=chest, **heights), "underbust", "upper chest")
    assert 2.0 * arc_length(block, UNDERBUST_CM / BUST_CM) == pytest.approx(ribs, abs=BLOCK_MM)
    assert 2.0 * arc_length(block, UPPER_CHEST_CM / BUST_CM) == pytest.approx(chest, abs=BLOCK_MM)


def test_a_cone_grows_evenly_so_waist_and_bust_follow() -> None:
    """From 780 mm 100 above the waist to 900 mm 200 above it a cone grows by 1.2 a millimetre: 660 at the waist, 852 at 160."""
    given = {"underbust": 780.0, "underbust_height": 100.0, "upper_chest": 900.0, "upper_chest_height": 200.0}
    block, stand = standing_block(body(**given), "underbust", "upper chest")
    assert (2.0 * block.half_waist_mm, 2.0 * block.half_bust_mm) == pytest.approx((660.0, 852.0), abs=1e-6)
    assert [level.height for level in stand.levels] == pytest.approx([0.625, 1.25])
    assert block.turn_rad == pytest.approx(0.6)
    assert block.center_front_mm == pytest.approx(160.0)


def test_waist_and_bust_make_the_ordinary_block() -> None:
    """Said in so many words it is the block that nobody has to ask for."""
    said, stand = standing_block(body(), "waist", "bust")
    around, height = np.linspace(0.0, 1.0, 9)[:, np.newaxis], np.linspace(-0.5, 1.5, 9)
    np.testing.assert_array_equal(said.at(around, height), block_of(body()).at(around, height))
    assert (stand.is_usual, [level.height for level in stand.levels]) == (True, [0.0, 1.0])


girths = st.sampled_from([
    (low, high)
    for number, low in enumerate(HEIGHT_MEASURES)
    for high in list(HEIGHT_MEASURES)[number + 1 :]
    if (low, high) != ("raised waist", "underbust")
])  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(girths, st.floats(-12.0, 12.0), st.floats(-8.0, 8.0), st.floats(-6.0, 6.0), st.floats(0.42, 0.6))
def test_whatever_the_figure_both_girths_are_met(
    names: tuple[str, str], back: float, side: float, front: float, ratio: float
) -> None:
    """Short or long behind, at the side or in front: the two girths are right where they were measured, to a hair."""
    figure = (Tilt("center front", front, 0.4),) if abs(front) > 0.1 else ()
    lengths = {"bust_to_waist_at_back": 160.0 + back, "bust_to_waist_at_side": 160.0 + side}
    who = body(figure, ratio, **lengths)
    block, stand = standing_block(who, *names)
    for level in stand.levels:
        assert 2.0 * block.level_length_mm(level.height) == pytest.approx(who.length_mm(level.name), abs=1e-6)
        assert level.height * block.center_front_mm == pytest.approx(
            {"waist": 0.0, "bust": block.center_front_mm}.get(level.name, girth_height_mm(who, level.name))
        )


def test_girths_too_near_each_other_are_refused() -> None:
    """Two tapes 2 cm apart say nothing of the way a body widens."""
    with pytest.raises(GeometryError) as caught:
        block_of(body(underbust_height=140.0), "underbust", "bust")
    assert str(caught.value) == (
        "block › underbust and bust lie too near each other to tell how the body widens "
        "(above the waist: 140.0 mm and 160.0 mm). They must lie 30.0 mm apart or more: measure both heights again."
    )


def test_a_cone_that_would_come_to_its_point_is_refused() -> None:
    """Ribs of 300 mm under a chest of 890 leave nothing at the waist."""
    with pytest.raises(GeometryError) as caught:
        block_of(body(underbust=300.0), "underbust", "upper chest")
    assert str(caught.value) == (
        "block › from underbust 300.0 mm and upper chest 890.0 mm a cone would run to nothing before it reaches the waist. "
        "Measure both girths and their heights again."
    )


def test_a_girth_and_its_height_belong_together() -> None:
    """What a block needs of a girth is the girth and where it lies; the bust lies where it was raised."""
    assert measures_of("raised waist") == ("raised waist", "raised waist height")
    assert girth_height_mm(body(raised=178.0), "bust") == 178.0
    assert [girth_height_mm(body(), name) for name in HEIGHT_MEASURES] == [0.0, 60.0, 95.0, 160.0, 205.0]
