"""Roots against known numbers, and what has none."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fanblock.geometry.roots import first_below, root


@given(st.floats(0.01, 1000.0))
def test_a_square_root_is_found(value: float) -> None:
    """The root of x² - v is v's square root (Python's own)."""
    assert root(lambda x: x * x - value, 0.0, value + 1.0) == pytest.approx(math.sqrt(value), rel=1e-9, abs=1e-9)


def test_a_function_of_one_sign_has_no_root() -> None:
    """What never passes through nothing is refused."""
    with pytest.raises(ValueError, match="signs"):
        root(lambda x: x * x + 1.0, -1.0, 1.0)


def test_the_first_place_under_nothing() -> None:
    """Steps are tried in order, and none is made up."""
    assert first_below(lambda x: 2.0 - x, 0.0, 0.5, 4.0) == 2.5
    assert first_below(lambda x: 1.0, 0.0, 0.5, 4.0) is None
