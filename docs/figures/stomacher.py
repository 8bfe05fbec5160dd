"""The step ``stomacher``: what lies under an open front, in its place and by itself."""

import numpy as np
from house import BLUE, CLOTH, CLOTH_TOO, INK, RED, SMALL, SOFT, Board, View, even
from stages import CARD, LEFT, RIGHT, TOP, WEARER, footnote, pair

from fanblock.make import draft_pattern
from fanblock.pattern.model import Panel
from fanblock.recipe.library import open_recipe
from fanblock.wearer.library import open_wearer


def _ring(panel: Panel) -> np.ndarray:
    return np.vstack([even(edge.curve.points, 50) for edge in panel.edges])


def draw() -> Board:
    """Draw the two fronts over their stomacher, and the stomacher with its marks."""
    board, _ = pair("The stomacher fills an open front and lies under its edges.", "in its place", "the piece")
    pattern = draft_pattern(open_wearer(WEARER), open_recipe("gown-bodice-open-front"))
    front, piece = pattern.by_name["front"], pattern.by_name["stomacher"]
    ring, under = _ring(front), _ring(piece)
    both = np.vstack((ring, ring * (-1.0, 1.0), under))
    first = View.fitting(both, LEFT + 14.0, TOP + 34.0, CARD[0] - 28.0, CARD[1] - 48.0)
    board.line(first(under), RED, 1.6, fill=CLOTH_TOO, closed=True)
    for mirror in (1.0, -1.0):
        board.line(first(ring * (mirror, 1.0)), INK, 1.3, fill=CLOTH, closed=True, faint=0.75)
        board.line(first(even(piece.edge("right side").curve.points, 40) * (mirror, 1.0)), RED, 1.2, (4.0, 3.0))
    second = View.fitting(under, RIGHT + 60.0, TOP + 40.0, CARD[0] - 120.0, CARD[1] - 60.0)
    board.line(second(under), INK, 1.4, fill=CLOTH, closed=True)
    for mark in piece.marks:
        points = even(mark.curve.points, 30)
        if mark.kind == "fastening":
            board.line(second(points), INK, 2.0)
        else:
            board.line(second(points), BLUE, 1.2, (4.0, 3.0))
    edge = next(mark for mark in piece.marks if mark.name == "front edge right").curve
    x, y = second(edge.at(0.62 * edge.length_mm))
    board.words("front edge", float(x) - 8.0, float(y), SMALL, anchor="end", color=BLUE, halo=True)
    x, y = second(piece.edge("right side").curve.at(0.9 * piece.edge("right side").curve.length_mm))
    board.words("loop", float(x) + 8.0, float(y), SMALL, color=SOFT, halo=True)
    footnote(
        board,
        "Its sides (dashed) run under the front edges at one distance at every height, 2 to 3 cm. It is cut whole.",
        "Marked on it: where the front edges lie, the waist, and the loops that hold it.",
    )
    return board
