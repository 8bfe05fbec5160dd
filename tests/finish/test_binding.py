"""Binding: lengths of bound edges, and curves too tight to be bound."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import numpy as np
import pytest
from tests.finish.sheets import sheet
from tests.samples import GAP, HEM, RED, THREE, TOP, made, recipe, side_back, side_front

from fanblock.finish.binding import bound, radii_mm, tightest
from fanblock.geometry.curve import Curve, frozen
from fanblock.pattern.model import Panel, Pattern


def bound_garment(*steps: str) -> Pattern:
    """Return the sample stays with a binding."""
    seams = (side_front(below_waist="open"), side_back(below_waist="open"))
    return made(recipe(GAP, TOP, HEM, *seams, RED, THREE, *steps, "binding: {of: silk ribbon}", makes="stays"))


def only(panel: Panel) -> Pattern:
    """Return a pattern of one panel."""
    return replace(bound_garment(), panels=(panel,), seams=())


def test_lengths_by_hand() -> None:
    """A sheet 100 mm wide with two slits of 100: above 2 x 100; below 2 x 100 and both sides of both slits, 8 x 100."""
    found = {one.name: one.length_mm for one in bound(only(sheet(slits=(30.0, 60.0))))}
    assert found == {"top edge": 200.0, "lower edge": 200.0 + 800.0}


def test_a_piece_cut_once_is_bound_once() -> None:
    """One that is whole is no pair."""
    whole = replace(sheet(), whole=True)
    assert {one.name: one.length_mm for one in bound(only(whole))} == {"top edge": 100.0, "lower edge": 100.0}


def test_edges_with_an_allowance_are_not_bound() -> None:
    """Only free edges without an allowance are; lacing edges and seams never."""
    turned = replace(sheet(left="lacing"), allowances=MappingProxyType({"top edge": 10.0}))
    assert [one.name for one in bound(only(turned))] == ["lower edge"]


def test_both_sides_of_open_seams_are_bound() -> None:
    """Stays with seams open below the waist: hems, and the sides of the tabs, of both halves."""
    pattern = bound_garment("tabs: {slits: {side: 2, back: 1}}")
    edges = [edge for panel in pattern.panels for edge in panel.edges if edge.kind in ("hem", "slit")]
    slits = [slit for panel in pattern.panels for slit in panel.slits]
    by_hand = 2 * sum(edge.curve.length_mm for edge in edges)
    by_hand += 4 * sum(float(np.hypot(*(slit.end - slit.start))) for slit in slits)
    assert {one.name: one.length_mm for one in bound(pattern)}["lower edge"] == pytest.approx(by_hand)


def arc(radius: float, turn: float) -> Curve:
    """Return a part of a circle that turns left, or right for a negative turn."""
    angles = np.linspace(0.0, turn, 200)
    sign = np.sign(turn)
    return Curve(frozen(np.column_stack((radius * np.sin(np.abs(angles)), sign * radius * (1.0 - np.cos(angles))))))


@pytest.mark.parametrize("radius", [5.0, 8.0, 12.0, 40.0])
def test_radii_are_those_of_circles(radius: float) -> None:
    """The radius of a part of a circle is its own, positive where it turns left."""
    assert radii_mm(arc(radius, 2.5)) == pytest.approx(radius, rel=1e-3)
    assert radii_mm(arc(radius, -2.5)) == pytest.approx(-radius, rel=1e-3)
    assert np.isinf(radii_mm(Curve(frozen([[0.0, 0.0], [50.0, 0.0]])))).all()


@pytest.mark.parametrize(
    ("radius", "turn", "tight"), [(7.5, 2.0, True), (8.5, 2.0, False), (14.0, -2.0, True), (16.0, -2.0, False)]
)
def test_outward_eight_and_inward_fifteen_can_be_bound(radius: float, turn: float, tight: bool) -> None:
    """Convex from 8 mm, concave from 15 (from memory of the trade)."""
    panel = sheet()
    hem = replace(panel.edges[0], curve=arc(radius, turn))
    found = [one for one in tightest(only(replace(panel, edges=(hem, *panel.edges[1:])))) if one.is_too_tight]
    assert bool(found) == tight
    if tight:
        assert (found[0].inward, found[0].radius_mm) == (turn < 0.0, pytest.approx(radius, rel=1e-3))


def test_slit_tops_are_exempt() -> None:
    """A slit of no width turns on the spot at its top, and is bound with a whipped turn all the same."""
    pattern = bound_garment("tabs: {slits: {side: 2, back: 1}, corner: 18 mm}")
    assert not [one for one in tightest(pattern) if one.inward and one.is_too_tight]
