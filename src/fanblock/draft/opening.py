"""Where a draft opens: what its edges are called, and the lines that its outline is carried on along past a centre line."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from fanblock.block.ruled import Block
from fanblock.draft.lacing import moved_aside
from fanblock.draft.model import HEIGHT, LACED, Draft, Gap, SeamGap
from fanblock.geometry.curve import Points, frozen
from fanblock.pattern.model import LACING, OPENING
from fanblock.problems import GeometryError, Problem
from fanblock.terms import LACING_EDGE, LACING_EDGES, Around

CENTER_BACK, CENTER_FRONT = "center back", "center front"

LINE_PLACES = 160
"""At how many heights the lacing edge along a seam is drawn for what stands on it."""

MOST_OVERLAP_MM = 80.0
"""The widest overlap that is drawn: a double-breasted front (from memory)."""


def edge_name(openings: Iterable[Gap | SeamGap], gap: Gap | SeamGap) -> str:
    """Return what the edges of an opening are called: of several that are laced each says where it is."""
    if gap.closing.by != LACED:
        return "back edge" if gap.at == CENTER_BACK else "front edge"
    laced = [one for one in openings if one.closing.by == LACED]
    return LACING_EDGE if len(laced) == 1 else f"{LACING_EDGE} {gap.at.removeprefix('center ')}"


def edge_kind(gap: Gap | SeamGap) -> str:
    """Return the kind of an opening's edges."""
    return LACING if gap.closing.by == LACED else OPENING


def gap_at(draft: Draft, at: str, where: str) -> Gap:
    """Return the opening at a centre line; GeometryError, told at ``where``, when there is none."""
    for gap in draft.gaps:
        if gap.at == at:
            return gap
    what = f"the garment does not open at the {at}."
    raise GeometryError([Problem("not-open", where, what, "Put an `opening`, `open front` or `lacing gap` before it.")])


def gap_named(gaps: Sequence[Gap], landmark: str) -> Gap:
    """Return the opening that ``front edge``, ``back edge`` or ``lacing edge`` means; KeyError when there is none."""
    if landmark == "lacing edge":
        found = [gap for gap in gaps if gap.closing.by == LACED] or list(gaps)
    else:
        found = [gap for gap in gaps if (gap.at == CENTER_BACK) == (landmark == "back edge")]
    if not found:
        raise KeyError(landmark)
    return found[-1]


def laced_at(landmark: str) -> str:
    """Return where the lacing edge is that an around names: a centre line, the side or a seam; empty for any other around."""
    if not landmark.startswith(f"{LACING_EDGE} "):
        return ""
    return LACING_EDGES.get(landmark, landmark.removeprefix(f"{LACING_EDGE} "))


def edge_line(draft: Draft, landmark: str) -> Points:
    """Return the line, rising, of the edge that ``front edge``, ``back edge`` or a lacing edge means.

    Of the two edges along a seam it is the one nearer to the front, where the seam takes nothing. KeyError when there is
    none.
    """
    if landmark == LACING_EDGE:
        named = [gap for gap in draft.openings if gap.closing.by == LACED]
    else:
        named = [gap for gap in draft.openings if gap.at == laced_at(landmark)]
    if not named:
        return gap_named(draft.gaps, landmark).line
    found = named[-1]
    if isinstance(found, Gap):
        return found.line
    return seam_edge(draft, found)


def seam_edge(draft: Draft, gap: SeamGap) -> Points:
    """Return the edge of an opening along a seam that is nearer to the front, rising, where the seam takes nothing."""
    seam = draft.seam(gap.at)
    heights = np.linspace(seam.low, seam.top, LINE_PLACES)
    line = np.column_stack((seam.around_of(heights), heights))
    return moved_aside(draft.block, line, -0.5 * gap.width_mm)


def is_missing(around: Around, gaps: Iterable[str], laced: Iterable[str]) -> bool:
    """Return whether an around stands on an edge of an opening that has not been drawn: ``gaps`` are the places open so far."""
    at = laced_at(around.landmark)
    if at:
        return at not in set(laced)
    front = set(gaps) & {CENTER_FRONT}
    needs = {LACING_EDGE: set(laced), "front edge": front, "back edge": {CENTER_BACK} & set(gaps)}
    return around.landmark in needs and not needs[around.landmark]


def around_at(gap: Gap, heights: Points) -> Points:
    """Return the arounds of an opening's edge at some heights."""
    return np.interp(heights, gap.line[:, HEIGHT], gap.line[:, 0])


def half_width_mm(block: Block, gap: Gap, height: float) -> float:
    """Return how much of a level lies between an opening's edge and its centre line; below 0 where it runs past it."""
    around = float(around_at(gap, np.array([height]))[0])
    if gap.at == CENTER_BACK:
        return block.level_part_mm(height, around, 1.0)
    return block.level_part_mm(height, 0.0, around)


def overlap_mm(draft: Draft, at: str) -> float:
    """Return how far each half runs past a centre line."""
    return max((gap.closing.overlap_mm for gap in draft.gaps if gap.at == at), default=0.0)


def stands_free(draft: Draft, at: str) -> bool:
    """Return whether edges that reach a centre line end free there, before it or at a lace, and need not be square to it."""
    return any(gap.at == at and (gap.closing.by == LACED or gap.width_mm > 0.0) for gap in draft.gaps)


def mirrored(block: Block, at: str, points: Points) -> Points:
    """Return points of the plane mirrored at a centre line."""
    center = 1.0 if at == CENTER_BACK else 0.0
    foot, up = block.at(center, 0.0), block.ruling_direction(center)
    along = (points - foot) @ up
    return np.asarray(2.0 * (foot + along[:, None] * up) - points)


def carried_past(draft: Draft, at: str, points: Points, reach_mm: float) -> Points:
    """Return an edge's beginning at a centre line as it goes on past it, from the centre outward, in around and height.

    ``points`` run inward from the centre line, in the plane. What goes on is their mirror image, so that the one half lies
    within the other's outline when they are laid over each other; at most ``reach_mm`` of it.
    """
    along = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))))
    near = points[: int(np.searchsorted(along, reach_mm)) + 2]
    around, height = draft.block.where(mirrored(draft.block, at, near))
    return frozen(np.column_stack((around, height)))
