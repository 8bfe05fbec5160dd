"""Tabs: slits from waist to hem, corners rounded where they are free, and what is too narrow or too short."""

from __future__ import annotations

import numpy as np
import pytest
from tests.samples import GAP, HEM, ONE, RED, SOME, THREE, TOP, failed, made, recipe, side_back, side_front

from fanblock.geometry.rings import is_simple
from fanblock.pattern.model import HEM as HEM_KIND
from fanblock.pattern.model import Panel, Pattern
from fanblock.problems import GeometryError


def tabbed(tabs: str, name: str = "ordinary", *, below: str = "open", hem: str = HEM) -> Pattern:
    """Return the sample garment with a step of tabs in line 19."""
    seams = (side_front(below_waist=below), side_back(below_waist=below))
    return made(recipe(GAP, TOP, hem, *seams, RED, THREE, f"tabs: {tabs}", makes="stays"), name)


def hems(panel: Panel) -> list[str]:
    """Return the names of a panel's hem edges."""
    return [edge.name for edge in panel.edges if edge.kind == HEM_KIND]


def test_slits_stand_at_shares_of_waist_and_hem() -> None:
    """Two even slits in the side: a third and two thirds along its waist, and along its hem before the corners."""
    plain = made(recipe(GAP, TOP, HEM, side_front(below_waist="open"), side_back(below_waist="open"), RED, THREE))
    side = tabbed("{slits: {side: 2}, shape: square}").by_name["side"]
    waist, hem = plain.by_name["side"].levels["waist"][0], plain.by_name["side"].edge("hem").curve
    for number, slit in enumerate(side.slits, start=1):
        assert slit.start == pytest.approx(waist.at(number / 3.0 * waist.length_mm), abs=1e-6)
        assert slit.end == pytest.approx(hem.at(number / 3.0 * hem.length_mm), abs=1e-6)
    assert hems(side) == ["hem 1", "hem 2", "hem 3"]


def test_shares_and_numbers_of_slits_say_the_same() -> None:
    """`3` is 25 %, 50 % and 75 %, in whatever order they are written."""
    counted = tabbed("{slits: {side: 3}}").by_name["side"].slits
    written = tabbed("{slits: {side: [75%, 25%, 50%]}}").by_name["side"].slits
    assert all(np.allclose(one.start, other.start) for one, other in zip(counted, written, strict=True))


@pytest.mark.parametrize("name", SOME)
@pytest.mark.parametrize("tabs", ["{slits: {side: 2}}", "{slits: {side: 2}, shape: square}", "{corner: 8 mm}"])
def test_tabs_leave_every_panel_one_plain_outline(name: str, tabs: str) -> None:
    """Rounded or square, tabs leave panels simple and the garment sound on every body."""
    pattern = tabbed(tabs, name)
    assert all(is_simple(panel.loop()) for panel in pattern.panels)
    assert failed(pattern) == []


def test_free_corners_are_cut_off_and_others_are_not() -> None:
    """A rounded corner takes away the corner point beside a slit or a lacing edge; the centre front keeps its own."""
    square, round_ = (tabbed(f"{{corner: 12 mm, shape: {shape}}}") for shape in ("square", "rounded"))
    for panel, edge, cut in (("front", "center front", False), ("front", "side front below waist", True),
                             ("back", "lacing edge", True)):  # fmt: skip
        before, after = (pattern.by_name[panel].edge(edge).curve.length_mm for pattern in (square, round_))
        assert (before - after == pytest.approx(12.0)) == cut
        assert (before == pytest.approx(after)) != cut


def test_corners_at_seams_sewn_to_the_hem_stay() -> None:
    """Where a seam is sewn down to the hem the edge runs on across it, so there is no corner to round."""
    pattern = tabbed("{slits: {side: 2}}", below="sewn")
    assert failed(pattern) == []
    side = pattern.by_name["side"]
    assert len(side.slits) == 2
    assert side.edge("side front").curve.length_mm == pytest.approx(
        pattern.by_name["front"].edge("side front").curve.length_mm, abs=0.1
    )


def test_a_panel_without_slits_keeps_one_hem() -> None:
    """No slits in the front: one hem, its free corner rounded."""
    front = tabbed("{slits: {side: 1}}").by_name["front"]
    assert (hems(front), front.slits) == (["hem"], ())


MOVE = "Give fewer slits, move them apart, or a smaller `corner`."
BAD = {
    "too many slits": (
        "{slits: {side: 9}}", HEM,
        f"slits › side › a tab would be 17 mm wide at the hem, too narrow for corners of 12 mm. {MOVE}",
    ),
    "two slits at one place": (
        "{slits: {side: [40%, 40%]}, shape: square}", HEM,
        f"slits › side › a tab would be 0 mm wide at the hem, too narrow. {MOVE}",
    ),
    "a slit at the seam": (
        "{slits: {side: [0%, 50%]}}", HEM,
        f"slits › side › a tab would be 0 mm wide at the hem, too narrow for corners of 12 mm. {MOVE}",
    ),
    "corners wider than a panel": (
        "{corner: 45 mm}", HEM,
        f"slits › back › a tab would be 76 mm wide at the hem, too narrow for corners of 45 mm. {MOVE}",
    ),
    "a corner of less than nothing": (
        "{corner: -2 mm}", HEM, "corner › got -2.0 mm, needs 0 or more. Leave out the minus.",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", BAD)
def test_tabs_that_cannot_be_cut_are_refused(name: str) -> None:
    """The panel, how wide its tab would be, and what to do."""
    tabs, hem, says = BAD[name]
    with pytest.raises(GeometryError) as caught:
        tabbed(tabs, hem=hem)
    assert str(caught.value) == f"r.yaml:19:5: step 8 (tabs) › {says}"


def test_tabs_too_short_for_their_corners_are_refused() -> None:
    """A hem 9 mm under the waist has no room for corners of 12 mm."""
    with pytest.raises(GeometryError) as caught:
        made(recipe(GAP, TOP, "hem: {height: waist - 9 mm}", ONE, "tabs: {slits: {whole: 1}}"))
    assert str(caught.value) == (
        "r.yaml:16:5: step 5 (tabs) › slits › whole › a tab would be 9 mm deep, too short for corners of 12 mm. "
        "Lower the hem, or give a smaller `corner`."
    )


def test_a_panel_without_a_skirt_cannot_be_slit() -> None:
    """A garment that ends above the waist has nothing to slit."""
    with pytest.raises(GeometryError) as caught:
        made(recipe(GAP, TOP, "hem: {height: waist + 30 mm}", ONE, "tabs: {slits: {whole: 1}}"))
    assert str(caught.value) == (
        "r.yaml:16:5: step 5 (tabs) › slits › whole › this panel has no hem below a waist. Leave it out of `slits`."
    )
