"""Eyelets: rows that begin and end level, how many there are, where they stand, and how long the lace is."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.samples import GAP, HEM, RED, SOME, THREE, TOP, made, recipe, side_back, side_front

from fanblock.finish.bonelist import eyelet_count, is_level, lace_mm
from fanblock.finish.eyeleting import CROSSED_TIMES, TAILS_MM, row_count, rows_of, spiral_lace_mm
from fanblock.pattern.model import Pattern


def laced(options: str = "{from edge: 10 mm}", name: str = "ordinary") -> Pattern:
    """Return the sample garment with eyelets along its back."""
    return made(recipe(GAP, TOP, HEM, side_front(), side_back(), RED, THREE, f"eyelets: {options}"), name)


def test_a_spiral_by_hand() -> None:
    """262.5 mm at 25 mm: 12 holes a side, 10 1/2 spaces. One half has its half space above, the other below.

    So the first and the last pair stand level and the others are staggered (common practice; staggered eyelets, 8 and 10 a
    side, on stays of about 1780 and 1780-1790, UNH, Bowen Collection).
    """
    rows = rows_of(262.5, 25.0, "spiral")
    assert rows.spacing_mm == 25.0
    assert rows.left_mm[:3] == (0.0, 12.5, 37.5)
    assert rows.left_mm[-2:] == (237.5, 262.5)
    assert rows.right_mm[:3] == (0.0, 25.0, 50.0)
    assert rows.right_mm[-2:] == (250.0, 262.5)
    assert len(rows.left_mm) == len(rows.right_mm) == 12


def test_the_other_half_may_be_the_stepped_one() -> None:
    """`stepped: right` changes the rows about."""
    left, right = rows_of(200.0, 25.0, "spiral", "left"), rows_of(200.0, 25.0, "spiral", "right")
    assert (left.left_mm, left.right_mm) == (right.right_mm, right.left_mm)


def test_crossed_rows_by_hand() -> None:
    """250 mm at 25 mm: 11 level pairs."""
    rows = rows_of(250.0, 25.0, "crossed")
    assert rows.left_mm == rows.right_mm == pytest.approx(tuple(25.0 * number for number in range(11)))


@given(length=st.floats(60.0, 500.0), spacing=st.floats(10.0, 40.0), way=st.sampled_from(["spiral", "crossed"]))
def test_rows_end_level_and_their_space_is_near_what_was_asked(length: float, spacing: float, way: str) -> None:
    """Both rows begin at 0 and end at the length; the space differs by less than half a space over all of them."""
    if row_count(length, spacing, way) < 3:
        return
    rows = rows_of(length, spacing, way)
    assert rows.left_mm[0] == rows.right_mm[0] == 0.0
    assert rows.left_mm[-1] == pytest.approx(length)
    assert rows.right_mm[-1] == pytest.approx(length)
    spaces = length / rows.spacing_mm
    assert abs(rows.spacing_mm - spacing) * spaces <= 0.5 * max(spacing, rows.spacing_mm) + 1e-6
    for row in (rows.left_mm, rows.right_mm):
        steps = np.diff(row)
        assert steps.min() > 0.49 * rows.spacing_mm
        assert steps.max() < 1.01 * rows.spacing_mm


@pytest.mark.parametrize(("gap_mm", "cm"), [(0.0, 54), (50.0, 164), (80.0, 232)])
def test_the_lace_of_twelve_holes_a_side(gap_mm: float, cm: int) -> None:
    """54, 164 and 232 cm at gaps of 0, 5 and 8 cm, for 12 holes a side 2.5 cm apart, 1 cm from the edge: the formula
    (2n - 1) sqrt((gap + 2e)² + (s/2)²) of the trade, worked out (common practice), and tails of 50 to 60 cm."""
    assert round(spiral_lace_mm(12, 25.0, gap_mm, 10.0) / 10.0) == cm
    assert 500.0 <= TAILS_MM <= 600.0


@pytest.mark.parametrize("name", SOME)
def test_rows_run_from_below_the_top_to_above_the_waist(name: str) -> None:
    """The first hole 10 mm below the top, the last 7 mm above the waist, 10 mm inside the edge (common practice)."""
    pattern = laced(name=name)
    back, lacing = pattern.by_name["back"], pattern.lacings[0]
    edge = back.edge("lacing edge").curve
    assert lacing.left_mm[0] == lacing.right_mm[0] == 10.0
    assert is_level(lacing)
    waist = back.levels["waist"][0].end
    top = edge.end if edge.end[1] > edge.start[1] else edge.start
    assert np.hypot(*(top - waist)) - lacing.left_mm[-1] == pytest.approx(7.0, abs=0.3)
    along = (edge.end - edge.start) / edge.length_mm
    for eyelet in back.eyelets:
        off = (eyelet.point - edge.start) @ np.array([-along[1], along[0]])
        assert off == pytest.approx(10.0, abs=0.05)


def test_holes_on_the_piece_are_those_of_both_halves() -> None:
    """A level pair is one hole on the piece, the staggered ones are each their own."""
    pattern = laced()
    holes = pattern.by_name["back"].eyelets
    lacing = pattern.lacings[0]
    assert sorted(eyelet.at_mm for eyelet in holes if eyelet.half in ("left", "both")) == pytest.approx(lacing.left_mm)
    assert sorted(eyelet.at_mm for eyelet in holes if eyelet.half in ("right", "both")) == pytest.approx(
        lacing.right_mm
    )
    assert [eyelet.half for eyelet in holes].count("both") == 2
    assert eyelet_count(lacing) == 2 * len(lacing.left_mm)
    crossed = laced("{lacing: crossed, from edge: 10 mm}").by_name["back"].eyelets
    assert {eyelet.half for eyelet in crossed} == {"both"}


def test_the_lace_of_a_pattern_counts_its_gap() -> None:
    """Stays 5 cm apart want a lace across 5 cm and twice the distance from the edge; crossed lacing about double."""
    lacing = laced().lacings[0]
    assert lacing.gap_mm == 50.0
    count = len(lacing.left_mm)
    by_hand = (2 * count - 1) * np.hypot(50.0 + 20.0, lacing.spacing_mm / 2.0)
    assert lacing.lace_mm == pytest.approx(by_hand)
    assert lace_mm(lacing) == pytest.approx(by_hand + TAILS_MM)
    crossed = laced("{lacing: crossed, from edge: 10 mm}").lacings[0]
    single = spiral_lace_mm(len(crossed.left_mm), crossed.spacing_mm, 50.0, 10.0)
    assert crossed.lace_mm == pytest.approx(CROSSED_TIMES * single)


def test_a_garment_that_laces_at_the_side_has_a_row_on_each_piece() -> None:
    """The front's row and the back's are those of one spiral, the same on both sides of the body: two laces (maternity stays
    laced at both sides are on a plate of the Encyclopédie, IX)."""
    steps = (
        TOP,
        HEM,
        "lacing gap: {at: side, width: 20 mm}",
        RED.replace("3%", "0%"),
        "separate: {panels: [front, back]}",
    )
    pattern = made(recipe(*steps, "eyelets: {from edge: 12 mm}"))
    (lacing,) = pattern.lacings
    assert (lacing.panel, lacing.across, lacing.times, lacing.gap_mm) == ("front", "back", 2, 20.0)
    assert is_level(lacing)
    assert eyelet_count(lacing) == 4 * len(lacing.left_mm)
    for panel, row in (("front", lacing.left_mm), ("back", lacing.right_mm)):
        holes = pattern.by_name[panel].eyelets
        assert {eyelet.half for eyelet in holes} == {"both"}
        assert [eyelet.at_mm for eyelet in holes] == pytest.approx(row)
