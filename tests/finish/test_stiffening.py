"""The busk's pocket and curved bones across the front."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from tests.samples import GAP, HEM, RED, SOME, THREE, TOP, made, recipe, side_back, side_front

from fanblock.pattern.bones import BUSK, SHAPING
from fanblock.pattern.model import Pattern
from fanblock.problems import GeometryError

CUT = "cut: {outer: 2, on fold: [front]}"


def stiffened(*steps: str, name: str = "ordinary") -> Pattern:
    """Return the sample garment, its front on the fold, with more steps."""
    return made(recipe(GAP, TOP, HEM, side_front(), side_back(), RED, THREE, *steps, CUT), name)


@pytest.mark.parametrize("name", SOME)
def test_a_busk_stands_at_the_centre_a_centimetre_shorter_than_it(name: str) -> None:
    """From 5 mm below the top edge; its pocket is the busk's width and its thickness, half of it in this half (a busk 1 cm
    shorter than the centre front, from memory of the trade)."""
    front = stiffened("busk: {panel: front, width: 38 mm, thickness: 4 mm}", name=name).by_name["front"]
    busk = next(channel for channel in front.channels if channel.kind == BUSK)
    edge = front.edge("center front").curve
    assert busk.line.length_mm == pytest.approx(edge.length_mm - 10.0)
    assert busk.width_mm == 42.0
    assert busk.at_center
    assert np.hypot(*(busk.line.start - edge.start)) == pytest.approx(5.0)
    row = shapely.LineString(busk.rows[0].points[:2])
    assert row.distance(shapely.LineString(busk.line.points)) == pytest.approx(21.0)
    assert shapely.Polygon(front.loop()).buffer(1e-6).covers(row)


def test_a_busk_may_widen_downward() -> None:
    """11 in long, 1 1/4 in wide above and 2 1/8 in below (a busk seen, common practice)."""
    step = "busk: {panel: front, width: 1 1/4 in, low width: 2 1/8 in, length: 11 in, play: 0 mm, thickness: 1 mm}"
    front = stiffened(step).by_name["front"]
    busk = next(channel for channel in front.channels if channel.kind == BUSK)
    assert busk.line.length_mm == pytest.approx(11 * 25.4)
    middle = shapely.LineString(busk.line.points)
    inner = [shapely.Point(point).distance(middle) for point in busk.rows[0].points[:2]]
    assert inner == pytest.approx([0.5 * (1.25 * 25.4 + 1.0), 0.5 * (2.125 * 25.4 + 1.0)])


def test_bones_keep_clear_of_the_busk() -> None:
    """No channel laps the pocket."""
    front = stiffened("channels: {panel: front, parallel: center front, fully: yes}", "busk: {panel: front}").by_name[
        "front"
    ]
    pocket = next(channel for channel in front.channels if channel.kind == BUSK)
    ground = shapely.LineString(pocket.line.points).buffer(0.5 * pocket.width_mm - 0.1, cap_style="flat")
    bones = [channel for channel in front.channels if channel.kind != BUSK]
    assert bones
    assert all(shapely.Polygon(bone.rows[0].points).intersection(ground).area < 1.0 for bone in bones)


@pytest.mark.parametrize(
    ("step", "says"),
    [
        ("busk: {panel: back}", "step 8 (busk) › “back” has no centre front that is closed. Name the panel at the centre front."),
        ("busk: {panel: front, length: 60 cm}",
         "step 8 (busk) › a busk of 600 mm does not stand on a centre front of 285 mm. Give it a `length` that fits, or leave that out."),
    ],
)  # fmt: skip
def test_a_busk_that_does_not_fit_is_refused(step: str, says: str) -> None:
    """A panel without a centre front, and a busk that is longer than it."""
    with pytest.raises(GeometryError) as caught:
        stiffened(step)
    assert says in str(caught.value)


CURVED = "shaping bones: {panels: [front, side], through: [[center front, bust], [35%, bust - 10 mm]], count: 2, apart: 20 mm}"


@pytest.mark.parametrize("name", SOME)
def test_a_curved_bone_crosses_its_panels(name: str) -> None:
    """It follows the bust level, from the centre front over the seam into the side; the second 20 mm lower."""
    pattern = stiffened(CURVED, name=name)
    front, side = pattern.by_name["front"], pattern.by_name["side"]
    for panel in (front, side):
        curved = [channel for channel in panel.channels if channel.kind == SHAPING]
        assert [channel.name for channel in curved] == ["shaping 1", "shaping 2"]
        cloth = shapely.Polygon(panel.loop()).buffer(0.01)
        for channel in curved:
            assert all(cloth.covers(shapely.LineString(row.points)) for row in channel.rows)
    first, second = (channel for channel in front.channels)
    assert first.at_center
    assert not any(channel.at_center for channel in side.channels)
    (u, v) = pattern.block.where(first.line.start[None])
    assert (float(u[0]), float(v[0])) == pytest.approx((0.0, 1.0), abs=1e-6)
    apart = shapely.LineString(first.line.points).distance(shapely.LineString(second.line.points))
    assert apart == pytest.approx(20.0, abs=0.7)


def test_a_curved_bone_that_misses_a_panel_is_refused() -> None:
    """One that ends before the back cannot be drawn on it."""
    step = "shaping bones: {panels: [back], through: [[center front, bust], [20%, bust]]}"
    with pytest.raises(GeometryError, match=r"the curved bone does not cross “back” on this body\. Move it, or leave"):
        stiffened(step)
