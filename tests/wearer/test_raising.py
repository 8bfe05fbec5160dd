"""A raised waist: every length counted from it, and the girth that the body has there."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import SOME, body, wearer

from fanblock.wearer.body import body_of
from fanblock.wearer.raising import DOWN_FROM_WAIST, UP_FROM_WAIST, with_raised_waist


@settings(max_examples=30, deadline=None, derandomize=True)
@given(st.sampled_from(SOME), st.floats(0.0, 50.0))
def test_every_length_is_counted_from_the_raised_waist(name: str, by: float) -> None:
    """What was measured up from the waist is so much shorter, what was measured down so much longer, the rest as it was."""
    before, after = body(name).lengths, with_raised_waist(body(name), by).lengths
    for measure, mm in after.items():
        due = before[measure]
        due += -by if measure in UP_FROM_WAIST else by if measure in DOWN_FROM_WAIST else 0.0
        if measure != "waist":
            assert mm == pytest.approx(due, abs=1e-9)
    assert "belly" not in after


def test_the_girth_there_lies_between_waist_and_bust() -> None:
    """On a body of 880, 680 and 160 (raised 175) the cone is 720 mm round 35 mm up: 680 + 200 x 35 / 175, by hand."""
    assert with_raised_waist(body(), 35.0).length_mm("waist") == pytest.approx(720.0)
    assert with_raised_waist(body(), 0.0).length_mm("waist") == pytest.approx(680.0)


def test_a_raised_waist_that_was_measured_is_believed() -> None:
    """Measured 700 mm round at 40 mm up, the body is 690 mm half way there."""
    person = wearer(880.0, 680.0, 160.0, raised=175.0, raised_waist=700.0, raised_waist_height=40.0)
    assert with_raised_waist(body_of(person), 20.0).length_mm("waist") == pytest.approx(690.0)
