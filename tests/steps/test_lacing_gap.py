"""``lacing gap``: at either centre, at both, or at none."""

from __future__ import annotations

import pytest
from tests.samples import GAP, HEM, RED, SOME, THREE, TOP, failed, made, recipe, side_back, side_front

FRONT_GAP = "lacing gap: {at: center front, width: 40 mm}"
SEAMS = (side_front(), side_back())


@pytest.mark.parametrize("name", SOME)
@pytest.mark.parametrize("gaps", [(), (GAP,), (FRONT_GAP,), (FRONT_GAP, GAP)], ids=["none", "back", "front", "both"])
def test_every_way_of_lacing_is_sound(name: str, gaps: tuple[str, ...]) -> None:
    """Laced behind, before, on both sides or not at all, no check fails on any body."""
    assert failed(made(recipe(*gaps, TOP, HEM, *SEAMS, RED, THREE), name)) == []


def test_lacing_edges_are_named_by_their_centre_where_there_are_two() -> None:
    """One is the lacing edge; of two each says where it is. What is not laced stays the body's centre line."""
    names = {
        gaps: [edge.name for panel in made(recipe(*gaps, TOP, HEM, *SEAMS, RED, THREE)).panels for edge in panel.edges]
        for gaps in ((), (GAP,), (FRONT_GAP, GAP))
    }
    assert {"center front", "center back"} < set(names[()])
    assert {"center front", "lacing edge"} < set(names[(GAP,)])
    assert {"lacing edge front", "lacing edge back"} < set(names[(FRONT_GAP, GAP)])


def test_the_gap_is_kept_in_the_pattern() -> None:
    """The pattern tells the whole opening, both gaps together."""
    assert made(recipe(FRONT_GAP, GAP, TOP, HEM, *SEAMS, RED, THREE)).gap_mm == 90.0
