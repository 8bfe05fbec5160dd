"""Cutting a draft apart: the outline closed, every seam sliced in the recipe's order, all mates trued at once."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import numpy as np

from fanblock.draft.cutting import sliced_loops
from fanblock.draft.lacing import HIGHEST, LOWEST
from fanblock.draft.leveltakes import with_level_takes
from fanblock.draft.mates import Rim, mated, onto, rims_of
from fanblock.draft.model import AROUND, HEIGHT, HEM_EDGE, TOP_EDGE, Draft, Line
from fanblock.draft.openfront import refuse_crossed_front
from fanblock.draft.opening import edge_kind, edge_name
from fanblock.draft.ordering import seam_order
from fanblock.draft.outline import refuse_crossed_rulings
from fanblock.draft.panels import levels_in, panels_of, traced
from fanblock.draft.slicing import Loop, Side, closed_loop
from fanblock.draft.takes import Take, takes_of
from fanblock.draft.truing import Trued, trued
from fanblock.draft.work import SeamRecord, Work
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.meet import meetings, point_at
from fanblock.pattern.model import CENTER, EndShift
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import LEAST_EDGE_MM, SAME_POINT_MM

LINE_PLACES = 60
"""At how many places the line of a seam is drawn for the picture of a draft."""


def outline(draft: Draft) -> Loop:
    """Return the closed outline of the draft: hem, back line, top edge, front line, counter-clockwise.

    GeometryError when top edge or hem is missing or they do not reach the centre lines.
    """
    _check_drawn(draft)
    upright = np.array([[0.0, LOWEST], [0.0, HIGHEST]])
    front = Side("center front", CENTER, upright[::-1])
    back = Side("center back", CENTER, upright + np.array([1.0, 0.0]))
    for gap in draft.gaps:
        name, kind = edge_name(draft.openings, gap), edge_kind(gap)
        if gap.at == "center back":
            back = Side(name, kind, gap.line)
        else:
            front = Side(name, kind, gap.line[::-1])
    _check_apart(draft)
    refuse_crossed_front(draft)
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
    """Return the trued panels of the draft, named from front to back, those one above another from the top down.

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
    panels = panels_of(names, rims, pairs)
    traces = {panel.name: traced(draft, edges) for panel, edges in zip(panels, rims, strict=True)}
    panels = tuple(replace(panel, levels=levels_in(draft, traces[panel.name])) for panel in panels)
    order = seam_order(draft, pairs)
    seams = tuple(
        SeamRecord(
            name=rims[pair.front[0]][pair.front[1]].name,
            line=pair.seam,
            number=order[pair.seam, pair.part],
            front=(names[pair.front[0]], rims[pair.front[0]][pair.front[1]].name),
            back=(names[pair.back[0]], rims[pair.back[0]][pair.back[1]].name),
            above=_shift(record, takes, top=True),
            below=_shift(record, takes, top=False),
            part=pair.part,
            onto=onto(rims, pair),
        )
        for pair, record in zip(pairs, records, strict=True)
    )
    ordered = tuple(sorted(seams, key=lambda seam: (seam.number, seam.name)))
    return with_level_takes(Work(draft, panels, ordered, _lines(draft, whole), takes, MappingProxyType(traces)))


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


def _shift(record: Trued, takes: tuple[Take, ...], *, top: bool) -> EndShift | None:
    edge_mm = record.above_edge_mm if top else record.below_edge_mm
    if edge_mm <= SAME_POINT_MM or record.is_level:
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
        heights = np.linspace(seam.low, seam.top, LINE_PLACES)
        lines[seam.name] = np.column_stack((seam.around_of(heights), heights))
    for level in draft.level_seams:
        arounds = np.linspace(level.start, level.end, LINE_PLACES)
        lines[level.name] = np.column_stack((arounds, level.height_of(arounds)))
    return MappingProxyType(
        {
            name: Curve.through(draft.block.at(points[:, AROUND], points[:, HEIGHT]))
            for name, points in sorted(lines.items())
        }
    )
