"""Cutting a draft apart: the outline closed, every seam sliced in the recipe's order, all mates trued at once."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import numpy as np

from fanblock.block.stand import ON_WAIST_AND_BUST
from fanblock.draft.lacing import HIGHEST, LOWEST
from fanblock.draft.mates import MatePair, Rim, mated, rims_of
from fanblock.draft.model import AROUND, HEIGHT, HEM_EDGE, TOP_EDGE, Draft, Line
from fanblock.draft.opening import edge_kind, edge_name
from fanblock.draft.ordering import front_to_back
from fanblock.draft.outline import refuse_crossed_rulings
from fanblock.draft.slicing import Loop, Side, closed_loop, holding, sliced, split_at_height, stretches_at
from fanblock.draft.takes import Take, takes_of
from fanblock.draft.truing import Trued, trued
from fanblock.draft.work import SeamRecord, Work
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.meet import meetings, point_at
from fanblock.pattern.model import CENTER, SEAM, SLIT, Edge, EdgeName, EndShift, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import ALONG_MM, LEAST_EDGE_MM, SAME_POINT_MM

RUN_ON = 0.35
"""How far, as a share of bust to waist, a seam's edges are carried on below its end before the loop cuts them."""

SEAM_STEP_MM = 2.0
"""Distance between the points of a seam's edges."""


def outline(draft: Draft) -> Loop:
    """Return the closed outline of the draft: hem, back line, top edge, front line, counter-clockwise.

    GeometryError when top edge or hem is missing or they do not reach the centre lines.
    """
    _check_drawn(draft)
    upright = np.array([[0.0, LOWEST], [0.0, HIGHEST]])
    front = Side("center front", CENTER, upright[::-1])
    back = Side("center back", CENTER, upright + np.array([1.0, 0.0]))
    for gap in draft.gaps:
        name, kind = edge_name(draft.gaps, gap), edge_kind(gap)
        if gap.at == "center back":
            back = Side(name, kind, gap.line)
        else:
            front = Side(name, kind, gap.line[::-1])
    _check_apart(draft)
    hem = tuple(_side(line, line.points) for line in draft.chain(HEM_EDGE))
    top = tuple(_side(line, line.points[::-1]) for line in reversed(draft.chain(TOP_EDGE)))
    return closed_loop((hem, (back,), top, (front,)))


def _side(line: Line, points: Points) -> Side:
    return Side(line.name, line.kind, points, line.seam, line.face, line.pointed)


def _check_apart(draft: Draft) -> None:
    """Refuse a top edge that comes down to the hem: no cloth would be left between them."""
    top, hem = (np.vstack([line.points for line in draft.chain(name)]) for name in (TOP_EDGE, HEM_EDGE))
    met = [float(point_at(top, place)[AROUND]) for place, _ in meetings(top, hem)]
    if draft.height_of(TOP_EDGE, 0.0) <= draft.height_of(HEM_EDGE, 0.0):
        met.append(0.0)
    inside = [around for around in met if 0.0 <= around <= 1.0]
    if inside:
        what = f"at {min(inside):.0%} around the top edge comes down to the hem on this body."
        raise GeometryError([Problem("outline-crossed", "outline", what, "Raise the one or lower the other.")])


def separated(draft: Draft, names: tuple[str, ...]) -> Work:
    """Return the trued panels of the draft, named from front to back.

    GeometryError when a seam does not run right across the cloth, crosses another, or the number of names is not the
    number of panels.
    """
    refuse_crossed_rulings(draft)
    whole = outline(draft)
    takes = takes_of(draft)
    loops = sliced_loops(draft, whole, takes)
    if len(names) != len(loops):
        what = f"{len(names)} names are given, and the seams make {len(loops)} panels."
        raise GeometryError([Problem("panel-names", "panels", what, "Give one name for each, from front to back.")])
    rims, pairs = mated([list(rims_of(draft.block, loop)) for loop in loops])
    _check_edges(names, rims)
    rims, records = trued(rims, pairs)
    order = _seam_order(draft)
    panels = tuple(_panel(names, number, rims, pairs) for number in range(len(rims)))
    traces = {panel.name: _traced(draft, panel) for panel in panels}
    panels = tuple(replace(panel, levels=_levels(draft, traces[panel.name])) for panel in panels)
    seams = tuple(
        SeamRecord(
            name=rims[pair.front[0]][pair.front[1]].name,
            line=pair.seam,
            number=order[pair.seam],
            front=(names[pair.front[0]], rims[pair.front[0]][pair.front[1]].name),
            back=(names[pair.back[0]], rims[pair.back[0]][pair.back[1]].name),
            above=_shift(record, takes, top=True),
            below=_shift(record, takes, top=False),
        )
        for pair, record in zip(pairs, records, strict=True)
    )
    ordered = tuple(sorted(seams, key=lambda seam: (seam.number, seam.name)))
    return Work(draft, panels, ordered, _lines(draft, whole), takes, MappingProxyType(traces))


def sliced_loops(draft: Draft, whole: Loop, takes: tuple[Take, ...]) -> tuple[Loop, ...]:
    """Return the loops that an outline's seams make of it, from front to back."""
    loops: tuple[Loop, ...] = (whole,)
    for take in takes:
        loops = _sliced_along(draft, loops, take)
    crossed = any(seam.top_on or seam.low_on for seam in draft.seams)
    return front_to_back(tuple(_opened(draft, loop) for loop in loops), crossed=crossed)


def _check_drawn(draft: Draft) -> None:
    drawn = {line.chain for line in draft.lines}
    missing = [name for name in ("top edge", "hem") if name not in drawn]
    if missing:
        what = f"no {' and no '.join(missing)} has been drawn."
        raise GeometryError([Problem("outline-missing", "outline", what, "Add that step before `separate`.")])


def _check_edges(names: tuple[str, ...], rims: list[list[Rim]]) -> None:
    """Refuse panels with next to nothing of an edge: a seam that ends in a corner, or two that end side by side."""
    problems = [
        Problem(
            "edge-tiny",
            f"panel “{name}”",
            f"only {rim.curve.length_mm:.1f} mm of {rim.name} would be left of it.",
            "Move the seam that ends there away from the corner.",
        )
        for name, panel in zip(names, rims, strict=True)
        for rim in panel
        if rim.curve.length_mm < LEAST_EDGE_MM
    ]
    if problems:
        raise GeometryError(problems)


def _sliced_along(draft: Draft, loops: tuple[Loop, ...], take: Take) -> tuple[Loop, ...]:
    seam = take.seam
    middle = (seam.top + seam.low) / 2.0
    number = holding(loops, np.array([seam.around_at(middle), middle]))
    if number is None:
        what = "its middle lies off the cloth or on another seam's take."
        raise GeometryError([Problem("seam-off", f"seam “{seam.name}”", what, "Move it within a panel.")])
    front, back = (_seam_side(draft, take, face) for face in ("front", "back"))
    parted = sliced(loops[number], front, back, middle, (seam.top_on, seam.low_on))
    return (*loops[:number], *parted, *loops[number + 1 :])


def _seam_side(draft: Draft, take: Take, face: str) -> Side:
    """Return one edge of a seam, rising, carried on beyond both ends."""
    seam = take.seam
    low, top = seam.low - RUN_ON, seam.top + RUN_ON
    count = int((top - low) * draft.block.ruling_length_mm(seam.around_at(seam.top)) / SEAM_STEP_MM)
    heights = np.linspace(low, top, count)
    centers = seam.around_of(heights)
    offset = take(heights) * (-0.5 if face == "front" else 0.5)
    around = draft.block.along(centers, heights, offset)
    return Side(seam.name, SEAM, np.column_stack((around, heights)), seam.name, face)


def _opened(draft: Draft, loop: Loop) -> Loop:
    """Return the loop with every seam that is open below the waist split there into a seam and the side of a tab."""
    sides: list[Side] = []
    for side in loop:
        if side.kind == SEAM and draft.seam(side.seam).below == "open" and _hangs(draft, side):
            for piece in split_at_height(side, 0.0):
                low = float(np.mean(piece.points[:, HEIGHT])) < 0.0
                sides.append(replace(piece, name=f"{side.name} below waist", kind=SLIT, seam="") if low else piece)
        else:
            sides.append(side)
    return tuple(sides)


def _hangs(draft: Draft, side: Side) -> bool:
    """Return whether a seam's edge goes on below the waist far enough to part there."""
    low = side.points[np.argmin(side.points[:, HEIGHT])]
    return -float(low[HEIGHT]) * draft.block.ruling_length_mm(float(low[AROUND])) > LEAST_EDGE_MM


def _seam_order(draft: Draft) -> dict[str, int]:
    """Return each seam's number from front to back, where it crosses the waist or comes nearest to it.

    Edges of the outline that are sewn to each other, as shoulders are, come after all seams.
    """
    ranked = sorted(draft.seams, key=lambda seam: seam.around_at(min(max(0.0, seam.low), seam.top)))
    names = [seam.name for seam in ranked]
    names += list(dict.fromkeys(line.seam for line in draft.lines if line.seam))
    return {name: number for number, name in enumerate(names, start=1)}


def _panel(names: tuple[str, ...], number: int, rims: list[list[Rim]], pairs: tuple[MatePair, ...]) -> Panel:
    mates = {}
    for pair in pairs:
        mates[pair.front], mates[pair.back] = pair.back, pair.front
    edges = []
    for index, rim in enumerate(rims[number]):
        place = mates.get((number, index))
        mate = None if place is None else EdgeName(names[place[0]], rims[place[0]][place[1]].name)
        edges.append(Edge(rim.name, rim.kind, rim.curve, mate, "", mate is not None, rim.waist_at_mm, rim.pointed))
    return Panel(names[number], number + 1, tuple(edges))


def _traced(draft: Draft, panel: Panel) -> Loop:
    """Return a panel's loop in around and height."""
    around, height = draft.block.where(np.vstack([edge.curve.points for edge in panel.edges]))
    places = np.column_stack((around, height))
    ends = np.cumsum([len(edge.curve.points) for edge in panel.edges])[:-1]
    return tuple(
        Side(edge.name, edge.kind, points) for edge, points in zip(panel.edges, np.split(places, ends), strict=True)
    )


def _levels(draft: Draft, loop: Loop) -> MappingProxyType[str, tuple[Curve, ...]]:
    """Return the parts of the waist and bust levels, and of those the block stands on, that lie inside a loop.

    They run from stitch line to stitch line.
    """
    levels = dict.fromkeys((*ON_WAIST_AND_BUST.levels, *draft.stand.levels))
    hair = ALONG_MM / draft.block.center_front_mm
    return MappingProxyType(
        {
            level.name: tuple(
                draft.block.level(level.height, *stretch) for stretch in stretches_at(loop, level.height, hair)
            )
            for level in levels
        }
    )


def _shift(record: Trued, takes: tuple[Take, ...], *, top: bool) -> EndShift | None:
    edge_mm = record.above_edge_mm if top else record.below_edge_mm
    if edge_mm <= SAME_POINT_MM:
        return None
    take = next((take for take in takes if take.seam.name == record.pair.seam), None)
    if take is None:
        return EndShift(abs(record.above_mm if top else record.below_mm), edge_mm, 0.0, 0.0)
    lean = take.seam.lean_deg[0 if top else 1]
    taken = abs(take.at_waist_mm) if top else abs(take.at_waist_mm + take.spring_mm)
    return EndShift(abs(record.above_mm if top else record.below_mm), edge_mm, lean, taken)


def _lines(draft: Draft, whole: Loop) -> MappingProxyType[str, Curve]:
    """Return the draft's own lines in the plane: the outline and the seams' centre lines within it."""
    lines: dict[str, Points] = {side.name: side.points for side in whole}
    for chain in (TOP_EDGE, HEM_EDGE):
        names = {line.name for line in draft.chain(chain)}
        lines[chain] = np.vstack([side.points for side in whole if side.name in names])
    for seam in draft.seams:
        heights = np.linspace(seam.low, seam.top, 60)
        lines[seam.name] = np.column_stack((seam.around_of(heights), heights))
    return MappingProxyType(
        {
            name: Curve.through(draft.block.at(points[:, AROUND], points[:, HEIGHT]))
            for name, points in sorted(lines.items())
        }
    )
