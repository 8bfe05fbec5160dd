"""Lacing edges: parallel to the centre line at half the gap, on every body and at both centres."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import BACK, BODIES, FRONT, block

from fanblock.draft.lacing import lacing_line, moved_aside
from fanblock.draft.model import AROUND, HEIGHT


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.sampled_from(sorted(BODIES)), st.sampled_from([FRONT, BACK]), st.floats(0.0, 120.0))
def test_the_edge_runs_parallel_to_its_centre_line(name: str, at: str, width: float) -> None:
    """Between 80 mm below the waist and well above the bust every point stands half the gap from the centre line.

    A cut along the rulings would stand further off at the bust than at the waist.
    """
    sheet, center = block(name), 0.0 if at == FRONT else 1.0
    line = lacing_line(sheet, at, width)
    near = line[(line[:, HEIGHT] > -80.0 / sheet.center_front_mm) & (line[:, HEIGHT] < 2.0)]
    up, foot = sheet.ruling_direction(center), sheet.at(center, 0.0)
    away = sheet.at(near[:, AROUND], near[:, HEIGHT]) - foot
    across = away[:, 0] * up[1] - away[:, 1] * up[0]
    assert across == pytest.approx(np.full(len(near), width / 2.0 * (1.0 if at == FRONT else -1.0)), abs=1e-6)
    assert np.all(np.diff(line[:, HEIGHT]) > 0.0)


def test_a_gap_of_nothing_is_the_centre_line() -> None:
    """Without a gap the lacing edge is the centre line itself."""
    assert lacing_line(block(), BACK, 0.0)[:, AROUND] == pytest.approx(1.0)
    assert lacing_line(block(), FRONT, 0.0)[:, AROUND] == pytest.approx(0.0)


@settings(max_examples=30, deadline=None, derandomize=True)
@given(st.sampled_from(sorted(BODIES)), st.floats(0.1, 0.9), st.floats(-0.15, 0.15), st.floats(-40.0, 40.0))
def test_a_line_moved_aside_keeps_its_distance(name: str, around: float, lean: float, aside: float) -> None:
    """Moved square to itself a straight or leaning line stands as far off as it should everywhere, to the back if positive."""
    sheet = block(name)
    heights = np.linspace(-0.3, 1.3, 400)
    line = np.column_stack((around + lean * heights**2 / 2.0, heights))
    moved = moved_aside(sheet, line, aside)
    plane, there = (sheet.at(points[:, AROUND], points[:, HEIGHT]) for points in (line, moved))
    along = np.gradient(plane, axis=0)[5:-5]
    off = (there - plane)[5:-5]
    across = (off[:, 0] * along[:, 1] - off[:, 1] * along[:, 0]) / np.hypot(*along.T)
    assert across == pytest.approx(np.full(len(across), aside), abs=1e-6)
    assert np.hypot(*off.T) == pytest.approx(np.full(len(off), abs(aside)), abs=1e-6)
