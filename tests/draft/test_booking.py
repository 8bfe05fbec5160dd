"""Ease and reduction are booked on the girths a block stands on, and nowhere else."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.samples import block, body

from fanblock.block.stand import Level, Stand
from fanblock.draft.booking import waist_of, with_ease, with_reduction
from fanblock.draft.model import Draft
from fanblock.problems import GeometryError

USUAL = Draft(body(), block())
HIGH = replace(USUAL, stand=Stand(Level("raised waist", 0.4), Level("bust", 1.0)))


def test_both_levels_keep_books_of_their_own() -> None:
    """What is said twice adds up; the lower and the upper girth are not mixed."""
    draft = with_ease(with_ease(with_ease(HIGH, "raised waist", 5.0), "bust", 7.0), "raised waist", 1.0)
    draft = with_reduction(with_reduction(draft, "bust", 2.0), "raised waist", 3.0)
    assert (draft.lower_ease_mm, draft.upper_ease_mm) == (6.0, 7.0)
    assert (draft.lower_reduction_mm, draft.upper_reduction_mm) == (3.0, 2.0)


def test_the_waist_of_a_high_waisted_garment_is_its_raised_one() -> None:
    """A waist reduction goes there; where there is no waist of any kind it has no place."""
    assert (waist_of(USUAL), waist_of(HIGH)) == ("waist", "raised waist")
    ribs = replace(USUAL, stand=Stand(Level("underbust", 0.5), Level("bust", 1.0)))
    with pytest.raises(GeometryError) as caught:
        with_reduction(ribs, waist_of(ribs), 5.0)
    assert str(caught.value) == (
        "waist › the block stands on underbust and bust, so nothing can be counted from the waist. "
        "Use `ease` at underbust or bust; less than nothing takes in."
    )
