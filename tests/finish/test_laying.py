"""Laying channels: on a plain sheet worked out by hand, and on the garments of the catalogue."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from tests.finish.sheets import BESIDE, CLEAR, FAN, LACING, PARALLEL, SIX, ground, lay, middles, plan, sheet
from tests.samples import GAP, HEM, RED, SOME, THREE, TOP, made, recipe, side_back, side_front

from fanblock.draft.plans import Clear
from fanblock.finish.layer import LEAST_MM
from fanblock.geometry.curve import Curve, frozen
from fanblock.pattern.bones import BONE, Bone, Channel, Eyelet
from fanblock.pattern.model import Panel, Pattern

SHUT = Clear(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


def test_a_full_sheet_by_hand() -> None:
    """100 mm between a centre line (3 mm kept) and a seam (6 mm): channels of 8 mm at 7, 15, … 87, each 277.3 long.

    300 mm less 10 above and 12.7 below.
    """
    found = lay(sheet(), plan(fully=True)).channels
    assert middles(found) == pytest.approx([7.0 + 8.0 * number for number in range(11)])
    assert {round(channel.line.length_mm, 6) for channel in found} == {277.3}
    assert all(channel.clear_mm == (10.0, 12.7) for channel in found)


def test_a_hundred_and_twenty_channels_of_a_quarter_inch() -> None:
    """Linen stays of 1740-60 have 120 bones in channels of 1/4 in (common practice): 120 x 6.35 mm fill 76.2 cm."""
    bone = Bone(4.35, 1.5, "synthetic whalebone")
    wide = sheet(762.0 + 2 * 3.0, left="center", right="center")
    found = lay(wide, plan(fully=True, bone=bone, clear=replace(SHUT, beside_seam_mm=3.0))).channels
    assert len(found) == 120
    assert all(channel.width_mm == pytest.approx(6.35) for channel in found)


def test_the_channel_s_width_is_the_trade_s() -> None:
    """Bone and 2 mm (common practice), but at least its width and its thickness: 5 x 1.5 takes 7, 7 x 1.5 takes 9, and a
    reed of 6 x 3 takes 9 (worked out)."""
    widths = [(5.0, 1.5, 7.0), (7.0, 1.5, 9.0), (6.0, 3.0, 9.0)]
    for bone, thickness, channel in widths:
        assert plan(bone=Bone(bone, thickness, "reed")).width_mm == channel


def test_groups_stand_from_side_to_side_with_bare_cloth_between() -> None:
    """Three pairs: the first beside the front side, the last beside the back side, the middle one half way."""
    found = middles(lay(sheet(), plan(count=3, group=2)).channels)
    pairs = np.array(found).reshape(3, 2)
    assert np.diff(pairs, axis=1).ravel() == pytest.approx([8.0, 8.0, 8.0])
    assert pairs[0, 0] == pytest.approx(7.0, abs=0.5)
    assert pairs[2, 1] == pytest.approx(90.0, abs=0.5)
    assert pairs[1].mean() == pytest.approx(0.5 * (pairs[0].mean() + pairs[2].mean()), abs=0.01)


def test_spacing_counts_from_middle_to_middle() -> None:
    """Bones 20 mm apart on 80 mm of room: five of them."""
    found = middles(lay(sheet(), plan(spacing_mm=20.0)).channels)
    assert np.diff(found) == pytest.approx([20.0] * 4)


def test_only_the_part_asked_for_is_boned() -> None:
    """`within` counts shares of the room from the front side."""
    found = middles(lay(sheet(), plan(count=2, within=(0.0, 0.5))).channels)
    assert max(found) < 52.0
    filled = middles(lay(sheet(), plan(fully=True, within=(0.0, 0.2))).channels)
    assert filled == pytest.approx([7.0, 15.0])


def test_a_bone_is_slid_past_a_slit_into_one_tab() -> None:
    """The middle of three bones would meet the slit at 50: it stands 9 mm or more beside it (5 mm kept, half a channel)."""
    plain = middles(lay(sheet(), plan(count=3)).channels)
    assert abs(plain[1] - 50.0) < 9.0
    slid = lay(sheet(slits=(50.0,)), plan(count=3))
    places = middles(slid.channels)
    assert 9.0 <= abs(places[1] - 50.0) <= 11.0
    assert slid.left_out == ()
    assert all(channel.line.end[1] == pytest.approx(12.7) for channel in slid.channels)


def test_what_finds_no_tab_is_left_out_and_told() -> None:
    """Slits 16 mm apart leave no tab wide enough for a channel of 8 mm and 5 mm on either side."""
    slits = tuple(16.0 * number for number in range(1, 7))
    found = lay(sheet(slits=slits), plan(count=3))
    assert all(abs(float(channel.line.start[0]) - slit) > 9.0 - 1e-6 for channel in found.channels for slit in slits)
    assert ("a slit is in the way" in {why for _, why in found.left_out}) or not found.channels
    assert sum(count for count, _ in found.left_out) + len(found.channels) == 3


def test_filling_stops_bones_above_a_slit() -> None:
    """In a full panel the bones over a slit end 8 mm above it, where whole cloth is needed."""
    found = lay(sheet(slits=(51.0,)), plan(fully=True)).channels
    over = [channel for channel in found if abs(float(channel.line.start[0]) - 51.0) < 9.0]
    assert over
    assert all(channel.line.end[1] == pytest.approx(108.0) for channel in over)


def test_more_bones_than_there_is_room_for_are_left_out_and_told() -> None:
    """42 mm less 3 at a centre line and 6 at a seam take four channels of 8 mm, not six."""
    found = lay(sheet(42.0), plan(count=6))
    assert middles(found.channels) == pytest.approx([7.0, 15.0, 23.5, 32.0], abs=1.0)
    assert found.left_out == ((2, "there is no room beside the others"),)


def test_a_bone_under_four_centimetres_is_left_out() -> None:
    """On a sheet 60 mm high 37.3 mm would be left."""
    found = lay(sheet(high=60.0, waist=None), plan(count=1))
    assert found.channels == ()
    assert found.left_out == ((1, "it would be shorter than 4 cm"),)
    assert LEAST_MM == 40.0


def test_a_fan_spreads_evenly_and_touches_where_it_is_narrow() -> None:
    """From 100 mm below to 200 above: bones side by side below the waist, an even space above. Further down they would lap,
    so that every second one ends where it meets its neighbours."""
    found = lay(sheet(top_wide=200.0), plan(FAN, "front side", "back side", fully=True)).channels
    longest = max(channel.line.length_mm for channel in found)
    whole = sorted((one for one in found if one.line.length_mm > 0.7 * longest), key=lambda one: one.line.start[0])
    tops = np.diff([float(channel.line.start[0]) for channel in whole])
    assert tops.max() - tops.min() < 1.5
    assert tops.min() > 10.0
    assert min(channel.line.length_mm for channel in found) < longest
    assert apart(found)


def test_a_wide_fan_has_shorter_bones_between() -> None:
    """From 50 mm below to 200 above there is room for more bones above than at the waist: they end where the others meet."""
    found = lay(sheet(50.0, top_wide=200.0), plan(FAN, "front side", "back side", fully=True)).channels
    longest = max(channel.line.length_mm for channel in found)
    assert sum(channel.line.length_mm < 0.6 * longest for channel in found) >= 3
    assert apart(found)


def apart(channels: tuple[Channel, ...]) -> bool:
    """Tell whether no two channels lap by more than rounding."""
    boxes = [shapely.Polygon(channel.rows[0].points) for channel in channels]
    tree = shapely.STRtree(boxes)
    pairs = tree.query(boxes, predicate="intersects").T
    return all(boxes[a].intersection(boxes[b]).area < 3.0 for a, b in pairs.tolist() if a < b)


@given(
    top=st.floats(60.0, 200.0),
    bone=st.floats(3.0, 9.0),
    slit=st.floats(20.0, 80.0),
    way=st.sampled_from([(PARALLEL, "front side"), (PARALLEL, "back side"), (FAN, "front side", "back side"), ("",)]),
)
def test_channels_never_lap_leave_the_cloth_or_meet_a_slit(
    top: float, bone: float, slit: float, way: tuple[str, ...]
) -> None:
    """Whatever the sheet and the bone: by shapely every channel lies inside, clear of the slit and of all others."""
    panel = sheet(top_wide=top, slits=(slit,))
    wanted = plan(*way, fully=True, bone=Bone(bone, 1.5, "reed"))
    found = lay(panel, wanted).channels
    cloth, cut = shapely.Polygon(panel.loop()), shapely.LineString([panel.slits[0].start, panel.slits[0].end])
    for channel in found:
        box = shapely.Polygon(channel.rows[0].points)
        assert cloth.covers(box)
        assert box.distance(cut) > 2.9
        assert channel.line.length_mm >= LEAST_MM - 1e-6
    assert apart(found)


def test_left_to_itself_a_filling_has_the_fewest_odd_bones() -> None:
    """On a sheet whose back side slants, filling along that side leaves as many odd wedges as along the front; the fan none,
    or the fewest of all ways."""
    panel = sheet(70.0, top_wide=110.0)
    free = lay(panel, plan("", fully=True)).channels

    def odd(channels: tuple[Channel, ...]) -> int:
        longest = max(channel.line.length_mm for channel in channels)
        return sum(channel.line.length_mm < 0.6 * longest for channel in channels)

    ways = [plan(PARALLEL, "front side", fully=True), plan(PARALLEL, "back side", fully=True)]
    assert odd(free) <= min(odd(lay(panel, way).channels) for way in ways)


def hole(x: float, y: float) -> Eyelet:
    """Return an eyelet of 4 mm on the front side."""
    return Eyelet("front side", "both", 1, 300.0 - y, frozen([x, y]), 4.0)


def test_a_bone_stands_on_each_side_of_the_eyelets() -> None:
    """Eyelets 14 mm from a folded edge, 4 mm wide and 1.5 mm of stitches: between edge and eyelets the middle of 1 to 10.5
    mm, beyond them 14 + 3.5 + 4 (one bone on each side, common practice)."""
    laced = ground(sheet(left=LACING)).with_eyelets(tuple(hole(14.0, y) for y in (280.0, 250.0, 220.0)))
    from tests.finish.sheets import WORK

    from fanblock.finish.laying import laid

    found = laid(WORK, laced, plan(BESIDE))
    assert middles(found.channels) == pytest.approx([5.75, 21.5])
    close = laid(WORK, ground(sheet(left=LACING)).with_eyelets((hole(12.0, 280.0),)), plan(BESIDE))
    assert [channel.width_mm for channel in close.channels] == pytest.approx([7.5, 8.0])
    near = laid(WORK, ground(sheet(left=LACING)).with_eyelets((hole(10.0, 280.0),)), plan(BESIDE))
    assert middles(near.channels) == pytest.approx([17.5])
    assert near.left_out == ((1, "between eyelets and edge there is no room: they want to be 12 mm from it"),)


def test_without_eyelets_one_bone_runs_along_the_edge() -> None:
    """Beside a seam a bone's width is kept free, for whipping (common practice)."""
    assert middles(lay(sheet(left="seam"), plan(BESIDE)).channels) == pytest.approx([10.0])


def garment(*steps: str, name: str = "ordinary") -> Pattern:
    """Return the sample stays with tabs and more steps."""
    seams = (side_front(below_waist="open"), side_back(below_waist="open"))
    tabs = "tabs: {slits: {side: 3, back: 1}}"
    return made(recipe(GAP, TOP, HEM, *seams, RED, THREE, *steps, tabs, makes="stays"), name)


EFFIGY = "top front: 12.7 mm, under arm: 25.4 mm, back: 6 mm"


@pytest.mark.parametrize("name", SOME)
def test_bones_end_as_far_from_the_binding_as_on_bodies_of_1603(name: str) -> None:
    """12.7 mm in front, 25.4 under the arm, 6 behind (published: effigy bodies of 1603, S. Bendall, 2015, after J. Arnold):
    measured by shapely along each bone, at the nearest of its sides."""
    pattern = garment(*(f"channels: {{panel: {panel}, parallel: grain, spacing: 15 mm, {EFFIGY}}}" for panel in
                        ("front", "side", "back")), name=name)  # fmt: skip
    seen = set()
    for panel in pattern.panels:
        top = shapely.LineString(panel.edge("top edge").curve.points)
        for channel in panel.channels:
            end, way = channel.line.start, channel.line.start - channel.line.end
            way = way / np.hypot(*way)
            side = 0.5 * channel.width_mm * np.array([-way[1], way[0]])
            rays = [shapely.LineString([end + at * side, end + at * side + 60.0 * way]) for at in (-1.0, 0.0, 1.0)]
            if not all(ray.intersects(top) for ray in rays):
                continue  # it ends at a side
            gap = min(ray.intersection(top).distance(shapely.Point(ray.coords[0])) for ray in rays)
            asked = channel.clear_mm[0]
            assert gap >= asked - 0.1
            seen.add(asked)
    assert {12.7, 25.4, 6.0} <= seen | {6.0}


def crossing(panel: Panel) -> list[Channel]:
    """The bones of a panel that go past the waist."""
    waist = panel.levels["waist"][0]
    return [
        one
        for one in panel.channels
        if shapely.LineString(one.line.points).intersects(shapely.LineString(waist.points))
    ]


@pytest.mark.parametrize("name", SOME)
def test_bones_run_past_the_waist_into_one_tab(name: str) -> None:
    """Set apart, every bone goes 2 cm or more below the waist, and keeps off every slit (bones run past the waist into the
    tabs, or the waistline digs in: common practice)."""
    pattern = garment("channels: {panel: side, parallel: grain, count: 4}", name=name)
    side = pattern.by_name["side"]
    assert len(crossing(side)) == len(side.channels) >= 3
    level = shapely.LineString(side.levels["waist"][0].points)
    for channel in side.channels:
        line = shapely.LineString(channel.line.points)
        assert line.intersection(level).distance(shapely.Point(channel.line.end)) >= 20.0
        box = shapely.Polygon(channel.rows[0].points)
        assert all(box.distance(shapely.LineString([slit.start, slit.end])) > 4.9 for slit in side.slits)


def test_channels_may_stand_before_or_after_tabs() -> None:
    """What is planned before the slits are cut keeps clear of them all the same."""
    step, tabs = "channels: {panel: side, parallel: grain, count: 4}", "tabs: {slits: {side: 3, back: 1}}"
    seams = (side_front(below_waist="open"), side_back(below_waist="open"))
    first, second = (
        made(recipe(GAP, TOP, HEM, *seams, RED, THREE, *steps, makes="stays")) for steps in ((step, tabs), (tabs, step))
    )
    ours, theirs = (pattern.by_name["side"].channels for pattern in (first, second))
    assert [one.line.points.tolist() for one in ours] == [one.line.points.tolist() for one in theirs]


def test_channels_are_numbered_from_the_front() -> None:
    """On every panel 1, 2, 3 … from its front side, whatever the order of the steps."""
    pattern = garment(
        "channels: {panel: side, parallel: grain, count: 1, within: [60%, 100%]}",
        "channels: {panel: side, parallel: grain, count: 2, within: [0%, 40%]}",
    )
    side = pattern.by_name["side"]
    assert [channel.number for channel in side.channels] == [1, 2, 3]
    assert np.all(np.diff([channel.line.points[:, 0].mean() for channel in side.channels]) > 0.0)


def test_heights_bound_bones_above_and_below() -> None:
    """`highest` and `lowest` stop bones at a height, the piece between them being kept."""
    step = "channels: {panel: side, parallel: grain, count: 3, highest: 60%, lowest: waist - 30 mm}"
    pattern = garment(step)
    block = pattern.block
    for channel in pattern.by_name["side"].channels:
        (_, top), (_, low) = (block.where(point[None]) for point in (channel.line.start, channel.line.end))
        assert top[0] <= 0.6 + 0.005
        assert low[0] * block.ruling_length_mm(0.5) >= -31.0
    assert all(channel.kind == BONE for channel in pattern.by_name["side"].channels)


def test_a_channel_is_drawn_as_a_ring_round_its_middle() -> None:
    """Its row goes round, half its width from its middle on both sides."""
    channel = lay(sheet(), plan(count=1)).channels[0]
    ring = shapely.Polygon(channel.rows[0].points)
    assert ring.area == pytest.approx(channel.width_mm * channel.line.length_mm)
    assert isinstance(channel.line, Curve)
    assert channel.bone == SIX
    assert CLEAR.hem_mm == 12.7
