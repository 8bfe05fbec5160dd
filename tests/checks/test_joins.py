"""The joins family: edges that run on smooth across seams, and square to closed centres."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.checks.spoiling import failing, sound, states, with_edge
from tests.samples import BODIES, FOUR, GAP, HEM, TOP, made, recipe, seam, separate, side_back, side_front

from fanblock.checks.joins import check
from fanblock.geometry.curve import Curve
from fanblock.pattern.model import Pattern


@pytest.mark.parametrize("name", BODIES)
def test_every_join_of_a_sound_garment_holds(name: str) -> None:
    """Two seams sewn to the hem have two joins each, and the closed front two corners; all hold."""
    found = states(check(sound(name)))
    assert set(found) == {
        "join-A-top", "join-A-low", "join-B-top", "join-B-low",
        "square-center-front-top-edge", "square-center-front-hem",
    }  # fmt: skip
    assert set(found.values()) == {"holds"}


def kinked(pattern: Pattern, panel: str, edge: str, degrees: float) -> Pattern:
    """Return the pattern with an edge turned about its first point."""
    curve = pattern.by_name[panel].edge(edge).curve
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    turned = (curve.points - curve.start) @ np.array([[cos, sin], [-sin, cos]]) + curve.start
    return with_edge(pattern, panel, edge, curve=Curve.through(turned))


@pytest.mark.parametrize(("degrees", "fails"), [(0.5, False), (4.0, True), (-4.0, True)])
def test_an_edge_that_bends_across_a_seam_is_caught(degrees: float, fails: bool) -> None:
    """The front's top edge starts at seam A: turned by 4 degrees it no longer runs straight on."""
    spoilt = failing(check(kinked(sound(), "front", "top edge", degrees)))
    assert ("join-A-top" in spoilt) == fails


def test_a_centre_that_is_not_square_is_caught() -> None:
    """The hem starts at the centre front: turned by 4 degrees it is no longer square to it."""
    assert "square-center-front-hem" in failing(check(kinked(sound(), "front", "hem", 4.0)))


def test_open_seams_and_lacing_edges_are_no_joins() -> None:
    """Where panels part as tabs, or lace, nothing has to run on."""
    found = states(check(sound(below="open")))
    assert set(found) == {
        "join-A-top", "join-B-top", "square-center-front-top-edge", "square-center-front-hem",
    }  # fmt: skip


def test_a_seam_may_meet_a_centre_line_at_any_angle() -> None:
    """A seam that ends on the centre front is not an edge that crosses it."""
    yoke = seam("yoke", "8%, top edge", "center front, 40%")
    found = states(check(made(recipe(GAP, TOP, HEM, side_front(), side_back(), yoke, FOUR))))
    assert not any("yoke" in code for code in found)
    assert set(found.values()) == {"holds"}


SIX = separate("front", "front skirt", "side", "side skirt", "back", "back skirt")
LEVEL = "level seam: {name: waist seam, height: waist - 20 mm}"
LONG = "hem: {height: waist - 160 mm}"


def skirted() -> Pattern:
    """Return a garment with skirts below a level seam."""
    return made(recipe(GAP, TOP, LONG, side_front(), side_back(), LEVEL, SIX))


def test_a_level_seam_runs_smooth_across_the_seams_it_cuts() -> None:
    """At both ends of every part the edges across it are looked at, those of the level seam too, above it and below."""
    found = states(check(skirted()))
    assert {f"join-{letter}-{end}" for letter in "ABDE" for end in ("top", "low")} <= set(found)
    assert set(found.values()) == {"holds"}


def test_where_a_level_seam_stands_at_a_centre_it_is_looked_at_once() -> None:
    """Its two edges are one line: the panel above answers for both, and no code stands twice."""
    codes = [finding.code for finding in skirted().findings]
    assert len(codes) == len(set(codes))
    assert "square-center-front-waist-seam-1" in codes


def test_a_level_seam_that_bends_across_a_seam_is_caught() -> None:
    """The front's lower edge ends at seam A: turned by 4 degrees it no longer runs straight on, nor square to the centre."""
    spoilt = kinked(skirted(), "front", "waist seam 1", 4.0)
    found = {finding.code: finding.says for finding in check(spoilt) if finding.state == "fails"}
    assert set(found) == {"join-A-low", "square-center-front-waist-seam-1"}
    assert found["join-A-low"] == "the waist seam across seam A bends by 4.0°"


def test_edges_that_are_laced_together_should_be_about_equally_long() -> None:
    """Along a seam under a sloping edge one side is longer: over 6 mm wants a look and says how to count the eyelets."""
    flat = made(recipe(TOP, HEM, "lacing gap: {at: side, width: 20 mm}", separate("front", "back")))
    steep = made(recipe(TOP, HEM, side_back(), "lacing gap: {at: side back, width: 20 mm}", separate("front", "back")))
    assert states(check(flat))["laced-side"] == "holds"
    found = next(finding for finding in check(steep) if finding.code == "laced-side-back")
    assert found.state == "warns"
    assert found.says.startswith("laced at the side back: the front edge is ")
    assert found.says.endswith("; count its eyelets from the waist")
