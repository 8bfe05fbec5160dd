"""The cap: below exactly as long as the armhole, above exactly as long as was asked, smooth all along."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq
from shapely import LineString
from tests.sleeves.sewn import circle

from fanblock.problems import GeometryError
from fanblock.sleeves.cap import ARCH_RATIO, LEAST_UNDER_RATIO, UNDER_RATIO, Cap, drawn_cap, pitches


def cap_of(
    width_mm: float, spare_mm: float = 40.0, radius_mm: float = 90.0, around: float = 110.0
) -> tuple[Cap, float]:
    """Return the cap drawn to a round armhole that is open over the shoulder, and the armhole's length."""
    armhole = circle(radius_mm, around, around, open_mm=110.0)
    return drawn_cap(armhole, pitches(armhole, width_mm, spare_mm), width_mm, spare_mm), armhole.length_mm


@given(
    st.floats(250.0, 420.0),
    st.floats(0.0, 80.0),
    st.floats(70.0, 130.0),
    st.floats(80.0, 130.0),
    st.floats(80.0, 130.0),
)
def test_both_halves_are_as_long_as_they_should_be(
    width: float, spare: float, radius: float, before: float, behind: float
) -> None:
    """By shapely: the lower half is the armhole between its ends, the upper half the rest of it and the spare."""
    armhole = circle(radius, before, behind, open_mm=100.0)
    causes: tuple[str, ...] = ()
    try:
        ends = pitches(armhole, width, spare)
    except GeometryError as error:
        causes = tuple(problem.code for problem in error.problems)
    assert set(causes) <= {"armhole-small", "armhole-shape"}
    if causes:
        return
    cap = drawn_cap(armhole, ends, width, spare)
    under = ends[1] - ends[0]
    assert LineString(cap.scoop.points).length == pytest.approx(under, abs=1e-6)
    assert LineString(cap.arch.points).length == pytest.approx(armhole.length_mm - under + spare, abs=1e-6)
    assert cap.scoop.start[0] == pytest.approx(0.0, abs=1e-6)
    assert cap.scoop.end[0] == pytest.approx(width / 2.0, abs=1e-6)
    assert cap.scoop.points[:, 1].min() == pytest.approx(0.0, abs=1e-9)
    rise = armhole.height_mm(ends[1]) - armhole.height_mm(ends[0])
    assert cap.scoop.end[1] - cap.scoop.start[1] == pytest.approx(rise, abs=1e-6)
    for low, high in ((cap.scoop.start_tangent, cap.arch.end_tangent), (cap.scoop.end_tangent, cap.arch.start_tangent)):
        assert low[0] * high[0] <= 1e-3  # they fold back at the side of the sleeve …
        assert abs(low[1]) == pytest.approx(abs(high[1]), abs=0.02)  # … as steep as each other


def test_a_round_armhole_has_a_round_lower_cap() -> None:
    """A circle's arc bent more is a circle's arc: chord 2 r sin(t/2), arc r t, rise r (1 - cos(t/2)) (any handbook of
    circular segments). Its ends stand at t/2.
    """
    width = 340.0
    cap, _ = cap_of(width)
    arc = UNDER_RATIO * width / 2.0
    half = brentq(lambda t: arc * math.sin(t) / t - width / 2.0, 0.1, 3.0)
    rise = arc / (2.0 * half) * (1.0 - math.cos(half))
    assert cap.scoop.points[[0, -1], 1] == pytest.approx([rise, rise], abs=0.1)
    slope = math.degrees(math.atan2(-cap.scoop.start_tangent[1], cap.scoop.start_tangent[0]))
    assert slope == pytest.approx(math.degrees(half), abs=0.5)
    assert math.degrees(half) == pytest.approx(75.0, abs=1.0)


def test_more_spare_makes_a_higher_cap_and_more_width_a_lower_one() -> None:
    """Common practice: a cap of given length is high and narrow, or low and wide."""
    heights = [cap_of(width, spare)[0].height_mm for width, spare in ((340.0, 0.0), (340.0, 50.0), (380.0, 50.0))]
    assert heights[0] + 10.0 < heights[1]
    assert heights[2] + 10.0 < heights[1]


def test_the_height_lies_between_the_books() -> None:
    """For an armhole of 17 in round, 2 in over an arm of 12: between 4 in, a quarter of the armhole (Burton and Burton, School
    Sewing Based on Home Problems, 1916, one-piece foundation sleeve), and 6 in (Rosenfeld, The Practical Designer, 1918,
    lesson 67, two-piece sleeve).
    """
    inch = 25.4
    armhole = circle(17.0 * inch / 2.0 / math.radians(100.0) * 0.78, 100.0, 100.0, open_mm=17.0 * inch * 0.22)
    assert armhole.length_mm == pytest.approx(17.0 * inch, abs=0.5)
    cap = drawn_cap(armhole, pitches(armhole, 14.0 * inch, 10.0), 14.0 * inch, 10.0)
    assert 4.0 * inch < cap.height_mm < 6.0 * inch


def test_a_small_armhole_gets_a_low_cap_and_a_tiny_one_none() -> None:
    """The lower cap gives way first; then what is needed is told."""
    width = 400.0
    armhole = circle(95.0, 100.0, 100.0, open_mm=100.0)
    front, back = pitches(armhole, width, 40.0)
    assert LEAST_UNDER_RATIO < 2.0 * (back - front) / width < UNDER_RATIO
    with pytest.raises(GeometryError) as caught:
        pitches(armhole, 460.0, 40.0)
    least = (LEAST_UNDER_RATIO + ARCH_RATIO) * 230.0 - 40.0
    assert str(caught.value) == (
        f"the armhole is {armhole.length_mm / 10.0:.1f} cm round; a sleeve of 46.0 cm needs {least / 10.0:.1f} cm at least. "
        "Lower the armhole under the arm, or give the sleeve less `ease`."
    )


def test_waves_of_the_armhole_are_drawn_out_and_nothing_is_lost() -> None:
    """An armhole that was left wavy by truing gives a smooth cap of the same length."""
    armhole = circle(90.0, 110.0, 110.0, open_mm=110.0)
    ends = pitches(armhole, 340.0, 40.0)
    cap = drawn_cap(armhole, ends, 340.0, 40.0)
    steps = np.diff(cap.scoop.points, axis=0)
    bends = np.abs(np.diff(np.unwrap(np.arctan2(steps[:, 1], steps[:, 0]))))
    assert bends.max() < math.radians(1.0)
    assert cap.scoop.length_mm == pytest.approx(ends[1] - ends[0], abs=1e-6)
