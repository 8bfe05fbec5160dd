"""Eyelets: how many stand along a lacing edge, how far apart, and how long the lace is that goes through them.

In a spiral one lace winds through both rows, so they stand staggered. So that the edges close level at both ends, the
first pair is level, on one half the second hole is only half a space down, and at the far end the other half has the half
space: with n holes a side and a space s a row is (n - 3/2) s long. Crossed lacing has its pairs level: (n - 1) s.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fanblock.draft.plans import EyeletPlan
from fanblock.draft.work import Work
from fanblock.finish.clearing import Ground
from fanblock.finish.openings import openings_of
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.meet import foot
from fanblock.pattern.bones import BOTH, CROSSED, LEFT, RIGHT, SPIRAL, Eyelet, Lacing
from fanblock.pattern.model import Edge
from fanblock.problems import GeometryError, Problem

FEWEST = {SPIRAL: 3, CROSSED: 2}
"""Fewest eyelets a side: fewer hold nothing, and a spiral of two has no half space."""

TAILS_MM = 550.0
"""What a lace needs beyond its way through the eyelets, to tie it: 50 to 60 cm (common practice)."""

CROSSED_TIMES = 2.0
"""Crossed lacing takes about double the lace of a spiral, since it is loosened and not taken out (common practice)."""

LEVEL_MM = 0.05
"""Holes of both halves nearer in height than this are one pair."""


@dataclass(frozen=True, slots=True)
class Rows:
    """The holes of the two halves, measured down the edge from the first pair, and the space between them."""

    left_mm: tuple[float, ...]
    right_mm: tuple[float, ...]
    spacing_mm: float


def row_count(length_mm: float, spacing_mm: float, way: str) -> int:
    """Return how many holes a side come nearest to a spacing: length / spacing + 3/2 in a spiral, + 1 crossed, rounded.

    >>> row_count(250.0, 25.0, "spiral"), row_count(250.0, 25.0, "crossed")
    (12, 11)
    """
    return math.floor(length_mm / spacing_mm + (1.5 if way == SPIRAL else 1.0) + 0.5)


def rows_of(length_mm: float, spacing_mm: float, way: str, stepped: str = LEFT) -> Rows:
    """Return two rows of a length that end level, their space as near ``spacing_mm`` as whole holes allow.

    ``stepped`` is the half whose second hole is half a space down. Raises ValueError when there would be fewer than
    :data:`FEWEST`.

    >>> rows_of(262.5, 25.0, "spiral").spacing_mm
    25.0
    """
    count = row_count(length_mm, spacing_mm, way)
    if count < FEWEST[way]:
        raise ValueError("too few eyelets")
    if way == CROSSED:
        even = tuple(np.linspace(0.0, length_mm, count).tolist())
        return Rows(even, even, length_mm / (count - 1))
    space = length_mm / (count - 1.5)
    plain = (*(space * number for number in range(count - 1)), length_mm)
    half = (0.0, *(space * (number + 0.5) for number in range(count - 1)))
    return Rows(half, plain, space) if stepped == LEFT else Rows(plain, half, space)


def spiral_lace_mm(count: int, spacing_mm: float, gap_mm: float, from_edge_mm: float) -> float:
    """Return how long a lace is from the first to the last of ``count`` holes a side, without its tails.

    It crosses the gap 2 count - 1 times, each time half a space lower (common practice).

    >>> round(spiral_lace_mm(12, 25.0, 50.0, 10.0))
    1635
    """
    return (2 * count - 1) * math.hypot(gap_mm + 2.0 * from_edge_mm, 0.5 * spacing_mm)


def eyeleted(work: Work, grounds: Sequence[Ground], plan: EyeletPlan) -> tuple[list[Ground], Lacing]:
    """Return the grounds with rows of eyelets along an edge of each, and how it is laced.

    One ground laces to its mirror image, and its rows are those of the two halves; two lace to each other, at the side.
    GeometryError when the edge is too short for them.
    """
    downs = [_downward(ground, plan.edge) for ground in grounds]
    lasts = [_waist_below_top(ground, down) - plan.above_waist_mm for ground, down in zip(grounds, downs, strict=True)]
    room = max(min(lasts) - plan.below_top_mm, 0.0)
    try:
        rows = rows_of(room, plan.spacing_mm, plan.way, plan.stepped)
    except ValueError:
        what = f"on {room:.0f} mm of “{plan.edge}” there is no room for {FEWEST[plan.way]} eyelets {plan.spacing_mm:.0f} mm apart."
        raise GeometryError(
            [Problem("eyelets-few", "eyelets", what, "Set them closer, or make the edge longer.")]
        ) from None
    gap = next((one.width_mm for one in openings_of(work) if one.edge == plan.edge), 0.0)
    lace = spiral_lace_mm(len(rows.left_mm), rows.spacing_mm, gap, plan.from_edge_mm)
    left, right = (tuple(plan.below_top_mm + at for at in row) for row in (rows.left_mm, rows.right_mm))
    names = [ground.panel.name for ground in grounds]
    lacing = Lacing(
        names[0],
        plan.edge,
        plan.way,
        rows.spacing_mm,
        plan.from_edge_mm,
        gap,
        left,
        right,
        lace * (CROSSED_TIMES if plan.way == CROSSED else 1.0),
        names[1] if len(names) > 1 else "",
    )
    pairs = [(left, right)] if len(grounds) == 1 else [(left, left), (right, right)]
    made = [
        ground.with_eyelets(_eyelets(ground.panel.edge(plan.edge), down, plan, *pair))
        for ground, down, pair in zip(grounds, downs, pairs, strict=True)
    ]
    return made, lacing


def _downward(ground: Ground, name: str) -> Curve:
    """An edge run from its upper end down."""
    curve = ground.panel.edge(name).curve
    return curve if (curve.end - curve.start) @ ground.up < 0.0 else curve.reversed()


def _waist_below_top(ground: Ground, down: Curve) -> float:
    """How far down a side the waist meets it; all the way down where it does not."""
    ends = [point for part in ground.panel.levels.get("waist", ()) for point in (part.start, part.end)]
    if not ends:
        return down.length_mm
    off, place = min(foot(down.points, point) for point in ends)
    if off > ON_MM:
        return down.length_mm
    return float(np.interp(place, np.arange(len(down.points)), down.along))


ON_MM = 5.0
"""A level that ends nearer to an edge than this ends on it."""


def _eyelets(
    edge: Edge, down: Curve, plan: EyeletPlan, left: tuple[float, ...], right: tuple[float, ...]
) -> tuple[Eyelet, ...]:
    """The holes of both halves on the piece that is drawn; a level pair is one."""
    found = []
    pairs = {number for number, at in enumerate(left) if any(abs(at - other) < LEVEL_MM for other in right)}
    for half, row in ((LEFT, left), (RIGHT, right)):
        for number, at in enumerate(row):
            level = any(abs(at - left[pair]) < LEVEL_MM for pair in pairs)
            if not (level and half == RIGHT):
                point = frozen(down.at(at) + plan.from_edge_mm * _inward(edge, down, at))
                found.append(Eyelet(edge.name, BOTH if level else half, number + 1, at, point, plan.hole_mm))
    return tuple(found)


def _inward(edge: Edge, down: Curve, at_mm: float) -> Points:
    """The unit vector into the panel: to the left of the edge as its loop runs."""
    x, y = down.tangent_at(at_mm)
    return np.array([-y, x]) if down is edge.curve else np.array([y, -x])
