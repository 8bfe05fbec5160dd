"""A seam drawn on the draft: its centre line over height, its ends, and what a recipe says it takes."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise

import numpy as np

from fanblock.draft.model import AROUND, HEIGHT, LACED, Draft, SeamLine
from fanblock.draft.opening import edge_name, seam_edge
from fanblock.draft.places import amount_mm, height_on, place_of
from fanblock.geometry.splines import Function, monotone
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount, Height, Position
from fanblock.tolerances import SAME_POINT_MM, SETTLED

LEAST_STEP, LEAST_STEP_MM = 0.2, 30.0
"""Seam points nearer in height than this share of bust to waist, and than this length, would draw a hook."""

STEEPEST_DEG = 45.0
"""A seam that leans more than this from the ruling loses its take: 7.1 of 10 mm remain across it."""

ON_EDGE = 0.02
"""A seam's end nearer to an edge than this, as a share of bust to waist, stands on it."""

ON_SEAM = 0.001
"""A seam's end nearer in around to an earlier seam than this stands on it."""

NEAR = 0.05
"""Heights nearer than this are one height where takes are booked."""

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
    top_on, low_on = stands_on(draft, *places[0]), stands_on(draft, *places[-1])
    straight_on = (_goes_on(draft, low_on, places[-1]), _goes_on(draft, top_on, places[0]))
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
        top_on=top_on,
        low_on=low_on,
        lean_deg=(_lean_deg(draft, places[0], places[1]), _lean_deg(draft, places[-2], places[-1])),
    )
    _check_takes(seam)
    return replace(draft, seams=(*draft.seams, seam))


def stands_on(draft: Draft, around: float, height: float) -> str:
    """Return the seam, the centre line or the lacing edge that a seam's end stands on; empty when it stands on none."""
    for seam in draft.seams:
        if seam.low <= height <= seam.top and abs(seam.around_at(height) - around) < ON_SEAM:
            return seam.name
    for gap in draft.seam_gaps:
        edge = seam_edge(draft, gap)
        if abs(float(np.interp(height, edge[:, HEIGHT], edge[:, AROUND])) - around) < ON_SEAM:
            return gap.at
    for level in draft.level_seams:
        if level.passes(around) and abs(level.height_at(around) - height) < ON_EDGE:
            return level.name
    laced = {gap.at: float(np.interp(height, gap.line[:, HEIGHT], gap.line[:, AROUND])) for gap in draft.gaps}
    if around <= laced.get("center front", 0.0) + SAME_POINT_MM:
        return _edge_word(draft, "center front")
    if around >= laced.get("center back", 1.0) - SAME_POINT_MM:
        return _edge_word(draft, "center back")
    return ""


def _edge_word(draft: Draft, at: str) -> str:
    """Return the word for what a seam meets at a centre line: that line itself, or the edge of an opening."""
    for gap in draft.gaps:
        if gap.at == at:
            return "lacing edge" if gap.closing.by == LACED else edge_name(draft.openings, gap)
    return at


def _goes_on(draft: Draft, stands_on: str, place: tuple[float, float]) -> bool:
    """Return whether a seam's end stands on an edge or a seam, so that its two edges go straight on to meet it.

    Elsewhere a seam runs on along the ruling.
    """
    return bool(stands_on) or any(
        abs(draft.height_of(chain, place[0]) - place[1]) < ON_EDGE for chain in {line.chain for line in draft.lines}
    )


def _check_takes(seam: SeamLine) -> None:
    """Refuse takes where a seam cannot have them: beyond its ends, below the waist off its hem, or where it ends on a seam."""
    problems = []
    for number, (at, _) in enumerate(seam.takes):
        if seam.low + NEAR < at < -NEAR:
            what = f"a take stands {-at:.0%} of bust to waist below the waist; there a seam takes only at the hem."
            problems.append(("take-below", what, "Name takes at the waist or above it, or at the hem."))
        elif not seam.low - NEAR <= at <= seam.top + NEAR:
            what = f"a take stands at {at:.0%} of the way from waist to bust, where on this body there is no seam."
            problems.append(("take-off", what, "Name a height between the seam's two ends."))
        elif number and at - seam.takes[number - 1][0] < NEAR:
            what = f"on this body two takes stand at {at:.0%} of the way from waist to bust, nearly at one height."
            problems.append(("take-twice", what, "Leave one of them out."))
    for end, on in ((seam.top, seam.top_on), (seam.low, seam.low_on)):
        sprung = end == seam.low < -NEAR and seam.spring_mm
        if on and (sprung or any(mm and abs(at - end) < NEAR for at, mm in seam.takes)):
            what = f"it takes or springs where it ends on {on}; its two sides could not meet there."
            problems.append(("take-at-end", what, "Let it take nothing at that end."))
    if problems:
        where = f"seam “{seam.name}” › take"
        raise GeometryError([Problem(code, where, what, remedy) for code, what, remedy in problems])


def _named_takes(draft: Draft, around_of: Function, takes: Mapping[Height, Amount]) -> tuple[tuple[float, float], ...]:
    found = []
    for height, amount in takes.items():
        u = 0.5
        for _ in range(_ROUNDS):
            v = height_on(draft, height, u)
            before, u = u, float(around_of(np.array([v]))[0])
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
    for number, (upper, lower) in enumerate(pairwise(places), start=1):
        drop = upper[1] - lower[1]
        if drop <= 0.0:
            what = f"on this body point {number + 1} does not lie below point {number}."
            problems.append(Problem("seam-order", where, what, "Give the points from the top down."))
        elif drop < LEAST_STEP and drop * draft.block.ruling_length_mm(lower[0]) < LEAST_STEP_MM:
            what = f"on this body points {number} and {number + 1} lie only {drop:.0%} of bust to waist apart."
            problems.append(Problem("seam-hook", where, what, "Leave one of them out, or move them 20 % apart."))
        elif (lean := _lean_deg(draft, upper, lower)) > STEEPEST_DEG:
            what = f"between points {number} and {number + 1} it leans {lean:.0f}° from upright; 45° is the most."
            problems.append(Problem("seam-steep", where, what, "Bring the two points nearer in around."))
    if problems:
        raise GeometryError(problems)
