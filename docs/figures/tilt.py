"""A tilt: a wedge out of the block for a short back, and the block drawn straight again."""

import numpy as np
from house import BLUE, CLOTH, INK, RED, SMALL, SOFT, Board, View
from stages import CARD, HIGH, LEFT, RIGHT, TOP, WIDE, footnote

from fanblock.block.fan import fan
from fanblock.block.tilt import tilted
from fanblock.wearer.model import Tilt

TAKE = 32.0


def draw() -> Board:
    """Draw the fan with the wedge that is taken, and the tilted block."""
    board = Board(WIDE, HIGH, "A wedge is taken out at the centre back and the block is ruled straight again.")
    board.card(LEFT, TOP, *CARD, "the wedge")
    board.card(RIGHT, TOP, *CARD, "ruled again", RED)
    block = fan(365.0, 455.0, 160.0)
    after = tilted(block, Tilt("center back", TAKE, 0.5))
    u = np.linspace(0.0, 1.0, 40)
    view = View.fitting(np.vstack((block.at(u, -0.1), block.at(u, 1.0))), LEFT + 20.0, TOP + 44.0, 312.0, 230.0)
    second = view.moved(RIGHT - LEFT)
    for place, one in ((view, block), (second, after)):
        board.line(place(np.vstack((one.at(u, 0.0), one.at(u[::-1], 1.0)))), INK, 1.5, fill=CLOTH, closed=True)
        for around in np.linspace(0.1, 0.9, 9):
            board.line(place(one.at(np.full(2, around), np.array([0.0, 1.0]))), SOFT, 0.7)
        for height in (0.0, 1.0):
            board.line(place(one.at(u, height)), BLUE, 2.2)
    half = 0.5 * TAKE / block.center_back_mm
    wedge = np.vstack((block.at(u, 0.5 + half * u), block.at(u[::-1], 0.5 - half * u[::-1])))
    board.area(view(wedge), RED, 0.55)
    x, y = view(block.at(0.62, 0.5))
    board.words(f"{TAKE:.0f} mm at the back, nothing in front", x - 152.0, y + 104.0, SMALL, color=RED, halo=True)
    board.line(second(block.at(u, 0.0)), SOFT, 1.2, (4.0, 4.0))
    x, y = second(after.at(1.0, 0.5))
    board.words(
        f"{after.center_back_mm / 10:.1f} cm", x - 6.0, y + 2.0, SMALL, anchor="end", bold=True, color=RED, halo=True
    )
    x, y = second(after.at(0.0, 0.5))
    board.words(f"{after.center_front_mm / 10:.1f} cm", x + 8.0, y + 4.0, SMALL, bold=True, halo=True)
    footnote(
        board,
        "Both girths keep their lengths, and so does the centre front. The centre back is shorter by exactly the",
        "take. Dashed: where the waist was. (A larger wedge than most figures need, to be seen.)",
    )
    return board
