"""The step ``flare``: skirts swung outward below the waist."""

from house import BLUE, CLOTH, INK, RED, SMALL, Board, even
from stages import LEFT, RIGHT, TOP, apart, draw_panel, footnote, pair, panel_view, stage

from fanblock.recipe.dials import with_dials
from fanblock.recipe.library import open_recipe


def draw() -> Board:
    """Draw the panels of a short jacket before and after they are flared."""
    board, _ = pair("Below the waist the panels are swung outward until they go round the hip.")
    jacket = with_dials(open_recipe("short-jacket-flared-skirts"))
    before = apart(stage(jacket, "flare", done=False).panels, 130.0)
    after = apart(stage(jacket, "flare").panels, 130.0)
    view = panel_view([*before, *after], LEFT, TOP)
    second = view.moved(RIGHT - LEFT)
    for panel in before:
        draw_panel(board, view, panel)
    for panel, old in zip(after, before, strict=True):
        draw_panel(board, second, panel, CLOTH, INK)
        waist = old.levels["waist"][0].points[:, 1].mean()
        for edge in old.edges:
            low = even(edge.curve.points, 60)
            low = low[low[:, 1] <= waist]
            if len(low) > 1:
                board.line(second(low), BLUE, 1.0, (4.0, 3.0))
        for edge in panel.edges:
            if edge.waist_at_mm is not None or edge.name == "center back":
                low = even(edge.curve.points, 80)
                board.line(second(low[low[:, 1] <= waist]), RED, 2.0)
    board.words("dashed: as the cone goes on", RIGHT + 24.0, TOP + 286.0, SMALL, color=BLUE)
    footnote(
        board,
        "Each side of a seam swings out by half of what the seam adds at the hem, and keeps its length: the two sides stay",
        "equal. The cone narrows below the waist and the hip does not, so skirts in one with the body want all of this.",
    )
    return board
