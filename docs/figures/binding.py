"""The step ``binding``: which edges are bound."""

from house import BLUE, RED, Board, even
from stages import CARD, HIGH, LEFT, RIGHT, TOP, WIDE, draw_panel, footnote, panel_view, stiffened

from fanblock.finish.binding import is_bound


def draw() -> Board:
    """Draw the panels, and what of them is bound."""
    board = Board(
        WIDE, HIGH, "Top edge, lower edge and both sides of every slit are bound; seams and lacing edges are not."
    )
    board.card(LEFT, TOP, *CARD, "before")
    board.card(RIGHT, TOP, *CARD, "bound", RED)
    for x, bound in ((LEFT, False), (RIGHT, True)):
        panels = stiffened("binding: {of: linen tape}")
        view = panel_view(panels, x, TOP)
        for panel in panels:
            draw_panel(board, view, panel)
            if not bound:
                continue
            for edge in panel.edges:
                if is_bound(panel, edge):
                    board.line(view(even(edge.curve.points, 50)), RED, 3.0)
            for slit in panel.slits:
                board.line(view([slit.start, slit.end]), BLUE, 3.4)
    footnote(
        board,
        "Red edges are bound once, blue slits along both sides. What has an allowance is turned or sewn instead. A corner is",
        "easy to bind from a radius of 8 mm, a hollow from 15 mm; the upper end of a slit takes a whipped turn.",
    )
    return board
