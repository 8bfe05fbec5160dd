"""Cutting a draft's outline into loops: along every seam, in the order in which the recipe draws them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

import numpy as np

from fanblock.draft.levelling import below, levelled
from fanblock.draft.model import AROUND, HEIGHT, Draft, LevelSeam
from fanblock.draft.ordering import front_to_back
from fanblock.draft.seamsides import SEAM_STEP_MM, seam_sides, stretches
from fanblock.draft.slicing import Loop, Side, holding, sliced, split_at_height
from fanblock.draft.takes import Take
from fanblock.pattern.model import SEAM, SLIT
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import ALONG_MM, AT_WAIST_MM, LEAST_EDGE_MM

BEYOND = 0.1
"""How far, in around, the line of a level seam is drawn beyond the two centre lines, for halves that lap."""


def sliced_loops(draft: Draft, whole: Loop, takes: tuple[Take, ...]) -> tuple[Loop, ...]:
    """Return the loops that an outline's seams make of it, from front to back, those one above another from the top down.

    GeometryError when a seam does not run right across the cloth, or runs into what it cannot cross.
    """
    by_name = {take.seam.name: take for take in takes}
    loops: tuple[Loop, ...] = (whole,)
    for seam in draft.in_order:
        if isinstance(seam, LevelSeam):
            count = int((1.0 + 2.0 * BEYOND) * draft.block.half_bust_mm / SEAM_STEP_MM)
            loops = levelled(loops, seam, np.linspace(-BEYOND, 1.0 + BEYOND, count))
        else:
            loops = _sliced_along(draft, loops, by_name[seam.name])
    crossed = bool(draft.level_seams) or any(seam.top_on or seam.low_on for seam in draft.seams)
    lowest = _lowest_parts(loops)
    return front_to_back(tuple(_opened(draft, loop, lowest) for loop in loops), crossed=crossed)


def _sliced_along(draft: Draft, loops: tuple[Loop, ...], take: Take) -> tuple[Loop, ...]:
    """Return the loops with every one that an upright seam runs through cut along it."""
    seam = take.seam
    front, back = seam_sides(draft, take)
    for top, low, top_on, low_on, part in stretches(draft, seam):
        middle = (top + low) / 2.0
        number = holding(loops, np.array([seam.around_at(middle), middle]))
        if number is None:
            what = "its middle lies off the cloth or on another seam's take."
            raise GeometryError([Problem("seam-off", f"seam “{seam.name}”", what, "Move it within a panel.")])
        level = part.removeprefix("below ")
        before, behind = (below(side, level) if part else side for side in (front, back))
        parted = sliced(loops[number], before, behind, middle, (top_on, low_on))
        loops = (*loops[:number], *parted, *loops[number + 1 :])
    return loops


def _lowest_parts(loops: tuple[Loop, ...]) -> Mapping[str, str]:
    """Return which part of each upright seam lies lowest."""
    found: dict[str, tuple[float, str]] = {}
    for side in (side for loop in loops for side in loop if side.kind == SEAM and not side.level):
        at = float(np.mean(side.points[:, HEIGHT]))
        found[side.seam] = min(found.get(side.seam, (at, side.part)), (at, side.part))
    return MappingProxyType({seam: part for seam, (_, part) in found.items()})


def _opened(draft: Draft, loop: Loop, lowest: Mapping[str, str]) -> Loop:
    """Return the loop with every seam that is open below the waist split there into a seam and the side of a tab.

    One that a level seam cuts opens below that one if it lies lower than the waist.
    """
    sides: list[Side] = []
    for side in loop:
        hangs = side.kind == SEAM and not side.level and side.part == lowest[side.seam]
        if hangs and draft.seam(side.seam).below == "open" and _below_waist_mm(draft, side, -1.0) > LEAST_EDGE_MM:
            sides += _parted(draft, side)
        else:
            sides.append(side)
    return tuple(sides)


def _parted(draft: Draft, side: Side) -> tuple[Side, ...]:
    """Return a side parted at the waist; one that ends there or lower down is a tab's side as a whole."""
    slit = replace(side, name=f"{side.seam} below waist", kind=SLIT)
    if _below_waist_mm(draft, side, 1.0) > -(ALONG_MM if side.part else AT_WAIST_MM):
        return (slit,)
    pieces = split_at_height(side, 0.0)
    low = [float(np.mean(piece.points[:, HEIGHT])) < 0.0 for piece in pieces]
    return tuple(
        replace(slit, points=piece.points) if hangs else piece for piece, hangs in zip(pieces, low, strict=True)
    )


def _below_waist_mm(draft: Draft, side: Side, way: float) -> float:
    """Return how far below the waist a side's lowest (``way`` -1) or highest (1) end lies, along the ruling."""
    end = side.points[np.argmax(way * side.points[:, HEIGHT])]
    return -float(end[HEIGHT]) * float(draft.block.ruling_length_mm(float(end[AROUND])))
