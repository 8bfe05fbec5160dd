"""Numbers, texts and names as files take them."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fanblock.sheet.writing import identifier, number, plain


@given(st.floats(-10000.0, 10000.0))
def test_numbers_have_four_decimals_and_no_exponent(value: float) -> None:
    """Every number is digits, a point and four digits, within half of the last decimal, and zero has no
    sign."""
    text = number(value)
    assert re.fullmatch(r"-?\d+\.\d{4}", text)
    assert text != "-0.0000"
    assert float(text) == pytest.approx(value, abs=0.00005001)


def test_steering_characters_become_spaces() -> None:
    """Bells, line breaks, direction marks and half characters never reach a file."""
    assert plain("side\x00\x07 front\r\n\u202eback\ud800\ufffe ") == "side front back"
    assert plain("cafe\u0301") == "café"


@given(st.lists(st.text(max_size=20), max_size=8))
def test_ids_are_plain_and_never_twice(names: list[str]) -> None:
    """Whatever the names, ids begin with a letter, hold letters, digits and hyphens, and differ."""
    taken: set[str] = set()
    ids = [identifier(name, taken) for name in names]
    assert all(re.fullmatch(r"[a-z][a-z0-9-]*", one) for one in ids)
    assert len(set(ids)) == len(names)
