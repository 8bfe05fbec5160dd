"""Words over channels, where they find no room between them: as little of each channel as can be, and never an end.

A maker stitches a channel from end to end. Words may cross its two lines for a short way, where the lines go on thin and
pale under them; where it begins and ends must be seen.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.raster import Mask
from fanblock.pattern.bones import BONE, Channel
from fanblock.pattern.model import Panel
from fanblock.sheet import boning
from fanblock.sheet.drawing import Stroke
from fanblock.sheet.labels import BODY, Wish
from fanblock.sheet.placing import Placed, extent_mm, place, place_all, place_along
from fanblock.sheet.space import Box, Space

MOST_SHARE = 0.25
"""Most of a channel's length that words may stand on."""

END_ROOM_MM = 2.0
"""How far words keep from a channel's end, before it and beyond it."""

LARGE_MM = 8.0
"""A piece's number at least this large is set between channels rather than larger over them."""

READABLE_MM = 4.5
"""A piece's number at least this large is set between channels or in an allowance, turned too, before it stands over them."""

LEVEL_REACH_MM = 8.0
"""How far from its level line, or five times as far beyond its end, the name of a level may stand in an allowance."""

NEAR_MM = 90.0
"""How far from the middle of its piece the number is looked for between channels, before it stands over them."""

_END_STEPS = (-1.0, -0.5, 0.0, 0.5, 1.0)
"""Where the end of a channel is marked as taken, in shares of ``END_ROOM_MM``: a cell is never left out between two."""


@dataclass(frozen=True, eq=False)
class OverBones:
    """Room for words over the channels of a piece.

    ``space`` is what is free but for channels, their ends taken; ``cells`` are those that each channel's lines pass
    through; ``spare_mm`` is how much more of each may be stood on.
    """

    space: Space
    channels: tuple[Channel, ...]
    cells: tuple[Mask, ...]
    spare_mm: tuple[float, ...]

    @staticmethod
    def of(panel: Panel, space: Space) -> OverBones:
        """Return the room on a piece whose ``space`` takes no account of channels yet."""
        ends = [run for channel in panel.channels for run in ends_of(channel)]
        cells = tuple(space.stamped([row.points for row in channel.rows]) for channel in panel.channels)
        spare = tuple(MOST_SHARE * channel.line.length_mm for channel in panel.channels)
        return OverBones(space.less(space.stamped(ends)), panel.channels, cells, spare)

    def only(self, low: Points, high: Points) -> OverBones:
        """Return the room within the upright rectangle from ``low`` to ``high``."""
        cells = tuple(replace(self.space, taken=mask).only(low, high).taken for mask in self.cells)
        return replace(self, space=self.space.only(low, high), cells=cells)

    def clear(self) -> Space:
        """Return what is free of channels too."""
        return self.space.less(np.any(self.cells, axis=0))

    def without(self, box: Box) -> OverBones:
        """Return what is left when words stand in the box."""
        spare = tuple(
            left - (_run_mm(channel, *_upright(box)) if _covers(box, channel) else 0.0)
            for left, channel in zip(self.spare_mm, self.channels, strict=True)
        )
        return replace(self, space=self.space.without(box), spare_mm=spare)

    def place(self, wish: Wish) -> Placed | None:
        """Return the wish over channels that can spare so much; None where there is no such place."""
        for block in wish.blocks:
            wide, high = extent_mm(wish, block)
            sides = _upright(Box(0.0, 0.0, wide, high, block.angle_deg))
            space = self.space
            for channel, cells, spare in zip(self.channels, self.cells, self.spare_mm, strict=True):
                if _run_mm(channel, *sides) > spare:
                    space = space.less(cells)
            found = place(replace(wish, blocks=(block,)), space)
            if found is not None:
                return found
        return None


def ends_of(channel: Channel) -> Iterator[Points]:
    """Yield lines across both ends of a channel, close enough together that nothing fits between."""
    for curve in (channel.line, channel.line.reversed()):
        along = curve.tangent_at(0.0)
        across = 0.5 * channel.width_mm * np.array([-along[1], along[0]])
        for share in _END_STEPS:
            middle = curve.start + share * END_ROOM_MM * along
            yield frozen([middle - across, middle + across])


def _upright(box: Box) -> tuple[float, float]:
    """How far a box reaches across and up."""
    turn = math.radians(box.angle_deg)
    cos, sin = abs(math.cos(turn)), abs(math.sin(turn))
    return box.width_mm * cos + box.height_mm * sin, box.width_mm * sin + box.height_mm * cos


def _run_mm(channel: Channel, wide: float, high: float) -> float:
    """The most of a channel that lies within an upright box of these sides, and the room before and behind it."""
    chord = channel.line.end - channel.line.start
    long = max(float(np.hypot(*chord)), boning.BREAK_MM)
    dx, dy = np.abs(chord / long).tolist()
    most = math.hypot(wide, high)
    if channel.kind == BONE:
        most = min(most, wide / dx if dx else most, high / dy if dy else most)
    return most + 2.0 * boning.BREAK_MM


def _covers(box: Box, channel: Channel) -> bool:
    return any(boning.covered_mm(row.points, box) > 0.0 for row in channel.rows)


def among_channels(
    panel: Panel, wanted: Sequence[Wish], space: Space, strips: tuple[Space, Space], units: str
) -> tuple[list[Placed], list[Wish], OverBones, Space]:
    """Return what is written on a piece with channels, what found no place, and the room that is left: there and in allowances.

    What belongs to a place is set clear of the channels, then their numbers and the words along the edges. What the
    piece is and how it is cut stands between channels, else in an allowance, else over channels that can spare it. ``strips`` are
    the space within the cut line for all that may be moved about, and for the numbers of eyelets.
    """
    ends = (run for channel in panel.channels for run in ends_of(channel))
    rows = space.stamped([*boning.runs(panel), *ends])
    body = ("all", *BODY)
    fixed, left, _ = place_all([wish for wish in wanted if wish.name not in body], space.less(rows))
    done = list(fixed)
    for label in fixed:
        space = space.without(label.box)
    counted, space = boning.numbers(panel, space)
    laced, _ = boning.eyelet_numbers(panel, strips[1])
    strip = strips[0]
    for label in laced:
        strip = strip.without(label.box)
    along, _ = place_along(panel, space.less(rows), strip, units)
    for label in along:
        space, strip = space.without(label.box), strip.without(label.box)
    over, unplaced = OverBones.of(panel, space), []
    strip = strip.outside(panel.loop())
    for label in counted:
        over = over.without(label.box)
    done += [*counted, *laced, *along]
    granted: set[str] = set()
    for wish in (*left, *(wish for wish in wanted if wish.name in body)):
        if wish.name in granted:
            continue
        found = _found(wish, over, strip)
        if found is None:
            unplaced.append(wish)
            continue
        done.append(found)
        granted.update(wish.grants)
        over, strip = over.without(found.box), strip.without(found.box)
    return done, unplaced, over, strip


def _found(wish: Wish, over: OverBones, strip: Space) -> Placed | None:
    """A place for one wish, the ways it likes first."""
    if not wish.places:
        return None
    if wish.name == "all":
        return place(wish, over.clear())
    if wish.name.endswith(" level"):
        return place(replace(wish, reach_mm=LEVEL_REACH_MM), strip) or over.place(wish)
    if wish.name not in BODY:
        return over.place(wish)
    if wish.name == "number":
        level = tuple(block for block in wish.blocks if not block.angle_deg)
        large = tuple(block for block in level if block.lines[0].size_mm >= LARGE_MM)
        near = replace(wish, blocks=large, reach_mm=NEAR_MM)
        readable = replace(wish, blocks=tuple(block for block in wish.blocks if block.lines[0].size_mm >= READABLE_MM))
        return (
            place(near, over.clear())
            or place(readable, over.clear())
            or place(readable, strip)
            or over.place(replace(wish, blocks=level))
            or place(wish, over.clear())
            or over.place(wish)
        )
    return place(wish, over.clear()) or place(wish, strip) or over.place(wish)


def rows_drawn(panel: Panel, boxes: Sequence[Box]) -> Iterator[Stroke]:
    """Yield every row of stitching: as it is where no words stand in one of the boxes, thin and pale under them."""
    yield from boning.broken(panel, boxes)
    yield from rows_under(panel, boxes)


def rows_under(panel: Panel, boxes: Sequence[Box]) -> Iterator[Stroke]:
    """Yield the rows of stitching where words stand on them."""
    taken = [box for box in boxes if box.width_mm > 0.0]
    for name, points in boning.rows(panel):
        for run in boning.inside_boxes(points, taken):
            yield Stroke(polyline(run), "through", name)
