"""A draft: the block, what shall be added or taken in, and the lines drawn on it so far.

Everything on a draft is kept in the block's own coordinates: *around* (0 centre front, 1 centre back) and *height*
(0 waist, 1 bust), so that a line means the same on any body.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fanblock.block.band import Band
from fanblock.block.ruled import Block
from fanblock.block.stand import ON_WAIST_AND_BUST, Stand
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


LACED, PINNED, BUTTONED, HOOKED, TIED = "lacing", "pins", "buttons", "hooks", "ties"
"""With what an opening may be closed."""


@dataclass(frozen=True, slots=True)
class Closing:
    """How an opening is closed.

    Each half runs ``overlap_mm`` past the centre line. There are ``count`` fastenings a side, or one every ``spacing_mm``,
    or as usual where neither is said; down to the waist, or to the hem where ``to_hem`` says so. ``robing_mm`` is how wide a
    robing lies along the edge.
    """

    by: str = LACED
    overlap_mm: float = 0.0
    count: int | None = None
    spacing_mm: float | None = None
    to_hem: bool = False
    robing_mm: float = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class Gap:
    """An opening at a centre line, ``width_mm`` between the two edges of the whole garment at the waist.

    ``line`` runs along this half's edge, rising: around, height. It is parallel to the centre line unless it is ``free``.
    ``behind`` names the piece that lies under the opening.
    """

    at: str
    width_mm: float
    line: Points
    closing: Closing = Closing()
    free: bool = False
    behind: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class SeamLine:
    """A seam as drawn: its centre line as a function of height, and what it shall take.

    ``takes`` are (height, mm) pairs named by the recipe, both edges together. ``top`` and ``low`` are the heights of
    its ends. ``top_on`` and ``low_on`` name the seam, the centre line or the ``lacing edge`` an end stands on, and are
    empty where it ends on the top edge or the hem. ``below`` is ``open``, ``sewn`` or empty when it ends at or above the
    waist. ``more`` are (height, mm) that a fitting added to its takes.
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
    more: tuple[tuple[float, float], ...] = ()

    @property
    def hosts(self) -> tuple[str, ...]:
        """The seams that this seam ends on, from the top down."""
        return tuple(name for name in (self.top_on, self.low_on) if name and name not in LANDMARK_AROUNDS)

    def around_at(self, height: float) -> float:
        """Return the around of the centre line at ``height``."""
        return float(self.around_of(np.array([height]))[0])


@dataclass(frozen=True, slots=True, eq=False)
class DartLine:
    """A dart as drawn: its middle as a function of height, from its ``mouth`` on an outline edge to its ``point`` in the cloth.

    ``full`` is the height up to which, from the mouth, it takes all that it takes. ``chain`` is the edge it opens at: ``top
    edge`` or ``hem``. It takes either ``take_mm``, both legs together, or carries a ``share`` of the lower reduction.
    """

    name: str
    around_of: Function
    mouth: float
    point: float
    full: float
    chain: str
    share: float | None
    take_mm: float | None

    def around_at(self, height: float) -> float:
        """Return the around of the middle line at ``height``."""
        return float(self.around_of(np.array([height]))[0])


@dataclass(frozen=True, slots=True, eq=False)
class LevelSeam:
    """A seam that runs level as drawn: its height as a function of around, from front to back.

    ``start`` and ``end`` are the arounds of its ends; ``start_on`` and ``end_on`` name the seam, the centre line or the edge
    of an opening they stand on. ``after`` tells how many upright seams were drawn before it. ``pointed`` tells at which of
    its ends it may meet a centre line at a point. ``take_of`` tells by around what it takes along the ruling, in millimetres, if
    anything.
    """

    name: str
    height_of: Function
    start: float
    end: float
    start_on: str
    end_on: str
    after: int
    pointed: tuple[bool, bool] = (False, False)
    take_of: Function | None = None

    @property
    def hosts(self) -> tuple[str, ...]:
        """The upright seams that this seam ends on, from the front."""
        return tuple(name for name in (self.start_on, self.end_on) if name not in LANDMARK_AROUNDS)

    def height_at(self, around: float) -> float:
        """Return the height at ``around``."""
        return float(self.height_of(np.array([around]))[0])

    def takes_at(self, arounds: Points) -> Points:
        """Return what the seam takes along the ruling at every one of ``arounds``, in millimetres."""
        return np.zeros(np.shape(arounds)) if self.take_of is None else self.take_of(arounds)

    def passes(self, around: float) -> bool:
        """Return whether the seam runs past an around."""
        return self.start <= around <= self.end


@dataclass(frozen=True, slots=True, eq=False)
class SeamGap:
    """An opening along an upright seam: its two edges are laced and stand ``width_mm`` apart, on each side of the body."""

    at: str
    width_mm: float
    closing: Closing = Closing()


@dataclass(frozen=True, slots=True, eq=False)
class Draft:
    """The block with everything drawn on it so far; ``band`` says of what band it is the fan, if it is that of one.

    ``stand`` names the two girths that it stands on, waist and bust as a rule: ease and reduction of the whole garment are
    booked on the lower and on the upper of them.
    """

    body: Body
    block: Block
    lines: tuple[Line, ...] = ()
    seams: tuple[SeamLine, ...] = ()
    gaps: tuple[Gap, ...] = ()
    level_seams: tuple[LevelSeam, ...] = ()
    seam_gaps: tuple[SeamGap, ...] = ()
    lower_ease_mm: float = 0.0
    upper_ease_mm: float = 0.0
    lower_reduction_mm: float = 0.0
    upper_reduction_mm: float = 0.0
    band: Band | None = None
    stand: Stand = ON_WAIST_AND_BUST
    darts: tuple[DartLine, ...] = ()

    def chain(self, name: str) -> tuple[Line, ...]:
        """Return the lines of an outline edge (``top edge`` or ``hem``) from front to back; empty when not drawn."""
        return tuple(line for line in self.lines if line.chain == name)

    def height_of(self, chain: str, around: float) -> float:
        """Return the height at which an outline edge or a level seam passes the ruling at ``around``.

        A top edge that passes it more than once is met from below, a hem from above. KeyError when it is not drawn.
        """
        level = next((level for level in self.level_seams if level.name == chain), None)
        if level is not None:
            return level.height_at(around)
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

    @property
    def openings(self) -> tuple[Gap | SeamGap, ...]:
        """Every place where the garment opens: at its centre lines, then along seams."""
        return (*self.gaps, *self.seam_gaps)

    @property
    def in_order(self) -> tuple[SeamLine | LevelSeam, ...]:
        """All seams in the order they were drawn in."""
        found: list[SeamLine | LevelSeam] = []
        for number, seam in enumerate(self.seams):
            found += [level for level in self.level_seams if level.after == number]
            found.append(seam)
        return (*found, *(level for level in self.level_seams if level.after >= len(self.seams)))
