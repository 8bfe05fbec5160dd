"""Which line of the draft each edge of a piece belongs to: the top edge or the hem, a seam and its side, or neither."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from fanblock.adopting.moved import DrawnEdge
from fanblock.adopting.outlines import line_of
from fanblock.adopting.targets import SeamTarget, Target, crossing_target, outline_target, seam_target
from fanblock.draft.model import HEM_EDGE, TOP_EDGE, Draft, Line
from fanblock.draft.work import Work
from fanblock.pattern.model import SLIT
from fanblock.problems import GeometryError, Problem
from fanblock.units import shown

OVERLAP = " overlap"
"""How the line is called on which an outline edge goes on past a centre line."""

_NUMBERED = re.compile(r"(.+) \d+")
_BELOW = " below waist"


@dataclass(frozen=True, slots=True, eq=False)
class Sorted:
    """All edges by the line they belong to: outline edges by name, seams by name and side, level seams by name and which edge
    of their panel they are; and edges of other lines."""

    outlines: Mapping[str, tuple[DrawnEdge, ...]]
    seams: Mapping[tuple[str, str], tuple[DrawnEdge, ...]]
    levels: Mapping[str, Mapping[str, tuple[DrawnEdge, ...]]]
    others: tuple[DrawnEdge, ...]


def sorted_edges(edges: Sequence[DrawnEdge], work: Work) -> Sorted:
    """Return the edges by their lines, which the draft that made them knows; GeometryError when it made other edges."""
    _check_same(edges, work)
    outlines: dict[str, list[DrawnEdge]] = {}
    seams: dict[tuple[str, str], list[DrawnEdge]] = {}
    levels: dict[str, dict[str, tuple[DrawnEdge, ...]]] = {}
    others: list[DrawnEdge] = []
    names = {line.name for line in work.draft.lines}
    faces, across = _faces(work), _across(work)
    for edge in edges:
        numbered = _NUMBERED.fullmatch(edge.name)
        name = edge.name if edge.name in names or numbered is None else numbered[1]
        face = faces.get((edge.panel, edge.name))
        if name in names and not name.endswith(OVERLAP):
            outlines.setdefault(name, []).append(edge)
        elif face is not None:
            seams.setdefault(face, []).append(edge)
        elif (edge.panel, edge.name) in across:
            seam, side = across[edge.panel, edge.name]
            sides = levels.setdefault(seam, {})
            sides[side] = (*sides.get(side, ()), edge)
        else:
            others.append(edge)
    return Sorted(
        {name: tuple(found) for name, found in outlines.items()},
        {face: tuple(found) for face, found in seams.items()},
        levels,
        tuple(others),
    )


def _faces(work: Work) -> dict[tuple[str, str], tuple[str, str]]:
    """Return the seam and the side (front or back) that edges of panels belong to; tabs' sides go with the seam above."""
    upright = {seam.name for seam in work.draft.seams}
    found: dict[tuple[str, str], tuple[str, str]] = {}
    for record in work.seams:
        if record.line in upright:
            found[record.front] = record.line, "front"
            found[record.back] = record.line, "back"
    sides = {(panel, seam): side for (panel, _), (seam, side) in found.items()}
    for panel in work.panels:
        for edge in panel.edges:
            seam = edge.name.removesuffix(_BELOW)
            if edge.kind == SLIT and (panel.name, seam) in sides:
                found[panel.name, edge.name] = seam, sides[panel.name, seam]
    return found


def _across(work: Work) -> dict[tuple[str, str], tuple[str, str]]:
    """Return the level seam, and whether it is its panel's upper or lower edge there, that edges of panels belong to."""
    level = {seam.name for seam in work.draft.level_seams}
    kinds = {(panel.name, edge.name): edge.across for panel in work.panels for edge in panel.edges if edge.across}
    return {
        place: (record.line, kinds[place])
        for record in work.seams
        if record.line in level
        for place in (record.front, record.back)
        if place in kinds
    }


def _check_same(edges: Iterable[DrawnEdge], work: Work) -> None:
    made = {(panel.name, edge.name) for panel in work.panels for edge in panel.edges}
    strange = sorted({(edge.panel, edge.name) for edge in edges} - made)
    if strange:
        panel, edge = strange[0]
        what = f"the recipe makes no edge {shown(edge)} of a piece {shown(panel)} any more: it has been changed since."
        remedy = "Draft it again, and draw your changes on the new pattern.svg."
        raise GeometryError([Problem("adopt-changed", "from", what, remedy)])


def outline_targets(draft: Draft, chain: str, outlines: Mapping[str, tuple[DrawnEdge, ...]]) -> dict[str, Target]:
    """Return where every line of an outline edge now runs."""
    lines = [line for line in draft.chain(chain) if not line.name.endswith(OVERLAP)]
    found = {}
    if [line.name for line in lines] == [chain]:
        return {chain: crossing_target(draft.block, lines[0], outlines[chain])}
    for number, line in enumerate(lines):
        corners = (number > 0, number < len(lines) - 1)
        found[line.name] = outline_target(line_of(draft.block, line), outlines[line.name], corners)
    return found


def seam_targets(draft: Draft, edges: Sorted) -> dict[str, SeamTarget]:
    """Return how every seam was moved that was; those whose edges all lie where they were drafted are left out."""
    found = {}
    for seam in draft.seams:
        sides = [edges.seams.get((seam.name, side), ()) for side in ("front", "back")]
        if all(sides) and any(edge.is_moved for side in sides for edge in side):
            found[seam.name] = seam_target(draft.block, *sides)
    return found


def main_line(draft: Draft, chain: str) -> Line:
    """Return the line of an outline edge that is one smooth curve."""
    return next(line for line in draft.chain(chain) if line.name == chain)


CHAINS = (TOP_EDGE, HEM_EDGE)
