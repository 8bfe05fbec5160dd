"""Slicing along level seams: every loop that one crosses is cut into an upper and a lower one.

A level seam is a function of around, so it enters and leaves a loop by turns as it runs from the front to the back. Between
its two ends it cuts every such stretch. Upright seams that it crosses are cut in two: what lies below it becomes a part of
its own, with its own mates. On one that it ends on it makes a T, as any seam does.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from fanblock.draft.model import AROUND, HEIGHT, LevelSeam
from fanblock.draft.slicing import Hit, Loop, Side, walked
from fanblock.geometry.curve import Points
from fanblock.geometry.meet import point_at, points_at
from fanblock.pattern.model import CENTER, OPEN_KINDS, SEAM
from fanblock.problems import GeometryError, Problem
from fanblock.terms import LANDMARK_AROUNDS, SIDE
from fanblock.tolerances import GRAZING

MOST_LAPPED = 0.5
"""A stretch of which no more than this share lies between the ends of a level seam is not meant by it."""

WITHIN = 0.002
"""A level seam that ends nearer than this, in around, to the edge it meets ends on it."""

_HALVINGS = 48

Part = tuple[str, str]
"""A seam's name and which part of it."""

Span = tuple[Hit, Hit]
"""Where a level seam enters a loop and leaves it again."""


def levelled(loops: tuple[Loop, ...], seam: LevelSeam, arounds: Points) -> tuple[Loop, ...]:
    """Return the loops cut along a level seam; ``arounds`` are the stations, rising, at which its line is drawn.

    GeometryError when the seam lies off the cloth, ends in the midst of it, or runs into an edge that it cannot cross.
    """
    line = np.column_stack((arounds, seam.height_of(arounds)))
    pieces: list[Loop] = []
    crossed: set[Part] = set()
    for loop in loops:
        pieces += _cut(loop, seam, line, crossed, above=True)
    if len(pieces) == len(loops):
        what = "it does not run through the cloth on this body."
        raise GeometryError([Problem("seam-off", f"seam “{seam.name}”", what, "Move it up or down.")])
    return tuple(tuple(_renamed(side, seam, crossed) for side in loop) for loop in pieces)


def _cut(loop: Loop, seam: LevelSeam, line: Points, crossed: set[Part], *, above: bool) -> list[Loop]:
    """Return the pieces of a loop; ``above`` tells on which side of the line a point of the loop on it is counted."""
    for span in _spans(loop, seam, above=above):
        if not _is_meant(span, seam):
            continue
        crossed |= _crossed(loop, span, seam)
        upper, lower = _parted(loop, span, seam, line)
        return [*_cut(upper, seam, line, crossed, above=True), *_cut(lower, seam, line, crossed, above=False)]
    return [loop]


def _spans(loop: Loop, seam: LevelSeam, *, above: bool) -> list[Span]:
    """Return the stretches of a level seam inside a loop, from front to back."""
    points = np.vstack([side.points for side in loop])
    ring = np.vstack((points, points[:1]))
    over = ring[:, HEIGHT] - seam.height_of(ring[:, AROUND])
    over = np.where(np.abs(over) < GRAZING, GRAZING if above else -GRAZING, over)
    at = np.flatnonzero((over[:-1] > 0.0) != (over[1:] > 0.0))
    places = _met(ring, at, over[at] > 0.0, seam)
    starts = np.cumsum([0, *(len(side.points) for side in loop[:-1])])
    hits: list[Hit] = []
    for place, around in zip(places.tolist(), points_at(ring, places)[:, AROUND].tolist(), strict=True):
        number = int(np.searchsorted(starts, place, side="right")) - 1
        on = place - float(starts[number])
        if on > len(loop[number].points) - 1:  # in the joint between two sides
            number, on = (number + 1) % len(loop), 0.0
        hits.append((number, on, around))
    hits.sort(key=lambda hit: hit[2])
    return list(zip(hits[::2], hits[1::2], strict=True))


def _met(ring: Points, at: NDArray[np.intp], falls: NDArray[np.bool_], seam: LevelSeam) -> Points:
    """Return the places, counted in points, at which straight runs that begin at some points of a loop meet a level seam."""
    low, high = np.zeros(len(at)), np.ones(len(at))
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        points = ring[at] + middle[:, None] * (ring[at + 1] - ring[at])
        over = points[:, HEIGHT] > seam.height_of(points[:, AROUND])
        low, high = np.where(over == falls, middle, low), np.where(over == falls, high, middle)
    return np.asarray(at + (low + high) / 2.0)


def _is_meant(span: Span, seam: LevelSeam) -> bool:
    """Return whether a stretch lies between the seam's two ends: takes let it lap a little over one that it ends on."""
    first, last = span[0][2], span[1][2]
    shared = min(last, seam.end) - max(first, seam.start)
    return shared > MOST_LAPPED * min(last - first, seam.end - seam.start)


def _crossed(loop: Loop, span: Span, seam: LevelSeam) -> set[Part]:
    """Return the upright seams that a level seam crosses at the ends of a span; refuse an end that cannot be."""
    found = set()
    ends = ((span[0], seam.start_on, seam.start - span[0][2]), (span[1], seam.end_on, span[1][2] - seam.end))
    for (number, _, around), stands_on, short in ends:
        met = loop[number]
        _check_end(met, seam, stands_on, short, around)
        if met.seam and met.kind in {SEAM, *OPEN_KINDS} and met.seam != stands_on:
            found.add((met.seam, met.part))
    return found


def _check_end(met: Side, seam: LevelSeam, stands_on: str, short: float, around: float) -> None:
    """Refuse a level seam that ends in the midst of the cloth, ``short`` of an edge, or meets one that it cannot cross."""
    where = f"seam “{seam.name}”"
    outermost = not met.seam and met.kind in {CENTER, *OPEN_KINDS}
    if outermost and stands_on in LANDMARK_AROUNDS and stands_on != SIDE:
        return
    if met.level or (met.seam and met.kind not in {SEAM, *OPEN_KINDS}):
        what = f"it runs into {met.name}." if met.level else f"it runs into {met.name}, which is sewn to another edge."
        raise GeometryError([Problem("seam-crossing", where, what, "Move one of the two up or down.")])
    if outermost or (short > WITHIN and met.seam != stands_on):
        what = f"it ends in the midst of the cloth, before it meets {met.name} at {around:.0%} around."
        raise GeometryError([Problem("seam-short", where, what, "Let its ends reach an edge or a seam.")])


def _parted(loop: Loop, span: Span, seam: LevelSeam, line: Points) -> tuple[Loop, Loop]:
    """Return the loops above and below a span of a level seam."""
    first, last = span
    start, end = (point_at(loop[number].points, place) for number, place, _ in span)
    within = (line[:, AROUND] > first[2] + GRAZING) & (line[:, AROUND] < last[2] - GRAZING)
    points = np.vstack((start, line[within], end))
    pointed = seam.pointed[0] if first[2] <= seam.start + WITHIN else False
    pointed = pointed or (seam.pointed[1] and last[2] >= seam.end - WITHIN)
    under = Side(seam.name, SEAM, points, seam.name, "front", pointed, level=True)
    over = replace(under, points=points[::-1], face="back")
    return (*walked(loop, last, first), under), (*walked(loop, first, last), over)


def _renamed(side: Side, seam: LevelSeam, crossed: set[Part]) -> Side:
    """Return a side of a seam that was crossed, named for what it lies below where it does."""
    if (side.seam, side.part) not in crossed:
        return side
    around, height = side.points[len(side.points) // 2]
    if height > seam.height_at(float(around)):
        return side
    return below(side, seam.name)


def below(side: Side, level: str) -> Side:
    """Return a side of an upright seam as the part of it below a level seam."""
    whole = side.name.removesuffix(f" {side.part}") if side.part else side.name
    return replace(side, name=f"{whole} below {level}", part=f"below {level}")
