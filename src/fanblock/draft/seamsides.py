"""The two edges of an upright seam on the block: half its take either side, and where it is laced half the gap further."""

from __future__ import annotations

import numpy as np

from fanblock.draft.lacing import moved_aside
from fanblock.draft.model import AROUND, HEIGHT, Draft, LevelSeam, SeamGap, SeamLine
from fanblock.draft.opening import edge_kind, edge_name
from fanblock.draft.slicing import Side
from fanblock.draft.takes import Take
from fanblock.geometry.curve import Points
from fanblock.geometry.meet import crossings, points_at
from fanblock.pattern.model import SEAM

RUN_ON = 0.35
"""How far, as a share of bust to waist, a seam's edges are carried on beyond its ends before the loop cuts them."""

SEAM_STEP_MM = 2.0
"""Distance between the points of a seam's edges."""

CROSSING_PLACES = 200
"""At how many heights an upright seam is held against a level one to find where they cross."""

Stretch = tuple[float, float, str, str, str]
"""Top and low end of a stretch of a seam, what they stand on, and which part of the seam it is."""


def seam_sides(draft: Draft, take: Take) -> tuple[Side, Side]:
    """Return the front and the back edge of a seam, rising, carried on beyond both ends."""
    seam = take.seam
    low, top = seam.low - RUN_ON, seam.top + RUN_ON
    count = int((top - low) * draft.block.ruling_length_mm(seam.around_at(seam.top)) / SEAM_STEP_MM)
    front, back = edge_lines(draft, take, np.linspace(low, top, count))
    gap = gap_of(draft, seam.name)
    name, kind = (seam.name, SEAM) if gap is None else (edge_name(draft.openings, gap), edge_kind(gap))
    return Side(name, kind, front, seam.name, "front"), Side(name, kind, back, seam.name, "back")


def edge_lines(draft: Draft, take: Take, heights: Points) -> tuple[Points, Points]:
    """Return the lines (around, height) of a seam's two edges, drawn at these heights."""
    centers, half = take.seam.around_of(heights), take(heights) / 2.0
    lines = [np.column_stack((draft.block.along(centers, heights, way * half), heights)) for way in (-1.0, 1.0)]
    gap = gap_of(draft, take.seam.name)
    if gap is not None:
        aside = (-0.5 * gap.width_mm, 0.5 * gap.width_mm)
        lines = [moved_aside(draft.block, line, mm) for line, mm in zip(lines, aside, strict=True)]
    return lines[0], lines[1]


def gap_of(draft: Draft, seam: str) -> SeamGap | None:
    """Return the opening along a seam, if it is one."""
    return next((gap for gap in draft.seam_gaps if gap.at == seam), None)


def arounds_at(points: Points, heights: Points) -> Points:
    """Return the arounds at which a rising line passes some heights."""
    return np.interp(heights, points[:, HEIGHT], points[:, AROUND])


def stretches(draft: Draft, seam: SeamLine) -> list[Stretch]:
    """Return the stretches, from the top down, in which a seam is cut by the level seams drawn before it that it crosses."""
    before = draft.seams.index(seam)
    levels = [level for level in draft.level_seams if level.after <= before]
    found = sorted(
        ((height, level.name) for level in levels if level.name not in seam.hosts for height in _met(seam, level)),
        reverse=True,
    )
    heights = [seam.top, *(height for height, _ in found), seam.low]
    ends = [seam.top_on, *(name for _, name in found), seam.low_on]
    parts = ["", *(f"below {name}" for _, name in found)]
    return [(heights[n], heights[n + 1], ends[n], ends[n + 1], parts[n]) for n in range(len(parts))]


def _met(seam: SeamLine, level: LevelSeam) -> list[float]:
    """Return the heights at which an upright seam crosses a level one."""
    heights = np.linspace(seam.low, seam.top, CROSSING_PLACES)
    arounds = seam.around_of(heights)
    over = np.column_stack((arounds, heights, heights - level.height_of(arounds)))
    met = points_at(over, crossings(over, 2, 0.0))
    return [float(height) for around, height, _ in met if level.passes(float(around))]
