"""Rims: the edges of panels in the plane, before they are trued, and which of them will be sewn to which."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from fanblock.block.ruled import Block
from fanblock.draft.model import AROUND, HEIGHT
from fanblock.draft.slicing import Loop, Side
from fanblock.geometry.curve import Curve
from fanblock.geometry.meet import crossings
from fanblock.pattern.model import OPEN_KINDS, SEAM, SLIT
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import ALONG_MM, AT_WAIST_MM, CHORD_MM, CORNER_CLEAR_MM, SAME_POINT_MM


@dataclass(frozen=True, slots=True, eq=False)
class Rim:
    """One edge of a panel in the plane, in loop order; ``waist_at_mm`` along it, where it crosses the waist.

    ``part`` and ``level`` are those of its :class:`fanblock.draft.slicing.Side`. ``span`` tells where along its seam its two
    ends lie: how far up an upright seam, or how far back on a level one.
    """

    name: str
    kind: str
    curve: Curve
    seam: str = ""
    face: str = ""
    waist_at_mm: float | None = None
    pointed: bool = False
    part: str = ""
    level: bool = False
    span: tuple[float, float] = (0.0, 0.0)


RimPlace = tuple[int, int]
"""Number of a panel and number of a rim in it."""

Part = tuple[str, str]
"""A seam's name and which part of it, where level seams cut it."""

UNSEWN = frozenset({SLIT, *OPEN_KINDS})
"""Kinds of the edges along a seam that are not sewn to each other."""


@dataclass(frozen=True, slots=True)
class MatePair:
    """Two rims that will be sewn together: the front one runs along its seam in its loop, the back one against it."""

    seam: str
    front: RimPlace
    back: RimPlace
    part: str = ""


def rims_of(block: Block, loop: Loop) -> tuple[Rim, ...]:
    """Return the loop's edges in the plane."""
    return tuple(
        _rim(block, side, (loop[number - 1].level, loop[(number + 1) % len(loop)].level))
        for number, side in enumerate(loop)
    )


def _rim(block: Block, side: Side, on_level: tuple[bool, bool]) -> Rim:
    """Return a side in the plane; ``on_level`` tells which of its ends, the first or the last, stands on a level seam."""
    points = block.at(side.points[:, AROUND], side.points[:, HEIGHT])
    curve = _clear_of_corners(Curve.through(points))
    has_waist = side.seam and not side.level and side.kind not in UNSEWN
    ends = side.points[[0, -1], AROUND] if side.level else curve.points[[0, -1], 1]
    return Rim(
        name=side.name,
        kind=side.kind,
        curve=curve,
        seam=side.seam,
        face=side.face,
        waist_at_mm=_waist_on(block, side, curve, on_level) if has_waist else None,
        pointed=side.pointed,
        part=side.part,
        level=side.level,
        span=(float(ends[0]), float(ends[1])),
    )


def _waist_on(block: Block, side: Side, curve: Curve, on_level: tuple[bool, bool]) -> float | None:
    """Return where the waist meets an edge, along it; an edge that ends within a hair of the waist ends on it.

    So does one that ends on a level seam that runs along the waist, which squared to a centre line strays from it a little.
    """
    ends_mm = np.abs(side.points[[0, -1], HEIGHT]) * block.center_front_mm
    near = [ALONG_MM if level else AT_WAIST_MM for level in on_level]
    if ends_mm[0] < near[0]:
        return 0.0
    if ends_mm[1] < near[1]:
        return curve.length_mm
    places = crossings(side.points, HEIGHT, 0.0)
    return _distance_to(curve, block.at(*_at_place(side, float(places[0])))) if len(places) else None


def _at_place(side: Side, place: float) -> tuple[float, float]:
    index = min(int(place), len(side.points) - 2)
    around, height = side.points[index] + (place - index) * (side.points[index + 1] - side.points[index])
    return float(around), float(height)


def _distance_to(curve: Curve, point: np.ndarray) -> float:
    """Return how far along a curve a point of it lies: the nearest place on the nearest chord."""
    start, chord = curve.points[:-1], np.diff(curve.points, axis=0)
    share = np.clip(np.sum((point - start) * chord, axis=1) / np.sum(chord**2, axis=1), 0.0, 1.0)
    away = np.hypot(*(start + share[:, None] * chord - point).T)
    nearest = int(np.argmin(away))
    return float(curve.along[nearest] + share[nearest] * np.hypot(*chord[nearest]))


def _clear_of_corners(curve: Curve) -> Curve:
    """Return the curve without inner points so near its ends that they would spoil the tangents there."""
    along = curve.along
    keep = (along > CORNER_CLEAR_MM) & (along < curve.length_mm - CORNER_CLEAR_MM)
    keep[[0, -1]] = True
    return Curve.through(curve.points[keep])


def mated(panels: list[list[Rim]]) -> tuple[list[list[Rim]], tuple[MatePair, ...]]:
    """Return the panels and the pairs of rims to be sewn together.

    Where another seam ends on one side of a seam, that side lies in two pieces; the other side is then split at the
    same distance from the waist, or from its foot where it has none (the front end of a level seam), so that every piece
    has one mate. Parts of a seam that level seams cut it into are mated each by itself.
    """
    parts = sorted({(rim.seam, rim.part) for rims in panels for rim in rims if rim.seam and rim.kind not in UNSEWN})
    pairs: list[MatePair] = []
    for part in parts:
        panels = _evenly_split(panels, part)
    for part in parts:
        fronts, backs = _faces(panels, part, "front"), _faces(panels, part, "back")
        if len(fronts) != len(backs):
            what = "another seam ends on it too near its own end."
            where = f"seam “{part[0]}”"
            raise GeometryError([Problem("edge-tiny", where, what, "Move that seam away from the corner.")])
        pairs += [MatePair(part[0], front, back, part[1]) for front, back in zip(fronts, backs, strict=True)]
    return _one_line(panels, pairs), tuple(pairs)


def _one_line(panels: list[list[Rim]], pairs: list[MatePair]) -> list[list[Rim]]:
    """Return the panels so that both edges of a level seam run through the same points.

    Sampled each in its own pieces they would differ by a hair, and a level drawn along the seam could not be shared out
    between the panels above and below. Each edge keeps the corners of its own panel; where it goes on in its next piece, it
    has the other's.
    """
    result = [list(rims) for rims in panels]
    for pair in pairs:
        front, back = rim_at(panels, pair.front), rim_at(panels, pair.back)
        if not front.level:
            continue
        inner, own, other = front.curve.points[1:-1], front.curve, back.curve.reversed()
        for place, mine, theirs in ((pair.front, own, other), (pair.back, other, own)):
            starts, ends = (_goes_on(panels, place, step) for step in ((-1, 1) if place == pair.front else (1, -1)))
            start, end = (theirs if starts else mine).start, (theirs if ends else mine).end
            curve = Curve.through(np.vstack((start, inner, end)))
            rim = rim_at(panels, place)
            result[place[0]][place[1]] = replace(rim, curve=curve if place == pair.front else curve.reversed())
    return result


def _goes_on(panels: list[list[Rim]], place: RimPlace, step: int) -> bool:
    """Return whether the seam of a rim goes on in the next rim of its panel."""
    return rim_at(panels, beside(panels, place, step)).seam == rim_at(panels, place).seam


def rim_at(panels: list[list[Rim]], place: RimPlace) -> Rim:
    """Return the rim at a place."""
    return panels[place[0]][place[1]]


def beside(panels: list[list[Rim]], place: RimPlace, step: int) -> RimPlace:
    """Return the place ``step`` rims further on in the loop of the same panel."""
    return place[0], (place[1] + step) % len(panels[place[0]])


def crossing(panels: list[list[Rim]], pair: MatePair, *, top: bool) -> tuple[RimPlace, RimPlace]:
    """Return the edges that cross a seam at one end, in the panel before it and in the panel behind it.

    The ``top`` of a level seam is its end at the back.
    """
    return beside(panels, pair.front, 1 if top else -1), beside(panels, pair.back, -1 if top else 1)


def onto(panels: list[list[Rim]], pair: MatePair) -> tuple[str, ...]:
    """Return the seams that one ends on, or is cut by, and before which it is therefore sewn: from its top, or its back."""
    found = []
    for top in (True, False):
        over, under = (rim_at(panels, place) for place in crossing(panels, pair, top=top))
        is_cut = rim_at(panels, pair.front).level and over.part != under.part
        if over.seam and over.seam == under.seam != pair.seam and over.kind == SEAM and not is_cut:
            found.append(over.seam)
    return tuple(found)


def _faces(panels: list[list[Rim]], part: Part, face: str) -> list[RimPlace]:
    """Return the sewn rims on one side of a part of a seam, from its foot on."""
    found = [
        (panel, number)
        for panel, rims in enumerate(panels)
        for number, rim in enumerate(rims)
        if (rim.seam, rim.part) == part and rim.face == face and rim.kind not in UNSEWN
    ]
    return sorted(found, key=lambda place: sum(rim_at(panels, place).span))


def _evenly_split(panels: list[list[Rim]], part: Part) -> list[list[Rim]]:
    """Return the panels with each side of a part of a seam parted wherever its other side is."""
    if all(len(_faces(panels, part, face)) < 2 for face in ("front", "back")):
        return panels
    breaks = {face: _breaks(panels, part, face) for face in ("front", "back")}
    for face, other in (("front", "back"), ("back", "front")):
        for at_mm in breaks[other]:
            panels = _parted(panels, part, face, at_mm)
    return _numbered(panels, _faces(panels, part, "front"), _faces(panels, part, "back"))


def _breaks(panels: list[list[Rim]], part: Part, face: str) -> list[float]:
    """Return the places where one side of a seam is in two pieces, as lengths above the waist."""
    places = _faces(panels, part, face)
    lengths = [panels[panel][number].curve.length_mm for panel, number in places]
    foot = _foot_mm(panels, places)
    return [foot + total for total in np.cumsum(lengths)[:-1].tolist()]


def _foot_mm(panels: list[list[Rim]], places: list[RimPlace]) -> float:
    """Return how far above the waist (negative: below it) the pieces of one side begin; 0 where they have no waist."""
    run = 0.0
    for place in places:
        waist = _waist_from_foot(panels, place)
        if waist is not None:
            return -(run + waist)
        run += panels[place[0]][place[1]].curve.length_mm
    return 0.0


def _parted(panels: list[list[Rim]], part: Part, face: str, at_mm: float) -> list[list[Rim]]:
    """Return the panels with one side of a seam parted at a length above the waist, unless it is already."""
    places = _faces(panels, part, face)
    foot = _foot_mm(panels, places)
    for panel, number in places:
        rims, rim = panels[panel], panels[panel][number]
        head = foot + rim.curve.length_mm
        if foot + CHORD_MM < at_mm < head - CHORD_MM:
            pieces = _cut_rim(rim, at_mm - foot if face == "front" else head - at_mm)
            parted = [*rims[:number], *pieces, *rims[number + 1 :]]
            return [parted if each == panel else old for each, old in enumerate(panels)]
        foot = head
    return panels


def _waist_from_foot(panels: list[list[Rim]], place: RimPlace) -> float | None:
    rim = panels[place[0]][place[1]]
    if rim.waist_at_mm is None:
        return None
    return rim.waist_at_mm if rim.face == "front" else rim.curve.length_mm - rim.waist_at_mm


def _cut_rim(rim: Rim, cut_mm: float) -> list[Rim]:
    bounds = [0.0, cut_mm, rim.curve.length_mm]
    pieces = []
    for start, end in pairwise(bounds):
        inside = rim.waist_at_mm is not None and start - SAME_POINT_MM <= rim.waist_at_mm <= end + SAME_POINT_MM
        waist = rim.waist_at_mm - start if inside and rim.waist_at_mm is not None else None
        span = np.interp([start, end], [0.0, rim.curve.length_mm], rim.span)
        curve = rim.curve.between(start, end)
        pieces.append(replace(rim, curve=curve, waist_at_mm=waist, span=(float(span[0]), float(span[1]))))
    return pieces


def _numbered(panels: list[list[Rim]], fronts: list[RimPlace], backs: list[RimPlace]) -> list[list[Rim]]:
    """Give the pieces of a split seam names of their own, the same on both sides, from its foot on."""
    panels = [list(rims) for rims in panels]
    for places in (fronts, backs):
        for count, (panel, number) in enumerate(places, start=1):
            panels[panel][number] = replace(panels[panel][number], name=f"{panels[panel][number].name} {count}")
    return panels
