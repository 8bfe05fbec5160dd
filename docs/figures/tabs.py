"""The step ``tabs``: slits from the waist to the hem, corners rounded."""

from house import CLOTH, INK, RED, SMALL, Board, even
from stages import LEFT, RIGHT, TOP, apart, draw_panel, footnote, pair, panel_view, recipe, stage

from fanblock.pattern.model import HEM


def draw() -> Board:
    """Draw the panels before and after their skirts are cut into tabs."""
    board, _ = pair("The skirts below the waist are slit into tabs with rounded corners.")
    trial = recipe()
    before = apart(stage(trial, "separate").panels, 40.0)
    after = apart(stage(trial, "tabs").panels, 40.0)
    view = panel_view(before, LEFT, TOP)
    second = view.moved(RIGHT - LEFT)
    for panel in before:
        draw_panel(board, view, panel)
    for panel in after:
        draw_panel(board, second, panel, CLOTH, INK)
        for edge in panel.edges:
            if edge.kind == HEM:
                board.line(second(even(edge.curve.points, 70)), RED, 2.0)
        for slit in panel.slits:
            board.line(second([slit.start, slit.end]), RED, 2.0)
            board.dot(second(slit.start))
    x, y = second(after[1].slits[0].start)
    board.words("slit begins at the waist", x - 10.0, y - 10.0, SMALL, color=RED, halo=True)
    footnote(
        board,
        "A slit has no width: it is one cut, and its upper end is reinforced. It runs from a share of the panel's",
        "waist to the same share of its hem. The seams are open below the waist and make tabs as well.",
    )
    return board
