"""Channels, busk and eyelets as they are drawn on a piece, and the numbers beside them.

A row of stitching is a ruled line: where words stand on it, it is broken, and taken up again beyond them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.meet import foot, point_at
from fanblock.pattern.bones import BONE, BOTH, LEFT, RIGHT, Channel, Eyelet
from fanblock.pattern.model import Panel
from fanblock.sheet.drawing import Stroke
from fanblock.sheet.placing import Placed
from fanblock.sheet.space import Box, Space
from fanblock.sheet.wording import LEAST_MM, Block, Line
from fanblock.tolerances import SAME_POINT_MM

BREAK_MM = 0.8
"""How far before and behind words a row of stitching is broken."""

NUMBER_AT_MM = (5.0, 8.0, 3.4, 12.0, 17.0, 23.0, 30.0, 40.0, 52.0, 66.0)
"""How far below a channel's upper end its number stands, in order of liking."""

NUMBER_SIZES_MM = (3.1, LEAST_MM)
"""Sizes of the numbers of channels and eyelets, the first with figures 2 mm high."""

NUMBER_OFF_MM = 3.2
"""How far beyond a channel's end its number stands where it finds no place in it, as under a grain arrow."""

NUMBER_ROOM_MM = 1.2
"""Room that an upright number leaves in its channel."""

HOLE_MM = 3.0
"""How large the sign of an eyelet is drawn, whatever its hole."""

BESIDE_MM = 4.5
"""How far outside the lacing edge an eyelet's number stands."""

CIRCLE = 4.0 / 3.0 * (math.sqrt(2.0) - 1.0)
"""Handles of the cubic that draws a quarter circle of radius 1."""


def rows(panel: Panel) -> list[tuple[str, Points]]:
    """Return every row of stitching of a panel's channels, with the name it has in the drawing."""
    return [(called(channel), row.points) for channel in panel.channels for row in channel.rows]


def runs(panel: Panel) -> list[Points]:
    """Return the rows of stitching of a panel's channels as runs of points."""
    return [points for _, points in rows(panel)]


def called(channel: Channel) -> str:
    """Return what a channel is called in a drawing."""
    return channel.name or f"channel {channel.number}"


UPRIGHT_RATIO = 0.15
"""A channel that leans less than this, across by along, may be taken for the grain arrow where that lies on it."""

GRAIN_ROOM_MM = 4.0
"""A grain arrow this far from channels is taken for nothing else."""


APART_RATIO, APART_MM = 0.2, 1.0
"""Such a share of the narrowest channel, and no more than so far, a grain arrow keeps from a row of stitching it lies along."""


def apart_mm(panel: Panel) -> float:
    """Return how far from a row of stitching a panel's grain arrow has to keep."""
    return min((min(APART_RATIO * one.width_mm, APART_MM) for one in panel.channels if one.number), default=0.0)


def room_mm(panel: Panel, x: float, y: float) -> float:
    """Return how well an upright line at ``x`` stands off channels nearly upright, at height ``y``, in millimetres.

    It is the distance from their rows, half of that within a channel, or from eyelets, and no more than
    :data:`GRAIN_ROOM_MM`.
    """
    found = min([GRAIN_ROOM_MM, *(abs(float(one.point[0]) - x) - 0.5 * HOLE_MM for one in panel.eyelets)])
    for channel in panel.channels:
        (x0, y0), (x1, y1) = channel.line.start.tolist(), channel.line.end.tolist()
        if channel.kind == BONE and abs(x1 - x0) < UPRIGHT_RATIO * abs(y1 - y0):
            off = abs(x0 + (y - y0) / (y1 - y0) * (x1 - x0) - x) - 0.5 * channel.width_mm
            found = min(found, off if off > 0.0 else -0.5 * off)
    return found


def broken(panel: Panel, boxes: Iterable[Box]) -> Iterator[Stroke]:
    """Yield the rows of stitching of a panel, broken where words stand in one of these boxes."""
    taken = [box for box in boxes if box.width_mm > 0.0]
    for name, points in rows(panel):
        for run in _outside(points, taken):
            yield Stroke(polyline(run), "channel", name)


def outside_boxes(points: Points, boxes: Sequence[Box]) -> list[Points]:
    """Return the parts of a run of points that lie outside some boxes, a little room round them included."""
    return _outside(points, boxes)


def inside_boxes(points: Points, boxes: Sequence[Box]) -> list[Points]:
    """Return the parts of a run of points that lie in some boxes, a little room round them included."""
    near = [box for box in boxes if _touches(points, box)]
    return [
        frozen([start + low * (end - start), start + high * (end - start)])
        for start, end in pairwise(points)
        for low, high in (_covered(start, end, near) if near else ())
    ]


def covered_mm(points: Points, box: Box) -> float:
    """Return how much of a run of points lies in a box, a little room round it included."""
    return sum(float(np.hypot(*(run[1] - run[0]))) for run in inside_boxes(points, [box]))


def _outside(points: Points, boxes: Sequence[Box]) -> list[Points]:
    near = [box for box in boxes if _touches(points, box)]
    if not near:
        return [points]
    runs: list[list[Points]] = [[points[0]]]
    for start, end in pairwise(points):
        at = 0.0
        for low, high in _covered(start, end, near):
            if low > at or at == 0.0:
                runs[-1].append(start + low * (end - start))
            runs.append([start + high * (end - start)])
            at = high
        if at < 1.0:
            runs[-1].append(end)
    kept = [np.array(run) for run in runs if len(run) > 1]
    return [frozen(run) for run in kept if np.hypot(*(run.max(axis=0) - run.min(axis=0))) > _CRUMB_MM]


_CRUMB_MM = 0.5
"""A piece of a row shorter than this between two breaks is left out."""


def _touches(points: Points, box: Box) -> bool:
    reach = 0.5 * math.hypot(box.width_mm, box.height_mm) + BREAK_MM
    low, high = points.min(axis=0), points.max(axis=0)
    return bool(
        low[0] < box.x + reach and high[0] > box.x - reach and low[1] < box.y + reach and high[1] > box.y - reach
    )


def _covered(start: Points, end: Points, boxes: Sequence[Box]) -> list[tuple[float, float]]:
    """The shares of a straight line that lie in boxes, in order, those that overlap made one."""
    spans = sorted(span for box in boxes if (span := _within(start, end, box)) is not None)
    found: list[tuple[float, float]] = []
    for low, high in spans:
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found


def _within(start: Points, end: Points, box: Box) -> tuple[float, float] | None:
    """The share of a straight line within one box, by its two pairs of sides."""
    turn = math.radians(box.angle_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    low, high = 0.0, 1.0
    for axis, half in (((cos, sin), box.width_mm), ((-sin, cos), box.height_mm)):
        reach = 0.5 * half + BREAK_MM
        a = float((start[0] - box.x) * axis[0] + (start[1] - box.y) * axis[1])
        step = float((end[0] - start[0]) * axis[0] + (end[1] - start[1]) * axis[1])
        if abs(step) < SAME_POINT_MM:
            if abs(a) > reach:
                return None
            continue
        one, other = (-reach - a) / step, (reach - a) / step
        low, high = max(low, min(one, other)), min(high, max(one, other))
    return (low, high) if high > low else None


def numbers(panel: Panel, space: Space) -> tuple[list[Placed], Space]:
    """Return the number of every straight bone in its channel, near its upper end, and the space that is left."""
    done = []
    for channel in panel.channels:
        if channel.kind != BONE:
            continue
        down = channel.line.end - channel.line.start
        for size in NUMBER_SIZES_MM:
            block = _number(channel, down, size)
            box = space.first_free(_number_boxes(channel, down, block))
            if box is not None:
                done.append(Placed(called(channel), box, block.words(box), block))
                space = space.without(box)
                break
    return done, space


def _number_boxes(channel: Channel, down: Points, block: Block) -> list[Box]:
    """Places for a channel's number, best first."""
    long = float(np.hypot(*down))
    x, y = channel.line.start.tolist()
    dx, dy = (down / long).tolist()
    return [
        Box(x + at * dx, y + at * dy, block.width_mm, block.height_mm, block.angle_deg)
        for at in (*(at for at in NUMBER_AT_MM if at < long - 3.0), long - NUMBER_AT_MM[0], *_ends_mm(long))
    ]


def _ends_mm(long_mm: float) -> tuple[float, float]:
    """Places for a number just outside a channel's two ends."""
    return -NUMBER_OFF_MM, long_mm + NUMBER_OFF_MM


def _number(channel: Channel, down: Points, size_mm: float) -> Block:
    """A channel's number, upright if its channel is wide enough for that, else along it."""
    upright = Block((Line(str(channel.number), size_mm),))
    if upright.width_mm + NUMBER_ROOM_MM <= channel.width_mm:
        return upright
    angle = math.degrees(math.atan2(-down[1], -down[0]))
    return upright.turned(angle)


def eyelets(panel: Panel) -> list[Stroke]:
    """Return the signs of a panel's eyelets: a ring for the left half, a cross for the right, both for a level pair."""
    found = []
    for eyelet in panel.eyelets:
        name = f"eyelet {_tag(eyelet, panel)}"
        if panel.side or eyelet.half in (LEFT, BOTH):
            found.append(ring(eyelet.point, 0.5 * HOLE_MM, name))
        if not panel.side and eyelet.half in (RIGHT, BOTH):
            found += cross(eyelet.point, 0.5 * HOLE_MM, name)
    return found


def ring(middle: Points, radius_mm: float, name: str = "") -> Stroke:
    """Return a circle as a stroke."""
    corners = np.array([[1.0, 0.0], [0.0, 1.0], [-1.0, 0.0], [0.0, -1.0]])
    quarters = []
    for here, there in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        quarters.append([here, here + CIRCLE * there, there + CIRCLE * here, there])
    return Stroke(frozen(np.asarray(middle) + radius_mm * np.array(quarters)), "eyelet", name, True)


def cross(middle: Points, half_mm: float, name: str = "") -> list[Stroke]:
    """Return a slanting cross as two strokes."""
    x, y = np.asarray(middle).tolist()
    arms = ((-1.0, 1.0), (1.0, 1.0))
    return [
        Stroke(
            polyline(frozen([[x - half_mm * dx, y - half_mm * dy], [x + half_mm * dx, y + half_mm * dy]])),
            "eyelet",
            name,
        )
        for dx, dy in arms
    ]


def _tag(eyelet: Eyelet, panel: Panel) -> str:
    """A hole's number, with a letter for its half where the piece serves for both and the other half's is elsewhere."""
    return f"{'' if panel.side or eyelet.half == BOTH else eyelet.half[0].upper()}{eyelet.number}"


def eyelet_numbers(panel: Panel, strip: Space) -> tuple[list[Placed], Space]:
    """Return the numbers of eyelets, in the allowance beside them where there is one, and the space left in that."""
    done = []
    for eyelet in panel.eyelets:
        curve = panel.edge(eyelet.edge).curve
        off, at = foot(curve.points, eyelet.point)
        outward = (point_at(curve.points, at) - eyelet.point) / max(off, SAME_POINT_MM)
        place = eyelet.point + (off + BESIDE_MM) * outward
        for size in NUMBER_SIZES_MM:
            block = Block((Line(_tag(eyelet, panel), size),))
            box = strip.first_free([Box(float(place[0]), float(place[1]), block.width_mm, block.height_mm)])
            if box is not None:
                done.append(Placed(f"eyelet {_tag(eyelet, panel)}", box, block.words(box), block))
                strip = strip.without(box)
                break
    return done, strip
