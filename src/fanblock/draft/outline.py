"""Edges that cross the draft from front to back: the top edge and the hem."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np

from fanblock.draft.lacing import HIGHEST
from fanblock.draft.model import AROUND, HEIGHT, Draft, Line
from fanblock.draft.opening import carried_past, overlap_mm, stands_free
from fanblock.draft.places import place_of
from fanblock.geometry.curve import frozen
from fanblock.geometry.splines import free_or_clamped
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Position

OVERHANG = 0.05
"""How far, in around, a crossing edge is carried on beyond its first and last points, so that it can be cut there."""

STEP_MM = 2.0
"""Distance between the points of a crossing edge."""

FRONT, BACK = "center front", "center back"


def with_crossing_edge(draft: Draft, name: str, kind: str, through: tuple[Position, ...]) -> Draft:
    """Return the draft with an edge drawn from front to back through ``through``.

    The edge is a cubic spline of the length along the ruling over around. At a centre line that is a fold or a seam
    it stands square to it; at a lacing edge it is free. GeometryError when the points do not run from front to back.
    """
    places = [place_of(draft, position) for position in through]
    _check_order(draft, name, places)
    u = np.array([place[0] for place in places])
    along = np.array([place[1] for place in places]) * draft.block.ruling_length_mm(u)
    front = None if stands_free(draft, FRONT) or u[0] > OVERHANG else square_slope(draft, 0.0)
    back = None if stands_free(draft, BACK) or u[-1] < 1.0 - OVERHANG else square_slope(draft, 1.0)
    edge = free_or_clamped(u, along, front, back)
    count = int(draft.block.half_bust_mm / STEP_MM)
    lapped = {at: overlap_mm(draft, at) for at in (FRONT, BACK)}
    first, last = (0.0 if lapped[FRONT] else u[0] - OVERHANG), (1.0 if lapped[BACK] else u[-1] + OVERHANG)
    arounds = np.linspace(first, last, count)
    heights = edge(arounds) / draft.block.ruling_length_mm(arounds)
    line = Line(name, kind, frozen(np.column_stack((arounds, heights))), chain=name)
    return replace(draft, lines=(*draft.lines, *_with_overlaps(draft, line, lapped)))


def _with_overlaps(draft: Draft, line: Line, lapped: dict[str, float]) -> list[Line]:
    """Return a line and, where the halves lie over each other, the lines on which it goes on past the centre lines."""
    lines = [line]
    inward = draft.block.at(line.points[:, AROUND], line.points[:, HEIGHT])
    for at, over_mm in lapped.items():
        if over_mm:
            run = inward if at == FRONT else inward[::-1]
            outward = carried_past(draft, at, run, over_mm + OVERHANG * draft.block.half_bust_mm)
            points = frozen(outward[::-1] if at == FRONT else outward)
            more = replace(line, name=f"{line.name} overlap", points=points)
            lines = [more, *lines] if at == FRONT else [*lines, more]
    return lines


def refuse_crossed_rulings(draft: Draft) -> None:
    """Refuse a garment that reaches heights at which the block's rulings cross: nothing drawn there means anything."""
    lowest = min((float(line.points[:, HEIGHT].min()) for line in draft.lines), default=0.0)
    highest = max((float(line.points[:, HEIGHT].max()) for line in draft.lines), default=1.0)
    crossing = draft.block.crossing_height(lowest, min(highest, HIGHEST))
    if crossing is not None:
        above = crossing * draft.block.center_front_mm / 10.0
        side = "above" if above >= 0 else "below"
        what = f"the block's upright lines cross {abs(above):.0f} cm {side} the waist, where the garment still is."
        remedy = "Measure again, lessen the tilts, or draw the garment shorter."
        raise GeometryError([Problem("block-crossed", f"wearer {draft.body.name}", what, remedy)])


def square_slope(draft: Draft, around: float) -> float:
    """Return d(length along the ruling)/d(around) that makes an edge square to the centre line at ``around``."""
    return -float(draft.block.around_slope(around, 0.0) @ draft.block.ruling_direction(around))


def _check_order(draft: Draft, name: str, places: list[tuple[float, float]]) -> None:
    problems = [
        Problem(
            "edge-order",
            f"{name} › through",
            f"point {number + 1} stands at {after[0]:.0%} around, not behind point {number}, at {before[0]:.0%}.",
            "Give the points from center front to center back.",
        )
        for number, (before, after) in enumerate(pairwise(places), start=1)
        if after[0] <= before[0]
    ]
    if problems:
        raise GeometryError(problems)
