"""Grain lines: along a centre line, or square to the waist, or to a band's edges, at the middle of the panel."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from fanblock.draft.work import Work
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.meet import crossings, points_at
from fanblock.pattern.model import Panel
from fanblock.problems import GeometryError, Problem, nearest

AT_WAIST = "at waist"
_INSET = 0.08
_PLACES = np.linspace(0.25, 0.75, 11)


def with_grain(work: Work) -> Work:
    """Return the panels with their grain lines, pointing up; a panel whose grain was not chosen has it ``at waist``.

    An added piece brings its own, a panel's copy has that of the panel.
    """
    names = [panel.name for panel in work.panels]
    unknown = [name for name in sorted(work.grains) if name not in names]
    if unknown:
        raise GeometryError(
            [
                Problem("panel-unknown", "grain", f"there is no panel “{name}”.", nearest(name, names))
                for name in unknown
            ]
        )
    panels = tuple(
        panel
        if panel.grain is not None and panel.name not in work.grains
        else replace(panel, grain=_line(panel, _direction(work, panel, _choice(work, panel))))
        for panel in work.panels
    )
    return replace(work, panels=panels)


def _choice(work: Work, panel: Panel) -> str:
    """Return what a panel's grain follows; a copy for another layer follows what the panel does."""
    return work.grains.get(panel.name, work.grains.get(panel.copy_of, AT_WAIST))


def _direction(work: Work, panel: Panel, choice: str) -> Points:
    block, band = work.block, work.draft.band
    if choice == "center front":
        return block.ruling_direction(0.0)
    if choice == "center back":
        return block.ruling_direction(band.center_back if band else 1.0)
    if band:
        return block.ruling_direction((panel.number - 0.5) / len(work.panels))
    waist = panel.levels.get("waist", ())
    if waist:
        along = waist[0].tangent_at(waist[0].length_mm / 2.0)
        return np.array([-along[1], along[0]])
    around, _ = block.where(panel.loop().mean(axis=0))
    return block.ruling_direction(float(around))


def _line(panel: Panel, up: Points) -> tuple[Points, Points]:
    """Return the longest line in this direction that runs through the middle half of the panel, a little inset."""
    across = np.array([up[1], -up[0]])
    loop = panel.loop()
    turned = np.column_stack((loop @ across, loop @ up))
    ring = np.vstack((turned, turned[:1]))
    low, high = turned[:, 0].min(), turned[:, 0].max()
    best: tuple[float, float, float] = (0.0, 0.0, 0.0)
    for x in low + _PLACES * (high - low):
        heights = np.sort(points_at(ring, crossings(ring, 0, x))[:, 1])
        for foot, head in zip(heights[::2], heights[1::2], strict=False):
            if head - foot > best[2] - best[1]:
                best = (float(x), float(foot), float(head))
    x, foot, head = best
    inset = _INSET * (head - foot)
    return frozen(x * across + (foot + inset) * up), frozen(x * across + (head - inset) * up)
