"""What a recipe asks of a skirt of its own, and what that comes to along a waist: depth, cloth, turn, pieces, ends."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Literal

import numpy as np

from fanblock.block.band import FULL_CIRCLE_RAD
from fanblock.draft.band import MOST_CIRCLE
from fanblock.draft.pieces import MOST_PIECES, MOST_TURN_RAD
from fanblock.draft.places import size_mm
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.splines import level_ended
from fanblock.pattern.model import CENTER, FOLD, FREE, Edge
from fanblock.problems import GeometryError, Problem
from fanblock.skirts.cloth import Cloth, spread_evenly
from fanblock.skirts.hung import hem_mm
from fanblock.skirts.waist import Stretch, centered, parted, side_mm
from fanblock.terms import Amount, Share
from fanblock.tolerances import GIRTH_MM, LEAST_EDGE_MM, SAME_POINT_MM
from fanblock.wearer.body import Body

SHORTEST_MM = 20.0
"""A skirt less deep than this is a binding (from memory)."""

SNAP_MM = 15.0
"""A join of pieces nearer than this to a seam of the bodice is made at that seam."""


@dataclass(frozen=True, slots=True)
class Depths:
    """How deep a skirt is at three places; between them it runs smoothly."""

    front: Amount = field(metadata={"for": "at its front end"})
    back: Amount = field(metadata={"for": "at its back end"})
    side: Amount | None = field(default=None, metadata={"for": "at the side; left out, as the other two make it"})


@dataclass(frozen=True, slots=True)
class PleatSpec:
    """The pleats of a skirt, evenly spaced over a part of the waist."""

    number: int = field(metadata={"for": "how many in one half"})
    depth: Amount = field(metadata={"for": "how wide one fold is: a knife pleat takes two, a box pleat four"})
    kind: Literal["knife", "box", "inverted"] = field(default="knife", metadata={"for": "how they are folded"})
    toward: Literal["front", "back"] = field(default="back", metadata={"for": "which way knife pleats lie"})
    between: tuple[Share, ...] = field(
        default=(),
        metadata={"for": "where they stand, from and to, as shares of the skirt's upper edge from the front"},
    )


def depth_function(work: Work, waist: tuple[Stretch, ...], depth: Amount | Depths) -> Callable[[Points], Points]:
    """Return the depth by place along a waist; level at both ends, and at its side as deep as asked."""
    spec = depth if isinstance(depth, Depths) else Depths(depth, depth)
    front, back = (size_mm(work.body, each, "waist", "depth") for each in (spec.front, spec.back))
    length = waist[-1].end_mm
    at, values = [0.0, length], [front, back]
    if spec.side is not None:
        side = side_mm(work, waist)
        if not LEAST_EDGE_MM < side < length - LEAST_EDGE_MM:
            what = "the side of this body does not lie along the skirt."
            raise GeometryError([Problem("skirt-side", "depth › side", what, "Leave out `side`.")])
        at.insert(1, side)
        values.insert(1, size_mm(work.body, spec.side, "waist", "depth"))
    if min(values) < SHORTEST_MM:
        what = f"comes to {min(values):.0f} mm, needs {SHORTEST_MM:.0f} mm or more."
        raise GeometryError([Problem("skirt-shallow", "depth", what, "")])
    return level_ended(np.array(at), np.array(values))


def pleated_cloth(body: Body, length_mm: float, spec: PleatSpec) -> Cloth:
    """Return the cloth of evenly spaced pleats; GeometryError when they take less than nothing."""
    low, high = (share.ratio for share in spec.between) if spec.between else (0.0, 1.0)
    places = spread_evenly(spec.number, low * length_mm, high * length_mm)
    fold = size_mm(body, spec.depth, "waist", "pleats › depth")
    return Cloth(length_mm, kind=spec.kind, fold_mm=fold, toward=spec.toward, at_mm=places)


def parted_at_pleats(work: Work, waist: tuple[Stretch, ...], spec: PleatSpec) -> tuple[Work, tuple[Stretch, ...]]:
    """Return the waist parted where the pleats begin and end, unless edges meet near there.

    So every edge is either pleated all along or not at all, and the ticks of its seam lie at the same share of both sides.
    """
    for share in spec.between:
        at = share.ratio * waist[-1].end_mm
        if not _near(at, [0.0, *(each.end_mm for each in waist)]):
            work, waist = parted(work, waist, at)
    return work, waist


def turn_of_circle(circle: Amount) -> float:
    """Return how far one half turns when the whole skirt is so large a share of a circle."""
    if not isinstance(circle, Share) or circle.of:
        what = "needs a share of a circle such as `75%`."
        raise GeometryError([Problem("skirt-circle", "circle", what, "Give the dial a bare percentage.")])
    return _in_bounds(circle.ratio * FULL_CIRCLE_RAD / 2.0, "circle")


def turn_of_hem(cloth: Cloth, depth_at: Callable[[Points], Points], half_hem_mm: float) -> float:
    """Return how far one half must turn for its lower edge to be so long.

    GeometryError when that is shorter than a straight strip's, or more than three circles.
    """
    straight, most = hem_mm(cloth, 0.0, depth_at), hem_mm(cloth, MOST_CIRCLE * FULL_CIRCLE_RAD / 2.0, depth_at)
    if half_hem_mm < straight - GIRTH_MM:
        what = f"comes to {2.0 * half_hem_mm:.0f} mm all round; a straight strip has {2.0 * straight:.0f} mm."
        raise GeometryError([Problem("skirt-hem", "hem", what, "Give it more.")])
    if half_hem_mm > most:
        return _in_bounds(2.0 * MOST_CIRCLE * FULL_CIRCLE_RAD, "hem")
    low, high = 0.0, MOST_CIRCLE * FULL_CIRCLE_RAD / 2.0
    while high - low > SAME_POINT_MM:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if hem_mm(cloth, middle, depth_at) < half_hem_mm else (low, middle)
    return 0.5 * (low + high)


def _in_bounds(turn_rad: float, key: str) -> float:
    if turn_rad > MOST_CIRCLE * FULL_CIRCLE_RAD / 2.0:
        what = f"comes to more than {MOST_CIRCLE:.0f} whole circles."
        raise GeometryError([Problem("skirt-circle", key, what, "Gather it, or lay it in pleats.")])
    return turn_rad


def ends_of(work: Work, waist: tuple[Stretch, ...], begins_mm: float, *, fold: bool) -> tuple[Edge, Edge]:
    """Return what the front and the back end of a skirt are; their curves are still to be drawn."""
    nothing = Curve(frozen(np.zeros((2, 2))))
    front = Edge("front edge", FREE, nothing)
    if begins_mm <= LEAST_EDGE_MM and centered(work, waist[0], front=True):
        front = Edge("center front", CENTER, nothing)
    if not centered(work, waist[-1], front=False):
        return front, Edge("back edge", FREE, nothing)
    return front, Edge("center back", FOLD if fold else CENTER, nothing)


def begun(work: Work, waist: tuple[Stretch, ...], begins_mm: float) -> tuple[Work, tuple[Stretch, ...]]:
    """Return the waist from a place on, counted anew from there; GeometryError when nothing is left of it."""
    if begins_mm <= LEAST_EDGE_MM:
        return work, waist
    if begins_mm >= waist[-1].end_mm - SNAP_MM:
        what = f"begins {begins_mm:.0f} mm behind the front, where the waist has ended."
        raise GeometryError([Problem("skirt-begins", "begins", what, "Let it begin nearer to the front.")])
    work, waist = parted(work, waist, begins_mm)
    left = [each for each in waist if each.end_mm > begins_mm + LEAST_EDGE_MM]
    start = left[0].start_mm
    return work, tuple(replace(each, start_mm=each.start_mm - start, end_mm=each.end_mm - start) for each in left)


@dataclass(frozen=True, slots=True, eq=False)
class Room:
    """What a piece of a skirt may measure: the width of the cloth, and how far a piece may turn when it lies open.

    The last piece opens to twice its size where the centre back lies on a ``fold``.
    """

    cloth: Cloth
    turn_rad: float
    depth_at: Callable[[Points], Points]
    widest_mm: float
    fold: bool

    def holds(self, bounds: tuple[float, ...]) -> bool:
        """Return whether every piece between two bounds keeps within both."""
        parts = list(pairwise(bounds))
        for number, part in enumerate(parts, start=1):
            opened = 2.0 if self.fold and number == len(parts) else 1.0
            hem = opened * hem_mm(self.cloth, self.turn_rad, self.depth_at, part)
            turn = opened * self.turn_rad * (part[1] - part[0]) / self.cloth.length_mm
            if hem > self.widest_mm + SAME_POINT_MM or turn > MOST_TURN_RAD:
                return False
        return True


def cuts_of(waist: tuple[Stretch, ...], room: Room, *, least: int, by_panel: bool) -> tuple[float, ...]:
    """Return the places at which the pieces are joined: as few as turn, cloth and recipe allow, or one at every panel.

    A join near a seam of the bodice is made at that seam. GeometryError when there would be too many pieces, or one a panel
    is too wide.
    """
    length = waist[-1].end_mm
    seams = [each.end_mm for each, after in pairwise(waist) if each.panel != after.panel]
    if by_panel:
        if not room.holds((0.0, *seams, length)):
            what = "a piece of one panel's width is wider than the cloth, or turns too far."
            raise GeometryError([Problem("skirt-wide", "by panel", what, "Leave out `by panel`.")])
        return tuple(seams)
    for count in range(max(least, 1), MOST_PIECES + 1):
        even = [length * number / count for number in range(1, count)]
        snapped = [next((seam for seam in seams if abs(seam - at) < SNAP_MM), at) for at in even]
        for cuts in (snapped, even):
            if len(set(cuts)) == len(cuts) and room.holds((0.0, *cuts, length)):
                return tuple(cuts)
    what = f"more than {MOST_PIECES} pieces would be needed."
    raise GeometryError([Problem("pieces-many", "cloth", what, "Take wider cloth.")])


def _near(at: float, places: list[float]) -> bool:
    return any(abs(place - at) < SNAP_MM for place in places)
