"""A cone through ribs and chest, beside the one through waist and bust: what gussets give."""

import numpy as np
from house import BLUE, CLOTH, FAINT, RED, SMALL, SOFT, Board, smooth

from fanblock.block.from_body import block_of
from fanblock.wearer.body import Body

GIRTHS = {"waist": (740.0, 0.0), "underbust": (780.0, 95.0), "bust": (920.0, 160.0), "upper chest": (890.0, 205.0)}
"""Girth and height above the waist of a body, in mm."""

TOP_MM = 240.0
LEFT, LOW, SCALE_X, SCALE_Y = 360.0, 430.0, 0.4, 1.35


def place(girth_mm: float, height_mm: float, side: float) -> tuple[float, float]:
    """Return where half of a girth stands, beside the middle of the picture, at its height."""
    return LEFT + side * SCALE_X * 0.5 * girth_mm, LOW - SCALE_Y * height_mm


def draw() -> Board:
    """Draw the girths of a body at their heights, and two cones through two of them each."""
    board = Board(760.0, 520.0, "Girths of a body at their heights, with a cone through underbust and upper chest.")
    board.card(20.0, 20.0, 720.0, 480.0)
    lengths = {"bust to waist": GIRTHS["bust"][1]}
    for name, (girth, height) in GIRTHS.items():
        lengths |= {name: girth, f"{name} height": height}
    body = Body("sample", "shift", lengths)
    shape = [(735.0, -12.0), *(GIRTHS[name] for name in ("waist", "underbust", "bust", "upper chest")), (880.0, TOP_MM)]
    right = smooth([place(*each, 1.0) for each in shape])
    left = smooth([place(*each, -1.0) for each in shape])
    board.line(np.vstack((right, left[::-1])), FAINT, 1.2, fill=CLOTH, closed=True)
    for name, (girth, height) in GIRTHS.items():
        board.line([place(girth, height, -1.0), place(girth, height, 1.0)], SOFT, 0.9, (5.0, 4.0))
        x, y = place(girth, height, 1.0)
        board.words(f"{name} {girth / 10:.0f} cm", x + 22.0, y + 4.0, SMALL, color=SOFT)
    for (lower, upper), color, dash in (
        (("waist", "bust"), SOFT, (7.0, 5.0)),
        (("underbust", "upper chest"), BLUE, ()),
    ):
        block = block_of(body, lower, upper)
        for side in (-1.0, 1.0):
            ends = [(2.0 * block.level_length_mm(at / 160.0), at) for at in (0.0, TOP_MM)]
            board.line([place(*end, side) for end in ends], color, 2.4 if not dash else 1.6, dash)
    cone = 2.0 * block.level_length_mm(1.0)
    for side in (-1.0, 1.0):
        board.arrow(place(cone, 160.0, side), place(GIRTHS["bust"][0], 160.0, side), RED, 1.8, both=True)
    x, y = place(GIRTHS["bust"][0], 160.0, -1.0)
    board.words("for the gussets:", x - 12.0, y - 4.0, SMALL, anchor="end", bold=True, color=RED)
    board.words(f"{(GIRTHS['bust'][0] - cone) / 10:.1f} cm in all", x - 12.0, y + 13.0, SMALL, anchor="end", color=RED)
    for row, (color, dash, says) in enumerate(
        (
            (BLUE, (), "a cone through underbust and upper chest"),
            (SOFT, (7.0, 5.0), "the ordinary one, through waist and bust"),
        )
    ):
        y = 44.0 + 20.0 * row
        board.line([(40.0, y), (76.0, y)], color, 2.4 if not dash else 1.6, dash)
        board.words(says, 86.0, y + 4.5, SMALL, bold=not dash, color=color)
    board.lines(
        ("Widths are girths, each at its height above the waist. The ordinary cone is too wide over the ribs",
         "and above the bust; the other fits both, and leaves the bust to be let in."),
        40.0, 470.0, SMALL, color=SOFT,
    )  # fmt: skip
    return board
