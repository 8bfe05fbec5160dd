"""Channels and eyelets on the printed pieces: drawn where they are stitched, numbered, broken under words and nowhere else."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from tests.sheet.real import drafted

from fanblock.geometry.curve import frozen
from fanblock.pattern.model import Pattern
from fanblock.sheet.boning import outside_boxes, room_mm
from fanblock.sheet.drawing import Stroke, Words
from fanblock.sheet.ink import words_corners
from fanblock.sheet.piece import Piece, printed
from fanblock.sheet.space import Box
from fanblock.sheet.symbols import used_in

PATTERNS = {
    name: drafted(*name.split(" "))
    for name in (
        "ferrywoman stays-five-panels",
        "ferrywoman stays-1740s-fully-boned",
        "innkeeper stays-1690s",
        "pilot bodies-1560s",
    )
}
PIECES = [(name, one) for name, pattern in PATTERNS.items() for one in printed(pattern.panels, pattern)]
NAMES = [f"{name} {one.panel.name}" for name, one in PIECES]


def strokes(one: Piece, start: str) -> list[Stroke]:
    """The strokes of a piece whose names begin so."""
    return [item for item in one.group.items if isinstance(item, Stroke) and item.name.startswith(start)]


def ends(stroke: Stroke) -> list[list[float]]:
    """The ends of the straight runs of a stroke."""
    return [*stroke.beziers[:, 0].tolist(), stroke.beziers[-1, 3].tolist()]


@pytest.mark.parametrize("one", [one for _, one in PIECES], ids=NAMES)
def test_every_channel_is_drawn_and_numbered(one: Piece) -> None:
    """Both rows of every channel are drawn; its number stands within it, or just beyond its end."""
    for channel in one.panel.channels:
        name = channel.name or f"channel {channel.number}"
        assert strokes(one, name)
        if channel.number:
            label = next(label for label in one.labels if label.name == name)
            ring = shapely.Polygon(channel.rows[0].points)
            assert ring.distance(shapely.Point(label.box.x, label.box.y)) < 4.0
            words = next(item for item in label.items if isinstance(item, Words))
            assert words.text == str(channel.number)


@pytest.mark.parametrize("one", [one for _, one in PIECES], ids=NAMES)
def test_no_word_stands_on_a_row(one: Piece) -> None:
    """Rows are broken under words; what is drawn of them meets none."""
    boxes = [shapely.Polygon(words_corners(item)) for item in one.group.items if isinstance(item, Words)]
    tree = shapely.STRtree(boxes)
    drawn = [
        shapely.LineString(ends(item)) for item in one.group.items if isinstance(item, Stroke) and item.pen == "channel"
    ]
    assert not len(tree.query(drawn, predicate="crosses")[0]) if drawn else True


@pytest.mark.parametrize("one", [one for _, one in PIECES], ids=NAMES)
def test_rows_are_broken_under_words_alone(one: Piece) -> None:
    """What is missing of the rows lies under or right beside words."""
    words = shapely.union_all([shapely.Polygon(label.box.corners()).buffer(2.0) for label in one.labels])
    rows = shapely.union_all([shapely.LineString(row.points) for one_ in one.panel.channels for row in one_.rows])
    drawn = shapely.union_all(
        [
            shapely.LineString(ends(item))
            for item in one.group.items
            if isinstance(item, Stroke) and item.pen == "channel"
        ]
    )
    if not rows.is_empty:
        missing = rows.difference(drawn.buffer(0.05))
        assert missing.difference(words).length < 1.0


def test_eyelets_are_rings_and_crosses_with_numbers() -> None:
    """A ring for the left half, a cross for the right, both for the level pairs; the numbers stand in the allowance."""
    _, back = PIECES[4]
    lacing = PATTERNS["ferrywoman stays-five-panels"].lacings[0]
    count = len(lacing.left_mm)
    drawn = strokes(back, "eyelet")
    assert sum(stroke.closed for stroke in drawn) == count
    assert sum(not stroke.closed for stroke in drawn) == 2 * count
    said = {label.name.removeprefix("eyelet ") for label in back.labels if label.name.startswith("eyelet")}
    both = {"1", str(count)}
    assert said == both | {f"{half}{at}" for half in "LR" for at in range(2, count)} | both
    inside = shapely.Polygon(back.panel.loop())
    for label in back.labels:
        if label.name.startswith("eyelet"):
            assert not inside.contains(shapely.Point(label.box.x, label.box.y))


def test_every_piece_says_which_layer_is_marked() -> None:
    """Channels are for the strength layer, lining and outer have none (from memory of the trade)."""
    for name, one in PIECES:
        texts = " ".join(item.text for item in one.group.items if isinstance(item, Words))
        if one.panel.channels:
            assert "channels" in texts, name
            assert "on strength" in texts or "strength layer" in texts


@pytest.mark.parametrize("one", [one for _, one in PIECES], ids=NAMES)
def test_the_grain_arrow_lies_on_no_row(one: Piece) -> None:
    """An arrow along a row of stitching would be taken for it: it keeps as far off as the bones leave room."""
    assert one.panel.grain is not None
    (x, low), (_, high) = one.panel.grain
    least = min((0.2 * channel.width_mm for channel in one.panel.channels if channel.number), default=0.0)
    assert room_mm(one.panel, float(x), 0.5 * float(low + high)) >= min(least, 1.0)


def test_a_run_is_broken_at_a_box_by_hand() -> None:
    """A level run of 100 mm and a box of 20 mm in its middle, 0.8 mm of room on both sides: 39.2 mm are left at each end."""
    run = frozen([[0.0, 0.0], [100.0, 0.0]])
    parts = outside_boxes(run, [Box(50.0, 0.0, 20.0, 6.0)])
    assert [part.tolist() for part in parts] == [[[0.0, 0.0], [39.2, 0.0]], [[60.8, 0.0], [100.0, 0.0]]]
    (whole,) = outside_boxes(run, [Box(50.0, 10.0, 20.0, 6.0)])
    assert whole.tolist() == run.tolist()
    turned = outside_boxes(run, [Box(50.0, 0.0, 20.0, 6.0, 90.0)])
    assert [part[:, 0].tolist() for part in turned] == [pytest.approx([0.0, 46.2]), pytest.approx([53.8, 100.0])]


def test_the_key_explains_channels_and_eyelets_where_there_are_some() -> None:
    """Only what is on the pieces is explained."""
    assert {"channel", "eyelet"} <= used_in(PATTERNS["ferrywoman stays-five-panels"])
    bare: Pattern = drafted("ferrywoman", "falling-collar")
    assert not {"channel", "eyelet"} & used_in(bare)
    assert np.isfinite(room_mm(bare.panels[0], 0.0, 0.0))
