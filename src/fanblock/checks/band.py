"""Is a band what was asked? Its edges and its depth, measured again on the pieces that were drawn."""

from __future__ import annotations

import math

from fanblock.block.band import Band
from fanblock.checks.finding import HOLDS, told, within
from fanblock.draft.pieces import INNER, OUTER
from fanblock.pattern.model import Finding, Pattern
from fanblock.tolerances import BLOCK_MM
from fanblock.units import format_length

FAMILY = "block"


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return whether inner edge, outer edge and depth of a band are as asked, and how much of a circle it is."""
    band = pattern.band
    if band is None:
        return ()
    times = 1.0 / band.drawn_ratio
    found = []
    for code, name, due in (("band-inner", INNER, band.inner_mm), ("band-outer", OUTER, band.outer_edge_mm)):
        drawn = times * sum(panel.edge(name).curve.length_mm for panel in pattern.panels)
        found.append(_length(code, name, drawn, due, pattern.body.units))
    ends = [edge.curve.length_mm for panel in pattern.panels for edge in panel.edges if edge.name not in (INNER, OUTER)]
    if band.deepest_mm is None:
        depth = max(ends, key=lambda mm: abs(mm - band.depth_mm))
        found.append(_length("band-depth", "depth", depth, band.depth_mm, pattern.body.units))
    else:
        found.append(_length("band-depth", "depth at the ends", min(ends), band.depth_mm, pattern.body.units))
        deepest = _deepest_mm(pattern, band)
        found.append(_length("band-deepest", "depth in the middle", deepest, band.deepest_mm, pattern.body.units))
    found.append(told("band-circle", FAMILY, HOLDS, math.degrees(band.turn_rad), "deg", circle_words(band)))
    return tuple(found)


def _deepest_mm(pattern: Pattern, band: Band) -> float:
    """Return how far the outer edge lies from the inner one where it lies farthest."""
    outer = [panel.edge(OUTER).curve.points for panel in pattern.panels]
    away = [pattern.block.where(points)[1] - band.inner_height for points in outer]
    return band.depth_mm * max(float(abs(each).max()) for each in away)


def circle_words(band: Band) -> str:
    """Return in words how much of a circle a band is.

    >>> circle_words(Band(400.0, 400.0, 50.0)), circle_words(Band(400.0, 400.0 + 157.08, 100.0))
    ('it is straight', 'it is 25 % of a circle')
    """
    share = band.circle_ratio
    if abs(share) < STRAIGHT_RATIO:
        return "it is straight"
    inward = ", its outer edge the shorter one" if share < 0.0 else ""
    return f"it is {100.0 * abs(share):.0f} % of a circle{inward}"


STRAIGHT_RATIO = 0.005
"""Less of a circle than half a percent is called straight."""


def _length(code: str, name: str, drawn_mm: float, due_mm: float, units: str) -> Finding:
    says = f"{name} of all pieces {format_length(drawn_mm, units)}, asked {format_length(due_mm, units)}"
    return within(code, FAMILY, abs(drawn_mm - due_mm), BLOCK_MM, "mm", says)
