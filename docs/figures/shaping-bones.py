"""The step ``shaping bones``: curved bones across the inside of the front."""

from house import RED, Board
from stages import CARD, HIGH, LEFT, RIGHT, TOP, WIDE, draw_channels, draw_panel, footnote, panel_view, stiffened

STRAIGHT = ("channels: {panel: front, parallel: center front, fully: yes}",)
CURVED = (
    *STRAIGHT,
    "shaping bones: {panels: [front, side], through: [[center front, top edge - 25 mm], [32%, top edge - 25 mm]], count: 2}",
)


def draw() -> Board:
    """Draw the front with straight bones, and with curved ones across them."""
    board = Board(
        WIDE, HIGH, "Curved bones run across the front from the centre over the seam, over the straight ones."
    )
    board.card(LEFT, TOP, *CARD, "before")
    board.card(RIGHT, TOP, *CARD, "after", RED)
    for x, steps in ((LEFT, STRAIGHT), (RIGHT, CURVED)):
        panels = stiffened(*steps)[:2]
        view = panel_view(panels, x, TOP)
        for panel in panels:
            draw_panel(board, view, panel)
            draw_channels(board, view, panel, numbered=False)
    footnote(
        board,
        "They bend through their thickness, along a level or an arc. Each goes on in the other half where the centre front is",
        "closed, so it is one bone across the whole front. They lie on the inside, under the lining.",
    )
    return board
