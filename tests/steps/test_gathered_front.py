"""``gathered front``: wider by what was asked, gathered where it may be, and the same as the fitted front everywhere else."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples import BODIES, GAP, HEM, ONE, TOP, failed, made, recipe, seam, separate
from tests.steps.test_outline_edges import POINTS

from fanblock.fronts.gathered import Spread, sewn_mm, whole_edges
from fanblock.pattern.model import Edge, Panel, Pattern
from fanblock.problems import GeometryError, RecipeError

ARMHOLE = "[[37%, underarm + 20 mm], [46%, underarm - 20 mm], [54%, underarm - 20 mm], [center back - 150 mm, 82% of back length]]"
SQUARE = f"""top edge:
      edges:
        - {{name: neckline, kind: neckline, through: [[center front, bust + 30 mm], [center front + 100 mm, bust + 30 mm]]}}
        - {{name: neck side, kind: neckline, through: [[center front + 105 mm, bust + 110 mm]]}}
        - {{name: front seat, kind: shoulder, through: [[center front + 145 mm, bust + 100 mm]], straight: yes}}
        - {{name: armhole, kind: armhole, through: {ARMHOLE}}}
        - {{name: back seat, kind: shoulder, through: [[center back - 95 mm, 84% of back length]], straight: yes}}
        - {{name: back neckline, kind: neckline, through: [[center back, 74% of back length]]}}"""
SIDE = seam("side seam", "50%, top edge", "50%, waist", share="1")
DART = "dart: {name: front dart, through: [[16%, hem], [17%, 60%]], take: 14 mm}"
BEHIND = "opening: {at: center back, closed with: ties}"
TWO = separate("front", "back")
WIDE = "gathered front: {panel: front, times: 1.5, within: 90 mm}"
KEPT = ("armhole", "front seat", "side seam", "center front")


def with_wide(*steps: str, step: str = WIDE, name: str = "ordinary") -> Pattern:
    """Return a bodice closed behind with a wide front over its front."""
    return made(recipe(BEHIND, SQUARE, "hem: {height: waist}", SIDE, *steps, TWO, step), name)


def whole(panel: Panel) -> dict[str, Edge]:
    """Return the edges of a panel by name, those put together that a dart has parted."""
    return {edge.name: edge for edge in whole_edges(panel)}


@pytest.mark.parametrize("name", BODIES)
def test_it_is_sound_on_every_body_and_sewn_in_as_the_fitted_one(name: str) -> None:
    """Where no gathers are the two are one shape: side, shoulder, armhole and centre are equally long to a thousandth of a mm."""
    pattern = with_wide(DART, name=name)
    assert failed(pattern) == []
    fitted, wide = whole(pattern.by_name["front"]), whole(pattern.by_name["gathered front"])
    assert set(fitted) == set(wide)
    for edge in KEPT:
        assert wide[edge].curve.length_mm == pytest.approx(fitted[edge].curve.length_mm, abs=1e-3)


def test_it_is_wider_by_what_was_asked() -> None:
    """90 mm are cut half as wide again: 45 mm more at the neck, which lies square to the centre line (by hand)."""
    pattern = with_wide()
    fitted, wide = pattern.by_name["front"], pattern.by_name["gathered front"]
    more = wide.loop()[:, 0].max() - fitted.loop()[:, 0].max()
    assert more == pytest.approx(45.0, abs=0.5)
    neck = wide.edge("neckline").curve.length_mm - fitted.edge("neckline").curve.length_mm
    assert neck == pytest.approx(45.0, abs=1.5)


def test_what_a_dart_takes_is_gathered_with_the_rest() -> None:
    """The wide front has no dart; its lower edge is longer than the sewn one by the 45 mm and by the 14 mm (by hand)."""
    pattern = with_wide(DART)
    fitted, wide = pattern.by_name["front"], pattern.by_name["gathered front"]
    assert [mark.kind for mark in wide.marks] == ["gather", "gather"]
    more = whole(wide)["hem"].curve.length_mm - sewn_mm(fitted, whole(fitted)["hem"])
    assert more == pytest.approx(45.0 + 14.0, abs=1.5)
    says = next(note.says for note in pattern.notes if note.kind == "sewing first" and "gathering threads" in note.says)
    assert "Sew its darts first: the wide front has none." in says
    assert f"hem by {more:.1f} mm" in says


@settings(max_examples=50)
@given(st.floats(1.05, 3.0), st.floats(30.0, 200.0), st.lists(st.floats(0.0, 400.0), min_size=2, max_size=12))
def test_cloth_is_never_folded_over_and_lies_still_beyond_the_gathers(
    times: float, within: float, across: list[float]
) -> None:
    """Farther out stays farther out; from the end of the gathers on all is moved alike, by what was asked."""
    spread = Spread("wide", times, within)
    places = np.sort(np.array([0.0, *across, within, within + 50.0]))
    moved = spread.moved(places)
    assert np.all(np.diff(moved) >= -1e-9)
    assert moved[places >= within] == pytest.approx((times - 1.0) * within)
    assert moved[0] == 0.0


def test_a_front_that_is_open_has_none() -> None:
    """Gathers meet at the centre front, so there must be one."""
    with pytest.raises(GeometryError) as caught:
        made(recipe(TOP, POINTS, "opening: {at: center front, closed with: pins}", SIDE, TWO, WIDE), "ordinary")
    assert "panel “front” has no centre front that is cut on the fold or sewn. Gather over a panel" in str(caught.value)


def test_gathers_that_reach_a_shoulder_are_refused() -> None:
    """The shoulder is sewn as it is."""
    with pytest.raises(GeometryError) as caught:
        with_wide(step="gathered front: {panel: front, within: 180 mm}")
    says = str(caught.value)
    assert (
        "(gathered front) › within › the gathers shall reach 180.0 mm from the centre front, and front seat comes"
        in says
    )
    assert says.endswith("Let them end nearer the centre front.")


@pytest.mark.parametrize(
    ("step", "says"),
    [
        ("{panel: front, within: 9 cm, times: 1}", "times › got 1, needs 1.05 to 3. 1.3 to 1.6 are usual."),
        (
            "{panel: frond, within: 9 cm}",
            "panel › there is no panel “frond” in `separate` (step 4). Legal here: whole.",
        ),
    ],
)
def test_words_that_make_no_sense_are_told_with_their_place(step: str, says: str) -> None:
    """Without a body, from the file alone."""
    with pytest.raises(RecipeError) as caught:
        recipe(GAP, TOP, HEM, ONE, f"gathered front: {step}")
    assert str(caught.value).endswith(says)


def test_a_tuft_is_refused() -> None:
    """Gathers need some width."""
    with pytest.raises(GeometryError) as caught:
        with_wide(step="gathered front: {panel: front, within: 20 mm}")
    assert "on this body the gathers would reach 20 mm from the centre front. Give them 30 mm or more." in str(
        caught.value
    )
