"""A draft: the block, what shall be added or taken in, and the lines drawn on it so far.

Everything on a draft is kept in the block's own coordinates: *around* (0 centre front, 1 centre back) and *height*
(0 waist, 1 bust), so that a line means the same on any body. :class:`Work` is what a draft becomes when it has been
separated: panels in the plane, with the choices made for finishing them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

import numpy as np

from fanblock.block.ruled import Block
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.splines import Function
from fanblock.pattern.model import EndShift, Panel
from fanblock.wearer.body import Body

AROUND, HEIGHT = 0, 1


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """A named line on the block; ``points`` has shape (n, 2): around, height."""

    name: str
    kind: str
    points: Points

    def height_at(self, around: float) -> float:
        """Return the height at which this line passes the ruling at ``around``."""
        return float(np.interp(around, self.points[:, AROUND], self.points[:, HEIGHT]))


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
    its ends. ``host`` names the seam an end stands on; ``below`` is ``open``, ``sewn`` or empty when it ends at or
    above the waist.
    """

    name: str
    around_of: Function
    top: float
    low: float
    share: float | None
    takes: tuple[tuple[float, float], ...]
    spring_mm: float
    below: str
    host: str = ""
    lean_deg: tuple[float, float] = (0.0, 0.0)

    def around_at(self, height: float) -> float:
        """Return the around of the centre line at ``height``."""
        return float(self.around_of(np.array([height]))[0])


@dataclass(frozen=True, slots=True, eq=False)
class Draft:
    """The block with everything drawn on it so far."""

    body: Body
    block: Block
    lines: tuple[Line, ...] = ()
    seams: tuple[SeamLine, ...] = ()
    gaps: tuple[Gap, ...] = ()
    waist_ease_mm: float = 0.0
    bust_ease_mm: float = 0.0
    waist_reduction_mm: float = 0.0
    bust_reduction_mm: float = 0.0

    def line(self, name: str) -> Line:
        """Return the line called ``name``; KeyError when it has not been drawn."""
        for line in self.lines:
            if line.name == name:
                return line
        raise KeyError(name)

    def seam(self, name: str) -> SeamLine:
        """Return the seam called ``name``; KeyError when it has not been drawn."""
        for seam in self.seams:
            if seam.name == name:
                return seam
        raise KeyError(name)


@dataclass(frozen=True, slots=True, eq=False)
class SeamRecord:
    """A pair of mated edges, as panel and edge names, with what truing did to their ends.

    ``line`` is the seam line both were cut along; ``name`` differs from it where another seam ends on this one.
    """

    name: str
    line: str
    number: int
    front: tuple[str, str]
    back: tuple[str, str]
    above: EndShift | None
    below: EndShift | None


@dataclass(frozen=True, slots=True, eq=False)
class Work:
    """The separated, trued panels of a draft, and how they shall be finished."""

    draft: Draft
    panels: tuple[Panel, ...]
    seams: tuple[SeamRecord, ...]
    lines: Mapping[str, Curve]
    grains: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    notch_at: float = 0.4
    tick_mm: float = 5.0
    allowance_by_kind: Mapping[str, float] = field(
        default_factory=lambda: MappingProxyType(DEFAULT_ALLOWANCES)
    )
    allowance_by_name: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    layers: tuple[tuple[str, int], ...] = (("outer", 2),)
    on_fold: tuple[str, ...] = ()

    @property
    def body(self) -> Body:
        """The body this is drawn for."""
        return self.draft.body

    @property
    def block(self) -> Block:
        """The block this was drawn on."""
        return self.draft.block


DEFAULT_ALLOWANCES = {"seam": 15.0, "center": 15.0, "lacing": 25.0, "top": 0.0, "hem": 0.0, "slit": 0.0}
"""Width beyond each kind of edge where a recipe says nothing: seams 15 mm, folded lacing edges 25 mm, bound edges
none (common practice, no source)."""
