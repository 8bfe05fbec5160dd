"""What the pieces of one half add up to, level by level, beside what they should add up to."""

from __future__ import annotations

import numpy as np

from fanblock.draft.lacing import lacing_line
from fanblock.draft.model import AROUND, HEIGHT, Draft, Work
from fanblock.draft.separate import block_loop, outline
from fanblock.draft.slicing import inside_at
from fanblock.draft.takes import Take, takes_of
from fanblock.pattern.model import Girth

LEVELS = tuple(step / 10 for step in range(11))
"""The waist, the bust and every tenth of the way between."""

Stretch = tuple[float, float]


def girths_of(work: Work) -> tuple[Girth, ...]:
    """Return the sums at the waist, the bust and every 10 % between, all of one half.

    The parts are measured on the finished panels, what is open (above the top edge) and the gap on the block, so that
    parts + open + gap + takes can be held against the block's own level.
    """
    draft = work.draft
    whole = outline(draft)
    takes = takes_of(draft)
    loops = [block_loop(draft, panel) for panel in work.panels]
    return tuple(_girth(draft, height, takes, inside_at(whole, height), loops) for height in LEVELS)


def _girth(draft: Draft, height: float, takes: tuple[Take, ...], cloth: list[Stretch], loops: list[object]) -> Girth:
    block = draft.block
    level = block.level_length_mm(height)
    gap = sum(_gap_at(draft, number, height) for number in range(len(draft.gaps)))
    inside = sum(block.level_part_mm(height, start, end) for start, end in cloth)
    parts = sum(
        block.level_part_mm(height, start, end) for loop in loops for start, end in inside_at(loop, height)  # type: ignore[arg-type]
    )
    taken = tuple((take.seam.name, _taken(draft, take, height, cloth)) for take in takes)
    name, body, ease, reduction = "", None, 0.0, 0.0
    if height == LEVELS[0]:
        name, body = "waist", draft.body.length_mm("waist")
        ease, reduction = draft.waist_ease_mm, draft.waist_reduction_mm
    elif height == LEVELS[-1]:
        name, body = "bust", draft.body.length_mm("bust")
        ease, reduction = draft.bust_ease_mm, draft.bust_reduction_mm
    return Girth(
        name=name or f"{height:.0%}",
        height=height,
        block_mm=level,
        takes_mm=sum(mm for _, mm in taken),
        takes=taken,
        gap_mm=gap,
        parts_mm=parts,
        open_mm=level - gap - inside,
        body_mm=body,
        ease_mm=ease,
        reduction_mm=reduction,
    )


def _gap_at(draft: Draft, number: int, height: float) -> float:
    """Return what a gap takes off one half at a level: the part of the level between lacing edge and centre line."""
    gap = draft.gaps[number]
    line = lacing_line(draft.block, gap)
    around = float(np.interp(height, line[:, HEIGHT], line[:, AROUND]))
    center = 1.0 if gap.at == "center back" else 0.0
    return abs(draft.block.level_part_mm(height, around, center))


def _taken(draft: Draft, take: Take, height: float, cloth: list[Stretch]) -> float:
    """Return what a seam takes of the cloth at a level: the stretch between its edges, where there is cloth."""
    middle = take.seam.around_at(height)
    half = float(take(np.array([height]))[0]) / 2.0
    front = float(draft.block.along(middle, height, -half))
    back = float(draft.block.along(middle, height, half))
    if not take.seam.low <= height <= max(take.seam.top, take.seam.low):
        return 0.0
    low, high = min(front, back), max(front, back)
    inside = sum(
        max(draft.block.level_part_mm(height, max(low, start), min(high, end)), 0.0)
        for start, end in cloth
        if min(high, end) > max(low, start)
    )
    return inside if back >= front else -inside
