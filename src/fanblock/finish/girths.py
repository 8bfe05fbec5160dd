"""What the pieces of one half add up to, level by level, beside what they should add up to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise

import numpy as np

from fanblock.block.ruled import Block
from fanblock.block.stand import ON_WAIST_AND_BUST, Level
from fanblock.draft.model import AROUND, HEIGHT, Draft, SeamLine
from fanblock.draft.opening import half_width_mm
from fanblock.draft.slicing import Loop, inside_at, lying_on
from fanblock.draft.takes import Take
from fanblock.draft.truing import CROSSING_KINDS
from fanblock.draft.work import Work
from fanblock.geometry.curve import Points
from fanblock.geometry.meet import crossings, points_at
from fanblock.pattern.model import HEM, SHOULDER, WAIST, Girth, Panel
from fanblock.tolerances import ALONG_MM, GRAZING

LEVELS = tuple(step / 10 for step in range(11))
"""The waist, the bust and every tenth of the way between."""

LOWER_KINDS = frozenset({HEM, WAIST})
"""The kinds of edges below which a panel has no cloth."""

Stretch = tuple[float, float]


def girths_of(work: Work) -> tuple[Girth, ...]:
    """Return the sums at the waist, the bust, every 10 % between and the girths the block stands on, all of one half.

    The parts are where the finished panels' stitch lines cut the level. What is open is where the level runs, between a
    panel's seams, above that panel's finished top edge or below its finished hem. Gap and takes are measured on the block;
    so parts + open + gap + takes can be held against the block's own level.
    """
    draft = work.draft
    spans = [_Span(draft, panel, work) for panel in work.panels if not panel.added]
    levels = levels_of(draft)
    heights = np.array([level.height for level in levels])
    hair = ALONG_MM / draft.block.center_front_mm
    taken_at = {take.seam.name: take(heights) for take in work.takes}
    edges_at = {take.seam.name: _edges_at(draft, take, heights) for take in work.takes}
    found = []
    for number, level in enumerate(levels):
        height = level.height
        edges = {name: (float(front[number]), float(back[number])) for name, (front, back) in edges_at.items()}
        parts = free = 0.0
        for span in spans:
            lying = lying_on(span.loop, height, hair)
            parts += _length(draft.block, height, lying or inside_at(span.loop, height))
            cloth = span.cloth_at(height, edges)
            free += _length(draft.block, height, _beyond(span.top, height, cloth, above=True))
            if not lying:
                free += _length(draft.block, height, _beyond(span.hem, height, cloth, above=False))
        taken = tuple((name, float(mm[number])) for name, mm in taken_at.items())
        more = 2.0 * sum(take.more_at(height) for take in work.takes)
        found.append(replace(_girth(draft, level, taken, parts, free), altered_mm=more))
    return tuple(found)


def levels_of(draft: Draft) -> list[Level]:
    """Return the levels at which a draft is summed, from the waist up, each by its measure or by its share of the way."""
    named = {height: Level(f"{height:.0%}", height) for height in LEVELS}
    named.update({level.height: level for level in (*ON_WAIST_AND_BUST.levels, *draft.stand.levels)})
    return [named[height] for height in sorted(named)]


class _Span:
    """A finished panel in the block's coordinates, and the seams between which its cloth would go on."""

    def __init__(self, draft: Draft, panel: Panel, work: Work) -> None:
        self.draft = draft
        self.loop = work.traces[panel.name]
        self.top, self.hem = _top_edges(self.loop), _hem_edges(self.loop)
        drawn = {seam.name: seam for seam in draft.seams}
        self.left = [drawn[seam.line] for seam in work.seams if seam.back[0] == panel.name and seam.line in drawn]
        self.right = [drawn[seam.line] for seam in work.seams if seam.front[0] == panel.name and seam.line in drawn]

    def cloth_at(self, height: float, edges: Mapping[str, Stretch]) -> list[Stretch]:
        """Return the stretch of a level between the panel's seams, or centre or lacing lines where it has none."""
        first, last = _outer(self.draft, height)
        left = [edges[seam.name][1] for seam in self.left if _reaches(seam, height)]
        right = [edges[seam.name][0] for seam in self.right if _reaches(seam, height)]
        start, end = max([first, *left]), min([last, *right])
        return [(start, end)] if end > start else []


def _reaches(seam: SeamLine, height: float) -> bool:
    """Return whether a seam, carried on both ways, passes a height; where it ends on another seam it goes no further."""
    below_low = height < seam.low and seam.low_on in seam.hosts
    above_top = height > seam.top and seam.top_on in seam.hosts
    return not below_low and not above_top


def _edges_at(draft: Draft, take: Take, heights: Points) -> tuple[Points, Points]:
    """Return the arounds of a seam's two edges at every height."""
    half = take(heights) / 2.0
    middle = take.seam.around_of(heights)
    return draft.block.along(middle, heights, -half), draft.block.along(middle, heights, half)


def _outer(draft: Draft, height: float) -> Stretch:
    """Return the arounds between which there is cloth at a height: the centre lines, or the lacing edges before them."""
    ends = {"center front": 0.0, "center back": 1.0}
    for gap in draft.gaps:
        ends[gap.at] = float(np.interp(height, gap.line[:, HEIGHT], gap.line[:, AROUND]))
    return ends["center front"], ends["center back"]


def _girth(draft: Draft, level: Level, taken: tuple[tuple[str, float], ...], parts: float, free: float) -> Girth:
    height, ease, reduction = level.height, 0.0, 0.0
    body = base = draft.body.lengths.get(level.name)
    if level == draft.stand.lower:
        ease, reduction = draft.lower_ease_mm, draft.lower_reduction_mm
    elif level == draft.stand.upper:
        ease, reduction = draft.upper_ease_mm, draft.upper_reduction_mm
    else:
        base = None
    return Girth(
        name=level.name,
        height=height,
        block_mm=draft.block.level_length_mm(height),
        takes_mm=sum(mm for _, mm in taken),
        takes=taken,
        gap_mm=sum(_gap_at(draft, number, height) for number in range(len(draft.gaps))),
        parts_mm=parts,
        open_mm=free,
        body_mm=body,
        base_mm=base,
        ease_mm=ease,
        reduction_mm=reduction,
    )


def _length(block: Block, height: float, stretches: list[Stretch]) -> float:
    return float(sum(block.level_part_mm(height, start, end) for start, end in stretches))


def _top_edges(loop: Loop) -> Points:
    """Return a panel's upper crossing edges in around and height, from front to back; empty where it has none."""
    kinds = {*CROSSING_KINDS, SHOULDER} - LOWER_KINDS
    runs = [side.points[::-1] for side in reversed(loop) if side.kind in kinds]
    return np.vstack(runs) if runs else np.empty((0, 2))


def _hem_edges(loop: Loop) -> Points:
    """Return a panel's hem in around and height, from front to back; empty where it has none."""
    runs = [side.points for side in loop if side.kind in LOWER_KINDS]
    return np.vstack(runs) if runs else np.empty((0, 2))


def _beyond(edge: Points, height: float, cloth: list[Stretch], *, above: bool) -> list[Stretch]:
    """Return the stretches of a level, read a hair above it, within ``cloth``, that run above a top edge or below a hem."""
    height += GRAZING
    if not len(edge) or (edge[:, HEIGHT].min() > height if above else edge[:, HEIGHT].max() < height):
        return []
    arounds = points_at(edge, crossings(edge, HEIGHT, height))[:, AROUND]
    found = []
    for start, end in cloth:
        bounds = [start, *sorted(around for around in arounds.tolist() if start < around < end), end]
        for first, last in pairwise(bounds):
            if _lies_beyond(edge, (first + last) / 2.0, height, above=above):
                found.append((first, last))
    return found


def _lies_beyond(edge: Points, around: float, height: float, *, above: bool) -> bool:
    """Return whether a place lies above a top edge, or below a hem: the edge passes its ruling oddly often before it."""
    heights = points_at(edge, crossings(edge, AROUND, around))[:, HEIGHT]
    if not len(heights):
        heights = edge[[np.argmin(np.abs(edge[:, AROUND] - around))], HEIGHT]
    passed = heights < height if above else heights > height
    return bool(np.count_nonzero(passed) % 2)


def _gap_at(draft: Draft, number: int, height: float) -> float:
    """Return what a gap takes off one half at a level, between its edge and the centre line; below 0 for an overlap."""
    return half_width_mm(draft.block, draft.gaps[number], height)
