"""The step ``busk``: its pocket at the centre front."""

from house import RED, SMALL, Board
from stages import CARD, HIGH, LEFT, RIGHT, TOP, WIDE, draw_channels, draw_panel, footnote, panel_view, stiffened

STEPS = ("busk: {panel: front, width: 38 mm}", "channels: {panel: front, parallel: center front, spacing: 14 mm}")


def draw() -> Board:
    """Draw the front piece without and with a busk, bones beside it."""
    board = Board(WIDE, HIGH, "A busk's pocket at the centre front, half of it on this piece, with bones beside it.")
    board.card(LEFT, TOP, *CARD, "before")
    board.card(RIGHT, TOP, *CARD, "after", RED)
    for x, steps in ((LEFT, ()), (RIGHT, STEPS)):
        panels = stiffened(*steps)[:1]
        view = panel_view(panels, x, TOP)
        draw_panel(board, view, panels[0])
        draw_channels(board, view, panels[0])
        if steps:
            low = view(panels[0].channels[-1].rows[0].points[1])
            board.words("pocket", low[0] + 8.0, low[1] - 20.0, SMALL, color=RED, halo=True)
            board.arrow((low[0] + 6.0, low[1] - 24.0), (low[0] - 8.0, low[1] - 30.0), RED)
    footnote(
        board,
        "The pocket is as wide as the busk and its thickness; half of it lies in the other half of the garment. It is closed",
        "below and open above. The busk is 1 cm shorter than the centre front, unless you give it a length.",
    )
    return board
