"""Whole sleeves on real garments: plain outlines, matching seams, the arm's girths where they belong, a bend forward."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely import LineString, Polygon
from tests.sleeves.sewn import DOUBLET, GOWN, drafted_with

from fanblock.pattern.model import ARMHOLE, HEM, Panel, Pattern
from fanblock.sleeves.pieces import ELBOW, TOP_MARK, UPPER_ARM

ONE, SEAM, TWO = "sleeve: {length: long}", "sleeve: {length: long, bend: seam}", "sleeve: {pieces: 2, length: long}"
EVERY = [(GOWN, ONE), (GOWN, SEAM), (GOWN, TWO), (DOUBLET, ONE), (DOUBLET, SEAM), (DOUBLET, TWO)]
WHO = ["ordinary", "very small", "very large"]


def sleeves(pattern: Pattern) -> list[Panel]:
    """Return the pieces of the sleeve."""
    return [panel for panel in pattern.panels if any(mark.name == ELBOW for mark in panel.marks)]


def across_mm(panel: Panel, name: str) -> float:
    """Return how wide a piece is along one of its lines, by shapely."""
    line = next(mark for mark in panel.marks if mark.name == name).curve
    way = line.end - line.start
    cut = Polygon(panel.loop()).intersection(LineString([line.start - 0.2 * way, line.end + 0.2 * way]))
    return float(cut.length)


@pytest.mark.parametrize("who", WHO)
@pytest.mark.parametrize(("name", "step"), EVERY)
def test_every_sleeve_is_sound(name: str, step: str, who: str) -> None:
    """Any way of cutting it goes into either garment on bodies of any size."""
    pattern = drafted_with(name, step, who)
    assert [finding.code for finding in pattern.findings if finding.state == "fails"] == []


@pytest.mark.parametrize(("name", "step"), EVERY)
def test_pieces_are_plain_and_right_side_up(name: str, step: str) -> None:
    """Outlines are valid (by shapely), run counter-clockwise, and the hem lies below the cap."""
    for panel in sleeves(drafted_with(name, step)):
        outline = Polygon(panel.loop())
        assert outline.is_valid
        assert outline.exterior.is_ccw
        hem = next(edge for edge in panel.edges if edge.kind == HEM).curve.points[:, 1]
        cap = np.concatenate([edge.curve.points[:, 1] for edge in panel.edges if edge.kind == ARMHOLE])
        assert hem.max() < cap.min() - 200.0


@pytest.mark.parametrize(("name", "step"), EVERY)
def test_the_cap_is_the_armhole(name: str, step: str) -> None:
    """By shapely: every stretch sewn in flat is as long as its mate to 0.01 mm, all the others are longer by their spare."""
    pattern = drafted_with(name, step)
    names = {panel.name for panel in sleeves(pattern)}
    set_in = [seam for seam in pattern.seams if seam.front.panel in names and seam.back.panel not in names]
    spare = 0.0
    for seam in set_in:
        cap = pattern.by_name[seam.front.panel].edge(seam.front.edge).curve.points
        hole = pattern.by_name[seam.back.panel].edge(seam.back.edge).curve.points
        longer = LineString(cap).length - LineString(hole).length
        assert longer == pytest.approx(seam.fullness_mm, abs=0.01)
        spare += seam.fullness_mm
    assert spare == pytest.approx(10.0 if "pieces: 2" in step else 50.0, abs=1e-6)
    sewn = {(seam.back.panel, seam.back.edge) for seam in set_in}
    holes = {
        (panel.name, edge.name)
        for panel in pattern.panels
        for edge in panel.edges
        if edge.kind == ARMHOLE and panel.name not in names
    }
    assert sewn == holes


@pytest.mark.parametrize(("name", "step"), EVERY)
def test_the_arm_goes_through(name: str, step: str) -> None:
    """Measured across the pieces: the upper arm with its 5 cm, and the bent elbow with its 2.5 cm, or more of it where the
    seam behind makes the room.
    """
    pattern = drafted_with(name, step)
    pieces, lengths = sleeves(pattern), pattern.body.lengths
    arm = sum(across_mm(panel, UPPER_ARM) for panel in pieces)
    elbow = sum(across_mm(panel, ELBOW) for panel in pieces)
    hem = sum(edge.curve.length_mm for panel in pieces for edge in panel.edges if edge.kind == HEM)
    assert arm == pytest.approx(lengths["upper arm"] + 50.0, abs=0.2)
    assert elbow == pytest.approx(lengths["elbow"] + 25.0 + (30.0 if "seam" in step else 0.0), abs=0.2)
    assert hem == pytest.approx(lengths["wrist"] + 25.0, abs=35.0 if "seam" in step else 0.2)


@pytest.mark.parametrize("name", [GOWN, DOUBLET])
def test_two_pieces_match_along_both_seams(name: str) -> None:
    """The under sleeve is the top sleeve's mirror image below the cap; the hind-arm is the longer seam of a bent arm."""
    pattern = drafted_with(name, TWO)
    top, under = pattern.by_name["top sleeve"], pattern.by_name["under sleeve"]
    for edge in ("sleeve fore-arm seam", "sleeve hind-arm seam"):
        one, other = top.edge(edge).curve.points, under.edge(edge).curve.points
        assert other[::-1] * (-1.0, 1.0) == pytest.approx(one, abs=1e-9)
    fore, hind = (top.edge(f"sleeve {name} seam").curve.length_mm for name in ("fore-arm", "hind-arm"))
    assert hind > fore + 20.0


def test_a_sleeve_in_two_pieces_comes_forward_as_told() -> None:
    """The forearm leans so that its own length brings the wrist 10 cm forward, and the hem stands square to it (by hand)."""
    pattern = drafted_with(DOUBLET, "sleeve: {pieces: 2, length: long, forward: 10 cm}")
    panel = pattern.by_name["top sleeve"]
    elbow = next(mark for mark in panel.marks if mark.name == ELBOW).curve
    hem = next(edge for edge in panel.edges if edge.kind == HEM).curve
    forearm = (0.146 / 0.332) * pattern.body.length_mm("arm length")
    slope = math.atan2(hem.start[1] - hem.end[1], hem.end[0] - hem.start[0])
    assert math.sin(slope) == pytest.approx(100.0 / forearm, abs=1e-6)
    outer = panel.edge("sleeve hind-arm seam").curve.start
    assert float(np.hypot(*(outer - elbow.end))) == pytest.approx(forearm, rel=0.02)


@pytest.mark.parametrize("step", [ONE, SEAM, TWO])
def test_the_elbow_lies_where_the_arm_has_it(step: str) -> None:
    """From the top of the cap down to the elbow it is shoulder to elbow: 56 % of the arm (Drillis and Contini, 1966)."""
    pattern = drafted_with(GOWN, step)
    panel = sleeves(pattern)[0]
    top = next(mark for mark in panel.marks if mark.name == TOP_MARK).curve.start
    elbow = next(mark for mark in panel.marks if mark.name == ELBOW).curve
    lowest = elbow.points[:, 1].min() if "pieces" in step else elbow.points[0, 1]
    due = 0.186 / 0.332 * pattern.body.length_mm("arm length")
    assert float(top[1] - lowest) == pytest.approx(due, abs=2.5)


def test_an_elbow_sleeve_ends_below_the_elbow_and_a_long_one_at_the_wrist() -> None:
    """Along the back of the arm: 4.5 cm below the elbow (from memory), and the whole forearm."""
    forearm = (1.0 - 0.186 / 0.332) * 570.0
    for length, due in (("elbow", 45.0), ("long", forearm), ("40 cm", 400.0 - 0.186 / 0.332 * 570.0)):
        panel = sleeves(drafted_with(GOWN, f"sleeve: {{length: {length}, bend: seam}}"))[0]
        elbow = next(mark for mark in panel.marks if mark.name == ELBOW).curve
        hem = next(edge for edge in panel.edges if edge.kind == HEM).curve
        assert float(elbow.start[1] - hem.start[1]) == pytest.approx(due, abs=0.1)


def test_tucks_take_up_the_spare_where_the_strap_lies() -> None:
    """The marks of all tucks together are the spare, and they lie on the stretch that is sewn to the strap."""
    pattern = drafted_with(GOWN, "sleeve: {length: elbow, spare: 6 cm}")
    panel = pattern.by_name["sleeve"]
    tucks = [mark.curve.points for mark in panel.marks if mark.kind == "tuck"]
    assert sum(float(np.hypot(*(tuck[2] - tuck[1]))) for tuck in tucks) == pytest.approx(60.0, abs=0.5)
    strap = LineString(panel.edge("cap to strap").curve.points)
    assert max(strap.distance(LineString(tuck[1:3])) for tuck in tucks) < 0.1


def test_without_a_strap_the_spare_lies_at_the_shoulder() -> None:
    """Where a seam closes the shoulder it is tucked over twice its length, half of that on either side."""
    pattern = drafted_with(DOUBLET, "sleeve: {length: elbow, spare: 5 cm}")
    full = [seam for seam in pattern.seams if seam.how == "tucked"]
    on = [pattern.by_name[seam.back.panel].edge(seam.back.edge).curve.length_mm for seam in full]
    assert {seam.back.panel for seam in full} == {"front", "back"}
    assert on == pytest.approx([50.0, 50.0], abs=0.01)


def test_a_strap_that_is_not_on_the_sheets_is_left_open() -> None:
    """The cap has an edge for it that is sewn to nothing there, as long as the strap and the spare."""
    step = "sleeve: {length: elbow, spare: 4 cm, over shoulder: 11 cm}"
    pattern = drafted_with(GOWN, step, straps=False)
    edge = pattern.by_name["sleeve"].edge("cap over the shoulder")
    assert edge.mate is None
    assert edge.curve.length_mm == pytest.approx(150.0, abs=0.01)
    assert "taken to be 110.0 mm long on the side of the arm" in " ".join(note.says for note in pattern.notes)
