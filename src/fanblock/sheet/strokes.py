"""Curves as strokes to draw, fitted all together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fanblock.geometry.bezier import fit_all
from fanblock.geometry.curve import Curve
from fanblock.sheet.drawing import Stroke


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """A curve with the pen that draws it, its name, and whether it is closed."""

    curve: Curve
    pen: str
    name: str
    closed: bool = False


def strokes(groups: Sequence[Sequence[Drawn]]) -> list[tuple[Stroke, ...]]:
    """Return the strokes of every group of curves; fitting them in one go is far faster than one after another."""
    fitted = iter(fit_all([drawn.curve for group in groups for drawn in group]))
    return [tuple(Stroke(next(fitted), one.pen, one.name, one.closed) for one in group) for group in groups]
