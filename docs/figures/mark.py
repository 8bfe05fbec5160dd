"""The step ``mark``: a piece without lines of one's own, and with two."""

from house import RED, SMALL, Board, even
from stages import CARD, HIGH, LEFT, RIGHT, TOP, WIDE, draw_panel, footnote, panel_view, pattern, recipe, stage

from fanblock.steps.mark import Mark, run
from fanblock.terms import Around, Height, Length, Position, Share


def _at(around: float, height: Height) -> Position:
    return Position(Around(ratio=around), height)


POCKET = Mark(
    name="pocket slit",
    panel="front",
    through=(
        _at(0.05, Height(landmark="waist", plus=Length(18.0))),
        _at(0.09, Height(landmark="waist", plus=Length(72.0))),
    ),
)
TRIMMING = Mark(
    name="trimming",
    panel="front",
    through=tuple(
        _at(around, Height(share=Share(height))) for around, height in ((0.0, 0.86), (0.07, 0.8), (0.2, 0.98))
    ),
)


def draw() -> Board:
    """Draw the front piece without and with two lines on it."""
    board = Board(WIDE, HIGH, "A front without marks, and with a pocket slit and a line for trimming.")
    board.card(LEFT, TOP, *CARD, "before")
    board.card(RIGHT, TOP, *CARD, "after", RED)
    work = stage(recipe(), "separate")
    for x, marks in ((LEFT, ()), (RIGHT, (POCKET, TRIMMING))):
        marked = work
        for mark in marks:
            marked = run(marked, mark)
        panel = pattern(marked).panels[0]
        view = panel_view([panel], x, TOP)
        draw_panel(board, view, panel)
        for mark in panel.marks:
            board.line(view(even(mark.curve.points, 40)), RED, 2.0, (3.0, 3.0))
            foot = view(mark.curve.at(0.6 * mark.curve.length_mm))
            board.words(mark.says, foot[0] + 10.0, foot[1] + 14.0, SMALL, color=RED, halo=True)
    footnote(
        board,
        "The lines stand at places round the body and of a height, so they lie there on any other body too. They are drawn",
        "on the piece with their names, and are neither cut nor sewn along.",
    )
    return board
