"""Do skirts go round the hip? Told for every jacket, warned of where they do not, and silent where there are none."""

from __future__ import annotations

import pytest
from tests.samples import GAP, RED, THREE, TOP, garment, made, recipe, side_back, side_front

from fanblock.pattern.model import Finding, Pattern

DEEP = "hem: {height: waist - 160 mm}"
SEAMS = (side_front(spring="0 mm"), side_back(spring="0 mm"))
ROOM = "flare: {room: 40 mm, shares: {side front: 1, side back: 1}}"
BOX = "pleats: {at: side back, number: 2, depth: 40 mm}"


def jacket(*more: str, name: str = "ordinary", gap: str = GAP, hem: str = DEEP) -> Pattern:
    """Return a jacket with deep skirts for a body of the catalogue."""
    return made(recipe(*(step for step in (gap, TOP, hem, *SEAMS, RED, THREE, *more) if step)), name)


def found(pattern: Pattern, code: str) -> Finding:
    """Return the finding of a code."""
    return next(finding for finding in pattern.findings if finding.code == code)


def test_skirts_with_room_hold() -> None:
    """Flared until 4 cm are to spare, they go round the hip with about as much: the sides are measured anew."""
    finding = found(jacket(ROOM, gap=""), "hips-skirts")
    assert finding.state == "holds"
    assert finding.number == pytest.approx(40.0, abs=3.0)
    assert (
        finding.says
        == "120.1 mm below the waist you measure about 848.1 mm: the skirts go round it with 39.8 mm to spare"
    )


def test_skirts_that_run_on_as_a_cone_are_too_narrow() -> None:
    """The cone goes on narrowing below the waist while the body widens; nothing fails, since it can still be sewn."""
    pattern = jacket(gap="")
    finding = found(pattern, "hips-skirts")
    assert finding.state == "warns"
    assert finding.number < -250.0
    assert finding.says.endswith("the skirts are 311.5 mm too narrow for it; give them more flare")
    assert pattern.sound


def test_pleats_are_drawn_open_before_skirts_are_too_narrow() -> None:
    """What lies in pleats counts only where the closed skirts do not go round."""
    assert "their pleats closed" in found(jacket(ROOM, BOX, gap=""), "hips-skirts").says
    pulled = found(jacket(BOX, "pleats: {at: side front, number: 1, depth: 40 mm}", gap=""), "hips-skirts")
    assert pulled.state == "holds"
    assert pulled.says == (
        "120.1 mm below the waist you measure about 848.1 mm: the pleats are drawn open by 310.5 mm of the 960.0 mm in them"
    )


def test_what_is_cut_away_in_front_is_told() -> None:
    """Fronts that fall away are counted as open, not as cloth."""
    fallen = "{name: away, kind: hem, pointed: yes, straight: yes, through: [[center front, waist - 30 mm], [9%, waist - 160 mm]]}"
    away = f"hem: {{edges: [{fallen}, {{name: lower edge, kind: hem, through: [[center back, waist - 160 mm]]}}]}}"
    assert "of the round are left open in front" in found(jacket(ROOM, gap="", hem=away), "hips-skirts").says


def test_nobody_knows_without_a_hip() -> None:
    """A body whose hip was not measured gets a warning and no number."""
    finding = found(jacket(name="measures of the least"), "hips-skirts")
    assert (finding.state, finding.says) == (
        "warns",
        "hip not measured: nobody knows yet whether the skirts go round it",
    )


def test_the_hem_is_told_with_its_pleats_open() -> None:
    """Whole garment: twice the hem edges of all panels."""
    pattern = jacket(BOX)
    hem = 2.0 * sum(edge.curve.length_mm for panel in pattern.panels for edge in panel.edges if edge.kind == "hem")
    finding = found(pattern, "hips-hem")
    assert finding.number == pytest.approx(hem)
    assert finding.says.endswith("long all round, pleats and gathers laid flat")


@pytest.mark.parametrize("shape", ["tabs", "shallow"])
def test_tabs_and_points_are_no_skirts(shape: str) -> None:
    """Slit skirts are looked at as tabs, and what ends at the waist somewhere is no skirt at all."""
    if shape == "tabs":
        pattern = made(garment(seams=(side_front(below_waist="open"), side_back(below_waist="open"))))
    else:
        pattern = made(garment(hem="hem: {height: waist - 30 mm}"))
    assert not any(finding.code in ("hips-skirts", "hips-hem") for finding in pattern.findings)
