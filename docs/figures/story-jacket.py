"""The jacket drawn from the corrected wearer, and the one from the first measures dashed under it."""

import storyline
from house import Board
from refitted import laid


def draw() -> Board:
    """Draw the three pieces of the body, each on the one from the first measures."""
    board = Board(900.0, 440.0, "Three pieces of a jacket, and dashed as the first measures draw them.")
    before, after = storyline.pattern("jacket-before.yaml"), storyline.pattern("jacket.yaml")
    laid(board, before, after, (24.0, 20.0, 852.0, 340.0))
    board.lines(
        (
            "Dashed: from the first measures. Full: from ferrywoman-2.yaml. A wedge is taken out of the back, waist laid on waist: its",
            "neck and shoulder come down, and its seam with the side back is shorter.",
        ),
        24.0,
        408.0,
    )
    return board
