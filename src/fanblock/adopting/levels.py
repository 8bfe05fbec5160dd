"""A level seam, moved: new heights for it. It takes nothing, so its upper and its lower edge must have been moved alike."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from fanblock.adopting.moved import DrawnEdge
from fanblock.adopting.outlines import FIT_MM, Said, crossing_points
from fanblock.adopting.targets import Target, crossing_target
from fanblock.adopting.wording import height_words
from fanblock.draft.levelline import level_through
from fanblock.draft.model import Draft, LevelSeam, Line
from fanblock.draft.places import height_on
from fanblock.geometry.curve import frozen
from fanblock.pattern.model import LOWER, UPPER
from fanblock.steps.level_seam import BACK, FRONT
from fanblock.terms import Height, Position

LEVEL_SEAM = "level seam"

ALIKE_MM = 0.5
"""Its two edges, drawn by hand, are moved alike when they are by so nearly the same."""

_PLACES = 200


@dataclass(frozen=True, slots=True, eq=False)
class LevelTarget:
    """Where a level seam now runs; ``apart_mm`` is how differently its two edges were moved, at most."""

    target: Target
    apart_mm: float


def level_line(seam: LevelSeam) -> Line:
    """Return a level seam as a line over around."""
    around = np.linspace(seam.start, seam.end, _PLACES)
    return Line(seam.name, "seam", frozen(np.column_stack((around, seam.height_of(around)))), seam.name)


def level_targets(draft: Draft, levels: Mapping[str, Mapping[str, Sequence[DrawnEdge]]]) -> dict[str, LevelTarget]:
    """Return how every level seam was moved that was; ``levels`` are its edges by which of their panel they are."""
    found = {}
    for seam in draft.level_seams:
        sides = levels.get(seam.name, {})
        edges = [edge for side in (UPPER, LOWER) for edge in sides.get(side, ())]
        if not any(edge.is_moved for edge in edges):
            continue
        line = level_line(seam)
        target = crossing_target(draft.block, line, edges)
        ups = [crossing_target(draft.block, line, sides[side]) for side in (UPPER, LOWER) if sides.get(side)]
        found[seam.name] = LevelTarget(target, _apart(ups))
    return found


def _apart(ups: Sequence[Target]) -> float:
    """Return how differently the two edges were moved, at the same places along the line."""
    if len(ups) < 2:
        return 0.0
    low, high = max(one.along[0] for one in ups), min(one.along[-1] for one in ups)
    at = np.linspace(low, max(high, low), _PLACES)
    moves = [np.column_stack([np.interp(at, one.along, one.shift[:, axis]) for axis in (0, 1)]) for one in ups]
    return float(np.hypot(*(moves[0] - moves[1]).T).max())


def level_options(
    before: Draft, options: Any, set_options: Any, old: LevelSeam, target: Target, run: Callable[[Draft, Any], Draft]
) -> tuple[Mapping[str, Any], bool, Any]:
    """Return the options of a level seam that change, whether they are all it has, and the step's options with dials set.

    A seam at one height that was moved evenly keeps to one height; any other is told through points.
    """
    if set_options.height is not None:
        even = _even(before, target, set_options.height)
        if even is not None:
            return {"height": even}, False, replace(set_options, height=even)
        places = [level_through(one.start or FRONT, one.to or BACK, one.height) for one in (options, set_options)]
        bare = replace(set_options, height=None, start=None, to=None)
    else:
        places = [options.through, set_options.through]
        bare = set_options

    def draw(through: tuple[Position, ...]) -> Line:
        return level_line(run(before, replace(bare, through=through)).level_seams[-1])

    said = [Said(words, set_) for words, set_ in zip(*places, strict=True) if _lies_between(set_, old)]
    points = crossing_points(before, said, target, level_line(old), draw)
    words, set_ = tuple(one.words for one in points), tuple(one.set for one in points)
    if set_options.height is None:
        return {"through": words}, False, replace(bare, through=set_)
    whole = {"name": options.name, "through": words, "pointed": options.pointed}
    return whole, True, replace(bare, through=set_)


def left_over_mm(seam: LevelSeam, draft: Draft, target: Target) -> float:
    """Return how far a level seam of the new recipe stands off the line that was drawn, at most."""
    points = level_line(seam).points
    return float(target.held(draft.block.at(points[:, 0], points[:, 1]))[1].max())


def _lies_between(position: Position, old: LevelSeam) -> bool:
    """Whether a point that stands at a share of the way round lies between the ends of the seam."""
    ratio = position.around.ratio
    return ratio is None or old.start <= ratio <= old.end


def _even(before: Draft, target: Target, was: Height) -> Height | None:
    """Return one height for a seam that was moved evenly all along, None for any other."""
    around = before.block.where(target.points - target.shift)[0]
    ups = np.sum(target.shift * before.block.ruling_direction(around), axis=1)
    if float(np.ptp(ups)) > 2.0 * FIT_MM:
        return None
    middle = float(np.median(around))
    up = float(np.median(ups)) / float(before.block.ruling_length_mm(middle))
    return height_words(before, was, middle, height_on(before, was, middle) + up)
