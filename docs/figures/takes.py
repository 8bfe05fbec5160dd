"""What one seam takes at every height: nothing at the bust, its share at the waist, the spring at the hem."""

import numpy as np
from house import BLUE, CLOTH_TOO, FAINT, INK, RED, SMALL, SOFT, Board, View
from stages import CARD, HIGH, LEFT, RIGHT, TOP, WIDE, footnote, recipe, sides, stage

from fanblock.draft.takes import takes_of

BIGGER = 3.0


def draw() -> Board:
    """Draw a seam with its two edges drawn apart, and its take as a curve."""
    board = Board(WIDE, HIGH, "One seam: its two edges, and how much it takes at each height.")
    board.card(LEFT, TOP, *CARD, "the seam, its take drawn three times as wide")
    board.card(RIGHT, TOP, *CARD, "what it takes", RED)
    draft = stage(recipe(settings={"reduction": "8%"}), "waist reduction")
    take = takes_of(draft)[1]
    middle, front, back = sides(draft, take, 80)
    wide = [middle + BIGGER * (edge - middle) for edge in (front, back)]
    u = np.linspace(take.seam.around_at(0.0) - 0.22, take.seam.around_at(0.0) + 0.25, 30)
    levels = [draft.block.at(u, height) for height in (0.0, 1.0)]
    view = View.fitting(np.vstack((middle, *levels)), LEFT + 30.0, TOP + 42.0, 270.0, 246.0)
    for level, name in zip(levels, ("waist", "bust"), strict=True):
        board.line(view(level), BLUE, 1.2, (5.0, 3.0))
        x, y = view(level[-1])
        board.words(name, x + 5.0, y + 4.0, SMALL, color=BLUE)
    board.area(view(np.vstack((wide[0], wide[1][::-1]))), CLOTH_TOO)
    for edge in wide:
        board.line(view(edge), INK, 1.6)
    board.line(view(middle), RED, 1.0, (4.0, 3.0))
    _curve(board, take, view)
    footnote(
        board,
        "The two edges stand half the take either side of the seam's line, along the level, so the girths add up.",
        "Below the waist the take turns into the spring: one edge lies over the other, and each tab is wider.",
    )
    return board


def _curve(board: Board, take: object, view: View) -> None:
    del view
    seam = take.seam  # type: ignore[attr-defined]
    heights = np.linspace(seam.low, seam.top, 80)
    amount = take(heights)  # type: ignore[operator]
    left, right, low, high = RIGHT + 40.0, RIGHT + 320.0, TOP + 262.0, TOP + 76.0
    span = float(max(amount.max(), 4.0) - amount.min())

    def put(mm: float, height: float) -> tuple[float, float]:
        x = left + (mm - float(amount.min())) / span * (right - left - 60.0)
        return x, low - (height - seam.low) / (seam.top - seam.low) * (low - high)

    nothing = put(0.0, seam.low)[0]
    board.line([(nothing, low), (nothing, high)], SOFT, 1.0)
    for name, height in (("waist", 0.0), ("bust", 1.0)):
        y = put(0.0, height)[1]
        board.line([(left - 16.0, y), (right, y)], FAINT, 1.0, (5.0, 3.0))
        board.words(name, left - 16.0, y - 5.0, SMALL, color=BLUE)
    board.line([put(float(mm), float(height)) for mm, height in zip(amount, heights, strict=True)], RED, 2.4)
    for text, height, across, down in (
        (f"take {float(take(0.0)):.0f} mm", 0.0, 8.0, 18.0),  # type: ignore[operator]
        (f"spring {seam.spring_mm:.0f} mm", seam.low, -6.0, 20.0),
        ("take at the top", seam.top, 10.0, 8.0),
    ):
        x, y = put(float(take(height)), height)  # type: ignore[operator]
        board.dot((x, y), RED)
        board.words(text, x + across, y + down, SMALL, bold=True, color=RED, halo=True)
    board.words("adds", nothing - 8.0, high - 18.0, SMALL, anchor="end", color=SOFT)
    board.words("takes in", nothing + 8.0, high - 18.0, SMALL, color=SOFT)
