"""The step ``level seam``: a seam along the waist, and the panels above and below it."""

from __future__ import annotations

import numpy as np
from house import RED, SMALL, Board
from stages import RIGHT, TOP, draw_draft, draw_panel, footnote, pair, panel_view, recipe, stage

from fanblock.draft.separate import separated
from fanblock.pattern.model import Panel
from fanblock.sheet.upright import moved_panel

NAMES = ("front", "front skirt", "side", "side skirt", "back", "back skirt")
BY_MM = 34.0
"""How far the panels are pulled apart."""


def draw() -> Board:
    """Draw the draft with a level seam, and the panels it is cut into."""
    board, view = pair(
        "A level seam along the waist cuts three panels into three upper and three lower ones.", "drawn", "cut"
    )
    trial = recipe("level seam: {name: waist seam, height: waist}", drop="tabs")
    draft = stage(trial, "separate", done=False)
    draw_draft(board, view, draft, {"waist seam"}, takes=True)
    x, y = view(draft.block.at(0.36, 0.0))
    board.words("waist seam", x, y - 6.0, SMALL, bold=True, color=RED, halo=True)
    panels = _apart(separated(draft, NAMES).panels)
    second = panel_view(panels, RIGHT, TOP)
    for panel in panels:
        draw_panel(board, second, panel)
        x, y = second(_middle(panel))
        board.words(str(panel.number), x, y + 5.0, SMALL, anchor="middle", bold=True)
        for edge in panel.edges:
            if edge.across:
                board.line(second(edge.curve.points), RED, 2.0)
    footnote(
        board,
        "Panels are numbered from front to back, those one above another from the top down. The seams drawn before",
        "it are cut in two; what hangs below opens, or is sewn, as each of them says.",
    )
    return board


def _middle(panel: Panel) -> np.ndarray:
    """The middle of a panel's area."""
    here = panel.loop()
    after = np.roll(here, -1, axis=0)
    doubled = here[:, 0] * after[:, 1] - after[:, 0] * here[:, 1]
    return (here + after).T @ doubled / (3.0 * doubled.sum())


def _apart(panels: tuple[Panel, ...]) -> list[Panel]:
    """The panels pulled apart, column by column, the lower ones down."""
    moved = []
    for number, panel in enumerate(panels):
        column, row = divmod(number, 2)
        moved.append(moved_panel(panel, np.eye(2), np.array([BY_MM * column, -BY_MM * row])))
    return moved
