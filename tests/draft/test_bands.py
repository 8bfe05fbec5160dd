"""Bands of any three lengths: exact in every case, by published tables of fan-shaped pieces and by arithmetic alone."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.samples import body

from fanblock.block.band import Band, band_fan, inner_radius_mm, outer_mm
from fanblock.draft.band import BandSpec, drafted_band
from fanblock.draft.model import Draft
from fanblock.draft.pieces import INNER, MOST_TURN_RAD, OUTER, Division, divided, piece_count
from fanblock.draft.work import Work
from fanblock.pattern.model import CENTER, FOLD, SEAM
from fanblock.problems import GeometryError
from fanblock.terms import Extent, Length, Share

INCH = 25.4
CIRCLE_SKIRTS = ((1.0, 4.13), (0.5, 8.2), (1.0 / 3.0, 12.4), (0.25, 16.56))
"""Radii in inches for a seam of 26 in, by share of a circle: a circle-skirt table that goes about among sewers (common
practice, author unknown). It cuts its first two figures off instead of rounding them, and is 0.01 in over in the last."""

BANDS = {
    "falling collar": Band(390.0, 500.0, 130.0),
    "half circle": Band(420.0, 420.0 + math.pi * 160.0, 160.0, halved=False),
    "full circle": Band(700.0, 700.0 + 2.0 * math.pi * 140.0, 140.0, halved=False),
    "full circle as a half": Band(700.0, 700.0 + 2.0 * math.pi * 140.0, 140.0),
    "one and a half circles": Band(700.0, 700.0 + 3.0 * math.pi * 140.0, 140.0, halved=False),
    "two and a half circles": Band(300.0, 300.0 + 5.0 * math.pi * 90.0, 90.0, halved=False),
    "straight": Band(4000.0, 4000.0, 60.0, halved=False),
    "a hair off straight": Band(400.0, 400.0 + 1e-6, 60.0),
    "leaning in": Band(420.0, 380.0, 45.0, hangs=False),
}


def pieces(band: Band, division: Division | None = None) -> Work:
    """Return a band's pieces."""
    return divided(Draft(body(), band_fan(band), band=band), division or Division("piece"))


@pytest.mark.parametrize(("circle", "inches"), CIRCLE_SKIRTS)
def test_radii_are_those_of_a_circle_skirt_table(circle: float, inches: float) -> None:
    """A seam of 26 in lies on the radius that the table gives for each share of a circle, but for its cut-off figures."""
    assert inner_radius_mm(26.0 * INCH, circle) / INCH == pytest.approx(inches, abs=0.08 if circle == 0.5 else 0.015)


@pytest.mark.parametrize(("circle", "centimetres"), [(1.0, 11.141), (0.5, 22.282), (0.25, 44.563)])
def test_radii_of_70_cm_are_its_share_of_a_circle(circle: float, centimetres: float) -> None:
    """A seam of 70 cm makes 11.141, 22.282 and 44.563 cm: the length of an arc over its angle, worked by hand."""
    assert inner_radius_mm(700.0, circle) / 10.0 == pytest.approx(centimetres, abs=0.0006)


@pytest.mark.parametrize("case", BANDS)
def test_edges_and_depth_are_as_asked(case: str) -> None:
    """Inner edge, outer edge and depth, measured on the pieces, are right to a hundredth of a millimetre."""
    band = BANDS[case]
    panels = pieces(band).panels
    for name, due in ((INNER, band.inner_mm), (OUTER, band.outer_mm)):
        drawn = sum(panel.edge(name).curve.length_mm for panel in panels)
        assert drawn / band.drawn_ratio == pytest.approx(due, abs=0.01)
    for panel in panels:
        for edge in panel.edges:
            if edge.name not in (INNER, OUTER):
                assert edge.curve.length_mm == pytest.approx(band.depth_mm, abs=1e-9)


@pytest.mark.parametrize("name", [name for name, band in BANDS.items() if band.circle_ratio > 0.1])
def test_curved_edges_are_circles_about_one_point(name: str) -> None:
    """Every point of both edges lies at the radius of its edge from the pin: inner edge over turn, and the depth more."""
    band = BANDS[name]
    block = band_fan(band)
    inner = block.at(np.linspace(0.0, 1.0, 50), band.inner_height)
    outer = block.at(np.linspace(0.0, 1.0, 50), band.outer_height)
    radius = band.inner_radius_mm
    pin = inner[0] + (inner[0] - outer[0]) / band.depth_mm * radius
    assert np.hypot(*(inner - pin).T) == pytest.approx(np.full(50, radius), abs=1e-6)
    assert np.hypot(*(outer - pin).T) == pytest.approx(np.full(50, radius + band.depth_mm), abs=1e-6)


@pytest.mark.parametrize("name", BANDS)
def test_the_inner_edge_of_what_hangs_is_above(name: str) -> None:
    """A piece lies the way up it is worn: what hangs has its inner edge above at the centre back, what stands below."""
    band = BANDS[name]
    block = band_fan(band)
    inner, outer = (block.at(band.center_back, height) for height in (band.inner_height, band.outer_height))
    assert (inner[1] > outer[1]) == band.hangs
    assert inner[0] == pytest.approx(outer[0], abs=1e-9)


@pytest.mark.parametrize("name", BANDS)
def test_pieces_are_equal_and_can_lie_open(name: str) -> None:
    """All pieces are of one size, and none turns further than its ends' allowances have room for."""
    band = BANDS[name]
    for division in (Division("piece"), Division("piece", fold="center back") if band.halved else Division("piece")):
        panels = pieces(band, division).panels
        sizes = [panel.edge(OUTER).curve.length_mm for panel in panels]
        assert sizes == pytest.approx([sizes[0]] * len(sizes), abs=1e-6)
        opened = 2.0 if division.fold else 1.0
        assert opened * band.drawn_ratio * abs(band.turn_rad) / len(panels) <= MOST_TURN_RAD + 1e-9


def test_joins_are_mates_of_equal_length() -> None:
    """Each piece is sewn to the next, each edge naming the other, and the ends stay open."""
    work = pieces(BANDS["two and a half circles"])
    assert [(seam.front[0], seam.back[0]) for seam in work.seams] == [("piece 1", "piece 2"), ("piece 2", "piece 3")]
    for panel in work.panels:
        for edge in panel.edges:
            assert (edge.mate is not None) == (edge.kind == SEAM)
    assert [edge.kind for edge in (work.panels[0].edge("first end"), work.panels[-1].edge("last end"))] == [CENTER] * 2


def test_a_ring_is_sewn_to_itself() -> None:
    """Sewn ends make one seam more: from the last piece back to the first, or of a single piece with itself."""
    single = pieces(BANDS["half circle"], Division("flounce", ring=True))
    assert [(seam.front, seam.back) for seam in single.seams] == [(("flounce", "last end"), ("flounce", "first end"))]
    double = pieces(BANDS["half circle"], Division("flounce", least=2, ring=True))
    assert [seam.name for seam in double.seams] == ["join 1", "ring seam"]


def test_the_fold_lies_on_the_piece_that_has_the_centre() -> None:
    """The last piece of a half lies on the fold of the centre back, the first on that of the centre front."""
    band = BANDS["full circle as a half"]
    assert [panel.fold for panel in pieces(band, Division("p", 2, fold="center back")).panels] == ["", "center back"]
    front = pieces(band, Division("p", 2, fold="center front")).panels
    assert [panel.fold for panel in front] == ["center front", ""]
    assert front[0].edge("center front").kind == FOLD


@pytest.mark.parametrize(("cloth_mm", "count"), [(1500.0, 3), (1400.0, 3), (1333.0, 4), (4000.0, 1)])
def test_a_strip_is_cut_by_the_width_of_the_cloth(cloth_mm: float, count: int) -> None:
    """A strip of 4 m is cut in as few pieces as are no longer than the cloth is wide."""
    assert piece_count(BANDS["straight"], Division("strip", longest_mm=cloth_mm)) == count


def spec(inner: float = 400.0, depth: float = 100.0, **more: object) -> BandSpec:
    """Return a band's words with these lengths in millimetres."""
    return BandSpec(Extent(Length(inner)), Extent(Length(depth)), **more)  # type: ignore[arg-type]


def test_outer_edge_and_circle_say_the_same() -> None:
    """Asked by its share of a circle or by the outer edge that follows from it, a band is the same."""
    by_circle = drafted_band(body(), spec(circle=Share(0.25))).band
    by_outer = drafted_band(body(), spec(outer=Extent(Length(outer_mm(400.0, 100.0, 0.25))))).band
    assert by_circle == by_outer
    assert by_circle is not None
    assert by_circle.circle_ratio == pytest.approx(0.25)


def test_what_comes_to_no_band_is_refused() -> None:
    """A length of nothing, a band of many circles and too many pieces are told with what to do."""
    with pytest.raises(GeometryError) as caught:
        drafted_band(body(), spec(depth=0.0, outer=Extent(Length(20.0), Length(30.0), -1)))
    assert str(caught.value) == (
        "block › depth › comes to 0.0 mm, but must be longer than nothing. Give it more.\n"
        "block › outer › comes to -10.0 mm, but must be longer than nothing. Give it more, or less depth."
    )
    with pytest.raises(GeometryError) as caught:
        drafted_band(body(), spec(circle=Share(4.0)))
    assert str(caught.value) == (
        "block › comes to 4.0 whole circles. Up to 3 are drawn; for more, gather a straight strip."
    )
    with pytest.raises(GeometryError) as caught:
        pieces(BANDS["straight"], Division("strip", longest_mm=100.0))
    assert str(caught.value) == "pieces › 40 pieces would be needed. Up to 24 are drawn: shorten the band."
