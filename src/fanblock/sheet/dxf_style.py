"""What one DXF file by ASTM D6673 says, and what the standard forbids it to say."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from fanblock.geometry import region
from fanblock.geometry.curve import Points
from fanblock.problems import Problem
from fanblock.sheet.drawing import Words
from fanblock.sheet.sevenbit import repeated, seven_bit

LEAST_SIDE_MM, MOST_SIDE_MM = 10.0, 20000.0
"""A piece whose longer side is outside this was not measured in millimetres."""


@dataclass(frozen=True, slots=True, eq=False)
class DxfNotch:
    """A notch on the boundary: how deep it may be cut (0: mark it only) and which way it points, from the x axis."""

    point: Points
    depth_mm: float
    angle_deg: float


@dataclass(frozen=True, slots=True, eq=False)
class DxfPiece:
    """One block. Runs of points are rounded; a ring's first point is not repeated; ``turns`` and ``curves`` are the
    points of layers 2 and 3. ``sewn`` are stitch lines, ``inner`` lines are drawn, ``slits`` cut. ``drills`` are points
    with a diameter. ``quantity`` counts pieces as drawn and mirrored ones of one ``material``. ``remarks`` are lines of
    annotation that have no place on the piece.
    """

    name: str
    quantity: tuple[int, int]
    material: str
    boundary: Points
    sewn: tuple[Points, ...]
    inner: tuple[Points, ...]
    slits: tuple[Points, ...]
    turns: tuple[Points, ...]
    curves: tuple[Points, ...]
    notches: tuple[DxfNotch, ...]
    drills: tuple[tuple[Points, float], ...]
    grain: tuple[Points, Points] | None
    mirror: tuple[Points, Points] | None
    words: tuple[Words, ...]
    remarks: tuple[str, ...]
    closed: bool = True


@dataclass(frozen=True, slots=True, eq=False)
class DxfStyle:
    """All that one file says: the style's texts, as pairs of identifier and value, and its pieces."""

    texts: tuple[tuple[str, str], ...]
    pieces: tuple[DxfPiece, ...]


def refusals(style: DxfStyle) -> tuple[Problem, ...]:
    """Return what may not be written: an outline that is open or repeats its first point, a piece without grain, one
    measured otherwise than in millimetres, two of one name, letters beyond 7 bits.
    """
    found: list[Problem] = []
    for piece in style.pieces:
        found += (Problem(code, f"piece “{piece.name}”", what, remedy) for code, what, remedy in _wrong(piece))
    found += (
        Problem("dxf-name", f"piece “{name}”", "another piece has this name.", "Give every piece a name of its own.")
        for name in repeated(piece.name for piece in style.pieces)
    )
    said = [*(f"{key}:{value}" for key, value in style.texts)]
    said += [text for piece in style.pieces for text in (piece.name, piece.material, *piece.remarks)]
    said += [words.text for piece in style.pieces for words in piece.words]
    found += (
        Problem("dxf-letters", "", f"“{text}” has letters beyond 7 bits.", "Spell it in plain letters.")
        for text in said
        if text != seven_bit(text)
    )
    return tuple(found)


def _wrong(piece: DxfPiece) -> Iterator[tuple[str, str, str]]:
    """What is wrong with one piece: code, what, remedy."""
    ring = piece.boundary
    if not piece.closed or len(ring) < 3 or abs(region.area_mm2(ring)) < 1.0:
        yield "dxf-open", "its outline is not closed.", "Every edge must begin where the one before it ends."
    if len(ring) > 1 and np.array_equal(ring[0], ring[-1]):
        yield "dxf-repeated", "its outline ends with its first point again.", "Leave the repeated point out."
    if piece.grain is None:
        yield "dxf-grain", "it has no grain.", "Add a `grain` step to the recipe."
    side = float(np.ptp(ring, axis=0).max()) if np.isfinite(ring).all() and len(ring) else math.nan
    if not LEAST_SIDE_MM <= side <= MOST_SIDE_MM:
        what = f"its longer side is {side:g}, which cannot be millimetres."
        yield "dxf-millimetres", what, "Give every length in millimetres."
