"""The waist that a skirt of its own is sewn to: the lower edges of some panels, one behind another, measured along."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from fanblock.draft.adding import panel_of, with_split_edge
from fanblock.draft.work import Work
from fanblock.geometry.meet import crossings
from fanblock.pattern.model import CENTER, FOLD, HEM, WAIST, Edge, EdgeName, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import LEAST_EDGE_MM


@dataclass(frozen=True, slots=True)
class Stretch:
    """One edge of a panel and where it begins and ends along the waist, from the front (mm)."""

    panel: str
    edge: str
    start_mm: float
    end_mm: float


def lower_edges(panel: Panel) -> tuple[Edge, ...]:
    """Return the edges along the foot of a panel, from front to back."""
    return tuple(edge for edge in panel.edges if edge.kind in (WAIST, HEM))


def waist_of(work: Work, panels: tuple[str, ...], where: str) -> tuple[Stretch, ...]:
    """Return the lower edges of the panels named, from front to back.

    GeometryError, told at ``where``, for a panel that has none, one whose foot is sewn to something already, and for two
    that are not side by side.
    """
    found: list[Stretch] = []
    run = 0.0
    ordered = sorted((panel_of(work, name, where) for name in panels), key=lambda panel: panel.number)
    for panel in ordered:
        edges = lower_edges(panel)
        if not edges or any(edge.mate is not None for edge in edges):
            how = "is sewn to something at its foot already" if edges else "has no lower edge"
            remedy = "Leave it out, or sew the skirt elsewhere."
            raise GeometryError([Problem("skirt-waist", where, f"panel “{panel.name}” {how}.", remedy)])
        for edge in edges:
            found.append(Stretch(panel.name, edge.name, run, run + edge.curve.length_mm))
            run += edge.curve.length_mm
    for before, after in pairwise(ordered):
        if not _side_by_side(before, after):
            what = f"no seam runs down between “{before.name}” and “{after.name}”."
            remedy = "Name panels that lie side by side, or sew on two skirts."
            raise GeometryError([Problem("skirt-apart", where, what, remedy)])
    return tuple(found)


def _side_by_side(before: Panel, after: Panel) -> bool:
    """Return whether the edge behind the foot of one panel is sewn to the edge in front of another's."""
    behind = _beside(before, lower_edges(before)[-1], 1)
    ahead = _beside(after, lower_edges(after)[0], -1)
    return behind.mate == EdgeName(after.name, ahead.name)


def _beside(panel: Panel, edge: Edge, step: int) -> Edge:
    at = next(number for number, one in enumerate(panel.edges) if one.name == edge.name)
    return panel.edges[(at + step) % len(panel.edges)]


def parted(work: Work, waist: tuple[Stretch, ...], at_mm: float) -> tuple[Work, tuple[Stretch, ...]]:
    """Return the work and the waist with an edge split in two at a place, unless two meet there."""
    stretches: list[Stretch] = []
    for stretch in waist:
        if not stretch.start_mm + LEAST_EDGE_MM < at_mm < stretch.end_mm - LEAST_EDGE_MM:
            stretches.append(stretch)
            continue
        names = _halves(panel_of(work, stretch.panel), stretch.edge)
        work = with_split_edge(work, (stretch.panel, stretch.edge), at_mm - stretch.start_mm, names)
        stretches.append(Stretch(stretch.panel, names[0], stretch.start_mm, at_mm))
        stretches.append(Stretch(stretch.panel, names[1], at_mm, stretch.end_mm))
    return work, tuple(stretches)


def _halves(panel: Panel, name: str) -> tuple[str, str]:
    """Return names for the two parts of an edge that the panel has not yet."""
    taken = {edge.name for edge in panel.edges}
    free = (f"{name} {number}" for number in range(1, len(taken) + 3) if f"{name} {number}" not in taken)
    return next(free), next(free)


def side_mm(work: Work, waist: tuple[Stretch, ...]) -> float:
    """Return where the body's side lies along the waist; the middle where none of the panels passes it."""
    for stretch in waist:
        curve = panel_of(work, stretch.panel).edge(stretch.edge).curve
        around, _ = work.block.where(curve.points)
        places = crossings(np.column_stack((around, around)), 0, work.block.side_ratio)
        if len(places):
            at = float(np.interp(float(places[0]), np.arange(len(curve.along)), curve.along))
            return stretch.start_mm + at
    return 0.5 * (waist[0].start_mm + waist[-1].end_mm)


def centered(work: Work, stretch: Stretch, *, front: bool) -> bool:
    """Return whether an edge of a waist begins (``front``) or ends at a centre line that is a seam or a fold."""
    panel = panel_of(work, stretch.panel)
    return _beside(panel, panel.edge(stretch.edge), -1 if front else 1).kind in (CENTER, FOLD)


def within(waist: tuple[Stretch, ...], start_mm: float, end_mm: float) -> Iterator[Stretch]:
    """Yield the edges of a waist that lie between two places; both must stand where edges meet."""
    for stretch in waist:
        if start_mm - LEAST_EDGE_MM < stretch.start_mm and stretch.end_mm < end_mm + LEAST_EDGE_MM:
            yield stretch
