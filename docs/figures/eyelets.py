"""The step ``eyelets``: two staggered rows that begin and end level, and the lace through them."""

import numpy as np
from house import BLUE, CLOTH, INK, RED, SMALL, SOFT, Board
from stages import (
    CARD,
    HIGH,
    LEFT,
    RIGHT,
    TOP,
    WIDE,
    draw_channels,
    draw_eyelets,
    draw_panel,
    footnote,
    panel_view,
    stiffened,
)

from fanblock.finish.eyeleting import rows_of

STEPS = ("eyelets: {spacing: 25 mm}", "channels: {panel: back, bone: 5 mm, beside: lacing edge}")


def draw() -> Board:
    """Draw the back piece with its eyelets, and a spiral lace through both rows."""
    board = Board(
        WIDE,
        HIGH,
        "Eyelets along the lacing edge with a bone on each side, and how a spiral lace runs through both rows.",
    )
    board.card(LEFT, TOP, *CARD, "on the back piece")
    board.card(RIGHT, TOP, *CARD, "both rows, laced in a spiral", RED)
    panels = stiffened(*STEPS)[-1:]
    view = panel_view(panels, LEFT, TOP)
    draw_panel(board, view, panels[0])
    draw_channels(board, view, panels[0], SOFT)
    draw_eyelets(board, view, panels[0])
    rows = rows_of(212.5, 25.0, "spiral")
    left, right, top = RIGHT + 130.0, RIGHT + 230.0, TOP + 46.0
    for x, way in ((left, -1.0), (right, 1.0)):
        board.line([(x - 16.0 * way, top - 14.0), (x + 70.0 * way, top - 14.0), (x + 70.0 * way, top + 226.0),
                    (x - 16.0 * way, top + 226.0)], INK, 1.2, fill=CLOTH, closed=True)  # fmt: skip
    holes = [np.array([x, top + at]) for pair in zip(rows.left_mm, rows.right_mm, strict=True) for x, at in
             zip((left, right), pair, strict=True)]  # fmt: skip
    order = sorted(range(len(holes)), key=lambda at: (holes[at][1], at % 2))
    board.line([holes[at] for at in order], BLUE, 1.6)
    for number, hole in enumerate(holes):
        board.ring(hole, 3.2, INK, CLOTH)
        x, y = hole
        board.words(
            str(number // 2 + 1), x + (-22.0 if number % 2 == 0 else 22.0), y + 4.0, 11.0, anchor="middle", color=SOFT
        )
    board.words("left half", left - 30.0, top + 246.0, SMALL, anchor="middle", color=SOFT)
    board.words("right half", right + 30.0, top + 246.0, SMALL, anchor="middle", color=SOFT)
    footnote(
        board,
        "The first pair is level and so is the last. On one half the first space is half of one, on the other half the last. With",
        "n holes a side and a space s a row is (n - 3/2) s long: here 10 holes 25 mm apart, on 212.5 mm.",
    )
    return board
