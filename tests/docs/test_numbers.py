"""Numbers that the pages work out by hand, worked out again by the published rule."""

from __future__ import annotations

import math

from tests.docs.pages import DOCS, text_of

from fanblock.block.fan import fan

GEOMETRY = " ".join(text_of(DOCS / "geometry.md").split())


def test_the_fan_of_the_example() -> None:
    """Longfield, Sheet Metal Drafting, 1921, p. 128: slant radii of a frustum are as its girths; S = R·s / (R − r)."""
    bust, waist, slant = 91.0, 73.0, 16.0
    outer = bust * slant / (bust - waist)
    inner = outer - slant
    turn = math.degrees(0.5 * bust / outer)
    assert f"r = {inner:.1f} cm" in GEOMETRY
    assert f"r + d = {outer:.1f} cm" in GEOMETRY
    assert f"{turn:.1f}°" in GEOMETRY
    block = fan(5.0 * waist, 5.0 * bust, 10.0 * slant)
    assert math.isclose(math.degrees(block.turn_rad), turn, rel_tol=1.0 / 10**9)


def test_a_cut_along_a_ruling_takes_more_at_the_bust() -> None:
    """Similar triangles: what takes 25 mm at the waist of 68 takes 25 · 88 / 68 at the bust of 88."""
    assert f"would take {25.0 * 88.0 / 68.0:.0f} at the bust" in GEOMETRY


def test_the_law_of_the_gap_in_its_example() -> None:
    """On the toile: found less wanted less pinched, half of it to each half (plain arithmetic)."""
    text = " ".join(text_of(DOCS / "toile.md").split())
    assert "8 − 5 = 3: let out 3 cm in all, 1.5 cm a half" in text
    assert "4 − 5 = −1: take in 1 cm in all, 0.5 cm a half" in text
