"""A seam, moved: new arounds for its points, and what it takes more where its two sides were moved apart."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from fanblock.adopting.outlines import FIT_MM, Said
from fanblock.adopting.placing import KEPT_MM
from fanblock.adopting.targets import SeamTarget
from fanblock.adopting.wording import around_words
from fanblock.draft.model import Draft, SeamLine
from fanblock.draft.places import height_on, place_of
from fanblock.geometry.curve import Points
from fanblock.problems import GeometryError
from fanblock.terms import Around, Height, Position, Share
from fanblock.tolerances import SETTLED

APART = 0.3
"""Points are added no nearer than this, as a share of bust to waist, and none below the waist: on another body they may come
nearer to their neighbours than points of a seam may lie."""

MOST_ADDED = 6
"""Most points that are added to a seam."""

AT_WAIST = 0.03
"""A height nearer than this to the waist is told as the waist."""

_ROUNDS = 20


def seam_points(
    before: Draft,
    said: Sequence[Said],
    target: SeamTarget | None,
    old: SeamLine,
    draw: Callable[[tuple[Position, ...]], Draft],
) -> tuple[Said, ...]:
    """Return the points of a seam from the top down; ``draw`` draws it through points.

    A point that still lies on the line keeps its words. Where the seam would stand off it, points are added as far as
    points of a seam may lie near one another.
    """
    block = before.block

    def wanted(heights: Points) -> Points:
        return np.asarray(old.around_of(heights) if target is None else target.around_at(block, old, heights))

    points: list[tuple[float, Said]] = []
    for one in said:
        around, height = on_line(before, one.set, wanted)
        was = place_of(before, one.set)
        if abs(block.level_part_mm(height, was[0], around)) > KEPT_MM:
            new = around_words(before, one.set.around, around, height)
            one = Said(Position(new, one.words.height), Position(new, one.set.height))
        points.append((height, one))
    for _ in range(MOST_ADDED):
        seam = draw(tuple(one.set for _, one in points)).seams[-1]
        heights = np.linspace(seam.low, seam.top, 100)
        off = np.abs(block.level_part_mm(heights, seam.around_of(heights), wanted(heights)))
        near = np.abs(heights[:, None] - np.array([height for height, _ in points])).min(axis=1)
        off = np.where((near < APART) | (heights < -AT_WAIST), 0.0, off)
        worst = int(np.argmax(off))
        if off[worst] < FIT_MM:
            break
        added = _new_point(before, float(heights[worst]), wanted)
        trial = sorted([*points, added], key=lambda one: -one[0])
        try:
            draw(tuple(one.set for _, one in trial))
        except GeometryError:
            break
        points = trial
    return tuple(one for _, one in points)


def off_line_mm(before: Draft, seam: SeamLine, target: SeamTarget | None, old: SeamLine) -> float:
    """Return how far a seam stands off the line that was drawn, at most."""
    heights = np.linspace(max(seam.low, old.low), min(seam.top, old.top), 100)
    wanted = old.around_of(heights) if target is None else target.around_at(before.block, old, heights)
    return float(np.max(np.abs(before.block.level_part_mm(heights, seam.around_of(heights), wanted))))


def on_line(before: Draft, position: Position, wanted: Callable[[Points], Points]) -> tuple[float, float]:
    """Return where a line passes the height of a position, which may depend on the around."""
    around, _ = place_of(before, position)
    height = 0.0
    for _ in range(_ROUNDS):
        height = height_on(before, position.height, around)
        was, around = around, float(wanted(np.array([height]))[0])
        if abs(around - was) < SETTLED:
            break
    return around, height


def _new_point(before: Draft, height: float, wanted: Callable[[Points], Points]) -> tuple[float, Said]:
    if abs(height) < AT_WAIST:
        words, height = Height(landmark="waist"), 0.0
    else:
        height = round(height, 2)
        words = Height(share=Share(height))
    around = float(wanted(np.array([height]))[0])
    position = Position(Around(ratio=round(around, 4)), words)
    return height, Said(position, replace(position))
