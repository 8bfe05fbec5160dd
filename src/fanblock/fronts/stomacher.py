"""A stomacher: the whole, symmetrical piece that lies behind an open front, on the block's own surface.

Its sides run under the front edges, at one distance from them along every level, so that it fills the opening however that
is drawn. Below the front edges they go on straight to the foot.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from fanblock.draft.adding import with_piece
from fanblock.draft.model import AROUND, HEIGHT, LACED, Gap
from fanblock.draft.opening import around_at, edge_name
from fanblock.draft.work import Work
from fanblock.finish.openings import MARK_MM, STATIONS, edge_heights, edges_at, inside
from fanblock.finish.tabs import slit_into_tabs
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.meet import meetings, part
from fanblock.geometry.splines import through_points
from fanblock.pattern.model import FREE, HEM, TOP, Edge, Mark, Note, Panel, Slit
from fanblock.problems import GeometryError, Problem
from fanblock.units import format_length

ROUNDED, POINTED, STRAIGHT = "rounded", "pointed", "straight"

STEP_MM = 2.0
"""Distance between the points of its edges."""

RISE = {ROUNDED: 0.7, POINTED: 0.8, STRAIGHT: 0.0}
"""How high the ends of its foot lie above the middle, as a share of half the foot's width (from memory)."""

MOST_RISE = 0.6
"""Most of its depth below the waist that the foot may rise, so that it stays below the waist."""

LEAST_SIDE_MM = 20.0
"""Its sides go on at least this far below the last place that lies under a front edge, or they would turn a corner."""

OVER_MM = 300.0
"""How far its upper edge is carried on beyond its last point, so that its side cuts it."""

LOOP_FROM_END_MM = 25.0
"""How far from its upper edge, and from the waist, the outermost loops sit (from memory)."""

WORDS = {"loops": "loop", "pins": "", "eyelets": "eyelet"}
"""What is written beside the first mark of a side, by what holds it."""


@dataclass(frozen=True, slots=True)
class Shape:
    """What a stomacher shall be like, in millimetres; ``top`` are (around, height) of its upper edge, from the centre outward."""

    name: str
    top: tuple[tuple[float, float], ...]
    depth_mm: float
    under_mm: float
    foot: str
    foot_mm: float | None
    tabs: int
    corner_mm: float
    held_by: str
    count: int


def with_stomacher(work: Work, gap: Gap, shape: Shape) -> Work:
    """Return the work with a stomacher behind an opening at the centre front, and with marks where the one lies on the other.

    GeometryError when on this body it cannot be drawn so.
    """
    side = _side(work, gap, shape)
    right, top_half, foot_half = _half(work, shape, side)
    edges = (
        Edge("foot", HEM, _whole(foot_half), pointed=shape.foot == POINTED),
        Edge("right side", FREE, right),
        Edge("upper edge", TOP, _whole(top_half).reversed()),
        Edge("left side", FREE, _mirrored(right).reversed()),
    )
    held = (
        f"laced under the {edge_name(work.draft.openings, gap)}s"
        if gap.closing.by == LACED
        else "pinned under the front edges"
    )
    grain = frozen([0.0, foot_half.start[1]]), frozen([0.0, top_half.start[1]])
    panel = Panel(shape.name, 0, edges, grain=_inset(*grain), whole=True, loose=held)
    panel = replace(panel, marks=tuple(_marks(work, gap, shape, panel, right)))
    if shape.tabs > 1:
        panel = _tabbed(work, shape, panel, right)
    work = with_piece(work, panel)
    work = _marked_fronts(work, gap, side)
    behind = replace(gap, behind=shape.name)
    gaps = tuple(behind if one is gap else one for one in work.draft.gaps)
    work = replace(work, draft=replace(work.draft, gaps=gaps))
    return replace(work, notes=(*work.notes, _note(work, gap, shape)))


def _side(work: Work, gap: Gap, shape: Shape) -> Points:
    """Return (around, height), rising, of the line under the front edge that is the stomacher's side."""
    heights = gap.line[:, HEIGHT]
    arounds = work.block.along(gap.line[:, AROUND], heights, shape.under_mm)
    return np.column_stack((arounds, heights))


def _half(work: Work, shape: Shape, side: Points) -> tuple[Curve, Curve, Curve]:
    """Return its right side, rising, its upper edge and its foot, both from the centre to the right, in the plane."""
    block = work.block
    corners = block.at(np.array([place[0] for place in shape.top]), np.array([place[1] for place in shape.top]))
    top = _upper(block.level(shape.top[0][1], 0.0, 0.5).points if len(corners) == 1 else corners)
    fine = _fine(side)
    drawn = block.at(fine[:, AROUND], fine[:, HEIGHT])
    found = [hit for hit in meetings(top, drawn) if top[int(hit[0])][0] >= 0.0]
    if not found:
        what = "on this body its upper edge does not reach its sides, which lie under the front edges."
        raise GeometryError([Problem("stomacher-open", "top", what, "Carry it on farther, or lower it.")])
    on_top, on_side = found[0]
    foot, sides = _foot(work, shape, drawn, on_side)
    return Curve.through(np.vstack((foot.end, sides))), Curve.through(part(top, 0.0, on_top)), foot


def _upper(points: Points) -> Points:
    """Return its upper edge, square to the centre front and carried on straight."""
    square = np.array([1.0, 0.0])
    drawn = through_points(points, STEP_MM, square) if len(points) > 1 else points
    leaving = (drawn[-1] - drawn[-2]) / np.hypot(*(drawn[-1] - drawn[-2]))
    return np.vstack((drawn, drawn[-1] + OVER_MM * leaving))


def _fine(side: Points) -> Points:
    """Return the side's line at heights near enough to each other."""
    heights = np.linspace(side[1, HEIGHT], side[-2, HEIGHT], 10 * STATIONS)
    return np.column_stack((np.interp(heights, side[:, HEIGHT], side[:, AROUND]), heights))


def _foot(work: Work, shape: Shape, side: Points, on_side: float) -> tuple[Curve, Points]:
    """Return half of its foot, from the centre out, and its side above that: under the front edge down to where that ends."""
    lowest, low_mm = -shape.depth_mm, _front_end_mm(work)
    rising = np.maximum.accumulate(side[:, 1])
    half = shape.foot_mm / 2.0 if shape.foot_mm is not None else float(np.interp(lowest, rising, side[:, 0]))
    rise = min(RISE[shape.foot] * half, MOST_RISE * shape.depth_mm)
    corner = np.array([half, lowest + rise])
    if shape.foot_mm is None:
        corner[0] = float(np.interp(corner[1], rising, side[:, 0]))
    start_mm = max(low_mm, corner[1] + LEAST_SIDE_MM) if shape.foot_mm is not None else corner[1]
    start = float(np.interp(start_mm, rising, np.arange(len(side))))
    if half <= 0.0 or start >= on_side:
        what = "on this body nothing is left of its sides between foot and upper edge."
        raise GeometryError([Problem("stomacher-short", "depth", what, "Raise its upper edge, or let it reach lower.")])
    under = part(side, start, on_side)
    _check_turn(shape, corner, under)
    if shape.foot_mm is None:
        sides, down = under, _unit(under[0] - under[1])
    else:
        free = through_points(np.array([under[0], corner]), STEP_MM, _unit(under[0] - under[1]))
        sides, down = np.vstack((free[:0:-1], under)), _unit(free[-1] - free[-2])
    return Curve.through(_foot_points(shape.foot, corner, lowest, down)), sides


def _check_turn(shape: Shape, corner: Points, under: Points) -> None:
    """Refuse a foot to whose ends its sides would have to turn out or in by more than they go down."""
    out_mm, down_mm = abs(float(corner[0] - under[0, 0])), float(under[0, 1] - corner[1])
    if shape.foot_mm is not None and out_mm > down_mm:
        way = "out" if corner[0] > under[0, 0] else "in"
        what = f"below the front edges its sides would turn {way} by {out_mm:.0f} mm on {down_mm:.0f} mm."
        remedy = "Give its foot another width, or let it reach lower."
        raise GeometryError([Problem("stomacher-foot", "foot width", what, remedy)])


def _unit(vector: Points) -> Points:
    return np.asarray(vector / np.hypot(*vector))


def _front_end_mm(work: Work) -> float:
    """Return how high above the foot of the centre front the front edges end: below nought where they go on below the waist."""
    gap = next(gap for gap in work.draft.gaps if gap.at == "center front")
    return float(min(edge.curve.points[:, 1].min() for _, edge in edges_at(work, gap)))


def _foot_points(foot: str, corner: Points, lowest: float, side: Points) -> Points:
    """Return half of the foot's line, from the centre out to a corner that ``side``, a unit vector, comes down to."""
    middle = np.array([0.0, lowest])
    if foot != ROUNDED:
        return through_points(np.array([middle, corner]), STEP_MM)
    reach = ROUNDNESS * float(np.hypot(*(corner - middle)))
    t = np.linspace(0.0, 1.0, STATIONS)[:, None]
    first, second = middle + np.array([reach, 0.0]), corner + reach * side
    drawn = (1 - t) ** 3 * middle + 3 * (1 - t) ** 2 * t * first + 3 * (1 - t) * t**2 * second + t**3 * corner
    return np.asarray(drawn)


ROUNDNESS = 0.45
"""How long the handles of a rounded foot are, as a share of its half chord: between a circle's arc and a fuller one."""


def _mirrored(curve: Curve) -> Curve:
    """Return a curve mirrored at the centre front, which stands upright on the origin."""
    return curve.moved(np.diag([-1.0, 1.0]), np.zeros(2))


def _whole(half: Curve) -> Curve:
    """Return a curve from the left through the centre to the right, of its right half."""
    return Curve.through(np.vstack((_mirrored(half).points[:0:-1], half.points)))


def _inset(foot: Points, head: Points) -> tuple[Points, Points]:
    """Return the grain line along the middle, a little shorter than the piece."""
    inset = GRAIN_INSET * (head - foot)
    return frozen(foot + inset), frozen(head - inset)


GRAIN_INSET = 0.08
"""Share of a piece's length by which its grain arrow stops short of it at either end."""


def _marks(work: Work, gap: Gap, shape: Shape, panel: Panel, right: Curve) -> list[Mark]:
    """Return the waist, the lines on which the front edges lie, and the loops of both sides."""
    half = work.block.level(0.0, 0.0, 0.6)
    marks = []
    waist = inside(panel, _whole(half).points)
    if waist is not None:
        marks.append(Mark("waist", "place", waist, "waist"))
    heights = np.linspace(*edge_heights(work, gap), STATIONS)
    edge = inside(panel, work.block.at(around_at(gap, heights), heights))
    if edge is not None:
        says = f"the {edge_name(work.draft.openings, gap)} lies here"
        marks += [
            Mark("front edge right", "place", edge, says),
            Mark("front edge left", "place", _mirrored(edge), says),
        ]
    for number, line in enumerate(_loops(work, shape, right), start=1):
        says = WORDS[shape.held_by] if number == 1 else ""
        marks += [
            Mark(f"hold {number} right", "fastening", line, says),
            Mark(f"hold {number} left", "fastening", _mirrored(line), says),
        ]
    return marks


def _loops(work: Work, shape: Shape, right: Curve) -> list[Curve]:
    """Return a stroke inward from its right side for every loop or eyelet, evenly between upper edge and waist."""
    if not WORDS[shape.held_by]:
        return []
    height = work.block.where(right.points)[1]
    waist = float(np.interp(0.0, height, right.along))
    lowest, highest = waist + LOOP_FROM_END_MM, right.length_mm - LOOP_FROM_END_MM
    places = np.linspace(highest, max(lowest, 0.0), shape.count) if shape.count > 1 else [(lowest + highest) / 2.0]
    strokes = []
    for at in places:
        point, along = right.at(float(at)), right.tangent_at(float(at))
        strokes.append(Curve(frozen([point, point + MARK_MM * np.array([-along[1], along[0]])])))
    return strokes


def _tabbed(work: Work, shape: Shape, panel: Panel, right: Curve) -> Panel:
    """Return the stomacher with its part below the waist cut into tabs."""
    height = work.block.where(right.points)[1]
    reach = float(work.block.where(right.at(float(np.interp(0.0, height, right.along))))[0])
    waist = _whole(work.block.level(0.0, 0.0, reach))
    shares = tuple(number / shape.tabs for number in range(1, shape.tabs))
    foot = panel.edge("foot").curve
    slits = tuple(
        Slit(frozen(waist.at(share * waist.length_mm)), frozen(foot.at(share * foot.length_mm))) for share in shares
    )
    cut, problems = slit_into_tabs(panel, 0, slits, shares, shape.corner_mm, "tabs")
    if problems:
        raise GeometryError(problems)
    return cut


def _marked_fronts(work: Work, gap: Gap, side: Points) -> Work:
    """Return the work with a line on the front panels where the stomacher's side lies under them."""
    stomacher = work.panels[-1].edge("right side").curve
    low, high = work.block.where(stomacher.points[[0, -1]])[1]
    heights = np.linspace(float(low), float(high), STATIONS)
    points = work.block.at(np.interp(heights, side[:, HEIGHT], side[:, AROUND]), heights)
    panels = []
    for panel in work.panels:
        line = None if panel.added else inside(panel, points)
        says = f"the side of the {work.panels[-1].name} lies under this"
        marks = panel.marks if line is None else (*panel.marks, Mark(work.panels[-1].name, "place", line, says))
        panels.append(replace(panel, marks=marks))
    return replace(work, panels=tuple(panels))


def _note(work: Work, gap: Gap, shape: Shape) -> Note:
    number = work.panels[-1].number
    deep = format_length(shape.under_mm, work.body.units)
    edges = f"{edge_name(work.draft.openings, gap)}s"
    says = f"Bind the {shape.name} (piece {number}) all round. "
    says += {
        "loops": "Work the loops at its sides; through them it is pinned to what is worn under it. ",
        "pins": "It is pinned to what is worn under it. ",
        "eyelets": "Work the eyelets at its sides; through them it is laced or tied to what is worn under it. ",
    }[shape.held_by]
    lies = "lace over it" if gap.closing.by == LACED else f"lay the {edges} on the marked lines and pin them"
    return Note("sewing last", f"{says}It lies {deep} under the {edges} on either side: {lies}.", shape.name)
