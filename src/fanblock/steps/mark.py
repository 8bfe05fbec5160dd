"""``mark``: a line of your own on a piece, where something will lie: a pocket, a row of trimming, the end of a facing.

It runs ``through`` places on the block, smooth or from corner to corner, and is neither cut nor sewn along: it is drawn on
the piece with a few words beside it. What of it lies beyond the piece's stitch lines is left out.

```yaml
- mark: {name: pocket slit, panel: side front, through: [[30%, waist - 40 mm], [34%, waist - 130 mm]]}
```
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

import numpy as np

from fanblock.draft.adding import panel_of, with_panel
from fanblock.draft.places import place_of
from fanblock.draft.work import Work
from fanblock.finish.openings import inside
from fanblock.geometry.curve import Curve
from fanblock.geometry.region import holds_line
from fanblock.geometry.splines import through_points
from fanblock.pattern.model import Mark as DrawnMark
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Position
from fanblock.units import shown

STEP_MM = 2.0
"""Distance between the points of a smooth line."""

LONGEST_WORDS = 60
"""More letters than this find no room beside a line."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One line drawn on one piece."""

    name: str = field(metadata={"for": "what it is called"})
    panel: str = field(metadata={"for": "the piece it is drawn on"})
    through: tuple[Position, ...] = field(metadata={"for": "places it runs through, from one end to the other"})
    straight: bool = field(default=False, metadata={"for": "whether it runs straight from place to place"})
    says: str = field(default="", metadata={"for": "words printed along it; left out, its name"})


def problems(options: Mark) -> tuple[tuple[str, str, str], ...]:
    """Return what is wrong with these options as (option, what, remedy)."""
    found = []
    if len(options.through) < 2:
        found.append(("through", "needs at least two points.", "Give it from one end to the other."))
    if len(options.says) > LONGEST_WORDS:
        what = f"has {len(options.says)} letters; {LONGEST_WORDS} are the most that can be printed along a line."
        found.append(("says", what, "Say it in fewer words."))
    return tuple(found)


def named(options: Mark) -> Iterator[tuple[str, str, str]]:
    """Yield every panel this step speaks of."""
    yield "panel", " › panel", options.panel


def run(work: Work, options: Mark) -> Work:
    """Return the panels with this line drawn on one of them.

    GeometryError when the piece is not cut from the block, has a line of that name, or the line lies off it.
    """
    panel = panel_of(work, options.panel)
    where = f"mark {shown(options.name)}"
    if panel.added:
        what = f"the piece {shown(panel.name)} is not cut from the block, so no place on the block lies on it."
        raise GeometryError([Problem("mark-added", where, what, "Name a piece that is, or draw the line by hand.")])
    if any(mark.name == options.name for mark in panel.marks):
        what = f"the piece {shown(panel.name)} has a line of that name already."
        raise GeometryError([Problem("mark-twice", where, what, "Give it another name.")])
    places = np.array([place_of(work.draft, position) for position in options.through])
    points = work.block.at(places[:, 0], places[:, 1])
    if np.any(np.hypot(*np.diff(points, axis=0).T) < STEP_MM):
        what = "two of its points lie on one another."
        raise GeometryError([Problem("mark-points", f"{where} › through", what, "Leave one of them out.")])
    if not options.straight and len(points) > 2:
        points = through_points(points, STEP_MM)
    line = Curve.through(points) if holds_line(panel.loop(), points) else inside(panel, points)
    if line is None:
        what = f"on this body it lies off the piece {shown(panel.name)}."
        raise GeometryError([Problem("mark-off", where, what, "Move it onto that piece, or name another one.")])
    drawn = DrawnMark(options.name, "place", line, options.says or options.name)
    return with_panel(work, replace(panel, marks=(*panel.marks, drawn)))
