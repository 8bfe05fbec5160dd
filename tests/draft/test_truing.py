"""Truing: mates become equal above and below the waist, ends move as predicted, edges run smooth across seams."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import BODIES, garment, made, side_back, side_front

from fanblock.checks.seams import above_and_below
from fanblock.draft.truing import bend
from fanblock.geometry.curve import Curve
from fanblock.pattern.model import Pattern
from fanblock.tolerances import BLEND_MM, JOIN_DEG, MATES_MM

STRAIGHT = Curve.through(np.column_stack((np.linspace(0.0, 100.0, 51), np.zeros(51))))


def mates_apart_mm(pattern: Pattern) -> float:
    """Return the most by which two mates of a pattern differ, above or below the waist."""
    apart = [0.0]
    for seam in pattern.seams:
        front = pattern.by_name[seam.front.panel].edge(seam.front.edge)
        back = pattern.by_name[seam.back.panel].edge(seam.back.edge)
        lengths = zip(above_and_below(front, rising=True), above_and_below(back, rising=False), strict=True)
        apart += [abs(one - other) for one, other in lengths]
    return max(apart)


@settings(max_examples=15, deadline=None, derandomize=True)
@given(
    st.sampled_from(sorted(BODIES)),
    st.sampled_from(["open", "sewn"]),
    st.floats(-3.0, 10.0),
    st.floats(-10.0, 30.0),
    st.floats(-6.0, 6.0),
)
def test_mates_are_equal_on_every_body(name: str, below: str, percent: float, spring: float, top: float) -> None:
    """Whatever is taken, sprung or let out, mates agree within 0.1 mm above and below the waist."""
    seams = (
        side_front(below_waist=below, spring=f"{spring:.1f} mm", take=f"{{top edge: {top:.1f} mm}}"),
        side_back(below_waist=below),
    )
    pattern = made(garment(f"waist reduction: {{by: {percent - 3.0:.2f}%}}", seams=seams), name)
    assert mates_apart_mm(pattern) < MATES_MM


@pytest.mark.parametrize("name", BODIES)
def test_edges_run_smooth_across_seams_sewn_to_the_hem(name: str) -> None:
    """In a jacket cut in one every join of top edge and hem across a seam bends by at most 2 degrees."""
    joins = [finding for finding in made(garment(), name).findings if finding.code.startswith("join-")]
    assert len(joins) == 4
    assert all(finding.number <= JOIN_DEG for finding in joins)


@pytest.mark.parametrize(("percent", "spring"), [(3, 20), (6, 30), (10, 25), (3, 40)])
def test_ends_move_by_half_of_lean_times_take(percent: int, spring: int) -> None:
    """Below the waist the ends move by about half the tangent of the lean, times take and spring.

    The rule is the slope of a line displaced along another: a point moved sideways by half the take on a line that leans
    by an angle moves along it by the tangent of that angle. It takes the lean as one number and so is good to a third.
    """
    seams = (side_front(spring=f"{spring} mm"), side_back(spring=f"{spring} mm"))
    pattern = made(garment(f"waist reduction: {{by: {percent - 3}%}}", seams=seams))
    front = pattern.seams[0]
    assert front.below is not None
    take = next(mm for name, mm in pattern.girths[0].takes if name == "side front")
    predicted = 0.5 * math.tan(math.radians(front.below.lean_deg)) * (take + spring)
    assert front.below.take_mm == pytest.approx(take + spring)
    assert front.below.shift_mm == pytest.approx(predicted, rel=0.35)


def test_truing_hardly_moves_the_girth() -> None:
    """Ends are moved along their own edges, so no level gains or loses more than 0.06 mm a half."""
    for girth in made(garment("waist reduction: {by: 7%}"), "large drop").girths:
        total = girth.parts_mm + girth.open_mm + girth.gap_mm + girth.takes_mm
        assert total == pytest.approx(girth.block_mm, abs=0.06)


def test_a_bend_moves_and_turns_one_end_and_nothing_else() -> None:
    """The end lands where it was sent and turns as it was told; past 40 mm nothing has moved."""
    turn = math.radians(10.0)
    bent = bend(STRAIGHT, (np.array([1.0, 2.0]), turn), None)
    assert np.allclose(bent.start, (1.0, 2.0))
    assert math.degrees(math.atan2(bent.start_tangent[1], bent.start_tangent[0])) == pytest.approx(10.0, abs=0.2)
    still = STRAIGHT.along >= BLEND_MM
    assert np.allclose(bent.points[still], STRAIGHT.points[still])


def test_bends_of_both_ends_do_not_meddle() -> None:
    """Bent at both ends at once an edge is what either bend makes of it, together."""
    start, end = (np.array([0.5, -1.0]), 0.1), (np.array([-0.3, 0.8]), -0.2)
    both = bend(STRAIGHT, start, end).points
    apart = bend(STRAIGHT, start, None).points + bend(STRAIGHT, None, end).points - STRAIGHT.points
    assert np.allclose(both, apart)


def test_a_bend_by_nothing_is_nothing() -> None:
    """Sent nowhere and turned by nothing an edge stays as it is."""
    assert np.allclose(bend(STRAIGHT, (np.zeros(2), 0.0), (np.zeros(2), 0.0)).points, STRAIGHT.points)
