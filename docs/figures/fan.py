"""The fan: two girths and one length make a piece of a ring."""

import math

import numpy as np
from house import BLUE, CLOTH, INK, RED, SMALL, SOFT, Board, View

from fanblock.block.fan import fan

HALF_WAIST, HALF_BUST, RULING = 365.0, 455.0, 160.0


def draw() -> Board:
    """Draw the fan with its pin, its two arcs and its numbers."""
    board = Board(
        760.0, 560.0, "The fan block: a pin, an arc for the waist, an arc for the bust, and the turn between."
    )
    board.card(20.0, 20.0, 720.0, 490.0)
    block = fan(HALF_WAIST, HALF_BUST, RULING)
    turn = block.turn_rad
    radius = HALF_WAIST / turn
    pin = np.array([0.0, -radius])
    u = np.linspace(0.0, 1.0, 60)
    waist, bust = block.at(u, 0.0), block.at(u, 1.0)
    view = View.fitting(np.vstack((waist, bust, [pin])), 110.0, 60.0, 520.0, 420.0)
    board.line(view(np.vstack((waist, bust[::-1]))), INK, 1.6, fill=CLOTH, closed=True)
    for around in np.linspace(0.1, 0.9, 9):
        board.line(view(block.at(np.full(2, around), np.array([0.0, 1.0]))), SOFT, 0.7)
    for end in (block.at(0.0, 0.0), block.at(1.0, 0.0)):
        board.line(view([pin, end]), SOFT, 1.0, (4.0, 4.0))
    board.line(view(waist), BLUE, 2.6)
    board.line(view(bust), BLUE, 2.6)
    board.line(view(block.at(np.zeros(2), np.array([0.0, 1.0]))), RED, 2.6)
    board.dot(view(pin), INK, 5.0)
    sweep = np.linspace(0.0, turn, 24)
    board.line(view(pin + 150.0 * np.stack((np.sin(sweep), np.cos(sweep)), axis=1)), SOFT, 1.2)
    x, y = view(pin)
    board.words("pin", x + 10.0, y + 4.0, SMALL, bold=True)
    board.words(f"turn {math.degrees(turn):.1f}°", *view(pin + np.array([104.0, 118.0])), SMALL, color=SOFT)
    x, y = view(block.at(0.0, 0.5))
    board.words("bust to waist", x - 10.0, y, SMALL, anchor="end", bold=True, color=RED)
    board.words(f"{RULING / 10:.0f} cm", x - 10.0, y + 17.0, SMALL, anchor="end", color=RED)
    x, y = view(block.at(0.62, 1.0))
    board.words(f"half the bust, {HALF_BUST / 10:.1f} cm", x + 12.0, y - 14.0, SMALL, bold=True, color=BLUE)
    x, y = view(block.at(0.04, 0.0))
    board.words(f"half the waist, {HALF_WAIST / 10:.1f} cm", x + 6.0, y + 52.0, SMALL, bold=True, color=BLUE)
    x, y = view(0.5 * (pin + block.at(0.0, 0.0)))
    board.words(f"{radius / 10:.1f} cm", x - 10.0, y, SMALL, anchor="end", color=SOFT)
    board.words("center front", *view(block.at(0.0, 1.0) + np.array([-4.0, 12.0])), SMALL, anchor="end", color=SOFT)
    board.words("center back", *(view(block.at(1.0, 0.5)) + np.array([10.0, 6.0])), SMALL, color=SOFT)
    board.lines(
        ("Bust 91 cm, waist 73 cm, bust to waist 16 cm. Swing a lath about the pin: one hole draws the waist, one the bust.",),
        22.0, 534.0, SMALL, color=SOFT,
    )  # fmt: skip
    return board
