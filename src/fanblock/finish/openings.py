"""Where a garment opens, on its finished panels: how wide at which height, and where centre line, fastenings and folds lie."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from fanblock.draft.model import BUTTONED, HOOKED, TIED, Draft, Gap
from fanblock.draft.opening import CENTER_BACK, around_at, edge_kind, edge_name, half_width_mm
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.region import longest_within
from fanblock.pattern.model import Edge, Mark, Note, Opening, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.units import UNITS

USUAL_SPACING_MM = {BUTTONED: 30.0, HOOKED: 25.0, TIED: 80.0}
"""How far apart fastenings sit where a recipe does not say (from memory)."""

NEAREST_MM = 8.0
"""Fastenings nearer to each other than this leave no cloth between them."""

FROM_END_MM = 12.0
"""How far from the ends of its edge the outermost fastening sits (from memory)."""

MARK_MM = 12.0
"""Length of the stroke that stands for a button, a hook or a tie."""

STEP_MM, STEP_IN_MM = 50.0, 2.0 * UNITS["in"]
"""At which heights the width of an opening is told: every 5 cm, or every 2 in to those who measure in inches."""

TUCK_MM = 15.0
"""How deep the fold under a robing is laid, so that its right side shows (from memory)."""

TURNED_MM = 15.0
"""What is turned under at the edge of a robing (from memory)."""

BOTH_SIDES = 2
"""How often an opening along a seam stands in the whole garment."""

NAMES = {BUTTONED: "button", HOOKED: "hook", TIED: "tie"}

STATIONS = 80
"""At how many heights a line that runs up a piece is drawn."""

SHORTEST_MM = 15.0
"""A line of which less lies on a piece is not drawn on it."""


def openings_of(work: Work) -> tuple[Opening, ...]:
    """Return where the garment opens, each opening with how it closes and how wide it stands: at the centres, then beside."""
    along = (
        Opening(gap.at, edge_name(work.draft.openings, gap), gap.closing.by, gap.width_mm, times=BOTH_SIDES)
        for gap in work.draft.seam_gaps
    )
    return (*(_opening(work, gap) for gap in work.draft.gaps), *along)


def open_mm(draft: Draft) -> float:
    """Return what all openings of the garment leave open at the waist; halves that meet or lap leave nothing."""
    at_centers = sum(max(gap.width_mm, 0.0) for gap in draft.gaps)
    return at_centers + BOTH_SIDES * sum(gap.width_mm for gap in draft.seam_gaps)


def _opening(work: Work, gap: Gap) -> Opening:
    widths = tuple(_widths(work, gap)) if gap.free else ()
    return Opening(
        gap.at,
        edge_name(work.draft.openings, gap),
        gap.closing.by,
        max(gap.width_mm, 0.0),
        gap.closing.overlap_mm,
        widths,
        gap.behind,
    )


def _widths(work: Work, gap: Gap) -> Iterator[tuple[float, float]]:
    """Yield how wide an opening stands at every 5 cm of its centre line, as far as its edges go."""
    block = work.block
    ruling = block.center_back_mm if gap.at == CENTER_BACK else block.center_front_mm
    low, high = edge_heights(work, gap)
    step = STEP_IN_MM if work.body.units == "in" else STEP_MM
    for number in range(math.ceil(low * ruling / step - 0.01), math.floor(high * ruling / step + 0.01) + 1):
        yield number * step, 2.0 * half_width_mm(block, gap, number * step / ruling)


def edges_at(work: Work, gap: Gap) -> list[tuple[Panel, Edge]]:
    """Return the edges of panels along an opening, from the lowest up."""
    name, kind = edge_name(work.draft.openings, gap), edge_kind(gap)
    found = [
        (panel, edge)
        for panel in work.panels
        for edge in panel.edges
        if not panel.added and edge.kind == kind and (edge.name == name or edge.name.startswith(f"{name} "))
    ]
    return sorted(found, key=lambda one: float(one[1].curve.points[:, 1].mean()))


def edge_heights(work: Work, gap: Gap) -> tuple[float, float]:
    """Return the heights between which an opening's edges run on the finished panels."""
    ends = [edge.curve.points[[0, -1]] for _, edge in edges_at(work, gap)]
    heights = work.block.where(np.vstack(ends))[1]
    return float(heights.min()), float(heights.max())


def with_opening_marks(work: Work) -> Work:
    """Return the work with the marks of its openings: centre lines under an overlap, fastenings, and folds of robings.

    GeometryError when fastenings would sit too close. The edge of a robing gets the cloth that its fold takes, unless the
    recipe gave that edge a width of its own.
    """
    widths = dict(work.allowance_by_name)
    for gap in work.draft.gaps:
        work = _marked(work, gap)
        if gap.closing.robing_mm:
            widths.setdefault(edge_name(work.draft.openings, gap), 2.0 * TUCK_MM + TURNED_MM)
            work = replace(work, notes=(*work.notes, Note("sewing", ROBING), Note("sewing lining", ROBING_LAID)))
    return replace(work, allowance_by_name=widths)


LAY_ROBINGS = "Lay the robings in the outer cloth alone"
"""How it begins that robings are laid, in whatever units it is told."""

ROBING = (
    f"{LAY_ROBINGS}: fold it along the crease farther from the front edge, right sides together, and "
    "back along the nearer one, until its free side lies on the marked line. The folds draw the front in by 3 cm (1 1/4 in), "
    "which is what the wide allowance is for. Baste the robing down."
)

ROBING_LAID = (
    "With the robings laid, turn the outer front edge under so that it lies on the front edge as it is printed on the lining; "
    "trim the lining 1.5 cm (5/8 in) beyond that line before you turn it in."
)


def _marked(work: Work, gap: Gap) -> Work:
    for panel, edge in edges_at(work, gap):
        marks = list(_centers(work, gap, panel)) + list(_fastenings(work, gap, edge)) + list(_robings(work, gap, panel))
        if marks:
            marked = replace(panel, marks=(*panel.marks, *marks))
            work = replace(work, panels=tuple(marked if one.name == panel.name else one for one in work.panels))
    return work


def _centers(work: Work, gap: Gap, panel: Panel) -> Iterator[Mark]:
    """Yield the centre line, which lies within the cloth where the halves lie over each other."""
    if gap.closing.overlap_mm:
        around = 1.0 if gap.at == CENTER_BACK else 0.0
        line = inside(panel, upright(work, np.full(STATIONS, around), edge_heights(work, gap), beyond=0.5))
        if line is not None:
            yield Mark(gap.at, "place", line, f"{gap.at}: the two halves meet on this line")


def _fastenings(work: Work, gap: Gap, edge: Edge) -> Iterator[Mark]:
    """Yield a stroke across the line for every button, hook or tie, evenly apart, from the top down."""
    closing = gap.closing
    if closing.by not in NAMES:
        return
    places = _even_places(work, gap, edge)
    down = edge.curve if gap.at != CENTER_BACK else edge.curve.reversed()
    word = NAMES[closing.by]
    for number, at in enumerate(places, start=1):
        point, along = down.at(at), down.tangent_at(at)
        inward = np.array([-along[1], along[0]]) * (1.0 if gap.at != CENTER_BACK else -1.0)
        foot = point + (closing.overlap_mm - MARK_MM / 2.0 if closing.overlap_mm else 0.0) * inward
        line = Curve(frozen([foot, foot + MARK_MM * inward]))
        yield Mark(f"{word} {number}", "fastening", line, word if number == 1 else "")


def _even_places(work: Work, gap: Gap, edge: Edge) -> list[float]:
    """Return how far below the top of an opening's edge each fastening sits."""
    closing = gap.closing
    height = work.block.where(edge.curve.points)[1]
    down = edge.curve.along if gap.at != CENTER_BACK else edge.curve.length_mm - edge.curve.along
    order = np.argsort(height)
    foot = (
        edge.curve.length_mm
        if closing.to_hem or height.min() > 0.0
        else float(np.interp(0.0, height[order], down[order]))
    )
    long = foot - (2.0 if closing.to_hem or height.min() > 0.0 else 1.0) * FROM_END_MM
    spacing = closing.spacing_mm or USUAL_SPACING_MM[closing.by]
    count = closing.count or max(2, round(long / spacing) + 1)
    if count > 1 and long < NEAREST_MM * (count - 1):
        what = f"{count} {closing.by} on {max(long, 0.0):.0f} mm sit too close."
        raise GeometryError([Problem("fastenings-close", f"opening at the {gap.at}", what, "Have fewer of them.")])
    return [FROM_END_MM + long * number / max(count - 1, 1) for number in range(count)]


def _robings(work: Work, gap: Gap, panel: Panel) -> Iterator[Mark]:
    """Yield the two folds of a robing, laid as a tuck along the edge, and the line that its free side comes to lie on."""
    wide = gap.closing.robing_mm
    if not wide:
        return
    low_high = edge_heights(work, gap)
    for name, kind, off, says in (
        ("robing lies here", "place", wide, "the robing's side comes to lie here"),
        ("robing first fold", "crease", wide - TUCK_MM, "robing: fold right sides together"),
        ("robing second fold", "crease", wide - 2.0 * TUCK_MM, "robing: fold back, onto the line behind"),
    ):
        heights = _stations(low_high)
        arounds = work.block.along(around_at(gap, heights), heights, -off if gap.at == CENTER_BACK else off)
        line = inside(panel, work.block.at(arounds, heights))
        if line is not None:
            yield Mark(name, kind, line, says)


def upright(work: Work, arounds: Points, low_high: tuple[float, float], *, beyond: float = 0.0) -> Points:
    """Return points up the block at these arounds, from low to high and ``beyond`` both ends, a share of bust to waist."""
    heights = np.linspace(low_high[0] - beyond, low_high[1] + beyond, len(arounds))
    return work.block.at(arounds, heights)


def _stations(low_high: tuple[float, float], beyond: float = 0.3) -> Points:
    return np.linspace(low_high[0] - beyond, low_high[1] + beyond, STATIONS)


def inside(panel: Panel, points: Points) -> Curve | None:
    """Return the longest run of a line that lies within a panel; None where there is next to none."""
    line = longest_within(panel.loop(), points)
    if line is None:
        return None
    curve = Curve.through(line)
    return curve if curve.length_mm > SHORTEST_MM else None
