"""The step ``open front``: the front edge on a line of its own."""

import numpy as np
from house import BLUE, CLOTH, RED, SMALL, SOFT, Board, even
from stages import HIGH_AT, LEFT, LOW_AT, RIGHT, body, draw_block, footnote, on_block, pair

from fanblock.block.from_body import block_of
from fanblock.draft.model import HEIGHT, Draft
from fanblock.recipe.reading import read_recipe
from fanblock.steps.table import BY_NAME

TRIAL = """\
recipe: 1
name: Trial
makes: gown bodice
steps:
  - open front: {through: [[center front + 12 cm, bust + 3 cm], [center front + 5 cm, waist]], closed with: pins}
  - top edge: {through: [[front edge, bust + 60 mm], [center back, bust + 60 mm]]}
  - hem: {height: waist}
  - separate: {panels: [front]}
"""


def draw() -> Board:
    """Draw the block before and after its front is opened."""
    board, view = pair("The front edge runs on a line of its own, and the opening is measured along every level.")
    step = read_recipe(TRIAL, "trial.yaml").steps[0]
    draft = BY_NAME[step.kind].run(Draft(body(), block_of(body())), step.options)
    block, gap = draft.block, draft.gaps[0]
    draw_block(board, view, block)
    second = view.moved(RIGHT - LEFT)
    heights = np.linspace(LOW_AT + 0.3, HIGH_AT - 0.2, 30)
    line = np.column_stack((np.interp(heights, gap.line[:, HEIGHT], gap.line[:, 0]), heights))
    edge = even(on_block(block, line), 30)
    front = block.at(np.zeros(2), np.array([heights[-1], heights[0]]))
    board.area(second(np.vstack((edge, front))), CLOTH)
    draw_block(board, second, block)
    board.line(second(edge), RED, 2.2)
    for height in np.arange(0.0, 1.3, 0.3):
        around = float(np.interp(height, gap.line[:, HEIGHT], gap.line[:, 0]))
        board.line(second(block.at(np.linspace(0.0, around, 12), height)), BLUE, 1.6)
    x, y = second(block.at(float(np.interp(1.3, gap.line[:, HEIGHT], gap.line[:, 0])), 1.3))
    board.words("front edge", float(x) + 10.0, float(y), SMALL, bold=True, color=RED, halo=True)
    x, y = view(block.at(0.0, 0.5))
    board.words("center front", float(x) + 6.0, float(y), SMALL, color=SOFT, halo=True)
    footnote(
        board,
        "At every level the opening is twice what lies between the centre front and the edge (blue).",
        "Pieces and opening together are as long as the block's level, so the girths add up.",
    )
    return board
