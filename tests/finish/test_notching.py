"""Notches: a bar at the waist and ticks above it, alike on both mates and unlike on neighbours."""

from __future__ import annotations

import numpy as np
import pytest
from tests.samples import BODIES, GAP, HEM, RED, THREE, TOP, drafted, made, recipe, separate, side_back, side_front

from fanblock.geometry.meet import contains
from fanblock.pattern.model import EdgeName, Notch, Pattern
from fanblock.problems import RecipeError


def notches(pattern: Pattern, name: EdgeName) -> list[Notch]:
    """Return the notches on one edge."""
    return [notch for notch in pattern.by_name[name.panel].notches if notch.edge == name.edge]


def from_waist(pattern: Pattern, name: EdgeName, *, rising: bool) -> list[float]:
    """Return how far above the waist, or the foot of a seam without one, the notches of an edge stand."""
    edge = pattern.by_name[name.panel].edge(name.edge)
    foot = edge.waist_at_mm
    if foot is None:
        foot = 0.0 if rising else edge.curve.length_mm
    return [notch.at_mm - foot if rising else foot - notch.at_mm for notch in notches(pattern, name)]


@pytest.mark.parametrize("name", BODIES)
def test_mates_are_notched_at_equal_distances(name: str) -> None:
    """Every seam has as many notches on one side as on the other, at one distance from the waist within 0.1 mm."""
    pattern = drafted(name, "stays-five-panels")
    for seam in pattern.seams:
        ours = from_waist(pattern, seam.front, rising=True)
        theirs = from_waist(pattern, seam.back, rising=False)
        assert ours == pytest.approx(theirs, abs=0.1)
        assert ours[0] == pytest.approx(0.0)


def test_a_piece_the_wrong_way_up_or_beside_the_wrong_neighbour_shows() -> None:
    """Ticks never stand in the middle of their seam, and each seam has a number of its own, counted from the front."""
    pattern = drafted("ordinary", "stays-five-panels")
    ticks = {seam.letter: [n.count for n in notches(pattern, seam.front) if n.kind == "seam"] for seam in pattern.seams}
    assert ticks == {"A": [1], "B": [2], "C": [3], "D": [4]}
    for seam in pattern.seams:
        edge = pattern.by_name[seam.front.panel].edge(seam.front.edge)
        above = edge.curve.length_mm - (edge.waist_at_mm or 0.0)
        tick = from_waist(pattern, seam.front, rising=True)[1]
        assert tick / above == pytest.approx(0.4)


def test_ticks_stand_where_the_recipe_says() -> None:
    """At 30 % of the seam above the waist, of the length chosen."""
    steps = (GAP, TOP, HEM, side_front(), side_back(), RED, THREE, "notches: {at: 30%, tick: 4 mm}")
    pattern = made(recipe(*steps))
    seam = pattern.seams[0]
    edge = pattern.by_name[seam.front.panel].edge(seam.front.edge)
    above = edge.curve.length_mm - (edge.waist_at_mm or 0.0)
    assert from_waist(pattern, seam.front, rising=True)[1] == pytest.approx(0.3 * above)


def test_ticks_point_into_the_cloth() -> None:
    """A notch lies on its edge and its tick inside the panel, square to the edge."""
    for panel in drafted("short in the back", "stays-five-panels").panels:
        for notch in panel.notches:
            curve = panel.edge(notch.edge).curve
            assert np.hypot(*(curve.at(notch.at_mm) - notch.point)) < 1e-9
            assert abs(float(notch.inward @ curve.tangent_at(notch.at_mm))) < 1e-9
            if 1.0 < notch.at_mm < curve.length_mm - 1.0:
                assert contains(panel.loop(), notch.point + 0.5 * notch.inward)


def test_ticks_in_the_middle_are_refused() -> None:
    """In the middle a tick would not show which end is up."""
    with pytest.raises(RecipeError) as caught:
        recipe(GAP, TOP, HEM, side_front(), side_back(), RED, THREE, "notches: {at: 50%}")
    assert str(caught.value) == (
        "r.yaml:19:19: step 8 (notches) › at › got 50%, needs 10 to 45 or 55 to 90 %. "
        "In the middle it would not show which end is up."
    )


def test_under_a_waist_seam_ticks_stand_below_the_bar() -> None:
    """A seam that hangs from the waist has its bar at the top and its ticks 40 % down; the waist seam has ticks alone,
    40 % from its front end, at one place above and below.
    """
    long, level = "hem: {height: waist - 160 mm}", "level seam: {name: waist seam, height: waist}"
    six = separate("front", "front skirt", "side", "side skirt", "back", "back skirt")
    pattern = made(recipe(GAP, TOP, long, side_front(), side_back(), level, RED, six))
    for seam in pattern.seams:
        front = pattern.by_name[seam.front.panel].edge(seam.front.edge)
        ours, theirs = from_waist(pattern, seam.front, rising=True), from_waist(pattern, seam.back, rising=False)
        assert ours == pytest.approx(theirs, abs=0.01)
        kinds = [notch.kind for notch in notches(pattern, seam.front)]
        if seam.line == "waist seam":
            assert kinds == ["seam"]
            assert ours[0] / front.curve.length_mm == pytest.approx(0.4)
        elif seam.name.endswith("below waist seam"):
            assert kinds == ["waist", "seam"]
            assert ours[1] / front.curve.length_mm == pytest.approx(-0.4, abs=0.001)
