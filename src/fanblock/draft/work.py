"""What a draft becomes when it has been separated: panels in the plane, with the choices made for finishing them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from fanblock.block.ruled import Block
from fanblock.draft.model import Draft
from fanblock.draft.plans import LayerPlan, Plan
from fanblock.draft.slicing import Loop
from fanblock.draft.takes import Take
from fanblock.geometry.curve import Curve
from fanblock.pattern.model import SEWN, WHIPPED, EndShift, Note, Panel
from fanblock.wearer.body import Body

DEFAULT_ALLOWANCES = {
    "armhole": 10.0,
    "center": 15.0,
    "free": 0.0,
    "hem": 0.0,
    "lacing": 25.0,
    "neckline": 10.0,
    "pleat head": 10.0,
    "opening": 20.0,
    "seam": 15.0,
    "shoulder": 20.0,
    "slit": 0.0,
    "top": 0.0,
    "waist": 15.0,
}
"""Width beyond each kind of edge where a recipe says nothing: seams 15 mm, folded lacing edges 25 mm, other
openings 20 mm, bound edges none (common practice, no source)."""


SEAM_BY_CONSTRUCTION = {WHIPPED: 13.0, SEWN: 15.0}
"""Allowance of a seam by the way of making: what is only turned in to be whipped may be half an inch (common practice:
1.3 to 2 cm, no source)."""


@dataclass(frozen=True, slots=True, eq=False)
class SeamRecord:
    """A pair of mated edges, as panel and edge names, with what truing did to their ends.

    ``line`` is the seam line both were cut along; ``name`` differs from it where another seam ends on this one. The front
    edge is longer than the back edge by ``fullness_mm``, taken up as ``how`` tells. ``ticks`` is the count of its notch
    ticks; 0 means as many as its number. ``part`` tells which part of its line it is where level seams cut that, and
    ``onto`` the lines that it ends on or is cut by: it is sewn before them.
    """

    name: str
    line: str
    number: int
    front: tuple[str, str]
    back: tuple[str, str]
    above: EndShift | None = None
    below: EndShift | None = None
    fullness_mm: float = 0.0
    how: str = ""
    ticks: int = 0
    part: str = ""
    onto: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Work:
    """The separated, trued panels of a draft, and how they shall be finished.

    ``takes`` are the seams' takes with the reductions shared out; ``traces`` gives each panel's loop, as it was trued, in
    around and height. ``layers`` are the layers of all panels cut from the block, ``layers_by_panel`` those of single
    pieces. ``notes`` are sentences for the order of sewing and for the toile. ``plans`` are for bones, eyelets and binding,
    ``layer_plans`` for layers with outlines of their own. ``construction`` is the way it is made, where a recipe says.
    """

    draft: Draft
    panels: tuple[Panel, ...]
    seams: tuple[SeamRecord, ...]
    lines: Mapping[str, Curve]
    takes: tuple[Take, ...]
    traces: Mapping[str, Loop]
    grains: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    notch_at: float = 0.4
    tick_mm: float = 5.0
    allowance_by_kind: Mapping[str, float] = field(default_factory=lambda: MappingProxyType(DEFAULT_ALLOWANCES))
    allowance_by_name: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    layers: tuple[tuple[str, int], ...] = (("outer", 2),)
    layers_by_panel: Mapping[str, tuple[tuple[str, int], ...]] = field(default_factory=lambda: MappingProxyType({}))
    on_fold: tuple[str, ...] = ()
    notes: tuple[Note, ...] = ()
    plans: tuple[Plan, ...] = ()
    layer_plans: tuple[LayerPlan, ...] = ()
    construction: str = ""

    @property
    def body(self) -> Body:
        """The body this is drawn for."""
        return self.draft.body

    @property
    def block(self) -> Block:
        """The block this was drawn on."""
        return self.draft.block


def made_as(work: Work, construction: str) -> Work:
    """Return the work to be made in a way: ``whipped``, ``sewn``, or empty for one that is left open."""
    if not construction:
        return work
    seam = SEAM_BY_CONSTRUCTION[construction]
    kinds = MappingProxyType({**work.allowance_by_kind, "seam": seam})
    return replace(work, construction=construction, allowance_by_kind=kinds)
