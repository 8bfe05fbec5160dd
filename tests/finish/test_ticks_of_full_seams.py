"""Ticks on a seam whose one edge is longer: at one share of both where that is spread, at one distance where darts take it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.sleeves.sewn import DOUBLET, GOWN, drafted_with

from fanblock.checks.marks import check
from fanblock.pattern.model import Pattern, Seam


def ticks_mm(pattern: Pattern, seam: Seam) -> tuple[float, float, float, float]:
    """Return how far the ticks of both edges stand from the seam's foot, and how long both edges are."""
    front, back = pattern.by_name[seam.front.panel], pattern.by_name[seam.back.panel]
    one, other = front.edge(seam.front.edge).curve.length_mm, back.edge(seam.back.edge).curve.length_mm
    at = next(notch.at_mm for notch in front.notches if notch.edge == seam.front.edge)
    beside = next(notch.at_mm for notch in back.notches if notch.edge == seam.back.edge)
    return at, other - beside, one, other


def test_where_it_is_spread_they_stand_at_one_share() -> None:
    """Two fifths of a tucked and of an eased cap lie on two fifths of the armhole (plain proportion)."""
    for pattern in (
        drafted_with(GOWN, "sleeve: {length: elbow}"),
        drafted_with(DOUBLET, "sleeve: {pieces: 2, length: long}"),
    ):
        full = [seam for seam in pattern.seams if seam.how in ("tucked", "eased")]
        assert full
        for seam in full:
            at, beside, one, other = ticks_mm(pattern, seam)
            assert at / one == pytest.approx(0.4, abs=1e-9)
            assert beside / other == pytest.approx(0.4, abs=1e-9)


def test_where_darts_take_it_they_stand_at_one_distance() -> None:
    """They are counted off from the foot, and lie before the first dart."""
    pattern = drafted_with(GOWN, "sleeve: {length: long}")
    seam = next(seam for seam in pattern.seams if seam.how == "darted")
    at, beside, _, _ = ticks_mm(pattern, seam)
    assert at == pytest.approx(beside, abs=1e-6)
    sleeve = pattern.by_name["sleeve"]
    curve = sleeve.edge(seam.front.edge).curve
    lowest = min(mark.curve.points[-1][1] for mark in sleeve.marks if mark.kind == "dart")
    assert curve.at(at)[1] < lowest


def test_ticks_that_do_not_meet_are_caught() -> None:
    """Moved by two millimetres on one edge they fail, spread or not."""
    pattern = drafted_with(GOWN, "sleeve: {length: elbow}")
    sleeve = pattern.by_name["sleeve"]
    for how in ("tucked", "darted"):
        seam = next(seam for seam in pattern.seams if seam.how == how)
        moved = tuple(
            replace(notch, at_mm=notch.at_mm + 2.0) if notch.edge == seam.front.edge else notch
            for notch in sleeve.notches
        )
        spoilt = tuple(replace(panel, notches=moved) if panel.name == "sleeve" else panel for panel in pattern.panels)
        failed = [finding.code for finding in check(replace(pattern, panels=spoilt)) if finding.state == "fails"]
        assert len(failed) == 1
        assert failed[0].startswith(f"notches-{seam.letter}")
