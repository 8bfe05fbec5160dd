"""Where a garment opens: do its two edges keep apart, and does what lies behind them reach far enough under them?"""

from __future__ import annotations

import numpy as np

from fanblock.checks.finding import FAILS, HOLDS, WARNS, told, within
from fanblock.geometry.curve import Points
from fanblock.pattern.model import OPEN_KINDS, Edge, Finding, Opening, Panel, Pattern
from fanblock.tolerances import GIRTH_MM, MATES_MM
from fanblock.units import format_length, retold

FAMILY = "opening"

LEAST_UNDER_MM, USUAL_UNDER_MM, MOST_UNDER_MM = 5.0, 20.0, 30.0
"""A stomacher lies 2 to 3 cm under the edges on either side (common practice, no source); with next to nothing under them
it cannot be pinned."""

LENGTHS_MM, WIDTHS_MM = (345.0, 370.0), (250.0, 315.0)
"""Stomachers that are left: 36.0 by 28.0 cm (V&A O137800), 34.5 by 29.0 (V&A O137802), 35.5 by 31.5 (V&A O15322), 37 by 25
(Manchester Art Gallery 2003.109/2)."""

STATIONS = 40


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return whether open edges keep apart, how far a stomacher lies under them, and how its size compares with others."""
    found: list[Finding] = []
    for opening in pattern.openings:
        found.append(_told(pattern, opening))
        if opening.widths:
            found.append(_apart(pattern, opening))
        behind = next((panel for panel in pattern.panels if panel.name == opening.behind), None)
        if behind is not None:
            found += [_under(pattern, opening, behind), _alike(behind)]
            if opening.widths:
                found.append(_sized(pattern, behind))
    return tuple(found)


def _told(pattern: Pattern, opening: Opening) -> Finding:
    """Tell where the garment opens, with what it closes and how its edges then stand."""
    units, word = pattern.body.units, CLOSED[opening.closed]
    stands = f"{format_length(opening.width_mm, units)} apart at the waist" if opening.width_mm else "edge to edge"
    if opening.overlap_mm:
        stands = f"{format_length(2.0 * opening.overlap_mm, units)} over each other"
    says = f"it opens at the {opening.at} and is {word} there, {stands}"
    return told(f"opening-at-{opening.at.replace(' ', '-')}", FAMILY, HOLDS, opening.width_mm, "mm", says)


CLOSED = {"lacing": "laced", "pins": "pinned", "buttons": "buttoned", "hooks": "hooked", "ties": "tied"}
"""What is done to an opening by what closes it."""


def _edges(pattern: Pattern, opening: Opening) -> list[Edge]:
    named = (opening.edge, f"{opening.edge} ")
    return [
        edge
        for panel in pattern.panels
        for edge in panel.edges
        if not panel.added and edge.kind in OPEN_KINDS and (edge.name == named[0] or edge.name.startswith(named[1]))
    ]


def _traced(pattern: Pattern, points: Points) -> tuple[Points, Points]:
    """Return heights, rising, and arounds of a line that runs up the block."""
    around, height = pattern.block.where(points)
    order = np.argsort(height, kind="stable")
    return height[order], around[order]


def _apart(pattern: Pattern, opening: Opening) -> Finding:
    """Return whether the two edges of a free opening keep apart all the way."""
    points = np.vstack([edge.curve.points for edge in _edges(pattern, opening)])
    height, around = _traced(pattern, points)
    widths = 2.0 * pattern.block.level_part_mm(height, np.zeros_like(around), around)
    least = float(widths.min())
    units = pattern.body.units
    says = f"the {opening.edge}s stand apart all the way, at the least {format_length(max(least, 0.0), units)}"
    if least < -GIRTH_MM:
        says = f"the {opening.edge}s run over each other, by {format_length(-least, units)} at the most"
    return told("opening-apart", FAMILY, HOLDS if least >= -GIRTH_MM else FAILS, least, "mm", says)


def _under(pattern: Pattern, opening: Opening, behind: Panel) -> Finding:
    """Return how far a stomacher lies under the front edges, wherever both are."""
    heights, edge = _traced(pattern, np.vstack([edge.curve.points for edge in _edges(pattern, opening)]))
    its_heights, side = _traced(pattern, behind.edge("right side").curve.points)
    low, high = max(heights[0], its_heights[0]), min(heights[-1], its_heights[-1])
    at = np.linspace(low, high, STATIONS)
    under = pattern.block.level_part_mm(at, np.interp(at, heights, edge), np.interp(at, its_heights, side))
    least, most = float(under.min()), float(under.max())
    units = pattern.body.units
    says = f"the {behind.name} lies {format_length(least, units)} to {format_length(most, units)} under the {opening.edge}s"
    uncovered = its_heights[0] > heights[0] + GIRTH_MM / pattern.block.center_front_mm
    if uncovered:
        says += ", and ends above their lower ends"
    usual = least >= USUAL_UNDER_MM - GIRTH_MM and most <= MOST_UNDER_MM + GIRTH_MM
    if not usual:
        says += retold("; 2 to 3 cm is common practice", units)
    state = FAILS if least < LEAST_UNDER_MM else WARNS if uncovered or not usual else HOLDS
    return Finding("opening-under", FAMILY, state, least, USUAL_UNDER_MM, "mm", says)


def _alike(behind: Panel) -> Finding:
    """Return whether a whole piece is the same on both sides of its middle."""
    left, right = behind.edge("left side").curve, behind.edge("right side").curve
    ends = np.abs(left.reversed().points[[0, -1]] * (-1.0, 1.0) - right.points[[0, -1]])
    off = max(float(ends.max()), abs(left.length_mm - right.length_mm))
    return within(
        "opening-alike", FAMILY, off, MATES_MM, "mm", f"the {behind.name} is the same on both sides of its middle"
    )


def _sized(pattern: Pattern, behind: Panel) -> Finding:
    """Tell a stomacher's length and greatest width, beside those of the ones that are left."""
    loop, units = behind.loop(), pattern.body.units
    wide = float(np.ptp(loop[:, 0]))
    middle = loop[np.abs(loop[:, 0]) < MIDDLE_MM]
    long = float(np.ptp(middle[:, 1]))
    low, high = (f"{format_length(mm, units)}" for mm in LENGTHS_MM)
    narrow, broad = (f"{format_length(mm, units)}" for mm in WIDTHS_MM)
    says = (
        f"the {behind.name} is {format_length(long, units)} long and {format_length(wide, units)} wide; four that are left "
        f"are {low} to {high} long and {narrow} to {broad} wide, each made for another body"
    )
    return told("opening-size", FAMILY, HOLDS, long, "mm", says)


MIDDLE_MM = 3.0
"""Points nearer than this to a piece's middle line give its length."""
