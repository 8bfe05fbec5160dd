"""What was moved and how far, in a sewist's words: one row a line, and one a height where seams are concerned."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from fanblock.adopting.darts import DartTarget
from fanblock.adopting.levels import left_over_mm
from fanblock.adopting.moved import DrawnMark, apart_mm
from fanblock.adopting.outlines import on_cloth
from fanblock.adopting.placing import SAME_MM
from fanblock.adopting.taking import LEAST_MM
from fanblock.adopting.targets import SeamTarget, Target
from fanblock.draft.model import Draft
from fanblock.draft.takes import takes_of
from fanblock.draft.work import Work
from fanblock.geometry.curve import Points

WELL_INSIDE = 0.02
"""How far from its ends, as a share of bust to waist, a seam's top and bottom are told: at the very ends truing was at work."""


@dataclass(frozen=True, slots=True)
class Row:
    """One thing that was moved: the line, the place on it, how far and which way, and how far the new recipe misses it."""

    line: str
    at: str
    moved: str
    mm: float
    left_mm: float


def outline_row(old: Draft, new: Draft, name: str, target: Target) -> Row:
    """Return the row of an outline line: its largest move, where, and what the recipe's line still stands off."""
    line = next(line for line in new.lines if line.name == name)
    return _line_row(old, name, target, float(target.held(on_cloth(new.block, line))[1].max()))


def level_row(old: Draft, new: Draft, name: str, target: Target) -> Row:
    """Return the row of a level seam: its largest move, where, and what the recipe's seam still stands off."""
    seam = next(seam for seam in new.level_seams if seam.name == name)
    return _line_row(old, name, target, left_over_mm(seam, new, target))


def _line_row(old: Draft, name: str, target: Target, left: float) -> Row:
    off = np.hypot(*target.shift.T)
    worst = int(np.argmax(off))
    point = target.old.at(float(target.along[worst]))
    around, _ = (float(value) for value in old.block.where(point))
    up = float(target.shift[worst] @ old.block.ruling_direction(around))
    across = float(np.sqrt(max(off[worst] ** 2 - up**2, 0.0)))
    if abs(up) >= across:
        way = "up" if up > 0.0 else "down"
    else:
        tangent = old.block.around_slope(around, 0.0)
        way = "to the back" if float(target.shift[worst] @ tangent) > 0.0 else "to the front"
    return Row(name, f"{around:.0%} around", f"{off[worst]:.1f} mm {way}", float(off[worst]), left)


def dart_rows(darts: Mapping[str, tuple[DartTarget, float]], marks: Sequence[DrawnMark], work: Work) -> tuple[Row, ...]:
    """Return the rows of darts: how far mouth and point were moved and what more it takes, and what the new legs miss."""
    rows = []
    for name, (_, wider) in darts.items():
        legs = [mark for mark in marks if mark.name == name]
        made = [mark.curve for panel in work.panels for mark in panel.marks if (mark.name, mark.kind) == (name, "dart")]
        left = max(min(apart_mm(leg.new, curve) for curve in made) for leg in legs)
        for at, end in (("at its mouth", 0), ("at its point", -1)):
            was, now = (np.mean([getattr(leg, which).points[end] for leg in legs], axis=0) for which in ("old", "new"))
            mm = float(np.hypot(*(now - was)))
            if mm > SAME_MM:
                rows.append(Row(name, at, f"{mm:.1f} mm {_way(now - was)}", mm, left))
        if wider:
            rows.append(
                Row(
                    name,
                    "at its mouth",
                    f"takes {abs(wider):.1f} mm {'more' if wider > 0 else 'less'}",
                    abs(wider),
                    left,
                )
            )
    return tuple(rows)


def _way(shift: Points) -> str:
    """Return which way something was moved, as the piece hangs on the body."""
    if abs(shift[1]) >= abs(shift[0]):
        return "up" if shift[1] > 0.0 else "down"
    return "to the back" if shift[0] > 0.0 else "to the front"


def seam_rows(old: Draft, new: Draft, name: str, moved: SeamTarget) -> list[Row]:
    """Return the rows of a seam: how far it was moved at its top, at the waist and at its lower end, and where it was most."""
    was, now = old.seam(name), new.seam(name)
    takes = [next(take for take in takes_of(draft) if take.seam.name == name) for draft in (old, new)]
    rows = []
    for at, height in _told_at(moved):
        more = moved.take_at(height)
        if abs(more) >= LEAST_MM:
            before, after = (float(take(np.array([height]))[0]) for take in takes)
            word = "more" if more > 0.0 else "less"
            rows.append(Row(name, at, f"takes {abs(more):.1f} mm {word}", abs(more), abs(before + more - after)))
        shift = float(moved.shift_at(np.array([height]))[0])
        if abs(shift) < SAME_MM:
            continue
        wanted = float(moved.around_at(old.block, was, np.array([height]))[0])
        left = abs(float(new.block.level_part_mm(height, now.around_at(height), wanted)))
        way = "to the back" if shift > 0.0 else "to the front"
        rows.append(Row(name, at, f"{abs(shift):.1f} mm {way}", abs(shift), left))
    return rows


def _told_at(moved: SeamTarget) -> list[tuple[str, float]]:
    """Return the heights at which a seam's move is told, from the top down, each with its words."""
    low, high = float(moved.heights[0]) + WELL_INSIDE, float(moved.heights[-1]) - WELL_INSIDE
    found = [("at the top", high)]
    if moved.heights[0] < WELL_INSIDE and high > 0.0:
        found.append(("at the waist", 0.0))
    if low < -2.0 * WELL_INSIDE:
        found.append(("at the bottom", low))
    far = np.abs(moved.shift_mm) + np.abs(moved.take_mm)
    most = float(moved.heights[int(np.argmax(far))])
    if min(abs(most - height) for _, height in found) > 3.0 * WELL_INSIDE:
        found.append((f"at {most:.0%}", most))
    return sorted(found, key=lambda one: -one[1])
