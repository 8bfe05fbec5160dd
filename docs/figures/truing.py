"""Truing: both edges of a seam held at the waist, the difference shared at the free ends."""

from house import BLUE, CLOTH, INK, RED, SMALL, SOFT, USUAL, Board
from stages import CARD, HIGH, LEFT, RIGHT, TOP, WIDE, footnote

ABOVE, BELOW = (178.0, 194.0), (74.0, 84.0)
WAIST_Y, BIGGER = TOP + 218.0, 0.86


def draw() -> Board:
    """Draw two edges as strips, before and after truing."""
    board = Board(WIDE, HIGH, "Two edges of one seam differ; each is changed by half the difference at its free ends.")
    board.card(LEFT, TOP, *CARD, "as drawn")
    board.card(RIGHT, TOP, *CARD, "trued", RED)
    means = tuple(sum(pair) / 2.0 for pair in (ABOVE, BELOW))
    for left, done in ((LEFT, False), (RIGHT, True)):
        board.line([(left + 40.0, WAIST_Y), (left + 312.0, WAIST_Y)], BLUE, 1.2, (5.0, 3.0))
        board.words("waist", left + 300.0, WAIST_Y - 5.0, SMALL, color=BLUE, anchor="end")
        for number, name in enumerate(("front edge", "back edge")):
            x = left + 92.0 + 92.0 * number
            up, down = means if done else (ABOVE[number], BELOW[number])
            top, low = WAIST_Y - BIGGER * up, WAIST_Y + BIGGER * down
            board.line([(x, top), (x + 34.0, top), (x + 34.0, low), (x, low)], INK, 1.5, fill=CLOTH, closed=True)
            if done:
                for old, new in ((WAIST_Y - BIGGER * ABOVE[number], top), (WAIST_Y + BIGGER * BELOW[number], low)):
                    board.line([(x - 6.0, old), (x + 40.0, old)], RED, 1.4, (3.0, 3.0))
                    board.area([(x, old), (x + 34.0, old), (x + 34.0, new), (x, new)], RED, 0.6)
            board.line([(x, WAIST_Y), (x + 34.0, WAIST_Y)], RED, 3.4)
            board.words(f"{up:.0f} mm", x + 17.0, WAIST_Y - 60.0, USUAL, anchor="middle", bold=True, angle=-90.0)
            board.words(f"{down:.0f}", x + 17.0, WAIST_Y + 36.0, USUAL, anchor="middle", bold=True)
            board.words(name, x + 17.0, TOP + 40.0, SMALL, anchor="middle", color=SOFT)
    footnote(
        board,
        "The edge that bends more is longer. Held at the waist bar, each edge gives or gets half the difference at",
        "its free ends. Scaling the whole edge would change the girth at every level. (Larger than it happens.)",
    )
    return board
