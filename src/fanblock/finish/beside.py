"""Where a level runs beside the cloth: above a finished top edge or below a finished hem, between the seams it lies between.

A *run* is the whole of a top edge or a hem between two seams, centre lines or openings. Where a level seam ends on it, as a
yoke's does on an armhole, it goes on in the panel on the other side of that seam.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from fanblock.draft.model import AROUND, HEIGHT, Draft, SeamLine
from fanblock.draft.net import CROSSING_KINDS
from fanblock.draft.seamsides import arounds_at, edge_lines, gap_of
from fanblock.draft.slicing import Loop, Side, laid_on
from fanblock.draft.takes import Take
from fanblock.draft.work import Work
from fanblock.geometry.curve import Points
from fanblock.geometry.meet import crossings, points_at
from fanblock.pattern.model import HEM, LET_IN, SHOULDER, WAIST
from fanblock.tolerances import GRAZING

LOWER_KINDS = frozenset({HEM, WAIST})
"""The kinds of edges below which a panel has no cloth."""

UPPER_KINDS = frozenset({*CROSSING_KINDS, SHOULDER}) - LOWER_KINDS
"""The kinds of edges above which a panel has no cloth."""

LINE_PLACES = 600
"""At how many heights the edges of a laced seam are drawn to be read at a level."""

BEYOND = 0.35
"""How far beyond the levels, as a share of bust to waist, the edges of a laced seam are drawn."""

Stretch = tuple[float, float]
Corner = tuple[str, int]
"""A panel's name and the number of one of its sides."""

Mates = Mapping[tuple[str, str], tuple[str, str]]
"""Every sewn edge, as panel and edge names, with the one it is sewn to."""


@dataclass(frozen=True, slots=True, eq=False)
class Run:
    """A top edge (``above``) or a hem between two seams: its sides from front to back, and the loops they belong to."""

    above: bool
    sides: Loop
    loops: tuple[Loop, ...]

    def beyond(self, draft: Draft, height: float, hair: float, edges: Mapping[str, Stretch]) -> list[Stretch]:
        """Return the stretches of a level that run beyond the cloth here, read a hair above it; ``edges`` are the seams'."""
        start, end = self._between(draft, height, edges)
        points = np.vstack([side.points for side in laid_on(self.sides, height, hair)])
        height += GRAZING
        off = points[:, HEIGHT].min() > height if self.above else points[:, HEIGHT].max() < height
        if end <= start or off:
            return []
        arounds = points_at(points, crossings(points, HEIGHT, height))[:, AROUND]
        bounds = [start, *sorted(around for around in arounds.tolist() if start < around < end), end]
        return [
            (first, last) for first, last in pairwise(bounds) if self._is_beyond(points, (first + last) / 2.0, height)
        ]

    def _between(self, draft: Draft, height: float, edges: Mapping[str, Stretch]) -> Stretch:
        """Return the stretch of a level between the seams beside these panels, or the centre or lacing lines."""
        first, last = _outer(draft, height)
        drawn = {seam.name: seam for seam in draft.seams}
        sides = [side for loop in self.loops for side in loop if side.seam in drawn]
        near = [side for side in sides if _reaches(drawn[side.seam], height)]
        left = [edges[side.seam][1] for side in near if side.face == "back"]
        right = [edges[side.seam][0] for side in near if side.face == "front"]
        return max([first, *left]), min([last, *right])

    def _is_beyond(self, points: Points, around: float, height: float) -> bool:
        """Return whether a place lies above a top edge, or below a hem: it passes its ruling oddly often before it."""
        heights = points_at(points, crossings(points, AROUND, around))[:, HEIGHT]
        if not len(heights):
            heights = points[[np.argmin(np.abs(points[:, AROUND] - around))], HEIGHT]
        passed = heights < height if self.above else heights > height
        return bool(np.count_nonzero(passed) % 2)


def runs_of(work: Work) -> tuple[Run, ...]:
    """Return every run of top edge and of hem of the panels that were cut from the block."""
    mates = {record.front: record.back for record in work.seams} | {record.back: record.front for record in work.seams}
    names = [panel.name for panel in work.panels if panel.name in work.traces]
    found = []
    for above, kinds in ((True, UPPER_KINDS), (False, LOWER_KINDS)):
        for name in names:
            loop = work.traces[name]
            for number, side in enumerate(loop):
                if side.kind in kinds and _next(work, (name, number), kinds, mates, -1) is None:
                    found.append(_run(work, (name, number), kinds, mates, above=above))
    return tuple(found)


def _run(work: Work, start: Corner, kinds: frozenset[str], mates: Mates, *, above: bool) -> Run:
    """Return the run that begins, in loop order, with a side."""
    corners = [start]
    while (after := _next(work, corners[-1], kinds, mates, 1)) is not None:
        corners.append(after)
    sides = [work.traces[name][number] for name, number in corners]
    loops = tuple(work.traces[name] for name in dict.fromkeys(name for name, _ in corners))
    return Run(above, tuple(_turned(side) for side in reversed(sides)) if above else tuple(sides), loops)


def _turned(side: Side) -> Side:
    return Side(side.name, side.kind, side.points[::-1], side.seam, side.face, level=side.level)


def _next(work: Work, corner: Corner, kinds: frozenset[str], mates: Mates, step: int) -> Corner | None:
    """Return the side in which a run goes on, ``step`` 1 or -1 in loop order, past a corner or the end of a level seam."""
    name, number = corner
    loop = work.traces[name]
    number = (number + step) % len(loop)
    while loop[number].kind == LET_IN:  # the mouth of a slit is bridged
        number = (number + step) % len(loop)
    side = loop[number]
    if side.level and (name, side.name) in mates:
        name, edge = mates[name, side.name]
        loop = work.traces[name]
        number = next(at for at, one in enumerate(loop) if one.name == edge)
        number = (number + step) % len(loop)
    return (name, number) if loop[number].kind in kinds else None


def _reaches(seam: SeamLine, height: float) -> bool:
    """Return whether a seam, carried on both ways, passes a height; where it ends on another seam it goes no further."""
    below_low = height < seam.low and seam.low_on in seam.hosts
    above_top = height > seam.top and seam.top_on in seam.hosts
    return not below_low and not above_top


def seam_arounds(draft: Draft, take: Take, heights: Points) -> tuple[Points, Points]:
    """Return the arounds of a seam's two edges at every height."""
    if gap_of(draft, take.seam.name) is None:
        front, back = edge_lines(draft, take, heights)
        return front[:, AROUND], back[:, AROUND]
    dense = np.linspace(float(heights.min()) - BEYOND, float(heights.max()) + BEYOND, LINE_PLACES)
    front, back = edge_lines(draft, take, dense)
    return arounds_at(front, heights), arounds_at(back, heights)


def _outer(draft: Draft, height: float) -> Stretch:
    """Return the arounds between which there is cloth at a height: the centre lines, or the lacing edges before them."""
    ends = {"center front": 0.0, "center back": 1.0}
    for gap in draft.gaps:
        ends[gap.at] = float(np.interp(height, gap.line[:, HEIGHT], gap.line[:, AROUND]))
    return ends["center front"], ends["center back"]
