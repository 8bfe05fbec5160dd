"""Are layers with outlines of their own as much smaller or larger as the turn of cloth asks?"""

from __future__ import annotations

import math

import numpy as np

from fanblock.checks.finding import within
from fanblock.draft.model import AROUND, HEIGHT
from fanblock.geometry.curve import Points
from fanblock.pattern.model import Finding, Panel, Pattern
from fanblock.shaping.turning import SIDE_KINDS, UPRIGHT_RATIO
from fanblock.tolerances import GIRTH_MM
from fanblock.units import format_length

FAMILY = "girth"


def check(pattern: Pattern) -> tuple[Finding, ...]:
    """Return for every layer with outlines of its own what it measures round, beside the panels it is a copy of."""
    layers = dict.fromkeys(panel.layer for panel in pattern.panels if panel.layer)
    return tuple(_layer(pattern, layer) for layer in layers)


def _layer(pattern: Pattern, layer: str) -> Finding:
    units, lower = pattern.body.units, pattern.stand.lower.name
    copies = [panel for panel in pattern.panels if panel.layer == layer and not pattern.by_name[panel.copy_of].added]
    inside = copies[0].inside_mm if copies else 0.0
    whole = [panel for panel in pattern.panels if not panel.added and panel.levels.get(lower)]
    names = {panel.name for panel in whole} or {panel.copy_of for panel in copies}
    counted = [panel for panel in copies if panel.copy_of in names]
    share = 1.0
    if whole:
        share = sum(_width(pattern.by_name[panel.copy_of], lower) for panel in counted)
        share /= sum(_width(panel, lower) for panel in whole)
    less = 2.0 * sum(_narrower(pattern, pattern.by_name[panel.copy_of], panel) for panel in counted)
    due = 2.0 * math.pi * inside * share
    word, change = ("inside", "less") if inside >= 0.0 else ("outside", "more")
    says = (
        f"the {layer} lies {format_length(abs(inside), units)} {word}: its pieces are {format_length(abs(less), units)} "
        f"{change} round than what they are copies of; by the turn of cloth {format_length(abs(due), units)}"
    )
    drafted, copied = (2.0 * sum(_width(panel, lower) for panel in some) for some in (whole, counted))
    if copied and len(counted) == len(whole):
        says += (
            f". At the {lower} they measure {format_length(copied, units)}, the others {format_length(drafted, units)}"
        )
    return within(f"girth-layer-{layer.replace(' ', '-')}", FAMILY, abs(less - due), GIRTH_MM, "mm", says)


def _narrower(pattern: Pattern, panel: Panel, copy: Panel) -> float:
    """Return how much narrower a copy is than its panel, from its longest side in front to that behind, half way up both."""
    names = [max(sides, default=(0.0, "")) for sides in _sides(pattern, panel)]
    if not all(name for _, name in names):
        return 0.0
    found = [[_places(pattern, one, name) for _, name in names] for one in (panel, copy)]
    low = max(float(side[0, HEIGHT]) for sides in found for side in sides)
    high = min(float(side[-1, HEIGHT]) for sides in found for side in sides)
    height = (low + high) / 2.0
    widths = []
    for sides in found:
        start, end = (float(np.interp(height, side[:, HEIGHT], side[:, AROUND])) for side in sides)
        widths.append(pattern.block.level_part_mm(height, start, end))
    return widths[0] - widths[1]


def _sides(pattern: Pattern, panel: Panel) -> tuple[list[tuple[float, str]], list[tuple[float, str]]]:
    """Return the edges that bound a panel to the front and to the back, each with its length."""
    sides: tuple[list[tuple[float, str]], list[tuple[float, str]]] = ([], [])
    for edge in panel.edges:
        _, heights = pattern.block.where(edge.curve.points[[0, -1]])
        rise = float(heights[1] - heights[0]) * pattern.block.center_front_mm
        if edge.kind in SIDE_KINDS and abs(rise) > UPRIGHT_RATIO * edge.curve.length_mm:
            sides[int(rise > 0.0)].append((edge.curve.length_mm, edge.name))
    return sides


def _places(pattern: Pattern, panel: Panel, name: str) -> Points:
    """Return an edge in around and height, by rising height."""
    points = np.column_stack(pattern.block.where(panel.edge(name).curve.points))
    return points[np.argsort(points[:, HEIGHT], kind="stable")]


def _width(panel: Panel, level: str) -> float:
    return sum(part.length_mm for part in panel.levels.get(level, ()))
