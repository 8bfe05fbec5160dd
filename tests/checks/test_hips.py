"""The hips family: how far tabs must open, by arithmetic."""

from __future__ import annotations

import pytest
from tests.checks.spoiling import one, sound, states, with_lengths
from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, side_back, side_front

from fanblock.checks.hips import check
from fanblock.pattern.model import Pattern


def tabbed(slits: str = "{side: 2}", **lengths: float) -> Pattern:
    """Return stays with tabs of 80 mm, square so that nothing is rounded off, and other measures."""
    seams = (side_front(below_waist="open"), side_back(below_waist="open"))
    tabs = f"tabs: {{slits: {slits}, shape: square}}"
    return with_lengths(made(recipe(GAP, TOP, HEM, *seams, RED, THREE, tabs)), **lengths)


def test_tabs_are_held_against_the_hip_at_their_ends() -> None:
    """A hip of 960 mm, 200 below a waist of 680: 80 mm down it is 680 + 0.4 · 280 = 792. What the hems and the gap make
    is missing from that, and each of four openings a half spreads an eighth of it.
    """
    pattern = tabbed(hip=960.0, hip_depth=200.0)
    hems = sum(edge.curve.length_mm for panel in pattern.panels for edge in panel.edges if edge.kind == "hem")
    found = one(check(pattern), "hips-open")
    assert found.number == pytest.approx(792.0 - 2.0 * hems - 50.0, abs=0.5)
    assert "each of 8 openings" in found.says
    assert found.state == "holds"


def test_a_wide_tab_that_must_stand_far_off_warns() -> None:
    """A large hip spreads each opening by over 15 mm; a tab over 70 mm then cannot lie flat."""
    assert one(check(tabbed("{}", hip=1150.0, hip_depth=180.0)), "hips-tab").state == "warns"
    assert one(check(tabbed("{side: 3}", hip=1150.0, hip_depth=180.0)), "hips-tab").state == "warns"
    assert "hips-tab" not in states(check(tabbed("{side: 3}", hip=800.0, hip_depth=180.0)))


def test_an_unknown_hip_is_said_to_be_unknown() -> None:
    """Without the measure nothing is claimed, and the maker is asked to look."""
    pattern = made(recipe(GAP, TOP, HEM, side_front(below_waist="open"), side_back(below_waist="open"), RED, THREE),
                   "measures of the least")  # fmt: skip
    assert states(check(pattern)) == {"hips-unknown": "warns"}


def test_a_garment_without_openings_has_no_tabs() -> None:
    """A jacket sewn to the hem has nothing to spread."""
    assert check(sound()) == ()
