"""The armhole is walked over every piece it lies on, in order, and split where it was asked."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from shapely import LineString
from tests.sleeves.sewn import DOUBLET, GOWN, circle, worked_with

from fanblock.draft.adding import with_panel
from fanblock.draft.work import Work
from fanblock.pattern.model import ARMHOLE
from fanblock.problems import GeometryError
from fanblock.sleeves.armhole import NEAR_MM, armhole_of, parted


def edges_mm(work: Work) -> float:
    """Return the length of all edges of armholes, by shapely."""
    return sum(
        LineString(edge.curve.points).length for panel in work.panels for edge in panel.edges if edge.kind == ARMHOLE
    )


def test_a_shoulder_seam_is_where_it_begins_and_ends() -> None:
    """The doublet's goes from the shoulder down its front and up its back; nothing is left over."""
    work = worked_with(DOUBLET)
    armhole = armhole_of(work)
    assert [part.place for part in armhole.parts] == [("front", "armhole"), ("back", "armhole")]
    assert armhole.length_mm == pytest.approx(edges_mm(work), abs=1e-9)
    assert armhole.over_mm == 0.0
    first, last = armhole.parts[0].heights, armhole.parts[-1].heights
    assert first is not None
    assert last is not None
    assert armhole.height_mm(armhole.lowest_mm) < min(first[0], last[-1]) - 100.0


def test_a_strap_comes_last() -> None:
    """Under the gown's arm lie three panels; the strap closes the ring over the shoulder."""
    work = worked_with(GOWN)
    armhole = armhole_of(work)
    assert [part.place[0] for part in armhole.parts] == ["front", "side back", "back", "strap"]
    assert armhole.length_mm == pytest.approx(edges_mm(work), abs=1e-9)
    strap = next(panel for panel in work.panels if panel.name == "strap").edge("armhole strap")
    assert armhole.over_mm == pytest.approx(strap.curve.length_mm, abs=1e-9)


def test_parts_follow_each_other_smoothly() -> None:
    """Laid end to end the directions make no jump: every seam joins within its 2° and half a stretch."""
    armhole = armhole_of(worked_with(GOWN))
    lengths, ways = armhole.run(0.0, armhole.block_mm)
    assert lengths.sum() == pytest.approx(armhole.block_mm, abs=1e-9)
    assert np.abs(np.diff(ways)).max() < np.radians(6.0)


def test_what_no_strap_closes_must_be_told() -> None:
    """Without its straps the gown's armhole is open: how far is the maker's to say."""
    work = worked_with(GOWN, straps=False)
    with pytest.raises(GeometryError) as caught:
        armhole_of(work)
    assert str(caught.value) == (
        "over shoulder › the armhole is open over the shoulder, from front to back, and nothing says how far. "
        "Put the strap before this step, or give its length as `over shoulder`."
    )
    told = armhole_of(work, 110.0)
    assert (told.over_mm, told.length_mm - told.block_mm) == (110.0, 110.0)


def test_what_is_closed_needs_no_telling() -> None:
    """An amount that would change nothing is refused."""
    with pytest.raises(GeometryError) as caught:
        armhole_of(worked_with(DOUBLET), 110.0)
    assert str(caught.value) == "over shoulder › the armhole is closed over the shoulder already. Take it out."


def test_without_an_armhole_there_is_no_sleeve() -> None:
    """A garment whose upper edge is no armhole has nowhere to set a sleeve."""
    work = worked_with(DOUBLET)
    for panel in work.panels:
        plain = tuple(replace(edge, kind="top") if edge.kind == ARMHOLE else edge for edge in panel.edges)
        work = with_panel(work, replace(panel, edges=plain))
    with pytest.raises(GeometryError) as caught:
        armhole_of(work)
    assert str(caught.value) == (
        "no panel has an edge of the kind `armhole`. Draw one in `top edge`, or take out the sleeve."
    )


def test_an_armhole_in_parts_is_refused() -> None:
    """Where a seam under the arm is not sewn, nobody knows what follows what."""
    work = worked_with(GOWN)
    front = next(panel for panel in work.panels if panel.name == "front")
    edges = tuple(replace(edge, mate=None) if edge.mate else edge for edge in front.edges)
    with pytest.raises(GeometryError) as caught:
        armhole_of(with_panel(work, replace(front, edges=edges)))
    assert [problem.code for problem in caught.value.problems] == ["armhole-parted"]


def test_it_is_split_and_stays_what_it_was() -> None:
    """Split at two places it is as long, its parts named from the front, its points where they were."""
    work = worked_with(DOUBLET)
    before = armhole_of(work)
    done = parted(work, before, [80.0, 160.0])
    after = armhole_of(done)
    assert [part.place for part in after.parts] == [
        ("front", "armhole 1"),
        ("front", "armhole 2"),
        ("front", "armhole 3"),
        ("back", "armhole"),
    ]
    assert after.starts[1:3] == pytest.approx((80.0, 160.0), abs=1e-9)
    assert after.length_mm == pytest.approx(before.length_mm, abs=1e-9)


def test_a_place_near_a_seam_is_moved_onto_it() -> None:
    """A stretch of a few millimetres would be a nuisance to sew."""
    armhole = circle(100.0, 90.0, 90.0)
    seam = armhole.starts[1]
    assert armhole.on_seam(seam + NEAR_MM - 0.1) == seam
    assert armhole.on_seam(seam + NEAR_MM + 0.1) == seam + NEAR_MM + 0.1


def test_two_places_of_one_height_on_a_circle() -> None:
    """On a circle of 100 mm an arc of 200 mm hangs below the height 100 (1 - cos 1 rad) (by hand)."""
    armhole = circle(100.0, 120.0, 120.0)
    front, back = armhole.level_pair(200.0)
    assert back - front == pytest.approx(200.0, abs=1e-3)
    assert armhole.height_mm(front) == pytest.approx(100.0 * (1.0 - np.cos(1.0)), abs=0.05)
    assert armhole.height_mm(back) == pytest.approx(armhole.height_mm(front), abs=0.05)
