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
    """Return how much narrower a copy is than its panel, from side to side where both have two sides at one height."""
    sides = [_sides(pattern, one) for one in (panel, copy)]
    low = max(float(side[:, HEIGHT].min()) for both in sides for side in both)
    high = min(float(side[:, HEIGHT].max()) for both in sides for side in both)
    height = (low + high) / 2.0
    widths = []
    for front, back in sides:
        start, end = (float(np.interp(height, side[:, HEIGHT], side[:, AROUND])) for side in (front, back))
        widths.append(pattern.block.level_part_mm(height, start, end))
    return widths[0] - widths[1]


def _sides(pattern: Pattern, panel: Panel) -> tuple[Points, Points]:
    """Return a panel's front and back sides in around and height, by rising height."""
    found = []
    for way in (-1.0, 1.0):
        runs = []
        for edge in panel.edges:
            places = np.column_stack(pattern.block.where(edge.curve.points))
            rise = float(places[-1, HEIGHT] - places[0, HEIGHT]) * pattern.block.center_front_mm
            if edge.kind in SIDE_KINDS and way * rise > UPRIGHT_RATIO * edge.curve.length_mm:
                runs.append(places)
        points = np.vstack(runs) if runs else np.column_stack(pattern.block.where(panel.loop()))
        found.append(points[np.argsort(points[:, HEIGHT], kind="stable")])
    return found[0], found[1]


def _width(panel: Panel, level: str) -> float:
    return sum(part.length_mm for part in panel.levels.get(level, ()))
