"""The numbers of a panel that is drawn by hand: points, lines, notches, checks, corners of the cutting line."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fanblock.geometry.curve import Points
from fanblock.pattern.model import Panel
from fanblock.sheet.handguide_curves import Offset, Rule, Swing, drawn_by

GRAIN = "grain"
"""The kind of a panel's grain line."""


@dataclass(frozen=True, slots=True)
class HandPoint:
    """A numbered point, rounded, and what meets there."""

    number: int
    x_mm: float
    y_mm: float
    says: str

    @property
    def place(self) -> Points:
        """The point as an array."""
        return np.array([self.x_mm, self.y_mm])


@dataclass(frozen=True, slots=True)
class HandLine:
    """A line from one numbered point to another; without ``offsets`` it is straight.

    ``of`` is the edge's or mark's name, ``kind`` its kind (an edge's, or ``level``, ``slit``, ``mark``, ``channel``, ``grain``).
    Of an edge the right of the chord is outside the panel. ``chord_mm`` is between the true ends, ``length_mm`` along the
    true line, never less; of a straight line they are one. One that is part of a circle may be swung as well.
    """

    of: str
    kind: str
    first: int
    last: int
    chord_mm: float
    offsets: tuple[Offset, ...]
    length_mm: float
    swing: Swing | None = None


@dataclass(frozen=True, slots=True)
class HandNotch:
    """Ticks, or the waist bar (no ticks), so far along an edge from one of its end points.

    ``above_mm`` is how far above the edge's waist bar it stands, along the edge (below nought: below it); None where the
    edge has none. ``long_mm`` is how long a tick is; one that is ``outward`` runs into the allowance. A waist bar runs
    ``beyond_mm`` outside the stitch line.
    """

    edge: str
    kind: str
    ticks: int
    start: int
    at_mm: float
    above_mm: float | None = None
    long_mm: float = 0.0
    outward: bool = False
    beyond_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class CutCorner:
    """A corner of the cutting line, rounded, and how the line runs on from it to the next, the piece at its left.

    It runs ``width_mm`` outside the edge ``along``, or straight where ``along`` is empty.
    """

    x_mm: float
    y_mm: float
    along: str
    width_mm: float


@dataclass(frozen=True, slots=True)
class Span:
    """Where a line of the grid lies within the panel: at one x or y, from and to in the other."""

    at_mm: float
    runs: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Diagonal:
    """A straight check from point to point, its true length."""

    first: int
    last: int
    length_mm: float


@dataclass(frozen=True, slots=True)
class Hole:
    """An eyelet: which half it is for (``left``, ``right``, ``both``) and where it is."""

    half: str
    number: int
    x_mm: float
    y_mm: float


@dataclass(frozen=True, eq=False)
class HandPanel:
    """All numbers of one panel. ``panel`` is the panel itself in the same frame; ``outline`` are the lines of its edges,
    in order, ``inner`` all others. ``level`` names what the base line runs through; it is empty where that is the panel's
    lowest point. ``cutting`` is the cutting line, corner by corner; it is empty where there is nothing beyond the stitch line.
    """

    panel: Panel
    rule: Rule
    level: str
    left_mm: float
    right_mm: float
    low_mm: float
    high_mm: float
    points: tuple[HandPoint, ...]
    outline: tuple[HandLine, ...]
    inner: tuple[HandLine, ...]
    notches: tuple[HandNotch, ...]
    diagonals: tuple[Diagonal, ...]
    across: tuple[Span, ...]
    upward: tuple[Span, ...]
    holes: tuple[Hole, ...]
    cutting: tuple[CutCorner, ...] = ()

    def point(self, number: int) -> HandPoint:
        """Return the point of a number."""
        return self.points[number - 1]

    def drawn(self, line: HandLine) -> Points:
        """Return a line as the hand draws it by these numbers alone."""
        start, end = self.point(line.first).place, self.point(line.last).place
        return drawn_by(start, end, line.offsets)
