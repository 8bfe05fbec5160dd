"""A seam drawn on the draft: its centre line over height, its ends, and what a recipe says it takes."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from fanblock.draft.model import Draft, SeamLine
from fanblock.draft.places import amount_mm, height_on, place_of
from fanblock.geometry.splines import monotone
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount, Height, Position
from fanblock.tolerances import SETTLED

LEAST_STEP = 0.2
"""Seam points nearer in height than this share of the way from waist to bust would draw a hook."""

STEEPEST_DEG = 45.0
"""A seam that leans more than this from the ruling loses its take: 7.1 of 10 mm remain across it."""

ON_EDGE = 0.02
"""A seam's end nearer to an edge than this, as a share of bust to waist, stands on it."""

_ROUNDS = 12


def with_seam(
    draft: Draft,
    *,
    name: str,
    through: tuple[Position, ...],
    share: float | None,
    takes: Mapping[Height, Amount],
    below_waist: str | None,
    spring: Amount,
) -> Draft:
    """Return the draft with one more seam.

    GeometryError when its points are out of order on this body, too near one another, or too steep.
    """
    places = [place_of(draft, position) for position in through]
    _check_course(draft, name, places)
    u = np.array([place[0] for place in reversed(places)])
    v = np.array([place[1] for place in reversed(places)])
    straight_on = (_goes_on(draft, through[-1], places[-1]), _goes_on(draft, through[0], places[0]))
    around_of = monotone(v, u, straight_on=straight_on)
    seam = SeamLine(
        name=name,
        around_of=around_of,
        top=float(v[-1]),
        low=float(v[0]),
        share=share,
        takes=_named_takes(draft, around_of, takes),
        spring_mm=amount_mm(draft.body, spring, of="waist"),
        below=below_waist or "",
        host=_host(draft, through),
        lean_deg=(_lean_deg(draft, places[0], places[1]), _lean_deg(draft, places[-2], places[-1])),
    )
    return replace(draft, seams=(*draft.seams, seam))


def _goes_on(draft: Draft, end: Position, place: tuple[float, float]) -> bool:
    """Return whether a seam's end stands on an edge or a seam, so that its two edges go straight on to meet it.

    Elsewhere a seam runs on along the ruling.
    """
    on_seam = end.around.landmark in {seam.name for seam in draft.seams}
    return on_seam or any(abs(line.height_at(place[0]) - place[1]) < ON_EDGE for line in draft.lines)


def _host(draft: Draft, through: tuple[Position, ...]) -> str:
    names = {seam.name for seam in draft.seams}
    ends = [position.around.landmark for position in (through[0], through[-1])]
    return next((end for end in ends if end in names), "")


def _named_takes(
    draft: Draft, around_of: object, takes: Mapping[Height, Amount]
) -> tuple[tuple[float, float], ...]:
    found = []
    for height, amount in takes.items():
        u = 0.5
        for _ in range(_ROUNDS):
            v = height_on(draft, height, u)
            before, u = u, float(around_of(np.array([v]))[0])  # type: ignore[operator]
            if abs(u - before) < SETTLED:
                break
        found.append((v, amount_mm(draft.body, amount, of="waist")))
    return tuple(sorted(found))


def _lean_deg(draft: Draft, upper: tuple[float, float], lower: tuple[float, float]) -> float:
    """Return how far the chord between two places leans from the ruling, in degrees."""
    middle = (upper[1] + lower[1]) / 2.0
    across = abs(draft.block.level_part_mm(middle, upper[0], lower[0]))
    up = abs(upper[1] - lower[1]) * draft.block.ruling_length_mm((upper[0] + lower[0]) / 2.0)
    return math.degrees(math.atan2(across, up))


def _check_course(draft: Draft, name: str, places: list[tuple[float, float]]) -> None:
    problems = []
    where = f"seam “{name}” › through"
    for number, (upper, lower) in enumerate(zip(places, places[1:], strict=False), start=1):
        drop = upper[1] - lower[1]
        if drop <= 0.0:
            what = f"on this body point {number + 1} does not lie below point {number}."
            problems.append(Problem("seam-order", where, what, "Give the points from the top down."))
        elif drop < LEAST_STEP:
            what = (
                f"on this body points {number} and {number + 1} lie only {drop:.0%} of bust to waist apart."
            )
            problems.append(
                Problem("seam-hook", where, what, "Leave one of them out, or move them 20 % apart.")
            )
        elif (lean := _lean_deg(draft, upper, lower)) > STEEPEST_DEG:
            what = f"between points {number} and {number + 1} it leans {lean:.0f}° from upright; 45° is the most."
            problems.append(Problem("seam-steep", where, what, "Bring the two points nearer in around."))
    if problems:
        raise GeometryError(problems)
