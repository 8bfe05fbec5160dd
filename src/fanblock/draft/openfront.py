"""The free line of an open front: where the front edge runs, read at every height."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from fanblock.block.ruled import Block
from fanblock.draft.lacing import HIGHEST, LOWEST
from fanblock.draft.model import AROUND, HEIGHT, HEM_EDGE, TOP_EDGE, Draft
from fanblock.draft.places import place_of
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.meet import meetings
from fanblock.geometry.splines import through_points
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Position

STEP_MM = 2.0
"""Distance between the points of the line."""

CARRIED_MM = 250.0
"""How far the line goes on straight beyond its two ends, so that the outline cuts it."""

LEAST_DROP_MM = 5.0
"""Points of the line nearer than this in height would draw a hook."""

MOST_AROUND = 0.5
"""An open front does not reach behind the side."""


def free_line(draft: Draft, through: tuple[Position, ...], *, straight: bool) -> Points:
    """Return (around, height), rising, along a front edge through these positions, given from the top down.

    GeometryError when on this body they do not run from the top down, pass the centre front or lie behind the side.
    """
    places = [place_of(draft, position) for position in through]
    _check_course(draft, places)
    corners = np.array([draft.block.at(*place) for place in reversed(places)])
    points = _straight(corners) if straight else through_points(corners, STEP_MM)
    points = np.vstack((_beyond(points[0], points[1])[::-1], points, _beyond(points[-1], points[-2])))
    around, height = draft.block.where(points)
    kept = _rising(np.column_stack((around, height)))
    line = np.vstack(([kept[0, AROUND], LOWEST - 1.0], kept, [kept[-1, AROUND], HIGHEST + 1.0]))
    return frozen(line)


def waist_width_mm(block: Block, line: Points) -> float:
    """Return how far apart the two edges along a line and its mirror image stand at the waist."""
    around = float(np.interp(0.0, line[:, HEIGHT], line[:, AROUND]))
    return 2.0 * block.level_part_mm(0.0, 0.0, around)


def refuse_crossed_front(draft: Draft) -> None:
    """Refuse an open front whose two edges run over each other before they reach the hem or the top edge."""
    for gap in (gap for gap in draft.gaps if gap.free):
        for chain, way in ((HEM_EDGE, "down"), (TOP_EDGE, "up")):
            edge = np.vstack([line.points for line in draft.chain(chain)])
            if not meetings(edge, gap.line):
                what = (
                    f"on their way {way} the front edges run over each other, or past the {chain}, before they meet it."
                )
                remedy = "Give the open front one more point there, and begin the edge at `front edge`."
                raise GeometryError([Problem("front-crossed", "open front", what, remedy)])


def _straight(corners: Points) -> Points:
    runs = [through_points(np.array(pair), STEP_MM) for pair in pairwise(corners)]
    return np.vstack([runs[0], *(run[1:] for run in runs[1:])])


def _beyond(end: Points, inner: Points) -> Points:
    """Return points straight on beyond an end of the line, as seen from the point before it."""
    leaving = (end - inner) / np.hypot(*(end - inner))
    return np.asarray(end + np.arange(STEP_MM, CARRIED_MM, STEP_MM)[:, None] * leaving)


def _rising(line: Points) -> Points:
    """Return the stretch of a line about its middle on which height only rises and around keeps near the block."""
    middle = len(line) // 2
    sound = (np.diff(line[:, HEIGHT]) > 0.0) & (np.abs(line[1:, AROUND]) < 1.0)
    wrong_below, wrong_above = np.flatnonzero(~sound[:middle]), np.flatnonzero(~sound[middle:])
    first = int(wrong_below[-1]) + 1 if len(wrong_below) else 0
    last = middle + int(wrong_above[0]) if len(wrong_above) else len(line) - 1
    return line[first : last + 1]


def _check_course(draft: Draft, places: list[tuple[float, float]]) -> None:
    problems = []
    where = "through"
    for number, (around, _) in enumerate(places, start=1):
        if around < 0.0:
            what = f"on this body point {number} lies past the centre front."
            problems.append(
                Problem("front-crossed", where, what, "Let the edges meet at the centre front, or stand apart.")
            )
        elif around > MOST_AROUND:
            what = f"on this body point {number} lies at {around:.0%} around, behind the side."
            problems.append(Problem("front-wide", where, what, "Bring it nearer to the centre front."))
    for number, (upper, lower) in enumerate(pairwise(places), start=1):
        drop = (upper[1] - lower[1]) * draft.block.ruling_length_mm(lower[0])
        if drop < LEAST_DROP_MM:
            what = f"on this body point {number + 1} does not lie below point {number}."
            problems.append(Problem("front-order", where, what, "Give the points from the top down."))
    if problems:
        raise GeometryError(problems)
