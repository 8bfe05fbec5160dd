"""Pieces laid on pages that are to be joined: few pages, no line along a join, room for the long line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fanblock.geometry.curve import Points
from fanblock.sheet.alongside import Shift, along_mm, firm_runs, nudged
from fanblock.sheet.clear import KEPT
from fanblock.sheet.drawing import Drawing, Group
from fanblock.sheet.longline import line_on_tiles, long_line_block
from fanblock.sheet.paper import Paper
from fanblock.sheet.piece import Piece
from fanblock.sheet.tilepacking import Tiling, pack_on_tiles
from fanblock.sheet.tiles import TilePlan, field_on, plan_tiles
from fanblock.sheet.upright import moved_group

PEN_ROOM_MM = 1.0
"""Room for the width of pens, which outlines do not know."""


@dataclass(frozen=True, eq=False)
class Arranged:
    """Pieces with their shifts on a drawing of ``size_mm``, and the plan of its pages."""

    pieces: tuple[Piece, ...]
    shifts: tuple[Shift, ...]
    size_mm: Shift
    plan: TilePlan

    @cached_property
    def groups(self) -> tuple[Group, ...]:
        """What is drawn."""
        return tuple(moved_group(one.group, shift) for one, shift in self.placed)

    @property
    def placed(self) -> tuple[tuple[Piece, Shift], ...]:
        """Every piece with its shift."""
        return tuple(zip(self.pieces, self.shifts, strict=True))

    @property
    def grounds(self) -> list[Points]:
        """The outlines where they lie."""
        return [one.outline + shift for one, shift in self.placed]

    @cached_property
    def firm(self) -> Points:
        """Points of every line that the long line may not be taken for."""
        runs = firm_runs(self.groups, KEPT)
        return runs[np.isfinite(runs[:, 0])]

    @cached_property
    def has_room_for_line(self) -> bool:
        """Whether the long line finds a place on its pages that no piece lies on."""
        return line_on_tiles((self.grounds,), self.firm, self.plan, self.size_mm) is not None


def arranged(pieces: Sequence[Piece], paper: Paper, name: str) -> Arranged:
    """Return the pieces laid so that few pages are needed and, if it costs no page, the long line lies beside them."""
    found = _laid(tuple(pieces), paper, name, ())
    if found.has_room_for_line:
        return found
    for upright in (True, False):
        other = _laid(tuple(pieces), paper, name, (long_line_block(upright).outline,))
        if len(other.plan.tiles) <= len(found.plan.tiles) and other.has_room_for_line:
            return other
    return found


def _laid(pieces: tuple[Piece, ...], paper: Paper, name: str, kept: tuple[Points, ...]) -> Arranged:
    """The pieces laid with room kept free for the outlines in ``kept``."""
    field = field_on(paper)
    tiling = Tiling(field.width_mm, field.height_mm, paper.overlap_mm - PEN_ROOM_MM)
    outlines = [outline * (1.0, -1.0) for outline in (*(one.outline for one in pieces), *kept)]
    packing = pack_on_tiles(outlines, tiling)
    far = np.max([ring.max(axis=0) + shift for ring, shift in zip(outlines, packing.shifts, strict=True)], axis=0)
    size = (_whole_pages(far[0], field.width_mm, paper), _whole_pages(far[1], field.height_mm, paper))
    shifts = tuple((x, size[1] - y) for x, y in packing.shifts[: len(pieces)])

    def plan_of(shifts: Sequence[Shift]) -> TilePlan:
        groups = tuple(moved_group(one.group, shift) for one, shift in zip(pieces, shifts, strict=True))
        ink = [one.ink + shift for one, shift in zip(pieces, shifts, strict=True)]
        return plan_tiles(Drawing(name, *size, groups), paper, ink)

    plan = plan_of(shifts)
    runs = [firm_runs((one.group,)) for one in pieces]
    freed = nudged([one.outline for one in pieces], runs, shifts, plan, size)
    if freed == shifts:
        return Arranged(pieces, shifts, size, plan)
    every = np.vstack([run + shift for run, shift in zip(runs, freed, strict=True)])
    plan = min((plan, plan_of(freed)), key=lambda one: (len(one.tiles), along_mm(every, one)))
    return Arranged(pieces, freed, size, plan)


def _whole_pages(length_mm: float, field_mm: float, paper: Paper) -> float:
    """The length of as many whole pages as a length needs."""
    count = max(1, int(np.ceil((length_mm - paper.overlap_mm + PEN_ROOM_MM) / field_mm)))
    return paper.overlap_mm + count * field_mm
