"""What the pieces of one half add up to, level by level, beside what they should add up to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from fanblock.block.ruled import Block
from fanblock.block.stand import ON_WAIST_AND_BUST, Level
from fanblock.draft.model import Draft
from fanblock.draft.opening import half_width_mm
from fanblock.draft.slicing import stretches_at
from fanblock.draft.takes import dart_takes_of
from fanblock.draft.work import Work
from fanblock.finish.beside import Stretch, runs_of, seam_arounds
from fanblock.pattern.model import Girth
from fanblock.shaping.insets import insets_of
from fanblock.shaping.stretches import dart_stretches, darts_on, without
from fanblock.tolerances import ALONG_MM

LEVELS = tuple(step / 10 for step in range(11))
"""The waist, the bust and every tenth of the way between."""


def girths_of(work: Work) -> tuple[Girth, ...]:
    """Return the sums at the waist, the bust, every 10 % between and the girths the block stands on, all of one half.

    The parts are where the finished panels' stitch lines cut the level. What is open is where the level runs, between two
    seams, above a finished top edge or below a finished hem. Gap and takes are measured on the block; so parts + open + gap
    + takes can be held against the block's own level. What darts fold away and what is turned in at slits are takes; what is
    let in stands by itself.
    """
    draft = work.draft
    levels = levels_of(draft)
    heights = np.array([level.height for level in levels])
    taken_at = {take.seam.name: take(heights) for take in work.takes}
    edges_at = {take.seam.name: seam_arounds(draft, take, heights) for take in work.takes}
    panels = [panel for panel in work.panels if panel.name in work.traces]
    darts, gussets = dart_takes_of(draft), insets_of(work)
    runs = runs_of(work)
    found = []
    for number, level in enumerate(levels):
        height = level.height
        hair = _hair(draft, level)
        edges = {name: (float(front[number]), float(back[number])) for name, (front, back) in edges_at.items()}
        parts = free = 0.0
        for panel in panels:
            folded = dart_stretches(draft, darts_on(panel, darts), height)
            cloth = stretches_at(work.traces[panel.name], height, hair)
            parts += _length(draft.block, height, without(cloth, folded))
        folded = dart_stretches(draft, darts, height)
        for run in runs:
            free += _length(draft.block, height, without(run.beyond(draft, height, hair, edges), folded))
        taken = {name: float(mm[number]) for name, mm in taken_at.items()}
        turned = {f"{inset.name} slit": inset.turned_in_mm(draft.block, height) for inset in gussets}
        gap = _gap_mm(draft, height, edges, taken)
        taken |= {take.dart.name: float(take(height)) for take in darts} | turned
        more = 2.0 * sum(take.more_at(height) for take in work.takes)
        girth = replace(
            _girth(draft, level, tuple(taken.items()), parts, free),
            gap_mm=gap,
            altered_mm=more,
            let_in=tuple((inset.name, inset.width_mm(draft.block, height)) for inset in gussets),
            turned_in_mm=sum(turned.values()),
        )
        found.append(girth)
    return tuple(found)


def _hair(draft: Draft, level: Level) -> float:
    """Return how near a lower edge must keep to a level to run along it: a waistline to the waist, a rib edge to the ribs.

    A tenth of the way is nothing that an edge is drawn along, however near it comes.
    """
    return ALONG_MM / draft.block.center_front_mm if level.name in draft.body.lengths else 0.0


def _gap_mm(draft: Draft, height: float, edges: Mapping[str, Stretch], taken: Mapping[str, float]) -> float:
    """Return what the openings take off one half at a level, beside what their seams take; below 0 for an overlap."""
    at_centers = sum(half_width_mm(draft.block, gap, height) for gap in draft.gaps)
    along = sum(draft.block.level_part_mm(height, *edges[gap.at]) - taken[gap.at] for gap in draft.seam_gaps)
    return float(at_centers + along)


def levels_of(draft: Draft) -> list[Level]:
    """Return the levels at which a draft is summed, from the waist up, each by its measure or by its share of the way."""
    named = {height: Level(f"{height:.0%}", height) for height in LEVELS}
    named.update({level.height: level for level in (*ON_WAIST_AND_BUST.levels, *draft.stand.levels)})
    return [named[height] for height in sorted(named)]


def _girth(draft: Draft, level: Level, taken: tuple[tuple[str, float], ...], parts: float, free: float) -> Girth:
    height, ease, reduction = level.height, 0.0, 0.0
    body = base = draft.body.lengths.get(level.name)
    if level == draft.stand.lower:
        ease, reduction = draft.lower_ease_mm, draft.lower_reduction_mm
    elif level == draft.stand.upper:
        ease, reduction = draft.upper_ease_mm, draft.upper_reduction_mm
    else:
        base = None
    if base is not None and draft.block.traced_from:
        base = 2.0 * draft.block.level_length_mm(height)
    return Girth(
        name=level.name,
        height=height,
        block_mm=draft.block.level_length_mm(height),
        takes_mm=sum(mm for _, mm in taken),
        takes=taken,
        gap_mm=0.0,
        parts_mm=parts,
        open_mm=free,
        body_mm=body,
        base_mm=base,
        ease_mm=ease,
        reduction_mm=reduction,
    )


def _length(block: Block, height: float, stretches: list[Stretch]) -> float:
    return float(sum(block.level_part_mm(height, start, end) for start, end in stretches))
