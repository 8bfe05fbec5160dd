"""A draft: the block, what shall be added or taken in, and the lines drawn on it so far.

Everything on a draft is kept in the block's own coordinates: *around* (0 centre front, 1 centre back) and *height*
(0 waist, 1 bust), so that a line means the same on any body.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fanblock.block.band import Band
from fanblock.block.ruled import Block
from fanblock.geometry.curve import Points
from fanblock.geometry.meet import crossings, points_at
from fanblock.geometry.splines import Function
from fanblock.terms import LANDMARK_AROUNDS
from fanblock.wearer.body import Body

AROUND, HEIGHT = 0, 1
TOP_EDGE, HEM_EDGE = "top edge", "hem"


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """A named line on the block; ``points`` has shape (n, 2): around, height.

    ``chain`` is the outline edge it is a part of: ``top edge`` or ``hem``. ``seam`` and ``face`` are set where it will be
    sewn to another line (see :class:`fanblock.draft.slicing.Side`). A ``pointed`` line may meet a centre line at a point.
    """

    name: str
    kind: str
    points: Points
    chain: str
    seam: str = ""
    face: str = ""
    pointed: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Gap:
    """An opening at a centre line, ``width_mm`` between the lacing edges of the whole garment.

    ``line`` runs along this half's lacing edge, rising: around, height.
    """

    at: str
    width_mm: float
    line: Points


@dataclass(frozen=True, slots=True, eq=False)
class SeamLine:
    """A seam as drawn: its centre line as a function of height, and what it shall take.

    ``takes`` are (height, mm) pairs named by the recipe, both edges together. ``top`` and ``low`` are the heights of
    its ends. ``top_on`` and ``low_on`` name the seam, the centre line or the ``lacing edge`` an end stands on, and are
    empty where it ends on the top edge or the hem. ``below`` is ``open``, ``sewn`` or empty when it ends at or above the
    waist.
    """

    name: str
    around_of: Function
    top: float
    low: float
    share: float | None
    takes: tuple[tuple[float, float], ...]
    spring_mm: float
    below: str
    top_on: str = ""
    low_on: str = ""
    lean_deg: tuple[float, float] = (0.0, 0.0)

    @property
    def hosts(self) -> tuple[str, ...]:
        """The seams that this seam ends on, from the top down."""
        return tuple(name for name in (self.top_on, self.low_on) if name and name not in LANDMARK_AROUNDS)

    def around_at(self, height: float) -> float:
        """Return the around of the centre line at ``height``."""
        return float(self.around_of(np.array([height]))[0])


@dataclass(frozen=True, slots=True, eq=False)
class Draft:
    """The block with everything drawn on it so far; ``band`` says of what band it is the fan, if it is that of one."""

    body: Body
    block: Block
    lines: tuple[Line, ...] = ()
    seams: tuple[SeamLine, ...] = ()
    gaps: tuple[Gap, ...] = ()
    waist_ease_mm: float = 0.0
    bust_ease_mm: float = 0.0
    waist_reduction_mm: float = 0.0
    bust_reduction_mm: float = 0.0
    band: Band | None = None

    def chain(self, name: str) -> tuple[Line, ...]:
        """Return the lines of an outline edge (``top edge`` or ``hem``) from front to back; empty when not drawn."""
        return tuple(line for line in self.lines if line.chain == name)

    def height_of(self, chain: str, around: float) -> float:
        """Return the height at which an outline edge passes the ruling at ``around``; KeyError when it is not drawn.

        A top edge that passes it more than once is met from below, a hem from above.
        """
        lines = self.chain(chain)
        if not lines:
            raise KeyError(chain)
        points = np.vstack([line.points for line in lines])
        places = crossings(points, AROUND, around)
        if not len(places):
            nearest = int(np.argmin(np.abs(points[:, AROUND] - around)))
            return float(points[nearest, HEIGHT])
        heights = points_at(points, places)[:, HEIGHT]
        return float(heights.min() if chain == TOP_EDGE else heights.max())

    def seam(self, name: str) -> SeamLine:
        """Return the seam called ``name``; KeyError when it has not been drawn."""
        for seam in self.seams:
            if seam.name == name:
                return seam
        raise KeyError(name)
