"""The step ``ease``: the seams let out instead of taking in."""

from house import BLUE, MIST, SMALL, Board
from stages import LEFT, RIGHT, draw_draft, footnote, pair, recipe, sides, stage

from fanblock.draft.takes import takes_of

AMOUNT = "60 mm"


def draw() -> Board:
    """Draw the seams without and with ease at the waist."""
    board, view = pair("With ease the two edges of a seam overlap: the panels are wider than the block.")
    trial = recipe(
        f"ease: {{waist: {AMOUNT}, bust: 20 mm}}", before="lacing gap", drop="waist reduction", unused="reduction"
    )
    plain = stage(recipe(drop="waist reduction", unused="reduction"), "seam")
    eased = stage(trial, "seam")
    draw_draft(board, view, plain)
    second = view.moved(RIGHT - LEFT)
    draw_draft(board, second, eased)
    for take in takes_of(eased):
        _, front, back = sides(eased, take)
        run = [*front, *back[::-1]]
        board.area(second(run), MIST)
        board.line(second(front), BLUE, 1.8)
        board.line(second(back), BLUE, 1.8)
    x, y = second(eased.block.at(0.27, 0.12))
    board.words("added", x, y, SMALL, bold=True, color=BLUE, halo=True)
    footnote(
        board,
        f"Ease of {AMOUNT} at the waist, 20 mm at the bust, whole garment. Where a seam lets out, the edge of one",
        "panel lies over the edge of the next: both are cut wider. (More than one would give, to be seen.)",
    )
    return board
