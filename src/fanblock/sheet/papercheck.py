"""Is every page fit to cut by? The test marks measured again as drawn, and nothing beyond what a printer reaches."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fanblock.checks.finding import within
from fanblock.geometry.curve import Points
from fanblock.pattern.model import Finding
from fanblock.sheet.drawing import Drawing, Group, Stroke
from fanblock.sheet.ink import Box, extent, ink_points
from fanblock.sheet.paper import Paper
from fanblock.sheet.pdf_file import Page
from fanblock.sheet.squares import BAR_MM, SQUARE_MM, SQUARE_NAME
from fanblock.tolerances import INK_STEP_MM, READ_BACK_MM

FAMILY = "paper"


def paper_findings(paper: Paper, drawing: Drawing, pages: Sequence[Page]) -> tuple[Finding, ...]:
    """Return what is so of the pages of one paper: their test marks, their margins, and that they show all there is."""
    tag = "-".join(paper.name.lower().split())
    unmeasured = sum(not _measures(page, drawing) for page in pages)
    outside = sum(_ink_outside(page, paper) for page in pages)
    unseen = _unseen(drawing, pages)
    count = f"{len(pages)} page{'s' if len(pages) > 1 else ''} of {paper.name}"
    return (
        within(
            f"paper-{tag}-scale",
            FAMILY,
            unmeasured,
            0,
            "pages",
            f"{count}: 100 mm and 4 in to measure, both ways, on each",
        ),
        within(
            f"paper-{tag}-margin", FAMILY, outside, 0, "pages", f"{count}: nothing lies outside what a printer reaches"
        ),
        within(
            f"paper-{tag}-whole",
            FAMILY,
            unseen,
            0,
            "points",
            f"{count}: every line of the pattern stands on one of them",
        ),
    )


def _measures(page: Page, drawing: Drawing) -> bool:
    """Return whether a page carries 100 mm and 4 in, level and upright, true within the tolerance for reading back.

    They may stand in the drawing where the page shows all of it.
    """
    whole = page.window == Box(0.0, 0.0, drawing.width_mm, drawing.height_mm) and page.shift == (0.0, 0.0)
    strokes = [
        item
        for group in (*page.under, *page.over, *(drawing.groups if whole else ()))
        if group.name == SQUARE_NAME
        for item in group.items
        if isinstance(item, Stroke)
    ]
    sizes = np.array([np.ptp(stroke.beziers.reshape(-1, 2), axis=0) for stroke in strokes]).reshape(-1, 2)
    return all(
        bool(np.any(np.abs(sizes[:, axis] - length) <= READ_BACK_MM))
        for length in (SQUARE_MM, BAR_MM)
        for axis in (0, 1)
    )


def _ink_outside(page: Page, paper: Paper) -> bool:
    """Return whether anything of a page, or its window on the drawing, lies beyond the printable part of the sheet."""
    margin = paper.margin_mm - INK_STEP_MM
    room = Box(margin, margin, page.width_mm - margin, page.height_mm - margin)
    drawn = [*page.under, *page.over]
    found = [box for box in (extent(ink_points(drawn)), page.window) if box is not None]
    return any(
        box.left < room.left or box.bottom < room.bottom or box.right > room.right or box.top > room.top
        for box in found
    )


def _unseen(drawing: Drawing, pages: Sequence[Page]) -> int:
    """Return how many points of the drawing's lines and words no page shows."""
    points = _line_points(drawing.groups)
    seen = np.zeros(len(points), dtype=bool)
    for page in pages:
        if page.window is not None:
            x, y = (points + np.array(page.shift)).T
            window = page.window
            seen |= (x >= window.left) & (x <= window.right) & (y >= window.bottom) & (y <= window.top)
    return int(np.count_nonzero(~seen))


def _line_points(groups: Sequence[Group]) -> Points:
    """Return the ends and the middle of every Bézier: points that stand on the lines, as control points do not."""
    runs = [item.beziers for group in groups for item in group.items if isinstance(item, Stroke)]
    if not runs:
        return np.empty((0, 2))
    curves = np.vstack(runs)
    middles = (curves[:, 0] + 3.0 * curves[:, 1] + 3.0 * curves[:, 2] + curves[:, 3]) / 8.0
    return np.vstack((curves[:, 0], middles, curves[:, 3]))
