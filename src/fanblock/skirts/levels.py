"""How far round the skirts go at a level below the waist, beside what the body measures there."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from fanblock.block.ruled import Block
from fanblock.geometry.meet import crossings, points_at
from fanblock.pattern.model import Panel
from fanblock.skirts.falls import followed

USUAL_HIP_DEPTH_MM = 200.0
"""Depth of the widest hip below the waist where it was not measured (from memory)."""

RECKONED = 0.75
"""At which share of the shortest fall skirts are held against the body: lower, their hem begins to swing up."""


@dataclass(frozen=True, slots=True)
class Level:
    """One half at one level: the cloth of the panels, and what is open in front of the first of them (mm)."""

    cloth_mm: float
    open_mm: float

    @property
    def whole_mm(self) -> float:
        """All the way round the whole garment, what is open in front included."""
        return 2.0 * (self.cloth_mm + self.open_mm)


def level_at(block: Block, panels: Iterable[Panel], depth_mm: float) -> Level:
    """Return how far one half goes round at ``depth_mm`` below the waist, along the block's uprights.

    ``panels`` go from front to back; what lies before the first that reaches so deep is open.
    """
    stretches = [stretch for panel in panels for stretch in _stretches(block, panel, depth_mm)]
    cloth = sum(_length(block, depth_mm, *stretch) for stretch in stretches)
    first = stretches[0][0] if stretches else 0.0
    return Level(cloth, _length(block, depth_mm, 0.0, first) if first > 0.0 else 0.0)


def _stretches(block: Block, panel: Panel, depth_mm: float) -> list[tuple[float, float]]:
    points = np.vstack([followed(edge.curve).points[:-1] for edge in panel.edges])
    around, height = block.where(points)
    ring = np.column_stack((around, height * block.ruling_length_mm(around)))
    ring = np.vstack((ring, ring[:1]))
    places = sorted(points_at(ring, crossings(ring, 1, -depth_mm))[:, 0].tolist())
    return list(zip(places[::2], places[1::2], strict=True))


def _length(block: Block, depth_mm: float, start: float, end: float) -> float:
    height = -depth_mm / block.ruling_length_mm(0.5 * (start + end))
    return block.level_part_mm(height, start, end)


def reckoned_mm(lengths: Mapping[str, float], falls_mm: Iterable[float]) -> float:
    """Return the depth at which skirts are held against the body: the hip's, or three quarters of the shortest fall's."""
    return min(lengths.get("hip depth", USUAL_HIP_DEPTH_MM), RECKONED * min(falls_mm))


def body_at_mm(lengths: Mapping[str, float], depth_mm: float) -> float:
    """Return the body's girth at a depth below the waist: straight from waist to hip, the hip's below it.

    ``lengths`` must hold waist and hip; a hip depth that was not taken is 20 cm (from memory).
    """
    share = min(depth_mm / lengths.get("hip depth", USUAL_HIP_DEPTH_MM), 1.0)
    return lengths["waist"] + share * (lengths["hip"] - lengths["waist"])
