"""Slicing: closed loops of named edges, cut along seams into more such loops. All in the block's own coordinates.

A loop runs counter-clockwise. Slicing a loop along a seam finds where each of the seam's two edges meets the loop, splits
the loop's edges there and returns two loops, each with its own side of the seam. Name and kind of every edge survive
because they are carried along, never found again.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from fanblock.draft.model import AROUND, HEIGHT
from fanblock.geometry.curve import Points
from fanblock.geometry.meet import contains, crossings, meetings, part, points_at
from fanblock.pattern.model import CENTER, HEM, OPEN_KINDS, SEAM, WAIST
from fanblock.problems import GeometryError, Problem
from fanblock.terms import LANDMARK_AROUNDS
from fanblock.tolerances import GRAZING

ON_AVERAGE = 0.05
"""How much of what a lower edge may stray from a level a level seam may on average: it was drawn along the level, or not."""


@dataclass(frozen=True, slots=True, eq=False)
class Side:
    """One edge of a loop: points (around, height) in loop order.

    ``seam`` is the seam it belongs to, or empty, and ``face`` tells which side of it this edge is: the ``front`` side runs
    along the seam (up an upright one, from the front to the back of a level one), the ``back`` side against it. Of a level
    seam the front side is therefore the lower edge of the panel above it. ``part`` tells which part of an upright seam
    this is where level seams cut it: empty for the uppermost, else below which level seam it lies. ``level`` tells that the
    seam is a level one. A ``pointed`` edge may meet a centre line at a point.
    """

    name: str
    kind: str
    points: Points
    seam: str = ""
    face: str = ""
    pointed: bool = False
    part: str = ""
    level: bool = False

    def pieces(self, place: float) -> tuple[Side, Side]:
        """Return the two parts of this edge before and after a place counted in points."""
        last = len(self.points) - 1
        return (
            replace(self, points=part(self.points, 0.0, place)),
            replace(self, points=part(self.points, place, float(last))),
        )


Loop = tuple[Side, ...]

Hit = tuple[int, float, float]
"""Number of an edge of the loop, the place on that edge, the place on the seam (on a level one its around)."""


def closed_loop(runs: tuple[tuple[Side, ...], ...]) -> Loop:
    """Return the loop that runs of edges make, each run cut where it crosses the one before and the one after it.

    Within a run each edge begins where the one before it ends. The runs go counter-clockwise; their outer ends are overlong.
    GeometryError when two neighbouring runs do not meet.
    """
    loop: list[Side] = []
    for number, run in enumerate(runs):
        before, after = runs[number - 1][-1], runs[(number + 1) % len(runs)][0]
        start, end = _corner(run[0], before, first=True), _corner(run[-1], after, first=False)
        if len(run) == 1:
            loop.append(replace(run[0], points=part(run[0].points, start, end)))
            continue
        loop.append(run[0].pieces(start)[1])
        loop.extend(run[1:-1])
        loop.append(run[-1].pieces(end)[0])
    return tuple(loop)


def _corner(side: Side, neighbour: Side, *, first: bool) -> float:
    found = meetings(side.points, neighbour.points)
    if not found:
        what = f"{side.name} and {neighbour.name} do not meet on this body."
        raise GeometryError([Problem("outline-open", "outline", what, "Carry them on to the same centre line.")])
    return found[0][0] if first else found[-1][0]


def holding(loops: tuple[Loop, ...], point: Points) -> int | None:
    """Return the number of the loop that holds ``point``, None when none does."""
    for number, loop in enumerate(loops):
        if contains(np.vstack([side.points[:-1] for side in loop]), point):
            return number
    return None


def sliced(loop: Loop, front: Side, back: Side, middle: float, ends: tuple[str, str] = ("", "")) -> tuple[Loop, Loop]:
    """Return the loops before and behind a seam.

    ``front`` and ``back`` are the seam's two edges, rising, carried on beyond the loop at both ends; ``middle`` is a height
    at which the seam lies inside. The first edge becomes the right side of the loop before the seam, the second the left
    side of the one behind it. ``ends`` name the seam or upright line that its top and its low end stand on. GeometryError
    when the seam does not run right across the loop, or meets another seam or upright line first.
    """
    return _kept(loop, front, middle, ends, keep_front=True), _kept(loop, back, middle, ends, keep_front=False)


def walked(loop: Loop, start: Hit, end: Hit) -> Loop:
    """Return the sides of ``loop`` from one hit, counter-clockwise, to another."""
    (first, at, _), (last, until, _) = start, end
    if first == last and at < until:
        return (replace(loop[first], points=part(loop[first].points, at, until)),)
    sides = [loop[first].pieces(at)[1]]
    number = (first + 1) % len(loop)
    while number != last:
        sides.append(loop[number])
        number = (number + 1) % len(loop)
    sides.append(loop[last].pieces(until)[0])
    return tuple(sides)


def _kept(loop: Loop, seam: Side, middle: float, ends: tuple[str, str], *, keep_front: bool) -> Loop:
    """Return the part of ``loop`` on one side of ``seam``, closed by it."""
    hits = _hits(loop, seam)
    low, high = _span(seam, hits, middle)
    for hit, stands_on in ((high, ends[0]), (low, ends[1])):
        _check_end(loop[hit[0]], seam, hit, stands_on)
    cut = replace(seam, points=part(seam.points, low[2], high[2]))
    if keep_front:
        return (*walked(loop, high, low), cut)
    return (*walked(loop, low, high), replace(cut, points=cut.points[::-1]))


def _hits(loop: Loop, seam: Side) -> list[Hit]:
    """Return every place at which a seam meets the edges of a loop."""
    starts = np.cumsum([0, *(len(side.points) for side in loop[:-1])])
    found = meetings(np.vstack([side.points for side in loop]), seam.points)
    numbers = [int(np.searchsorted(starts, place, side="right")) - 1 for place, _ in found]
    return [(number, place - starts[number], on) for number, (place, on) in zip(numbers, found, strict=True)]


def _span(seam: Side, hits: list[Hit], middle: float) -> tuple[Hit, Hit]:
    """Return where the seam enters the loop and leaves it: the nearest hits below and above its middle."""
    halfway = float(np.interp(middle, seam.points[:, HEIGHT], np.arange(len(seam.points))))
    below = [hit for hit in hits if hit[2] <= halfway]
    above = [hit for hit in hits if hit[2] > halfway]
    if not below or not above:
        what = "it does not run right across the cloth from edge to edge."
        raise GeometryError(
            [Problem("seam-short", f"seam “{seam.seam}”", what, "Let its ends reach an edge or a seam.")]
        )
    return max(below, key=lambda hit: hit[2]), min(above, key=lambda hit: hit[2])


def _check_end(met: Side, seam: Side, hit: Hit, stands_on: str) -> None:
    """Refuse a seam that runs into a seam, a centre line or a lacing edge on which it was not meant to end."""
    on_seam = met.kind == SEAM and met.seam != stands_on
    meant = stands_on in LANDMARK_AROUNDS or (met.seam and met.seam == stands_on)
    on_edge = met.kind in {CENTER, *OPEN_KINDS} and not meant
    if on_seam or on_edge:
        other = f"the seam “{met.seam}”" if on_seam else f"the {met.name}"
        height = float(np.interp(hit[2], np.arange(len(seam.points)), seam.points[:, HEIGHT]))
        what = f"it runs into {other} at {height:.0%} of the way from waist to bust."
        remedy = "Move one of the two, or let them take or spring less."
        raise GeometryError([Problem("seam-crossing", f"seam “{seam.seam}”", what, remedy)])


def split_at_height(side: Side, height: float) -> tuple[Side, ...]:
    """Return ``side`` in two where it passes ``height``, or whole where it does not."""
    places = crossings(side.points, HEIGHT, height)
    return (side,) if not len(places) else side.pieces(float(places[0]))


def stretches_at(loop: Loop, height: float, hair: float) -> list[tuple[float, float]]:
    """Return the stretches of around in which ``loop`` holds a level, or has its lower edge on it (within ``hair``)."""
    return inside_at(laid_on(loop, height, hair), height)


def laid_on(sides: Loop, height: float, hair: float, *, seams: bool = False) -> Loop:
    """Return sides, those that run along a level put onto it: lower edges, as a waistline is one.

    An edge that keeps within ``hair`` (a height) of the level runs along it: then the level is as wide as that edge. With
    ``seams`` so does a level seam that keeps within a fraction of that on the whole; since a level is read a hair above its
    height, the panel above the seam then has all of it, and the one that hangs from it none.
    """
    return tuple(_onto(side, height) if _runs_along(side, height, hair, seams) else side for side in sides)


def _runs_along(side: Side, height: float, hair: float, seams: bool) -> bool:
    off = np.abs(side.points[:, HEIGHT] - height)
    if side.level:
        return seams and float(off.max()) < hair and float(off.mean()) < ON_AVERAGE * hair
    return side.kind in (HEM, WAIST) and float(off.max()) < hair


def _onto(side: Side, height: float) -> Side:
    return replace(side, points=np.column_stack((side.points[:, AROUND], np.full(len(side.points), height))))


def inside_at(loop: Loop, height: float) -> list[tuple[float, float]]:
    """Return the stretches of around, rising, in which ``loop`` holds the level at ``height``, read a hair above it."""
    points = np.vstack([side.points for side in loop])
    ring = np.vstack((points, points[:1]))
    ordered = sorted(points_at(ring, crossings(ring, HEIGHT, height + GRAZING))[:, AROUND].tolist())
    return list(zip(ordered[::2], ordered[1::2], strict=True))
