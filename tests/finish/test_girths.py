"""Sums: what the pieces, gaps, openings and takes of one half add up to, by arithmetic and on every body."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import (
    BODIES,
    FOUR,
    GAP,
    HEM,
    ONE,
    RECIPES,
    RED,
    THREE,
    TOP,
    drawn,
    garment,
    made,
    recipe,
    seam,
    side_back,
    side_front,
)  # fmt: skip

from fanblock.pattern.model import Girth, Pattern
from fanblock.tolerances import GIRTH_MM

FLAT = """top edge:
      through: [[center front, bust + 60 mm], [50%, bust + 60 mm], [center back, bust + 60 mm]]"""


def girth(pattern: Pattern, name: str) -> Girth:
    """Return the sums at one level."""
    return next(girth for girth in pattern.girths if girth.name == name)


def miss_mm(of: Girth) -> float:
    """Return by how much the whole garment misses its sum at a level."""
    return 2.0 * abs(of.parts_mm + of.open_mm + of.gap_mm + of.takes_mm - of.block_mm)


def test_a_plain_garment_adds_up_by_hand() -> None:
    """A body of 880 and 680 mm without tilts, a closed front, a gap of 50 mm, 3 % taken in, no level open.

    At the waist one half has 340 mm: 10.2 taken, 25 gap, so 304.8 of cloth. At the bust 440, of which the gap, cut
    parallel to the back, takes 25 mm along the level to within a hundredth.
    """
    pattern = made(garment(top=FLAT))
    waist, bust = girth(pattern, "waist"), girth(pattern, "bust")
    assert (waist.block_mm, waist.takes_mm) == pytest.approx((340.0, 10.2))
    assert waist.gap_mm == pytest.approx(25.0, abs=0.05)
    assert waist.parts_mm == pytest.approx(304.8, abs=0.05)
    assert (waist.open_mm, waist.body_mm, waist.reduction_mm) == pytest.approx((0.0, 680.0, 20.4))
    assert (bust.block_mm, bust.takes_mm, bust.open_mm) == pytest.approx((440.0, 0.0, 0.0), abs=1e-9)
    assert bust.parts_mm == pytest.approx(415.0, abs=0.05)
    assert [girth.height for girth in pattern.girths] == pytest.approx([step / 10.0 for step in range(11)])


@pytest.mark.parametrize("recipe_id", RECIPES)
def test_every_level_of_the_catalogue_adds_up(recipe_id: str) -> None:
    """Pieces, openings, gaps and takes make up the block's level within 0.5 mm, whole garment, on every body."""
    for pattern in drawn(recipe_id).values():
        for of in pattern.girths:
            assert miss_mm(of) < GIRTH_MM


@settings(max_examples=25, deadline=None, derandomize=True)
@given(
    st.sampled_from(sorted(BODIES)),
    st.sampled_from(["center back", "center front", "both", "none"]),
    st.integers(0, 60),
    st.floats(-4.0, 7.0),
    st.floats(-20.0, 40.0),
    st.floats(-1.5, 1.5),
)
def test_sums_hold_whatever_is_opened_taken_or_let_out(
    name: str, laced: str, gap: int, reduction: float, ease: float, press: float
) -> None:
    """With gaps at either centre, both or none, reductions and ease of either sign, every level adds up, and the worn
    waist is body and ease less reduction, the gap inside it.
    """
    centers = {"both": ["center front", "center back"], "none": []}.get(laced, [laced])
    gaps = [f"lacing gap: {{at: {at}, width: {gap} mm}}" for at in centers]
    extra = [
        f"ease: {{waist: {ease:.1f} mm, bust: {ease / 2.0:.1f} mm}}",
        f"waist reduction: {{by: {reduction:.2f}%}}",
        f"bust reduction: {{by: {press:.2f}%}}",
    ]
    seams = (side_front(below_waist="open"), side_back(below_waist="open"))
    pattern = made(recipe(*gaps, TOP, HEM, *seams, *extra, THREE), name)
    for of in pattern.girths:
        assert miss_mm(of) < GIRTH_MM
    waist = girth(pattern, "waist")
    body = pattern.body.length_mm("waist")
    worn = 2.0 * (waist.parts_mm + waist.open_mm + waist.gap_mm)
    assert worn == pytest.approx(body + ease - reduction / 100.0 * body, abs=GIRTH_MM + 0.1)


def test_a_level_above_the_top_edge_is_open_and_said_to_be() -> None:
    """Under the arm the top edge dips below the bust: what is missing of the bust level there is told as open."""
    bust = girth(made(garment()), "bust")
    assert bust.open_mm > 50.0
    assert miss_mm(bust) < GIRTH_MM


def test_a_waist_below_the_hem_is_open_all_round() -> None:
    """A garment that ends above the waist has no cloth there: the whole waist but the gap is open."""
    short = recipe(GAP, TOP, "hem: {height: waist + 30 mm}", ONE)
    waist = girth(made(short), "waist")
    assert waist.parts_mm == 0.0
    assert waist.open_mm == pytest.approx(340.0 - waist.gap_mm)


def test_both_gaps_are_inside_the_girth() -> None:
    """Laced at front and back, 40 and 50 mm: 45 mm of each half are gap."""
    front = "lacing gap: {at: center front, width: 40 mm}"
    waist = girth(made(recipe(front, GAP, TOP, HEM, side_front(), side_back(), RED, THREE)), "waist")
    assert waist.gap_mm == pytest.approx(45.0, abs=0.1)


def test_a_crossing_seam_is_counted_once() -> None:
    """Where one seam ends on another every level still adds up, above and below the crossing."""
    dart = seam("dart", "side front, 55%", "30%, waist", "32%, hem", share="1")
    for of in made(recipe(GAP, TOP, HEM, side_front(), side_back(), dart, RED, FOUR)).girths:
        assert miss_mm(of) < GIRTH_MM
