"""A pattern: panels as loops of named edges, their marks, the seams that join them and what they add up to.

Lengths are millimetres, x to the right, y up. All panels stand in the block's frame: centre front at the left, the
half seen from outside, right side up. That is the wearer's **left** half (centre front at the left of the picture,
seen from outside, puts the wearer's left side before you); the other half is its mirror image, unless the two halves were
drafted apart: then there are panels of both, those of the right half as they lie when that is seen from outside, centre
front at the right. Loops run counter-clockwise.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType

import numpy as np

from fanblock.block.band import Band
from fanblock.block.ruled import Block
from fanblock.block.stand import ON_WAIST_AND_BUST, Stand
from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.bones import Binding, Channel, Eyelet, Lacing
from fanblock.wearer.body import Body

SEAM, CENTER, TOP, HEM, SLIT, LACING = "seam", "center", "top", "hem", "slit", "lacing"
WAIST, ARMHOLE, NECKLINE, SHOULDER, FOLD = "waist", "armhole", "neckline", "shoulder", "fold"
OPENING, FREE = "opening", "free"
"""An edge that closes otherwise than by a lace; one that is finished by itself and sewn to nothing."""

LET_IN = "let in"
"""The side of a slit that a piece is let into: cloth is turned in there, from nothing at the slit's end."""

OPEN_KINDS = frozenset({LACING, OPENING})
"""The kinds of edges at which a garment opens."""

UPPER, LOWER = "upper", "lower"
"""Which edge of its panel one on a level seam is."""

DARTED = "darted"
"""How a seam's fullness is taken up that darts at one place take: all other ways are spread along the seam."""

PLEAT_HEAD = "pleat head"
"""The upper edge of cloth that is folded into pleats below a seam: turned in and whipped down inside."""

WHIPPED, SEWN = "whipped", "sewn"
"""Two ways of making: each piece finished by itself and whipped to the next; or the seams first, channels through all."""

TOILE = "toile"
"""The layer that a toile's pieces are cut from."""

MARK_KINDS = ("crease", "place", "dart", "gather", "tuck", "fastening")


@dataclass(frozen=True, slots=True)
class EdgeName:
    """Which edge of which panel."""

    panel: str
    edge: str


@dataclass(frozen=True, slots=True, eq=False)
class Edge:
    """One named side of a panel: its stitch line, run in loop order.

    ``waist_at_mm`` is where the waist level meets a seam edge, along the edge from its first point; ``None`` where
    it does not. ``reversed`` tells that the mate, run in its own loop order, walks the seam the other way. A ``pointed``
    edge may meet a centre line at a point. ``across`` tells of an edge on a level seam whether it is the ``upper`` or the
    ``lower`` edge of its panel, and ``opens_at`` of one along an opening within the half at which line that is. One of a
    panel that is ``mirrored`` is the mirror image of how it was drafted: its front side runs up.
    """

    name: str
    kind: str
    curve: Curve
    mate: EdgeName | None = None
    letter: str = ""
    reversed: bool = False
    waist_at_mm: float | None = None
    pointed: bool = False
    across: str = ""
    opens_at: str = ""
    mirrored: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Notch:
    """``count`` ticks at ``at_mm`` along an edge, each ``tick_mm`` long, drawn from the stitch line inward.

    The waist bar has kind ``waist``; how far it runs is the sheet's to settle.
    """

    edge: str
    at_mm: float
    count: int
    kind: str  # "waist" or "seam"
    point: Points
    inward: Points
    tick_mm: float = 5.0


@dataclass(frozen=True, slots=True, eq=False)
class Slit:
    """A cut of no width, from its inner end (``start``, reinforced there) to an edge (``end``).

    ``name`` is the piece that is let into it; a slit between two tabs, from the waist to the hem, has none.
    """

    start: Points
    end: Points
    name: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Mark:
    """A line drawn on a piece that is neither cut nor stitched along as an edge; ``says`` are short words beside it.

    ``kind`` is one of :data:`MARK_KINDS`: ``crease`` (fold here), ``place`` (another piece or edge lies here), ``dart``,
    ``gather``, ``tuck`` or ``fastening`` (a button, hook, tie or loop sits here).
    """

    name: str
    kind: str
    curve: Curve
    says: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Panel:
    """One piece: a closed counter-clockwise loop of named edges, with its marks.

    ``levels`` gives, for each level's name, the parts of it inside the panel. ``cuts`` pairs a layer's name with how
    many pieces to cut for the whole garment. ``cut_line`` is the closed outer line, allowances included; its last
    point is not its first. ``allowances`` gives the width beyond each edge.

    A piece that was ``added`` is not cut from the block and has no part in girths. One that is ``whole`` is all of its
    thing and not one of a pair. ``loose`` tells how a piece is held that no seam holds. One that is ``let_in`` to a slit or
    a seam runs on at its outer edge from the cloth on either side. A piece of a ``layer`` of its own is cut for that layer
    alone, from its own outline: it is ``copy_of`` another panel and lies ``inside_mm`` within the layer that was drafted.

    Where the two halves were drafted apart a panel has a ``side``, ``left`` or ``right``: it is of that half alone and cut
    singly.
    """

    name: str
    number: int
    edges: tuple[Edge, ...]
    levels: Mapping[str, tuple[Curve, ...]] = field(default_factory=lambda: MappingProxyType({}))
    slits: tuple[Slit, ...] = ()
    grain: tuple[Points, Points] | None = None
    notches: tuple[Notch, ...] = ()
    allowances: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    cut_line: Curve | None = None
    cuts: tuple[tuple[str, int], ...] = ()
    fold: str = ""
    marks: tuple[Mark, ...] = ()
    channels: tuple[Channel, ...] = ()
    eyelets: tuple[Eyelet, ...] = ()
    added: bool = False
    whole: bool = False
    loose: str = ""
    let_in: bool = False
    layer: str = ""
    copy_of: str = ""
    inside_mm: float = 0.0
    side: str = ""

    @property
    def label(self) -> str:
        """Its number as it is printed: with L or R where the two halves were drafted apart."""
        return f"{self.number}{self.side[:1].upper()}"

    @property
    def single(self) -> bool:
        """Whether it is cut singly, and not as one of a pair."""
        return self.whole or bool(self.side)

    def edge(self, name: str) -> Edge:
        """Return the edge called ``name``; KeyError when there is none."""
        for edge in self.edges:
            if edge.name == name:
                return edge
        raise KeyError(name)

    def loop(self) -> Points:
        """Return the stitch line as one closed run of points, shape (n, 2), the first point not repeated."""
        return np.vstack([edge.curve.points[:-1] for edge in self.edges])


@dataclass(frozen=True, slots=True)
class EndShift:
    """How far truing moved the free ends of a seam's two edges: half the difference of their lengths, with causes."""

    shift_mm: float
    edge_mm: float
    lean_deg: float
    take_mm: float


@dataclass(frozen=True, slots=True)
class Seam:
    """One seam between two panels, with its letter and what truing did above and below the waist.

    Its front edge is longer than its back edge by ``fullness_mm``, which is taken up as ``how`` tells: ``pleated``,
    ``gathered``, ``tucked``, ``eased`` or ``darted``. ``line`` names the line of the draft that both edges lie on, ``onto``
    those that the seam ends on or is cut by: it is sewn before them.
    """

    name: str
    letter: str
    front: EdgeName
    back: EdgeName
    above: EndShift | None = None
    below: EndShift | None = None
    fullness_mm: float = 0.0
    how: str = ""
    line: str = ""
    onto: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Opening:
    """Where a garment opens, told of the whole garment.

    ``at`` is the line it stands at, such as ``center front``, and ``edge`` the name of the edges there. It is ``closed``
    with ``lacing``, ``pins``, ``buttons``, ``hooks`` or ``ties``. It stands ``times`` in the garment: one along a seam opens
    it on both sides of the body. Closed, the edges stand ``width_mm`` apart at the waist, or
    each half runs ``overlap_mm`` past the line. ``widths`` are (mm above the waist along the line, mm from edge to edge) of
    one that is not equally wide. ``behind`` names the piece that lies under it, if one does.
    """

    at: str
    edge: str
    closed: str
    width_mm: float
    overlap_mm: float = 0.0
    widths: tuple[tuple[float, float], ...] = ()
    behind: str = ""
    times: int = 1


@dataclass(frozen=True, slots=True)
class Girth:
    """What one half adds up to at one level (heights as shares, 0 waist, 1 bust); all widths are of one half.

    ``body_mm``, ``base_mm``, ``ease_mm``, ``reduction_mm`` and ``altered_mm``, what a fitting took in, are of the whole
    garment. ``body_mm`` is the body's own girth at a level where one was measured; ``base_mm`` is what ease and reduction
    are counted from at the two levels that the block stands on: as a rule the same, on a traced block the block's own.

    ``takes`` hold those of darts and what is turned in at slits beside those of seams. ``let_in`` gives each piece that is
    let in at the level and its width there; ``turned_in_mm`` of that only fills what the slits took.
    """

    name: str
    height: float
    block_mm: float
    takes_mm: float
    takes: tuple[tuple[str, float], ...]
    gap_mm: float
    parts_mm: float
    open_mm: float
    body_mm: float | None = None
    ease_mm: float = 0.0
    reduction_mm: float = 0.0
    altered_mm: float = 0.0
    base_mm: float | None = None
    let_in: tuple[tuple[str, float], ...] = ()
    turned_in_mm: float = 0.0

    @property
    def let_in_mm(self) -> float:
        """Width of all the pieces that are let in at the level."""
        return sum(mm for _, mm in self.let_in)


@dataclass(frozen=True, slots=True)
class Finding:
    """One check: what was proved or refuted. ``state`` is ``holds``, ``warns`` or ``fails``."""

    code: str
    family: str
    state: str
    number: float
    limit: float
    unit: str
    says: str


@dataclass(frozen=True, slots=True)
class Title:
    """The words that stand on every sheet and piece."""

    garment: str
    wearer: str
    recipe: str
    makes: str
    period: str
    draft: int
    code: str


@dataclass(frozen=True, slots=True)
class Note:
    """Something the maker should know that is no check: a guess, a warning of the body, a thing to watch on the toile.

    ``kind`` is ``guess``, ``body``, ``wearer`` or ``toile``, or the place in the order of sewing: ``sewing first`` before the
    seams, ``sewing`` when those of a half are sewn, ``sewing lining`` when the lining goes in, ``sewing pleats`` when pleats
    are folded, ``sewing last`` when pieces are set on. ``of`` names the piece that a note of sewing is told with, if one is.
    """

    kind: str
    says: str
    of: str = ""


@dataclass(frozen=True, eq=False)
class Pattern:
    """All panels of one half of a garment, with the seams between them, their sums and their checks.

    A collar, a flounce or the like has a ``band``: its block is the fan of that and not of a wearer's bust and waist, so
    there is neither a waist level nor a girth; the band says whether the panels are a half or the whole.

    ``stand`` names the two girths that the block stands on. A ``toile`` has the panels of a garment, with cloth to spare.
    ``construction`` is how its pieces become one: ``whipped``, ``sewn`` or, where that is left open, nothing.

    ``lines`` holds the draft's own curves in the block's frame, by name (outline edges, seam center lines, levels).
    ``dials`` gives each dial's name, its value in words and its value as a number (millimetres or a ratio).

    Where the two halves were drafted apart, ``halves`` holds the wearer's left and then the right one, each as the pattern
    of a garment that has both its halves like it. The pattern itself then has the panels and seams of both; its girths are
    the means of theirs, and twice those the garment's; its block is that of the left half. Each of the halves says which
    ``half`` it is.
    """

    title: Title
    body: Body
    block: Block
    panels: tuple[Panel, ...]
    seams: tuple[Seam, ...]
    girths: tuple[Girth, ...]
    lines: Mapping[str, Curve]
    dials: tuple[tuple[str, str, float], ...] = ()
    gap_mm: float = 0.0
    notes: tuple[Note, ...] = ()
    findings: tuple[Finding, ...] = ()
    band: Band | None = None
    lacings: tuple[Lacing, ...] = ()
    binding: Binding | None = None
    stand: Stand = ON_WAIST_AND_BUST
    openings: tuple[Opening, ...] = ()
    toile: bool = False
    construction: str = ""
    halves: tuple[Pattern, ...] = ()
    half: str = ""

    @property
    def sound(self) -> bool:
        """True when no check fails: the pieces add up and sew up. It never means that they fit."""
        return all(finding.state != "fails" for finding in self.findings)

    @cached_property
    def by_name(self) -> Mapping[str, Panel]:
        """The panels by name."""
        return MappingProxyType({panel.name: panel for panel in self.panels})
