"""Four lines of half a block with the names that a recipe looks for."""

import numpy as np
from house import BLUE, CLOTH, INK, RED, SMALL, SOFT, USUAL, Board, View

from fanblock.block.fan import fan
from fanblock.block.tilt import tilted
from fanblock.wearer.model import Tilt


def draw() -> Board:
    """Draw the four lines, their corners and their names."""
    board = Board(760.0, 440.0, "Half a block as four named lines: waist, bust, center front, center back.")
    board.card(20.0, 20.0, 720.0, 400.0)
    block = tilted(fan(365.0, 455.0, 165.0), Tilt("center back", 14.0))
    u = np.linspace(0.0, 1.0, 60)
    waist, bust = block.at(u, 0.0), block.at(u, 1.0)
    view = View.fitting(np.vstack((waist, bust)), 130.0, 80.0, 500.0, 260.0)
    board.area(view(np.vstack((waist, bust[::-1]))), CLOTH)
    board.line(view(waist), BLUE, 2.8)
    board.line(view(bust), BLUE, 2.8)
    for around in (0.0, 1.0):
        board.line(view(block.at(np.full(2, around), np.array([0.0, 1.0]))), RED, 2.8)
        for height in (0.0, 1.0):
            board.ring(view(block.at(around, height)), 6.0, INK, "#ffffff", 1.4)
    x, y = view(block.at(0.45, 1.0))
    board.words("bust", x, y - 16.0, USUAL, anchor="middle", bold=True, color=BLUE)
    x, y = view(block.at(0.45, 0.0))
    board.words("waist", x, y + 30.0, USUAL, anchor="middle", bold=True, color=BLUE)
    x, y = view(block.at(0.0, 0.5))
    board.words("center front", x - 14.0, y + 5.0, USUAL, anchor="end", bold=True, color=RED)
    x, y = view(block.at(1.0, 0.5))
    board.words("center back", x + 18.0, y + 5.0, USUAL, bold=True, color=RED)
    board.lines(
        ("Waist and bust are any smooth lines, the centre lines are straight, and the ends meet at the corners.",
         "Anything else in the drawing is left alone."),
        40.0, 384.0, SMALL, color=SOFT,
    )  # fmt: skip
    return board
