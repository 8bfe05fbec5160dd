"""Words on pieces with channels: every channel is seen from end to end, on every shipped recipe that has some."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest
import shapely
from tests.samples import RECIPES
from tests.sheet.real import drafted

from fanblock.geometry.curve import Curve, frozen
from fanblock.pattern.bones import BONE, Bone, Channel
from fanblock.problems import FanblockError
from fanblock.sheet.drawing import Stroke, Words
from fanblock.sheet.ink import words_corners
from fanblock.sheet.labels import Wish
from fanblock.sheet.layout import tiled_layout
from fanblock.sheet.overbones import MOST_SHARE, OverBones, ends_of
from fanblock.sheet.paper import A4
from fanblock.sheet.piece import Piece, printed
from fanblock.sheet.space import Space
from fanblock.sheet.wording import Block, Line

WEARERS = ("ferrywoman", "innkeeper")


@cache
def boned(wearer: str, recipe: str) -> tuple[Piece, ...]:
    """The printed pieces with channels of a pattern; none where the recipe refuses the wearer."""
    try:
        pattern = drafted(wearer, recipe)
    except FanblockError:
        return ()
    return tuple(one for one in printed(pattern.panels, pattern) if one.panel.channels)


def sides_and_ends(channel: Channel) -> tuple[list[shapely.LineString], list[shapely.LineString]]:
    """Both long sides of a channel, and the lines across its ends, from its middle line and its width alone."""
    points = channel.line.points
    along = np.gradient(points, axis=0)
    along /= np.hypot(along[:, :1], along[:, 1:])
    across = 0.5 * channel.width_mm * np.column_stack((-along[:, 1], along[:, 0]))
    left, right = points + across, points - across
    ends = [shapely.LineString([left[at], right[at]]) for at in (0, -1)]
    return [shapely.LineString(left), shapely.LineString(right)], ends


def assert_seen(channel: Channel, words: shapely.Geometry, name: str) -> None:
    """Both ends are free of words, and no more of either side than a quarter lies under some."""
    sides, ends = sides_and_ends(channel)
    for end in ends:
        assert not end.intersects(words), f"{name}: an end of channel {channel.number} {channel.name} is covered"
    for side in sides:
        assert side.intersection(words).length <= MOST_SHARE * side.length, f"{name}: channel {channel.number}"


@pytest.mark.parametrize("wearer", WEARERS)
@pytest.mark.parametrize("recipe", RECIPES)
def test_every_channel_is_seen_from_end_to_end(wearer: str, recipe: str) -> None:
    """No text box of a piece covers an end of a channel, nor more than a quarter of its length."""
    for one in boned(wearer, recipe):
        words = shapely.union_all([shapely.Polygon(label.box.corners()) for label in one.labels])
        for channel in one.panel.channels:
            assert_seen(channel, words, one.panel.name)


@pytest.mark.parametrize("wearer", WEARERS)
@pytest.mark.parametrize("recipe", RECIPES)
def test_no_word_hides_a_notch_a_slit_or_an_eyelet(wearer: str, recipe: str) -> None:
    """Nor does any stand on another: not on a seam's letter either."""
    for one in boned(wearer, recipe):
        lines = [
            shapely.LineString(item.beziers[:, [0, 3]].reshape(-1, 2))
            for item in one.group.items
            if isinstance(item, Stroke) and item.name.startswith(("notch", "waist notch", "slit", "eyelet"))
        ]
        texts = [
            (item.text, shapely.Polygon(words_corners(item))) for item in one.group.items if isinstance(item, Words)
        ]
        tree = shapely.STRtree([box for _, box in texts])
        hit = tree.query(lines, predicate="intersects") if lines else np.empty((2, 0), dtype=int)
        assert not hit.shape[1], [texts[at][0] for at in hit[1]]
        first, second = tree.query([box for _, box in texts], predicate="overlaps")
        met = [
            (texts[a][0], texts[b][0], texts[a][1].intersection(texts[b][1]).area)
            for a, b in zip(first, second, strict=True)
        ]
        assert all(area < 0.05 for _, _, area in met), met


@pytest.mark.parametrize("wearer", WEARERS)
@pytest.mark.parametrize("recipe", ["stays-five-panels", "stays-1740s-fully-boned", "stays-1690s", "bodies-1620s"])
def test_so_it_is_on_joined_pages_with_their_tags(wearer: str, recipe: str) -> None:
    """What is written once more on every page a piece lies on leaves the channels to be seen too."""
    pattern = drafted(wearer, recipe)
    pieces = printed(pattern.panels, pattern)
    drawing, _ = tiled_layout(pattern, A4, pieces)
    texts = [
        shapely.Polygon(words_corners(item))
        for group in drawing.groups
        if group.name == "tags" or group.name[0].isdigit()
        for item in group.items
        if isinstance(item, Words)
    ]
    words = shapely.union_all(texts)
    for group in (group for group in drawing.groups if group.name[0].isdigit()):
        one = next(one for one in pieces if one.group.name == group.name)
        here, there = (next(item for item in some.items if isinstance(item, Stroke)) for some in (one.group, group))
        shift = there.beziers[0, 0] - here.beziers[0, 0]
        moved = shapely.transform(words, lambda points, by=shift: points - by)
        inside = moved.intersection(shapely.Polygon(one.panel.loop()))
        for channel in one.panel.channels:
            assert_seen(channel, inside, one.panel.name)


@pytest.mark.parametrize("recipe", ["stays-five-panels", "stays-1740s-fully-boned"])
def test_rows_go_on_pale_under_words(recipe: str) -> None:
    """Drawn firm or pale, all of every row is there."""
    for one in boned("ferrywoman", recipe):
        drawn = shapely.union_all(
            [
                shapely.LineString(item.beziers[:, [0, 3]].reshape(-1, 2))
                for item in one.group.items
                if isinstance(item, Stroke) and item.pen in ("channel", "through")
            ]
        )
        for channel in one.panel.channels:
            for row in channel.rows:
                assert shapely.LineString(row.points).difference(drawn.buffer(0.05)).length < 1.0


def upright(x: float, low: float, high: float) -> Channel:
    """A channel 6 mm wide that stands upright."""
    ring = frozen([[x - 3, high], [x + 3, high], [x + 3, low], [x - 3, low], [x - 3, high]])
    line = Curve(frozen([[x, high], [x, low]]))
    return Channel(BONE, Bone(5.0, 1.5, "reed"), 6.0, line, (Curve(ring),), (2.0, 2.0), 1)


def room(*channels: Channel) -> OverBones:
    """A field of 100 by 100 mm with channels in it."""
    field = Space.within(frozen([[0.0, 0.0], [100.0, 0.0], [100.0, 100.0], [0.0, 100.0]]), [])
    cells = tuple(field.stamped([row.points for row in one.rows]) for one in channels)
    ends = [run for one in channels for run in ends_of(one)]
    spare = tuple(MOST_SHARE * one.line.length_mm for one in channels)
    return OverBones(field.less(field.stamped(ends)), channels, cells, spare)


def wish(size: float) -> Wish:
    """A word that would like to stand in the middle of the field."""
    return Wish("word", (Block((Line("WORDS", size),)),), ((50.0, 50.0),))


def test_a_long_channel_spares_room_and_a_short_one_none() -> None:
    """A word 10 mm high stands over a channel of 80 mm, a quarter of which is 20; beside one of 20 mm, a quarter being 5."""
    over = room(upright(50.0, 10.0, 90.0)).place(wish(10.0))
    assert over is not None
    assert abs(over.box.x - 50.0) < 2.0
    beside = room(upright(50.0, 40.0, 60.0)).place(wish(10.0))
    assert beside is not None
    short = shapely.box(47.0, 40.0, 53.0, 60.0)
    assert not shapely.Polygon(beside.box.corners()).intersects(short)


def test_what_is_spared_is_spared_once() -> None:
    """Two words of 10 mm, with their breaks 11.6 mm each, would stand on more than 20 mm: the second stands elsewhere."""
    first = room(upright(50.0, 10.0, 90.0))
    one = first.place(wish(10.0))
    assert one is not None
    other = first.without(one.box).place(wish(10.0))
    assert other is not None
    assert not shapely.Polygon(other.box.corners()).intersects(shapely.box(47.0, 10.0, 53.0, 90.0))
