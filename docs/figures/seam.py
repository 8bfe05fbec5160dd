"""The step ``seam``: a line across the draft, with its points."""

from house import RED, SMALL, Board
from stages import LEFT, RIGHT, draw_draft, footnote, pair, recipe, stage

from fanblock.draft.places import place_of
from fanblock.steps.seam import Seam


def draw() -> Board:
    """Draw the draft before and after its seams are drawn."""
    board, view = pair("Two seams cross the draft from the top edge to the hem, each through three points.")
    trial = recipe()
    before, after = stage(trial, "seam", done=False), stage(trial, "seam")
    draw_draft(board, view, before)
    second = view.moved(RIGHT - LEFT)
    names = {"side front", "side back"}
    draw_draft(board, second, after, names)
    for step in trial.steps:
        if isinstance(step.options, Seam):
            for position in step.options.through:
                board.dot(second(after.block.at(*place_of(after, position))))
    for name, around, height in (("side front", 0.235, 0.62), ("side back", 0.50, 0.5)):
        x, y = second(after.block.at(around, height))
        board.words(name, x, y, SMALL, bold=True, color=RED, halo=True)
    footnote(
        board,
        "A seam is drawn from the top down through its points. It takes nothing yet: what it takes comes",
        "from its own take, and from its share of the reductions.",
    )
    return board
