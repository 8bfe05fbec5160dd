"""What pieces that are let into slits add at a level, and what the slits take there."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from fanblock.block.ruled import Block
from fanblock.draft.adding import panel_of
from fanblock.draft.model import HEIGHT
from fanblock.draft.slicing import Loop, inside_at
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import LET_IN
from fanblock.tolerances import GRAZING


@dataclass(frozen=True, slots=True, eq=False)
class Inset:
    """A slit of a panel and the piece let into it.

    ``mouth`` are the slit's two sides in around and height; ``sides`` the curves of the piece that are sewn to them, both
    from its point outward.
    """

    name: str
    mouth: Loop
    sides: tuple[Curve, Curve]

    def turned_in_mm(self, block: Block, height: float) -> float:
        """Return what is turned in along the slit at a height: the stretch of the level between its two stitch lines."""
        return float(sum(block.level_part_mm(height, start, end) for start, end in inside_at(self.mouth, height)))

    def width_mm(self, block: Block, height: float) -> float:
        """Return how wide the piece is where it is sewn to the slit at a height; 0 where the slit is not.

        Beyond one side's end, where the edge slants, that end counts.
        """
        into, out = (side.points[:, HEIGHT] for side in self.mouth)
        if _is_past(height, into[0], into[-1]) or _is_past(height, out[-1], out[0]):
            return 0.0
        first, second = (_share_at(side.points, height) for side in self.mouth)
        if first is None and second is None:
            return 0.0
        at = [1.0 - first if first is not None else 1.0, second if second is not None else 1.0]
        ends = [side.at(share * side.length_mm) for side, share in zip(self.sides, at, strict=True)]
        return float(np.hypot(*(ends[0] - ends[1])))


def _is_past(height: float, outer: float, inner: float) -> bool:
    """Return whether a height lies at a slit's inner end or beyond it, to a hair."""
    return bool((height - inner) * np.sign(inner - outer) >= -GRAZING)


def _share_at(places: Points, height: float) -> float | None:
    """Return at which share of a straight side it passes a height, None where it does not."""
    heights = places[:, HEIGHT]
    if not heights.min() < height < heights.max():
        return None
    shares = np.linspace(0.0, 1.0, len(heights))
    order = np.argsort(heights)
    return float(np.interp(height, heights[order], shares[order]))


def insets_of(work: Work) -> tuple[Inset, ...]:
    """Return every slit of the panels cut from the block that has a piece let into it, in the order of the pieces."""
    found: list[tuple[int, Inset]] = []
    for panel in work.panels:
        if panel.name not in work.traces:
            continue
        sides = {side.name: side for side in work.traces[panel.name]}
        for one, other in pairwise(panel.edges):
            if one.kind == other.kind == LET_IN and one.mate is not None and other.mate is not None:
                piece = panel_of(work, one.mate.panel)
                curves = (piece.edge(one.mate.edge).curve, piece.edge(other.mate.edge).curve.reversed())
                inset = Inset(piece.name, (sides[one.name], sides[other.name]), curves)
                found.append((piece.number, inset))
    return tuple(inset for _, inset in sorted(found, key=lambda one: one[0]))
