"""Rounded corners: tangent to both edges, and a circle's arc where both are straight."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fanblock.geometry.corners import rounded
from fanblock.geometry.curve import Curve


@settings(max_examples=30, deadline=None, derandomize=True)
@given(st.floats(35.0, 145.0), st.floats(4.0, 40.0))
def test_a_corner_of_two_straight_edges_is_an_arc(interior_deg: float, reach_mm: float) -> None:
    """At every interior angle the points stand within 1 % of the radius reach · tan(half the angle) from its centre.

    A cubic drawn for an arc of up to 145 degrees strays a little; the bound is our own.
    """
    half = math.radians(interior_deg) / 2.0
    turn = math.pi - 2.0 * half
    down = Curve.through([(-100.0, 0.0), (0.0, 0.0)])
    away = Curve.through([(0.0, 0.0), (100.0 * math.cos(turn), 100.0 * math.sin(turn))])
    arc = rounded(down, away, reach_mm)
    radius = reach_mm * math.tan(half)
    middle = np.array([-reach_mm, radius])
    assert np.allclose(arc[0], (-reach_mm, 0.0))
    assert np.allclose(arc[-1], away.at(reach_mm))
    assert np.hypot(*(arc - middle).T) == pytest.approx(np.full(len(arc), radius), rel=0.01)
