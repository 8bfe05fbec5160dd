"""The step ``top edge``: a smooth curve through points on the block."""

from house import RED, SMALL, Board
from stages import LEFT, RIGHT, draw_draft, footnote, pair, recipe, stage

from fanblock.draft.places import place_of
from fanblock.steps.top_edge import TopEdge


def draw() -> Board:
    """Draw the block before and after the top edge is drawn, with the points it runs through."""
    board, view = pair("The top edge is one smooth curve through the points given, from centre front to centre back.")
    trial = recipe()
    before, after = (stage(trial, "top edge", done=done) for done in (False, True))
    draw_draft(board, view, before)
    second = view.moved(RIGHT - LEFT)
    draw_draft(board, second, after, {"top edge"})
    options = next(step.options for step in trial.steps if isinstance(step.options, TopEdge))
    for position in options.through:
        board.dot(second(after.block.at(*place_of(after, position))))
    x, y = second(after.block.at(0.44, 1.08))
    board.words("low under the arm", x - 42.0, y - 34.0, SMALL, color=RED, halo=True)
    footnote(
        board,
        "Each dot is a point of the recipe: how far around, and how high. The curve is square to the",
        "centre front, and free where it ends at the lacing edge.",
    )
    return board
