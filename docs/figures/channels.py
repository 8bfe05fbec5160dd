"""The step ``channels``: bones fanned, in groups, and touching all over."""

from house import RED, Board
from stages import CARD, HIGH, LEFT, RIGHT, TOP, WIDE, draw_channels, draw_panel, footnote, panel_view, stiffened

HALF = (
    "channels: {panel: front, parallel: center front, count: 1, group: 2, within: [0%, 30%]}",
    "channels: {panel: front, parallel: side front, count: 2}",
    "channels: {panel: side, parallel: grain, count: 3, group: 2}",
    "channels: {panel: back, parallel: center back, count: 2}",
)
FULL = (
    "channels: {panel: front, fan: [center front, side front], fully: yes}",
    "channels: {panel: side, parallel: grain, fully: yes}",
    "channels: {panel: back, parallel: lacing edge, fully: yes}",
)


def draw() -> Board:
    """Draw the trial stays half boned, and fully boned."""
    board = Board(
        WIDE, HIGH, "Half boned, in groups with bare cloth between; and fully boned, every channel touching the next."
    )
    board.card(LEFT, TOP, *CARD, "half boned: count, group")
    board.card(RIGHT, TOP, *CARD, "fully boned: fully", RED)
    for x, steps in ((LEFT, HALF), (RIGHT, FULL)):
        panels = stiffened(*steps)
        view = panel_view(panels, x, TOP)
        for panel in panels:
            draw_panel(board, view, panel)
            draw_channels(board, view, panel, numbered=steps is HALF)
    footnote(
        board,
        "Every bone is straight on the flat. Set apart it runs past the waist into one tab; where bones touch all over, those",
        "above a slit end there. None crosses a slit, a seam or an eyelet. Numbers count from the front side of each piece.",
    )
    return board
