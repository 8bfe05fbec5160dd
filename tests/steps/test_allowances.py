"""``allowances``: by kind of edge and by name."""

from __future__ import annotations

import pytest
from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, side_back, side_front


def test_kinds_and_names_are_kept_apart() -> None:
    """A name goes before a kind; bound edges have nothing unless they are given it."""
    step = "allowances: {seam: 1/2 in, hem: 8 mm, side back: 20 mm}"
    side = made(recipe(GAP, TOP, HEM, side_front(), side_back(), RED, THREE, step)).by_name["side"]
    assert dict(side.allowances) == pytest.approx({"top edge": 0.0, "side front": 12.7, "hem": 8.0, "side back": 20.0})
