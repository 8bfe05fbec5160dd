"""Pieces let in: into a slit cut from an edge inward, or into a seam that is open below the waist.

A slit is one cut without width. Along it cloth is turned in, from nothing at its inner end to the ``turning`` at the edge, so
the stitch lines of its two sides part there like the sides of a narrow wedge: these are edges of the panel, and the sides of
the piece are their mates, as long as they are to the last hair. What is turned in the piece makes good, beside what it lets
in.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from fanblock.draft.adding import panel_of, with_panel, with_piece, with_seam_between
from fanblock.draft.places import height_on
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.pattern.model import HEM, LET_IN, SEAM, SLIT, Edge, Note, Panel, Slit
from fanblock.problems import GeometryError, Problem
from fanblock.shaping.edges import base_name, places_of, renewed, with_open_edge
from fanblock.shaping.inset import Beside, Wedge, wedge
from fanblock.shaping.slits import Cut, SlitPlace, cut_of
from fanblock.terms import Height
from fanblock.units import format_length

FRONT_SIDE, BACK_SIDE = "front side", "back side"

GRAIN_INSET = 0.08
"""Share of a piece's height that its grain line keeps from either end."""

SIDE_STEP_MM = 2.0
"""Distance between the points of a slit's sides: straight lines in the plane, but curves on the block."""


@dataclass(frozen=True, slots=True)
class LetIn:
    """What a piece that is let in shall be, in millimetres.

    It lets in ``width_mm`` at its outer edge, or where the level ``wide_at`` passes it. Its sides swell outward by
    ``swell_mm`` half way, its outer edge rises by ``rise_mm``.
    """

    name: str
    width_mm: float
    wide_at: Height | None = None
    swell_mm: float = 0.0
    rise_mm: float = 0.0

    @property
    def where(self) -> str:
        """How the piece is named in messages."""
        return f"“{self.name}”"


def with_slit_piece(work: Work, place: SlitPlace, turning_mm: float, spec: LetIn) -> Work:
    """Return the work with a slit cut into a panel and a piece let into it.

    GeometryError when the slit does not lie well within the panel, or no such piece can be cut.
    """
    panel = panel_of(work, place.panel)
    cut = cut_of(work, panel, place, spec.where)
    edge = panel.edges[cut.edge]
    whole = edge.curve
    before, after = whole.between(0.0, cut.at_mm - turning_mm), whole.between(cut.at_mm + turning_mm, whole.length_mm)
    ways = [_straight(before.end, cut.inner), _straight(cut.inner, after.start)]
    names = (FRONT_SIDE, BACK_SIDE) if edge.kind == HEM or cut.is_low else (BACK_SIDE, FRONT_SIDE)
    sides = tuple(
        Edge(f"{spec.name} {name}", LET_IN, way, reversed=True) for name, way in zip(names, ways, strict=True)
    )
    opened = with_open_edge(panel, cut.edge, (before, after), sides, spec.where)
    outer = whole.at(cut.at_mm)
    slits = (*panel.slits, Slit(frozen(cut.inner), frozen(outer), spec.name))
    work = renewed(work, replace(opened, slits=slits))
    beside = (
        Beside(-ways[0].start_tangent, before.end_tangent),
        Beside(ways[1].end_tangent, after.start_tangent),
    )
    at, width = _asked(work, spec, cut, ways)
    drawn = _wedge(work, spec, (cut.inner, outer), ways, width, at, beside)
    work = with_piece(work, _piece(spec, drawn, edge, names), [_note(work, panel, spec, drawn)])
    return _joined(work, spec, panel.name, sides, names, low=cut.is_low)


def _straight(start: Points, end: Points) -> Curve:
    """Return the straight line between two points, in short steps."""
    count = max(int(np.hypot(*(end - start)) / SIDE_STEP_MM), 2)
    return Curve.through(start + np.linspace(0.0, 1.0, count + 1)[:, None] * (end - start))


def _asked(work: Work, spec: LetIn, cut: Cut, ways: list[Curve]) -> tuple[tuple[float, float], float]:
    """Return where along its sides, from its point, a piece's width is asked, and how wide it must be there."""
    outs = (ways[0].reversed(), ways[1])
    at = (outs[0].length_mm, outs[1].length_mm)
    if spec.wide_at is not None:
        middle = (cut.inner + outs[0].end) / 2.0
        height = height_on(work.draft, spec.wide_at, float(places_of(work, middle[None])[0, 0]))
        found = [_passed(work, out, height) for out in outs]
        if found[0] is None or found[1] is None:
            what = "the level its width is asked at does not pass its slit on this body."
            raise GeometryError([Problem("gusset-level", spec.where, what, "Make the slit longer, or ask elsewhere.")])
        at = (found[0], found[1])
    notch = float(np.hypot(*(outs[0].at(at[0]) - outs[1].at(at[1]))))
    return at, spec.width_mm + notch


def _passed(work: Work, side: Curve, height: float) -> float | None:
    """Return how far along a side, from the slit's inner end, it passes a height on the block."""
    heights = places_of(work, side.points)[:, 1]
    if heights[0] > heights[-1]:
        return _passed_rising(-heights, side, -height)
    return _passed_rising(heights, side, height)


def _passed_rising(heights: Points, side: Curve, height: float) -> float | None:
    if not heights[0] < height < heights[-1]:
        return None
    return float(np.interp(height, heights, side.along))


def _wedge(
    work: Work,
    spec: LetIn,
    middle: tuple[Points, Points],
    ways: list[Curve],
    width_mm: float,
    at_mm: tuple[float, float],
    beside: tuple[Beside, Beside],
) -> Wedge:
    """Return the piece's outline, its point at the slit's inner end; GeometryError when it cannot be cut."""
    units = work.body.units
    if spec.width_mm <= 0.0:
        what = f"on this body its width comes to {format_length(spec.width_mm, units)}: there is nothing to let in."
        raise GeometryError([Problem("gusset-width", spec.where, what, "Give it a width of its own, or leave it out.")])
    way = middle[1] - middle[0]
    try:
        return wedge(
            middle[0],
            way / np.hypot(*way),
            (ways[0].length_mm, ways[1].length_mm),
            width_mm=width_mm,
            at_mm=at_mm,
            swell_mm=spec.swell_mm,
            rise_mm=spec.rise_mm,
            beside=beside,
        )
    except ValueError as error:
        length = format_length(min(way.length_mm for way in ways), units)
        what = f"a piece {format_length(width_mm, units)} wide cannot be let in with sides {length} long."
        remedy = "Make it narrower, or its sides longer."
        if str(error) == "swell":
            what = f"its sides, {length} long, cannot swell by {format_length(spec.swell_mm, units)}."
            remedy = "Let them swell less."
        raise GeometryError([Problem("gusset-wide", spec.where, what, remedy)]) from None


def _piece(spec: LetIn, drawn: Wedge, edge: Edge, names: tuple[str, str]) -> Panel:
    """Return the piece as a panel of its own, its grain up its middle."""
    edges = (
        Edge(names[0], SEAM, drawn.first),
        Edge(base_name(edge), edge.kind, drawn.outer),
        Edge(names[1], SEAM, drawn.last),
    )
    point, far = drawn.first.start, drawn.outer.at(0.5 * drawn.outer.length_mm)
    low, high = (point, far) if far[1] > point[1] else (far, point)
    grain = (frozen(low + GRAIN_INSET * (high - low)), frozen(high - GRAIN_INSET * (high - low)))
    return Panel(spec.name, 0, edges, grain=grain, let_in=True)


def _joined(work: Work, spec: LetIn, panel: str, sides: tuple[Edge, ...], names: tuple[str, str], *, low: bool) -> Work:
    """Return the work with the piece's two sides named the mates of the sides of what it is let into.

    Of a slit from a lower edge the first side rises; of one from an upper edge the second does.
    """
    ordered = sorted(enumerate(zip(sides, names, strict=True)), key=lambda one: one[1][1] != FRONT_SIDE)
    for number, (side, name) in ordered:
        theirs, ours = (panel, side.name), (spec.name, name)
        rises = (number == 0) == low
        front, back = (theirs, ours) if rises else (ours, theirs)
        work = with_seam_between(work, f"{spec.name} {name.removesuffix(' side')}", front, back)
    return work


def _note(work: Work, panel: Panel, spec: LetIn, drawn: Wedge) -> Note:
    """Return how a piece is let into a slit, for the order of sewing."""
    number, units = len(work.panels) + 1, work.body.units
    return Note(
        "sewing first",
        f"Let piece {number} ({spec.name}) into the slit of piece {panel.number} ({panel.name}): work a bar at the slit's "
        "end, cut up to it, turn the edges in along the stitch lines, and sew the piece in from its point outward; at the edge "
        f"it is {format_length(drawn.outer.length_mm, units)} wide.",
        spec.name,
    )


def with_seam_piece(work: Work, seam: str, spec: LetIn) -> Work:
    """Return the work with a piece let into a seam that is open below the waist, from the waist to the hem.

    GeometryError when the seam is not open there, or its corners have been cut off for tabs already.
    """
    front, back = _open_edges(work, seam, spec)
    fronts, backs = panel_of(work, front[0]), panel_of(work, back[0])
    rising, falling = fronts.edge(front[1]), backs.edge(back[1])
    hems = _hem_before(fronts, rising, spec), _hem_behind(backs, falling, spec)
    ways = [rising.curve, falling.curve]
    beside = (
        Beside(-rising.curve.start_tangent, hems[0].curve.end_tangent),
        Beside(falling.curve.end_tangent, hems[1].curve.start_tangent),
    )
    corners = (rising.curve.start + falling.curve.end) / 2.0
    waist = (rising.curve.end + falling.curve.start) / 2.0
    at = (rising.curve.length_mm, falling.curve.length_mm)
    drawn = _wedge(work, spec, (waist, corners), ways, spec.width_mm, at, beside)
    names = (FRONT_SIDE, BACK_SIDE)
    piece = _piece(spec, drawn, hems[0], names)
    note = Note(
        "sewing",
        f"Let piece {len(work.panels) + 1} ({spec.name}) into the seam between piece {fronts.number} ({fronts.name}) and piece "
        f"{backs.number} ({backs.name}): sew that seam down to the waist bar, then the piece's two sides, each from the bar "
        "down to the lower edge.",
    )
    work = with_piece(work, piece, [note])
    for panel, edge in ((fronts, rising), (backs, falling)):
        held = panel_of(work, panel.name)
        sewn = tuple(replace(one, kind=SEAM, reversed=True) if one.name == edge.name else one for one in held.edges)
        work = with_panel(work, replace(held, edges=sewn))
    work = with_seam_between(work, f"{spec.name} front", front, (spec.name, FRONT_SIDE))
    return with_seam_between(work, f"{spec.name} back", (spec.name, BACK_SIDE), back)


def _open_edges(work: Work, seam: str, spec: LetIn) -> tuple[tuple[str, str], tuple[str, str]]:
    """Return the sides of a seam that is open below the waist: of the panel before it and of the one behind it."""
    open_ones = [
        (panel.name, edge.name, float(edge.curve.end[1] - edge.curve.start[1]))
        for panel in work.panels
        for edge in panel.edges
        if edge.kind == SLIT and edge.name == f"{seam} below waist"
    ]
    rising = [(panel, edge) for panel, edge, rise in open_ones if rise > 0.0]
    falling = [(panel, edge) for panel, edge, rise in open_ones if rise < 0.0]
    if len(rising) == len(falling) == 1:
        return rising[0], falling[0]
    what = f"the seam “{seam}” is not open below the waist."
    raise GeometryError([Problem("gore-seam", spec.where, what, "Say `below waist: open` in that seam.")])


def _hem_before(panel: Panel, edge: Edge, spec: LetIn) -> Edge:
    return _a_hem(panel.edges[_number(panel, edge) - 1], panel, spec)


def _hem_behind(panel: Panel, edge: Edge, spec: LetIn) -> Edge:
    return _a_hem(panel.edges[(_number(panel, edge) + 1) % len(panel.edges)], panel, spec)


def _number(panel: Panel, edge: Edge) -> int:
    return next(number for number, one in enumerate(panel.edges) if one.name == edge.name)


def _a_hem(edge: Edge, panel: Panel, spec: LetIn) -> Edge:
    if edge.kind == HEM:
        return edge
    what = f"the open side of panel “{panel.name}” does not end at a hem."
    raise GeometryError([Problem("gore-hem", spec.where, what, "Carry the seam down to the hem.")])
