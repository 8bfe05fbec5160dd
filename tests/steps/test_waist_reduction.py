"""``waist reduction``: shared by the seams, and added up over steps."""

from __future__ import annotations

import pytest
from tests.samples import garment, made, worked


def test_reductions_add_up() -> None:
    """3 % of 680 mm and 5 mm more are 25.4 mm, and that much less is worn."""
    assert worked(garment("waist reduction: {by: 5 mm}")).draft.lower_reduction_mm == pytest.approx(25.4)
    waist = made(garment("waist reduction: {by: 5 mm}")).girths[0]
    assert 2.0 * (waist.parts_mm + waist.gap_mm) == pytest.approx(680.0 - 25.4, abs=0.1)
