"""The step ``lacing gap``: the lacing edge, parallel to the centre back."""

import numpy as np
from house import RED, SMALL, SOFT, Board, even
from stages import (
    HIGH_AT,
    LEFT,
    LOW_AT,
    RIGHT,
    draw_block,
    draw_draft,
    footnote,
    on_block,
    pair,
    recipe,
    stage,
)  # fmt: skip

from fanblock.draft.model import HEIGHT


def draw() -> Board:
    """Draw the block before and after the gap is cut."""
    board, view = pair("The lacing edge is drawn half a gap inside the centre back and parallel to it.")
    trial = recipe(settings={"gap": "80 mm"})
    draft = stage(trial, "lacing gap")
    draw_block(board, view, draft.block)
    second = view.moved(RIGHT - LEFT)
    line = np.array([point for point in draft.gaps[0].line if LOW_AT <= point[HEIGHT] <= HIGH_AT])
    edge = even(on_block(draft.block, line), 20)
    back = draft.block.at(np.ones(2), np.array([HIGH_AT, LOW_AT]))
    board.area(second(np.vstack((edge, back))), RED, 0.18)
    draw_draft(board, second, draft, {"lacing gap"})
    x, y = second(draft.block.at(0.72, 0.5))
    board.words("lacing edge", x - 34.0, y + 4.0, SMALL, bold=True, color=RED, halo=True)
    x, y = view(draft.block.at(0.78, 0.5))
    board.words("center back", x - 22.0, y, SMALL, color=SOFT, halo=True)
    footnote(
        board,
        "Half the gap comes off each half. The strip is equally wide from top to hem,",
        "so the lace runs straight. (Drawn here with a gap of 80 mm, to be seen.)",
    )
    return board
