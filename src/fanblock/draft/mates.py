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
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import AT_WAIST_MM, CORNER_CLEAR_MM, SAME_POINT_MM


@dataclass(frozen=True, slots=True, eq=False)
class Rim:
    """One edge of a panel in the plane, in loop order; ``waist_at_mm`` along it, where it crosses the waist."""

    name: str
    kind: str
    curve: Curve
    seam: str = ""
    face: str = ""
    waist_at_mm: float | None = None
    pointed: bool = False


RimPlace = tuple[int, int]
"""Number of a panel and number of a rim in it."""


@dataclass(frozen=True, slots=True)
class MatePair:
    """Two rims that will be sewn together: the front one rises in its loop, the back one falls in its own."""

    seam: str
    front: RimPlace
    back: RimPlace


def rims_of(block: Block, loop: Loop) -> tuple[Rim, ...]:
    """Return the loop's edges in the plane."""
    return tuple(_rim(block, side) for side in loop)


def _rim(block: Block, side: Side) -> Rim:
    points = block.at(side.points[:, AROUND], side.points[:, HEIGHT])
    curve = _clear_of_corners(Curve.through(points))
    waist_at = None
    if side.seam:
        waist_at = _waist_on(block, side, curve)
    return Rim(side.name, side.kind, curve, side.seam, side.face, waist_at, side.pointed)


def _waist_on(block: Block, side: Side, curve: Curve) -> float | None:
    """Return where the waist meets an edge, along it; an edge that ends within a hair of the waist ends on it."""
    ends_mm = np.abs(side.points[[0, -1], HEIGHT]) * block.center_front_mm
    if ends_mm[0] < AT_WAIST_MM:
        return 0.0
    if ends_mm[1] < AT_WAIST_MM:
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
    same distance from the waist, or from its foot where it has none, so that every piece has one mate.
    """
    names = sorted({rim.seam for rims in panels for rim in rims if rim.seam})
    pairs: list[MatePair] = []
    for name in names:
        panels = _evenly_split(panels, name)
    for name in names:
        fronts, backs = _faces(panels, name, "front"), _faces(panels, name, "back")
        if len(fronts) != len(backs):
            what = "another seam ends on it too near its own end."
            raise GeometryError([Problem("edge-tiny", f"seam “{name}”", what, "Move that seam away from the corner.")])
        pairs += [MatePair(name, front, back) for front, back in zip(fronts, backs, strict=True)]
    return panels, tuple(pairs)


def _faces(panels: list[list[Rim]], seam: str, face: str) -> list[RimPlace]:
    """Return the sewn rims on one side of a seam, from the lowest up."""
    found = [
        (panel, number)
        for panel, rims in enumerate(panels)
        for number, rim in enumerate(rims)
        if rim.seam == seam and rim.face == face and rim.kind != "slit"
    ]
    return sorted(found, key=lambda place: float(np.mean(panels[place[0]][place[1]].curve.points[:, 1])))


def _evenly_split(panels: list[list[Rim]], seam: str) -> list[list[Rim]]:
    """Return the panels with each side of a seam parted wherever its other side is."""
    if all(len(_faces(panels, seam, face)) < 2 for face in ("front", "back")):
        return panels
    breaks = {face: _breaks(panels, seam, face) for face in ("front", "back")}
    for face, other in (("front", "back"), ("back", "front")):
        for at_mm in breaks[other]:
            panels = _parted(panels, seam, face, at_mm)
    return _numbered(panels, seam, _faces(panels, seam, "front"), _faces(panels, seam, "back"))


def _breaks(panels: list[list[Rim]], seam: str, face: str) -> list[float]:
    """Return the places where one side of a seam is in two pieces, as lengths above the waist."""
    places = _faces(panels, seam, face)
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


def _parted(panels: list[list[Rim]], seam: str, face: str, at_mm: float) -> list[list[Rim]]:
    """Return the panels with one side of a seam parted at a length above the waist, unless it is already."""
    places = _faces(panels, seam, face)
    foot = _foot_mm(panels, places)
    for panel, number in places:
        rims, rim = panels[panel], panels[panel][number]
        head = foot + rim.curve.length_mm
        if foot + SAME_POINT_MM < at_mm < head - SAME_POINT_MM:
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
        pieces.append(replace(rim, curve=rim.curve.between(start, end), waist_at_mm=waist))
    return pieces


def _numbered(panels: list[list[Rim]], seam: str, fronts: list[RimPlace], backs: list[RimPlace]) -> list[list[Rim]]:
    """Give the pieces of a split seam names of their own, the same on both sides, from the lowest up."""
    panels = [list(rims) for rims in panels]
    for places in (fronts, backs):
        for count, (panel, number) in enumerate(places, start=1):
            panels[panel][number] = replace(panels[panel][number], name=f"{seam} {count}")
    return panels
