"""The views of a pattern that more than one file shows, each drawn once, when first asked for."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from fanblock.pattern.model import Pattern
from fanblock.sheet.drawing import Drawing
from fanblock.sheet.key import key
from fanblock.sheet.layout import laid_out, pieces_of
from fanblock.sheet.piece import Piece
from fanblock.sheet.silhouette import silhouette
from fanblock.sheet.telling import telling

KEY_MM, SIDE_MM, HEIGHT_MM = 195.0, 93.0, 125.0
"""Widths of the key and of the side view, and the height of both."""


@dataclass(frozen=True, eq=False)
class Views:
    """What there is to see of a pattern."""

    pattern: Pattern

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """Every panel as a printed piece."""
        return pieces_of(self.pattern)

    @cached_property
    def flat(self) -> Drawing:
        """All pieces on one sheet for the screen, at true scale."""
        return laid_out(self.pattern, pieces=self.pieces)

    @cached_property
    def key(self) -> Drawing:
        """The panels seam to seam; not to scale."""
        return key(self.pattern, KEY_MM + (0.0 if telling(self.pattern).has_side else SIDE_MM), HEIGHT_MM)

    @cached_property
    def side(self) -> Drawing | None:
        """The garment from her left side, not to scale; None where there is no such view."""
        worn = self.pattern.halves[0] if self.pattern.halves else self.pattern
        return silhouette(worn, SIDE_MM, HEIGHT_MM) if telling(self.pattern).has_side else None
