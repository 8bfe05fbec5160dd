"""Turn of cloth: how far each side of each panel moves for a layer that lies inside or outside the one that was drafted.

A ring of cloth that lies *t* further in is 2π*t* shorter, whatever its girth. A panel's part of that is its part of the
girth, half of it at either side; where one side is a centre line or the edge of an opening, all of it at the other. What
lies between moves along its level in proportion, so the waist stays the waist and marks stay in their places.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from fanblock.block.ruled import Block
from fanblock.draft.model import AROUND, HEIGHT
from fanblock.draft.slicing import stretches_at
from fanblock.draft.work import Work
from fanblock.geometry.curve import Points
from fanblock.pattern.model import CENTER, FOLD, OPEN_KINDS, SEAM, SLIT, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.shaping.edges import places_of
from fanblock.tolerances import ALONG_MM, SAME_POINT_MM

SIDE_KINDS = frozenset({SEAM, CENTER, FOLD, SLIT, *OPEN_KINDS})
"""The kinds of edges that bound a panel to the front and to the back."""

UPRIGHT_RATIO = 0.5
"""An edge that rises or falls by more than this share of its length runs upright."""


@dataclass(frozen=True, slots=True, eq=False)
class Shift:
    """How far the two sides of a panel move inward along the level, and where they lie: around by rising height."""

    front_mm: float
    back_mm: float
    front: Points
    back: Points

    def __call__(self, block: Block, places: Points) -> Points:
        """Return places (around, height) moved as the cloth at them moves."""
        around, height = places[:, AROUND], places[:, HEIGHT]
        start = np.interp(height, self.front[:, HEIGHT], self.front[:, AROUND])
        end = np.interp(height, self.back[:, HEIGHT], self.back[:, AROUND])
        share = np.clip((around - start) / np.maximum(end - start, SAME_POINT_MM), 0.0, 1.0)
        moved = block.along(around, height, self.front_mm * (1.0 - share) - self.back_mm * share)
        return np.column_stack((moved, height))


def turn_mm(inside_mm: float) -> float:
    """Return how much shorter a whole ring is that lies so far inside another.

    >>> round(turn_mm(4.0), 2)
    25.13
    """
    return 2.0 * math.pi * inside_mm


def shifts(work: Work, panels: tuple[Panel, ...], inside_mm: float) -> Mapping[str, Shift]:
    """Return by name how each panel's sides move; together, at the lower level, their part of half the turn of cloth.

    GeometryError for a panel that no seam joins to another: it has no side that could move.
    """
    cut = [panel for panel in panels if not panel.added]
    widths = {panel.name: _width(work, panel) for panel in cut}
    faces = {panel.name: _faces(work, panel) for panel in cut}
    problems = [
        Problem(
            "layer-seamless",
            "lining › panels",
            f"panel “{name}” has no seam at which it could be made narrower.",
            "Leave it out.",
        )
        for name, (front, back) in faces.items()
        if not front and not back
    ]
    if problems:
        raise GeometryError(problems)
    raw: dict[tuple[str, str], list[float]] = defaultdict(list)
    for name, (front, back) in faces.items():
        for face in (*front, *back):
            raw[face].append(widths[name] / (bool(front) + bool(back)))
    each = {face: sum(found) / len(found) for face, found in raw.items()}
    sides = {
        name: tuple(float(np.mean([each[face] for face in side])) if side else 0.0 for side in both)
        for name, both in faces.items()
    }
    level = work.draft.stand.lower.name
    across = [panel.name for panel in cut if panel.levels.get(level)] or list(sides)
    total = sum(sum(sides[name]) for name in across)
    scale = 0.5 * turn_mm(inside_mm) * _share(work, panels, level) / total
    return {
        panel.name: Shift(scale * sides[panel.name][0], scale * sides[panel.name][1], *_bounds(work, panel))
        for panel in cut
    }


def _share(work: Work, panels: tuple[Panel, ...], level: str) -> float:
    """Return the share of the cloth's girth at a level that lies in these panels; all of it where none reaches that."""
    names = {panel.name for panel in panels}
    whole = {
        panel.name: sum(part.length_mm for part in panel.levels.get(level, ()))
        for panel in work.panels
        if not panel.added
    }
    total = sum(whole.values())
    return sum(mm for name, mm in whole.items() if name in names) / total if total else 1.0


def _width(work: Work, panel: Panel) -> float:
    """Return a panel's mean width in around, over the heights it has."""
    loop = work.traces[panel.name]
    heights = np.vstack([side.points for side in loop])[:, HEIGHT]
    low, high = float(heights.min()), float(heights.max())
    hair = ALONG_MM / work.block.center_front_mm
    at = np.linspace(low, high, 12)[1:-1].tolist()
    return float(np.mean([sum(end - start for start, end in stretches_at(loop, height, hair)) for height in at]))


def _faces(work: Work, panel: Panel) -> tuple[list[tuple[str, str]], list[tuple[str, str]]]:
    """Return the faces of seams that bound a panel to the front and to the back, as line and face."""
    added = {one.name for one in work.panels if one.added}
    upright = {edge.name for edge in panel.edges if abs(_rise(work, panel, edge.name)) > UPRIGHT_RATIO}
    front = {
        (seam.line, "back")
        for seam in work.seams
        if seam.back[0] == panel.name and seam.back[1] in upright and seam.front[0] not in added
    }
    back = {
        (seam.line, "front")
        for seam in work.seams
        if seam.front[0] == panel.name and seam.front[1] in upright and seam.back[0] not in added
    }
    return sorted(front), sorted(back)


def _rise(work: Work, panel: Panel, name: str) -> float:
    """Return how much an edge rises along the rulings, as a share of its length; less than nothing where it falls."""
    curve = panel.edge(name).curve
    places = places_of(work, curve.points[[0, -1]])
    ruling = work.block.ruling_length_mm(float(places[:, AROUND].mean()))
    return float(np.diff(places[:, HEIGHT])[0] * ruling / curve.length_mm)


def _bounds(work: Work, panel: Panel) -> tuple[Points, Points]:
    """Return where a panel's front and back sides lie: around by rising height."""
    found = []
    for way in (-1.0, 1.0):
        runs = [
            places_of(work, edge.curve.points)
            for edge in panel.edges
            if edge.kind in SIDE_KINDS and way * _rise(work, panel, edge.name) > UPRIGHT_RATIO
        ]
        points = np.vstack(runs) if runs else places_of(work, panel.loop())
        found.append(points[np.argsort(points[:, HEIGHT], kind="stable")])
    return found[0], found[1]
