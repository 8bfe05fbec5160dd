"""The step ``grain``: how each panel lies on the cloth."""

from house import RED, SMALL, Board
from stages import LEFT, RIGHT, TOP, apart, draw_panel, footnote, pair, panel_view, pattern, recipe, stage


def draw() -> Board:
    """Draw the panels with the grain that all get, and with the grain a recipe chooses."""
    board, _ = pair(
        "Each panel's grain line, left as it is and as a recipe chooses it.", "where nothing is said", "with the step"
    )
    for left, work in ((LEFT, stage(recipe(), "tabs")), (RIGHT, stage(recipe(), "grain"))):
        panels = apart(pattern(work).panels, 40.0)
        view = panel_view(panels, left, TOP)
        for panel in panels:
            draw_panel(board, view, panel)
            if panel.grain is not None:
                board.arrow(*(view(end) for end in panel.grain), color=RED, both=True)
    for words, x, y in (
        ("at waist", 36.0, 290.0), ("at waist", 130.0, 304.0), ("at waist", 244.0, 312.0),
        ("center front", 402.0, 290.0), ("at waist", 498.0, 304.0), ("center back", 604.0, 312.0),
    ):  # fmt: skip
        board.words(words, x, y, SMALL, color=RED, halo=True)
    footnote(
        board,
        "At waist sets the grain square to the panel's own waist. Center front and center back set it along",
        "that line, so that the thread runs straight beside the lacing and down the front.",
    )
    return board
