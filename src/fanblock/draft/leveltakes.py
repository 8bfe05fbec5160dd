"""What level seams take: cloth above the seam is cut away along the ruling, as much as a fold pinned along it would take.

Displacing a level edge along the level would do nothing, so the take is booked along the ruling. The lower edges of the panels
above the seam are raised by it; the upright edges that end there are shortened as much, mates alike, so that they stay
mates. The raised edge is a little longer or shorter than the edge below it, as the block widens or narrows upward: the
difference is eased in, and told with the seam. Girths are along the level and are not touched.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fanblock.block.ruled import Block
from fanblock.draft.model import Draft, LevelSeam
from fanblock.draft.work import SeamRecord, Work
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.pattern.model import LOWER, Edge, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import LEAST_EDGE_MM, SAME_POINT_MM
from fanblock.units import format_length

EASED = "eased"
"""How the longer edge of such a seam is fitted to the shorter."""


def with_level_takes(work: Work) -> Work:
    """Return the work with what its level seams take cut away above them.

    GeometryError when a seam takes at an end on another seam, or more than there is of an edge that it shortens.
    """
    for seam in work.draft.level_seams:
        if seam.take_of is not None:
            _refuse_ends(work.draft, seam)
            work = _taken(work, seam)
    return work


def _refuse_ends(draft: Draft, seam: LevelSeam) -> None:
    """Refuse a take at an end on an upright seam: the other side of that seam would not match any more."""
    for host, around in ((seam.start_on, seam.start), (seam.end_on, seam.end)):
        mm = float(seam.takes_at(np.array([around]))[0])
        if host in seam.hosts and mm > SAME_POINT_MM:
            what = f"it takes {format_length(mm, draft.body.units)} at its end on {host}, whose other side would then be longer."
            raise GeometryError([Problem("take-at-end", f"seam “{seam.name}” › take", what, "Let it take 0 mm there.")])


def _taken(work: Work, seam: LevelSeam) -> Work:
    records = [record for record in work.seams if record.line == seam.name]
    ours = {place for record in records for place in (record.front, record.back)}
    panels = tuple(_raised(work, panel, seam, ours) for panel in work.panels)
    by_name = {panel.name: panel for panel in panels}
    lengths = {place: by_name[place[0]].edge(place[1]).curve.length_mm for place in ours}
    seams = tuple(_eased(record, lengths) if record in records else record for record in work.seams)
    return replace(work, panels=panels, seams=seams)


def _eased(record: SeamRecord, lengths: dict[tuple[str, str], float]) -> SeamRecord:
    """Return the record of a level seam with the longer of its edges first, the difference to be eased in."""
    more = lengths[record.front] - lengths[record.back]
    if abs(more) < SAME_POINT_MM:
        return record
    front, back = (record.front, record.back) if more > 0.0 else (record.back, record.front)
    return replace(record, front=front, back=back, fullness_mm=abs(more), how=EASED)


def _raised(work: Work, panel: Panel, seam: LevelSeam, ours: set[tuple[str, str]]) -> Panel:
    """Return a panel above the seam with its lower edge raised, and the two edges beside that shortened."""
    at = [number for number, edge in enumerate(panel.edges) if edge.across == LOWER and (panel.name, edge.name) in ours]
    if not at:
        return panel
    count = len(panel.edges)
    before, after = (at[0] - 1) % count, (at[-1] + 1) % count
    off = _off_mm(work, panel.edges[before], seam, at_end=True), _off_mm(work, panel.edges[after], seam, at_end=False)
    edges = list(panel.edges)
    edges[before] = _shortened(work, panel, edges[before], off[0], at_end=True)
    edges[after] = _shortened(work, panel, edges[after], off[1], at_end=False)
    run = Curve.through(np.vstack([panel.edges[number].curve.points for number in at]))
    corners = edges[before].curve.end, edges[after].curve.start
    done = 0.0
    for number in at:
        curve = panel.edges[number].curve
        edges[number] = replace(edges[number], curve=_moved(work.block, seam, run, corners, curve, done))
        done += curve.length_mm
    levels = {name: tuple(_lifted(work.block, seam, part) for part in parts) for name, parts in panel.levels.items()}
    return replace(panel, edges=tuple(edges), levels=levels)


def _off_mm(work: Work, edge: Edge, seam: LevelSeam, *, at_end: bool) -> float:
    """Return how much of an edge that ends on the seam is taken: on both mates what the seam takes midway between them."""
    corners = [edge.curve.end if at_end else edge.curve.start]
    if edge.mate is not None:
        mate = next(panel for panel in work.panels if panel.name == edge.mate.panel).edge(edge.mate.edge).curve
        corners.append(mate.start if at_end else mate.end)
    around, _ = work.block.where(np.vstack(corners))
    return float(seam.takes_at(np.array([np.mean(around)]))[0])


def _shortened(work: Work, panel: Panel, edge: Edge, off_mm: float, *, at_end: bool) -> Edge:
    length = edge.curve.length_mm
    if off_mm > length - LEAST_EDGE_MM:
        off, long = (format_length(mm, work.body.units) for mm in (off_mm, length))
        what = f"its lower edge takes {off} off {edge.name}, which is {long} long."
        raise GeometryError([Problem("take-deep", f"panel “{panel.name}”", what, "Let the level seam take less.")])
    left = length - off_mm
    if at_end:
        waist = None if edge.waist_at_mm is None else min(edge.waist_at_mm, left)
        return replace(edge, curve=edge.curve.between(0.0, left), waist_at_mm=waist)
    waist = None if edge.waist_at_mm is None else max(edge.waist_at_mm - off_mm, 0.0)
    return replace(edge, curve=edge.curve.between(off_mm, length), waist_at_mm=waist)


def _up(block: Block, seam: LevelSeam, points: Points) -> Points:
    """Return points moved up their rulings by what the seam takes there."""
    around, height = block.where(points)
    return np.asarray(block.at(around, height + seam.takes_at(around) / block.ruling_length_mm(around)))


def _moved(
    block: Block, seam: LevelSeam, run: Curve, corners: tuple[Points, Points], curve: Curve, done_mm: float
) -> Curve:
    """Return one edge of a run raised; what the run's ends lack to their new corners is spread over all of it."""
    ends = _up(block, seam, run.points[[0, -1]])
    share = ((done_mm + curve.along) / run.length_mm)[:, None]
    lack = (1.0 - share) * (corners[0] - ends[0]) + share * (corners[1] - ends[1])
    return Curve.through(_up(block, seam, curve.points) + lack)


def _lifted(block: Block, seam: LevelSeam, level: Curve) -> Curve:
    """Return a level with what lay in the cloth that is taken laid along the raised edge."""
    around, height = block.where(level.points)
    edge = seam.height_of(around)
    raised = edge + seam.takes_at(around) / block.ruling_length_mm(around)
    inside = (height >= edge - NEAR) & (height < raised)
    return Curve.through(frozen(np.where(inside[:, None], block.at(around, raised), level.points)))


NEAR = 0.02
"""How far below the seam, as a share of bust to waist, a level that runs along it may lie: squared to a centre it strays."""
