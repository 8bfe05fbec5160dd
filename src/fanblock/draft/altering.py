"""Alterations: what a fitting changed in one garment, on top of what its recipe draws.

A seam may take more at a height, it may spring more at the hem, and an outline edge may be raised at a place. All three
go either way. They are made when everything has been drawn, before it is cut apart, so that they mean the same whatever
the recipe is.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from fanblock.draft.model import AROUND, HEIGHT, HEM_EDGE, TOP_EDGE, Draft, Line, SeamLine
from fanblock.draft.places import amount_mm, height_on, place_of
from fanblock.geometry.curve import frozen
from fanblock.problems import GeometryError, Problem, nearest
from fanblock.terms import Amount, Around, Height, Position, Share
from fanblock.tolerances import SETTLED

REACH = Share(0.15)
"""How far either side of its place an edge is raised, as a share of the half round, where nothing is said (from memory)."""

CHAINS = (TOP_EDGE, HEM_EDGE)

_ROUNDS = 20


@dataclass(frozen=True, slots=True)
class TakeMore:
    """A seam takes more at a height."""

    seam: str = field(metadata={"for": "the seam"})
    at: Height = field(metadata={"for": "the height"})
    more: Amount = field(metadata={"for": "how much more it takes, both edges together; less than nothing lets out"})


@dataclass(frozen=True, slots=True)
class SpringMore:
    """A seam springs more at the hem."""

    seam: str = field(metadata={"for": "the seam"})
    more: Amount = field(metadata={"for": "how much more it adds at the hem, both edges together"})


@dataclass(frozen=True, slots=True)
class RaiseEdge:
    """An outline edge is raised at a place, running out to nothing on either side."""

    edge: str = field(metadata={"for": "`top edge` or `hem`"})
    at: Around = field(metadata={"for": "the place it is raised most"})
    up: Amount = field(metadata={"for": "how far it is raised; less than nothing lowers it"})
    reach: Share = field(default=REACH, metadata={"for": "how far either side, as a share of the half round"})


Alteration = TakeMore | SpringMore | RaiseEdge


def altered(draft: Draft, alterations: Sequence[Alteration]) -> Draft:
    """Return the draft with every alteration made; GeometryError with all that name what has not been drawn."""
    problems = [problem for number, one in enumerate(alterations, 1) for problem in _unknown(draft, one, number)]
    if problems:
        raise GeometryError(problems)
    for one in alterations:
        draft = _raised(draft, one) if isinstance(one, RaiseEdge) else _with_seam(draft, one)
    return draft


def _unknown(draft: Draft, one: Alteration, number: int) -> list[Problem]:
    where = f"changes › {number}"
    if isinstance(one, RaiseEdge):
        if one.edge in CHAINS:
            return []
        what = f"there is no outline edge “{one.edge}”."
        return [Problem("edge-unknown", f"{where} › edge", what, nearest(one.edge, CHAINS))]
    names = [seam.name for seam in draft.seams]
    if one.seam in names:
        return []
    return [
        Problem("seam-unknown", f"{where} › seam", f"there is no seam “{one.seam}”.", nearest(one.seam, names)),
    ]


def _with_seam(draft: Draft, one: TakeMore | SpringMore) -> Draft:
    seam = draft.seam(one.seam)
    mm = amount_mm(draft.body, one.more, of="waist")
    if isinstance(one, SpringMore):
        changed = replace(seam, spring_mm=seam.spring_mm + mm)
    else:
        changed = replace(seam, more=_added(seam.more, _height(draft, seam, one.at), mm))
    return replace(draft, seams=tuple(changed if each.name == seam.name else each for each in draft.seams))


def _height(draft: Draft, seam: SeamLine, height: Height) -> float:
    """Return where a seam passes a height, within its own ends."""
    around, found = seam.around_at(seam.top), seam.top
    for _ in range(_ROUNDS):
        found = min(max(height_on(draft, height, around), seam.low, 0.0), seam.top)
        before, around = around, seam.around_at(found)
        if abs(around - before) < SETTLED:
            break
    return found


def _added(more: tuple[tuple[float, float], ...], at: float, mm: float) -> tuple[tuple[float, float], ...]:
    """Return what a seam takes more by height, with so much added at one of them."""
    sums = dict(more)
    key = next((height for height in sums if abs(height - at) < SETTLED), at)
    sums[key] = sums.get(key, 0.0) + mm
    return tuple(sorted(sums.items()))


def _raised(draft: Draft, one: RaiseEdge) -> Draft:
    up = amount_mm(draft.body, one.up, of="bust to waist")
    around, _ = place_of(draft, Position(one.at, Height(landmark=one.edge)))
    lines = tuple(
        _moved(draft, line, around, up, one.reach.ratio) if line.chain == one.edge else line for line in draft.lines
    )
    return replace(draft, lines=lines)


def _moved(draft: Draft, line: Line, around: float, up_mm: float, reach: float) -> Line:
    off = np.clip((line.points[:, AROUND] - around) / reach, -1.0, 1.0)
    heights = line.points[:, HEIGHT] + up_mm / draft.block.ruling_length_mm(line.points[:, AROUND]) * 0.5 * (
        1.0 + np.cos(math.pi * off)
    )
    return replace(line, points=frozen(np.column_stack((line.points[:, AROUND], heights))))
