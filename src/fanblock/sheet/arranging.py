"""Pieces laid on pages that are to be joined: few pages, no line along a join, room for the long line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from fanblock.geometry import region
from fanblock.geometry.curve import Points, frozen
from fanblock.pattern.model import Panel, Pattern
from fanblock.sheet.alongside import Shift, along_mm, firm_runs, nudged
from fanblock.sheet.clear import KEPT
from fanblock.sheet.drawing import Drawing, Group, Stroke
from fanblock.sheet.labels import BODY
from fanblock.sheet.longline import line_on_tiles, long_line_block
from fanblock.sheet.paper import Paper
from fanblock.sheet.piece import Piece, printed
from fanblock.sheet.tilepacking import Tiling, pack_on_tiles
from fanblock.sheet.tiles import TilePlan, field_on, plan_tiles
from fanblock.sheet.upright import moved_group

GRID_PEN = "square cm"
"""Pen of the grid that may lie under a piece."""

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


JOIN_CLEAR_MM = ((-4.0, -3.0, -2.0, -1.0, 0.0, 1.0, 2.0, 3.0, 4.0), (0.0,))
"""Lines beside a join that words keep off: first those over its own words and marks, else the join alone."""


def off_joins(laid: Arranged, pattern: Pattern) -> Arranged:
    """Return the same pieces where they lie, the words on them moved, where there is room, so that no join cuts them.

    A piece whose words would have to stand on a flag, or be left out, keeps them where they were.
    """
    pieces = list(laid.pieces)
    for offsets in JOIN_CLEAR_MM:
        cut = [at for at, shift in enumerate(laid.shifts) if _is_cut(pieces[at], shift, laid.plan, offsets)]
        cut = [at for at in cut if pieces[at] is laid.pieces[at]]
        kept = [_join_runs(pieces[at], laid.shifts[at], laid.plan, offsets) for at in cut]
        for at, new in zip(cut, printed([_own(pieces[at], pattern) for at in cut], pattern, kept), strict=True):
            if _says_as_much(new, pieces[at]):
                pieces[at] = replace(new, group=Group(new.group.name, (*_squares(pieces[at]), *new.group.items)))
    return replace(laid, pieces=tuple(pieces))


def _squares(piece: Piece) -> Iterator[Stroke]:
    """The grid that may lie under a piece."""
    return (item for item in piece.group.items if isinstance(item, Stroke) and item.pen == GRID_PEN)


def _own(piece: Piece, pattern: Pattern) -> Panel:
    """The panel of a piece as the pattern has it."""
    return next(panel for panel in pattern.panels if panel.number == piece.panel.number)


def _join_runs(piece: Piece, shift: Shift, plan: TilePlan, offsets: Sequence[float]) -> list[Points]:
    """Lines along the joins that run through a piece, in its own frame."""
    low, high = piece.outline.min(axis=0), piece.outline.max(axis=0)
    found = []
    for joint in plan.joints:
        axis, field = (0 if joint.upright else 1), joint.over.field
        ends = (field.bottom, field.top) if joint.upright else (field.left, field.right)
        first, last = (np.clip(end - shift[1 - axis], low[1 - axis], high[1 - axis]) for end in ends)
        at = joint.at_mm - shift[axis]
        if last > first and low[axis] < at < high[axis]:
            for off in offsets:
                run = np.empty((2, 2))
                run[:, axis], run[:, 1 - axis] = at + off, (first, last)
                found.append(frozen(run))
    return found


def _is_cut(piece: Piece, shift: Shift, plan: TilePlan, offsets: Sequence[float]) -> bool:
    """Whether a word of a piece lies on a join."""
    runs = _join_runs(piece, shift, plan, offsets)
    boxes = [label.box for label in piece.labels if label.box.width_mm > 0.0]
    return any(
        region.gap_of_lines_mm(run, np.vstack((box.corners(), box.corners()[:1]))) == 0.0
        for run in runs
        for box in boxes
    )


def _says_as_much(new: Piece, old: Piece) -> bool:
    """Whether a piece says all that another says, within the same outline."""
    if new.outline.shape != old.outline.shape or not np.allclose(new.outline, old.outline):
        return False
    said, before = ({label.name for label in one.labels} for one in (new, old))
    whole = {*BODY} if "all" in said or "all" in before else set()
    return before - {"all", "grain", *whole} <= said


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
