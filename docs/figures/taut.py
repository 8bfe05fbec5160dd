"""Bust to waist from the side: taut like a board, not into the hollow, and once more with the bust lifted."""

import numpy as np
from house import BLUE, CLOTH, INK, RED, SMALL, SOFT, Board, View, smooth

BUST, WAIST = (-15.8, 15.5), (-8.5, 0.0)
LIFTED = (-15.2, 18.6)
HOLLOW = (BUST, (-14.6, 11.8), (-11.4, 9.6), (-9.7, 5.5), WAIST)
HELD = (LIFTED, (-14.6, 15.2), (-11.2, 12.4), (-9.6, 6.5), WAIST)
ABOVE = ((-4.2, 37.0), (-4.6, 33.0), (-7.0, 29.0), (-11.0, 22.5))
HELD_ABOVE = ((-4.2, 37.0), (-4.6, 33.0), (-7.0, 29.0), (-11.4, 23.6))
BELOW = ((-10.6, -5.5), (-11.2, -11.0), (-10.0, -18.0))
BACK = (
    (12.6, -18.0), (13.0, -11.5), (9.6, -5.5), (6.5, 0.0), (7.4, 5.5), (9.8, 14.0), (10.6, 21.5), (8.6, 29.0), (4.6, 33.0),
    (4.0, 37.0),
)  # fmt: skip
CARDS = ((20.0, "taut: right"), (264.0, "into the hollow: wrong"), (508.0, "raised"))


def draw() -> Board:
    """Draw the three ways side by side."""
    board = Board(
        760.0, 416.0, "Bust to waist: taut between the tapes, wrongly into the hollow, and with the bust raised."
    )
    for number, (x, head) in enumerate(CARDS):
        board.card(x, 20.0, 232.0, 330.0, head, RED if number == 1 else SOFT)
        held = number == 2
        front = smooth((*(HELD_ABOVE if held else ABOVE), *(HELD if held else HOLLOW), *BELOW))
        ring = np.vstack((front, smooth(BACK)))
        view = View.fitting(ring, x + 40.0, 56.0, 170.0, 282.0)
        board.line(view(ring), SOFT, 1.4, fill=CLOTH, closed=True)
        top = LIFTED if held else BUST
        for left, right in ((top, (10.1, top[1])), (WAIST, (6.5, 0.0))):
            board.line(view([left, right]), RED, 3.4)
        if number == 1:
            board.line(view(smooth(HOLLOW)), RED, 2.4)
            board.area(view(np.vstack((smooth(HOLLOW), [BUST]))), RED, 0.25)
        else:
            board.arrow(*view([top, WAIST]), BLUE, 2.0, both=True)
        if held:
            board.line(view(smooth((*ABOVE[2:], *HOLLOW))), SOFT, 1.2, (3.0, 3.0))
            board.arrow(view((-18.0, 13.6)), view((-18.0, 19.0)), BLUE, 1.8)
            board.words("lifted", *view((-19.0, 10.8)), SMALL, anchor="middle", color=BLUE, halo=True)
    first = float(np.hypot(*(np.array(BUST) - np.array(WAIST))))
    along = smooth(HOLLOW)
    second = float(np.sum(np.hypot(*np.diff(along, axis=0).T)))
    third = float(np.hypot(*(np.array(LIFTED) - np.array(WAIST))))
    for x, length in ((136.0, first), (380.0, second), (624.0, third)):
        board.words(f"{length:.1f} cm", x + 4.0, 286.0, 18.0, anchor="middle", bold=True, color=INK)
    board.lines(
        ("Lay the tape from bust tape to waist tape like a board. Under a full bust a tape that follows the body comes out",
         f"too long, here by {second - first:.1f} cm. For raised, lift the breast with a hand to where the garment will hold it."),
        22.0, 374.0, SMALL, color=SOFT,
    )  # fmt: skip
    return board
