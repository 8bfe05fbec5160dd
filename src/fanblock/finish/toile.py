"""A toile of a pattern: the same pieces with cloth to spare where a fitting wants it, made simple to sew and to lace.

The stitch lines stay as they are; what changes is where the cloth is cut. Above the top edge there is more in front and
behind, but under the arm hardly any, where it could not be worn. Seams have wide allowances, to be sewn to the outside.
Tabs are not cut apart: their slits are lines, to be cut on the body. Nothing is bound, and there are no channels.
"""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

from fanblock.finish.offsets import cut_line
from fanblock.finish.openings import LAY_ROBINGS
from fanblock.finish.toileedges import LONGER_MM, UNDER_ARM_MM, lengthened, with_raised_top
from fanblock.finish.toilestrips import strips_of
from fanblock.geometry.curve import Curve, frozen
from fanblock.pattern.model import (
    ARMHOLE,
    CENTER,
    FOLD,
    HEM,
    NECKLINE,
    OPEN_KINDS,
    SEAM,
    SHOULDER,
    TOILE,
    TOP,
    WAIST,
    Mark,
    Panel,
    Pattern,
)
from fanblock.problems import GeometryError, Problem
from fanblock.shaping.slits import with_closed_slits

FITTING_MM = 25.0
"""Allowance of every seam: enough to pinch in and let out on the body (common practice, no source)."""

ROUND_MM = 20.0
"""What is left at necks and round arms, and cut back on the body (common practice, no source)."""

WIDTHS = {
    SEAM: FITTING_MM,
    CENTER: FITTING_MM,
    SHOULDER: FITTING_MM,
    WAIST: FITTING_MM,
    **dict.fromkeys(sorted(OPEN_KINDS), FITTING_MM),
    HEM: LONGER_MM,
    ARMHOLE: ROUND_MM,
    NECKLINE: ROUND_MM,
}
"""Width beyond each kind of edge; the others keep what they have."""

NOT_OF_TOILES = frozenset({"bones", "sewing lining"})
"""Kinds of notes that tell of what a toile does not have; robings are laid on it with strips of paper."""

SLIT_SAYS = "slit: cut on the body"
"""What stands along a slit between two tabs."""


def toile_of(pattern: Pattern) -> Pattern:
    """Return the toile of a pattern, with a strip of eyelets for every lacing edge; its title says TOILE.

    A layer with outlines of its own has no part in it. GeometryError for a band, which has no fitting, and for a piece whose
    spare cloth cannot be drawn.
    """
    if pattern.band is not None:
        what = f"“{pattern.title.garment}” is a band and not fitted to a body, so it has no toile of its own."
        remedy = "Draft it without --toile, and cut a trial piece 2 cm larger all round."
        raise GeometryError([Problem("toile-band", "toile", what, remedy)])
    panels = tuple(_piece(pattern, panel) for panel in pattern.panels if not panel.layer)
    names = {panel.name for panel in panels}
    plain = replace(
        pattern,
        title=replace(pattern.title, garment=f"TOILE · {pattern.title.garment}"),
        panels=panels,
        seams=tuple(seam for seam in pattern.seams if {seam.front.panel, seam.back.panel} <= names),
        notes=tuple(
            note for note in pattern.notes if note.kind not in NOT_OF_TOILES and not note.says.startswith(LAY_ROBINGS)
        ),
        lacings=(),
        binding=None,
        toile=True,
        construction="",
    )
    return replace(plain, panels=(*panels, *strips_of(pattern, len(panels))))


def _piece(pattern: Pattern, panel: Panel) -> Panel:
    """A panel as it is cut for the toile."""
    widths = {edge.name: _width(panel, edge.name) for edge in panel.edges}
    fitted = not panel.added and not has_arms(pattern)
    whole = lengthened(with_closed_slits(panel))
    if fitted:
        whole = with_raised_top(pattern, whole)
    moved = {edge.name for edge in whole.edges if edge.kind != panel.edge(edge.name).kind}
    at = {edge.name: 0.0 if edge.name in moved else widths[edge.name] for edge in whole.edges}
    at |= {edge.name: ROUND_MM for edge in whole.edges if edge.kind == TOP}
    try:
        outer = cut_line(whole, at)
    except ValueError as error:
        what = f"the spare cloth of panel “{panel.name}” cannot be drawn: {error}."
        remedy = "Draft it without --toile, and cut the toile outside the lines by hand."
        raise GeometryError([Problem("toile-cut", "toile", what, remedy)]) from None
    told = {edge.name: UNDER_ARM_MM if fitted else ROUND_MM for edge in panel.edges if edge.kind == TOP}
    slits = [slit for slit in panel.slits if not slit.name]
    marks = tuple(
        Mark(f"slit {number}", "place", Curve(frozen([slit.start, slit.end])), SLIT_SAYS)
        for number, slit in enumerate(slits, start=1)
    )
    return replace(
        panel,
        slits=tuple(slit for slit in panel.slits if slit.name),
        marks=(*panel.marks, *marks),
        channels=(),
        eyelets=(),
        allowances=MappingProxyType({**widths, **told}),
        cut_line=outer,
        cuts=((TOILE, 1 if panel.single or panel.fold else 2),),
    )


def _width(panel: Panel, name: str) -> float:
    """How much cloth lies beyond an edge; nothing at a fold, nor at a centre that meets edge to edge."""
    edge, own = panel.edge(name), panel.allowances.get(name, 0.0)
    if edge.kind == FOLD or panel.fold == name or (edge.kind == CENTER and not own):
        return 0.0
    return max(own, WIDTHS.get(edge.kind, 0.0))


def has_arms(pattern: Pattern) -> bool:
    """Whether a garment has armholes or straps cut on, so that its upper edges lie at necks and arms."""
    drafted = [panel for panel in pattern.panels if not panel.added]
    return any(edge.kind in {ARMHOLE, SHOULDER} for panel in drafted for edge in panel.edges)
