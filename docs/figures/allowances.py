"""The step ``allowances``: the cut line around each panel."""

import numpy as np
from house import INK, PAPER, RED, SMALL, Board, even
from stages import LEFT, RIGHT, TOP, apart, draw_panel, footnote, pair, panel_view, pattern, recipe, stage

WORDS = (
    ("center 20 mm", 402.0, 262.0), ("seam 15 mm", 470.0, 282.0), ("lacing 30 mm", 656.0, 290.0),
    ("top and hem: bound, none", 520.0, 84.0),
)  # fmt: skip


def draw() -> Board:
    """Draw the stitch lines, and the cut lines around them."""
    board, _ = pair("The cut line runs around the stitch line, each edge with its own width.")
    work = stage(recipe("allowances: {seam: 15 mm, center: 20 mm, lacing: 30 mm}", before="cut"), "allowances")
    panels = apart(pattern(work).panels, 62.0)
    view = panel_view(panels, LEFT, TOP, outer=True)
    second = view.moved(RIGHT - LEFT)
    for panel in panels:
        draw_panel(board, view, panel)
        if panel.cut_line is not None:
            board.line(
                second(even(np.vstack((panel.cut_line.points, panel.cut_line.points[:1])), 260)), RED, 1.8, fill=PAPER
            )
        draw_panel(board, second, panel, color=INK, width=1.0)
    for text, x, y in WORDS:
        board.words(text, x, y, SMALL, color=RED, halo=True)
    footnote(
        board,
        "At the ends of a seam the allowance is cut as the mirror image of the edge there, so that it lies under",
        "the panel when it is pressed back. Bound edges have none.",
    )
    return board
