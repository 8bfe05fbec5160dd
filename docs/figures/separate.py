"""The step ``separate``: the draft cut apart into panels."""

from house import INK, LARGE, SMALL, Board
from stages import RIGHT, TOP, apart, draw_draft, draw_panel, footnote, middle_of, pair, panel_view, recipe, stage


def draw() -> Board:
    """Draw the draft, and the panels it is cut into."""
    board, view = pair("The draft is cut apart along its seams into three named panels.")
    trial = recipe()
    draw_draft(board, view, stage(trial, "separate", done=False), takes=True)
    panels = apart(stage(trial, "separate").panels, 40.0)
    second = panel_view(panels, RIGHT, TOP)
    for panel in panels:
        draw_panel(board, second, panel)
        x, y = second(middle_of(panel))
        board.words(str(panel.number), x, y, LARGE, anchor="middle", bold=True)
        board.words(panel.name, x, y + 16.0, SMALL, anchor="middle", color=INK)
    footnote(
        board,
        "Every panel gets one edge of each seam it lies at. What will be sewn together is trued first: both edges",
        "come out equally long, and the top edge runs smooth across the seam.",
    )
    return board
