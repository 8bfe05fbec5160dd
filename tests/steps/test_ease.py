"""``ease``: room of either sign, added to what the girths shall come to."""

from __future__ import annotations

import pytest
from tests.samples import garment, made, worked


def test_ease_adds_up_over_steps() -> None:
    """Two steps of ease are both kept."""
    draft = worked(garment("ease: {waist: 15 mm}", "ease: {waist: 5 mm, bust: 2%}")).draft
    assert (draft.lower_ease_mm, draft.upper_ease_mm) == pytest.approx((20.0, 17.6))


@pytest.mark.parametrize("mm", [-30, 30])
def test_the_worn_waist_has_its_ease(mm: int) -> None:
    """680 mm of body and 30 mm of ease, less 3 %, are worn as 689.6; with ease of minus 30 mm as 629.6."""
    waist = made(garment(f"ease: {{waist: {mm} mm, bust: {mm} mm}}")).girths[0]
    assert 2.0 * (waist.parts_mm + waist.gap_mm) == pytest.approx(680.0 + mm - 20.4, abs=0.1)
    assert waist.ease_mm == mm


def test_ease_is_no_reduction() -> None:
    """A negative ease counts with what the lacing takes in: 60 mm of 680 and 3 % more are refused as over 10 %."""
    pattern = made(garment("ease: {waist: -40 mm}"))
    share = next(finding.number for finding in pattern.findings if finding.code == "reduction")
    assert share == pytest.approx((20.4 + 40.0) / 680.0)
