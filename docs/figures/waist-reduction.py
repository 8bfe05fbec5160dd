"""The step ``waist reduction``: the seams take their shares at the waist."""

from house import RED, SMALL, Board
from stages import LEFT, RIGHT, draw_draft, footnote, pair, recipe, stage

from fanblock.draft.takes import takes_of


def draw() -> Board:
    """Draw the seams before and after the reduction is booked."""
    board, view = pair("The reduction is shared among the seams: each takes its part at the waist.")
    trial = recipe(settings={"reduction": "10%"})
    before, after = stage(trial, "waist reduction", done=False), stage(trial, "waist reduction")
    draw_draft(board, view, before, takes=True)
    second = view.moved(RIGHT - LEFT)
    draw_draft(board, second, after, {"side front", "side back"}, takes=True)
    for take, around in zip(takes_of(after), (0.215, 0.765), strict=True):
        x, y = second(after.block.at(around, 0.13))
        board.words(f"{take.at_waist_mm:.0f} mm", x, y, SMALL, bold=True, color=RED, halo=True)
    total = sum(take.at_waist_mm for take in takes_of(after))
    footnote(
        board,
        f"10 % of the waist, the most that is drawn: {total:.0f} mm off each half. The side front has a share of 2, the side",
        "back a share of 1. Below the waist the same seams spring out again over the hip.",
    )
    return board
