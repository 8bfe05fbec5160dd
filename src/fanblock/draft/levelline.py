"""A level seam drawn on the draft: its height over around, and what its two ends stand on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise

import numpy as np

from fanblock.draft.model import Draft, LevelSeam
from fanblock.draft.opening import stands_free
from fanblock.draft.outline import square_slope
from fanblock.draft.places import place_of, size_mm
from fanblock.draft.seamline import stands_on
from fanblock.geometry.curve import Points
from fanblock.geometry.splines import Function, free_or_clamped, level_ended
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount, Around, Height, Position

QUARTERS = (0.25, 0.5, 0.75)
"""Where a seam at one height is held to it: what squares it to a centre line then moves only the quarter beside that."""

FRONT, BACK = "center front", "center back"

NEAREST = 0.02
"""Least that two points of a level seam stand apart in around."""


def level_through(start: Around, end: Around, height: Height) -> tuple[Position, ...]:
    """Return the points of a seam that runs at one height from one place to another."""
    arounds = (start, *(Around(ratio=ratio) for ratio in QUARTERS), end)
    return tuple(Position(around, height) for around in arounds)


def with_level_seam(
    draft: Draft, name: str, through: tuple[Position, ...], pointed: tuple[bool, bool], *, even: bool = False
) -> Draft:
    """Return the draft with one more level seam, from front to back through points, smooth between them.

    At a centre line that is a fold or a seam it stands square, unless it is ``pointed`` there. ``even`` tells that the
    points are all at one height, so that those that do not lie between the two ends may be left out. GeometryError when
    they do not run from front to back on this body.
    """
    places = [place_of(draft, position) for position in through]
    if even:
        first, last = places[0], places[-1]
        inner = [place for place in places[1:-1] if first[0] + NEAREST < place[0] < last[0] - NEAREST]
        places = [first, *inner, last]
    _check_order(name, places)
    u, v = np.array(places).T
    on = stands_on(draft, *places[0]), stands_on(draft, *places[-1])
    seam = LevelSeam(
        name=name,
        height_of=_heights(draft, u, v, on, pointed),
        start=float(u[0]),
        end=float(u[-1]),
        start_on=on[0],
        end_on=on[1],
        after=len(draft.seams),
        pointed=pointed,
    )
    return replace(draft, level_seams=(*draft.level_seams, seam))


def with_level_take(draft: Draft, name: str, takes: Mapping[Around, Amount]) -> Draft:
    """Return the draft with what its level seam ``name`` takes along the ruling at some places, smooth between them.

    Beyond the first and the last it keeps what it takes there. GeometryError when two are one place on this body, or a
    take is less than nothing.
    """
    if not takes:
        return draft
    level = Height(landmark=name)
    places = sorted(
        (place_of(draft, Position(around, level))[0], size_mm(draft.body, amount, "bust to waist", "take"))
        for around, amount in takes.items()
    )
    for (one, _), (other, _) in pairwise(places):
        if other - one < NEAREST:
            what = f"on this body two takes stand at {one:.0%} around, nearly at one place."
            raise GeometryError([Problem("take-twice", f"seam “{name}” › take", what, "Leave one of them out.")])
    at, mm = np.array(places).T
    seams = (replace(seam, take_of=level_ended(at, mm)) if seam.name == name else seam for seam in draft.level_seams)
    return replace(draft, level_seams=tuple(seams))


def _heights(draft: Draft, u: Points, v: Points, on: tuple[str, str], pointed: tuple[bool, bool]) -> Function:
    """Return the height over around: a cubic spline of the length along the ruling, as an outline edge is drawn."""
    front = square_slope(draft, 0.0) if on[0] == FRONT and not pointed[0] and not stands_free(draft, FRONT) else None
    back = square_slope(draft, 1.0) if on[1] == BACK and not pointed[1] and not stands_free(draft, BACK) else None
    ruling = draft.block.ruling_length_mm
    along = free_or_clamped(u, v * ruling(u), front, back)
    return lambda arounds: np.asarray(along(arounds) / ruling(arounds))


def _check_order(name: str, places: list[tuple[float, float]]) -> None:
    problems = [
        Problem(
            "edge-order",
            f"seam “{name}” › through",
            f"point {number + 1} stands at {after[0]:.0%} around, not behind point {number}, at {before[0]:.0%}.",
            "Give the points from front to back.",
        )
        for number, (before, after) in enumerate(pairwise(places), start=1)
        if after[0] <= before[0]
    ]
    if problems:
        raise GeometryError(problems)
