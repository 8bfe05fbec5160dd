"""The step ``bust reduction``: the seams take their shares at the bust."""

from house import RED, SMALL, Board
from stages import LEFT, RIGHT, draw_draft, footnote, pair, recipe, stage

from fanblock.draft.takes import takes_of


def draw() -> Board:
    """Draw the seams before and after the reduction at the bust is booked."""
    board, view = pair("The reduction at the bust is shared among the seams in the same way.")
    trial = recipe("bust reduction: {by: 4%}")
    before, after = stage(trial, "bust reduction", done=False), stage(trial, "bust reduction")
    draw_draft(board, view, before, takes=True)
    second = view.moved(RIGHT - LEFT)
    draw_draft(board, second, after, {"side front", "side back"}, takes=True)
    total = 0.0
    for take, around in zip(takes_of(after), (0.30, 0.755), strict=True):
        x, y = second(after.block.at(around, 0.86))
        board.words(f"{float(take(1.0)):.0f} mm", x, y, SMALL, bold=True, color=RED, halo=True)
        total += float(take(1.0))
    footnote(
        board,
        f"4 % of the bust: {total:.0f} mm off each half, shared like the waist. Only seams that reach the bust can take",
        "it. Between bust and waist the take runs smoothly from the one amount to the other.",
    )
    return board
