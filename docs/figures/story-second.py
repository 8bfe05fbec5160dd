"""The ferrywoman's second draft, and the first dashed under it."""

import storyline
from house import Board
from refitted import laid


def draw() -> Board:
    """Draw each piece as the toile was cut, dashed, and as it is after the fitting."""
    board = Board(900.0, 400.0, "Five pieces of stays after a fitting, and dashed as they were before it.")
    laid(board, storyline.pattern("stays.yaml"), storyline.pattern("stays-2.yaml"), (24.0, 20.0, 852.0, 300.0))
    board.lines(
        (
            "Dashed: what the toile was cut by. Full: her second draft, wider at the waist, shorter behind, lower before the arm,",
            "the tabs less sprung.",
        ),
        24.0,
        368.0,
    )
    return board
