"""The step ``notches``: ticks that keep seams from being mixed up."""

import numpy as np
from house import RED, SMALL, Board
from stages import LEFT, RIGHT, TOP, apart, draw_panel, footnote, pair, panel_view, pattern, recipe, stage

from fanblock.pattern.model import Notch

TICK_MM = 13.0


def draw() -> Board:
    """Draw the panels without and with their notches."""
    board, _ = pair("Every seam has a bar at the waist and its own number of ticks above it.")
    work = stage(recipe("notches: {at: 40%, tick: 5 mm}", before="cut"), "notches")
    panels = apart(pattern(work).panels, 40.0)
    view = panel_view(panels, LEFT, TOP)
    second = view.moved(RIGHT - LEFT)
    for panel in panels:
        draw_panel(board, view, panel)
        draw_panel(board, second, panel)
        for notch in panel.notches:
            for tick in _ticks(notch):
                board.line(second(tick), RED, 3.2 if notch.kind == "waist" else 2.0)
    x, y = second(next(notch.point for notch in panels[1].notches if notch.count == 1 and notch.kind == "seam"))
    board.words("A: 1 tick", x + 18.0, y + 5.0, SMALL, color=RED, halo=True)
    x, y = second(next(notch.point for notch in panels[1].notches if notch.count == 2))
    board.words("B: 2 ticks", x - 22.0, y + 3.0, SMALL, anchor="end", color=RED, halo=True)
    footnote(
        board,
        "Both edges of a seam carry the same ticks, equally far from the heavy bar at the waist. They are never in the",
        "middle of the seam, so a panel sewn upside down shows at once. (Drawn larger than they are.)",
    )
    return board


def _ticks(notch: Notch) -> list[np.ndarray]:
    along = np.array([notch.inward[1], -notch.inward[0]])
    first = notch.point - 0.5 * 5.0 * (notch.count - 1) * along
    starts = [first + 5.0 * number * along for number in range(notch.count)]
    return [np.array([start, start + TICK_MM * notch.inward]) for start in starts]
