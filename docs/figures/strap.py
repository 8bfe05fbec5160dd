"""The step ``strap``: a strip between two seats."""

import numpy as np
from house import BLUE, CLOTH, CLOTH_TOO, INK, RED, SMALL, SOFT, Board, View, even
from stages import CARD, LEFT, RIGHT, TOP, WEARER, footnote, pair

from fanblock.make import draft_pattern
from fanblock.pattern.model import Edge, Panel
from fanblock.recipe.library import open_recipe
from fanblock.wearer.library import open_wearer

RECIPE = "gown-bodice-1770s"


def _ring(panel: Panel) -> np.ndarray:
    return np.vstack([even(edge.curve.points, 40) for edge in panel.edges])


def _of_shoulder(panel: Panel) -> list[Edge]:
    return [edge for edge in panel.edges if edge.kind == "shoulder"]


def draw() -> Board:
    """Draw front and back with their seats, and the strap with its sides."""
    board, _ = pair("A strap joins a seat behind to one in front.", "its two seats", "the piece")
    pattern = draft_pattern(open_wearer(WEARER), open_recipe(RECIPE))
    panels = [pattern.by_name[name] for name in ("front", "side back", "back")]
    rings = [_ring(panel) for panel in panels]
    first = View.fitting(np.vstack(rings), LEFT + 14.0, TOP + 62.0, CARD[0] - 28.0, CARD[1] - 78.0)
    for panel, ring in zip(panels, rings, strict=True):
        board.line(first(ring), INK, 1.2, fill=CLOTH, closed=True)
        for edge in _of_shoulder(panel):
            board.line(first(edge.curve.points), RED, 3.2)
            x, y = first(edge.curve.points.mean(axis=0))
            board.words(edge.name, float(x), float(y) - 8.0, SMALL, anchor="middle", color=RED, halo=True)
    strap = pattern.by_name["strap"]
    ring = _ring(strap)
    second = View.fitting(ring, RIGHT + 120.0, TOP + 40.0, CARD[0] - 240.0, CARD[1] - 82.0)
    board.line(second(ring), INK, 1.3, fill=CLOTH_TOO, closed=True)
    for edge, color, says, side in (
        (strap.edge("armhole strap"), BLUE, "armhole", 10.0),
        (strap.edge("neckline strap"), SOFT, "neckline", -10.0),
    ):
        board.line(second(edge.curve.points), color, 2.6)
        x, y = second(edge.curve.points.mean(axis=0))
        board.words(says, float(x) + side, float(y), SMALL, anchor="start" if side > 0.0 else "end", color=color)
    for edge in _of_shoulder(strap):
        board.line(second(edge.curve.points), RED, 3.2)
    x, y = second(strap.edge("strap front end").curve.points.mean(axis=0))
    board.words("front end, with cloth to spare", float(x), float(y) + 26.0, SMALL, anchor="middle", color=RED)
    footnote(
        board,
        "Its ends are as long as their seats and cut on their slant. Its length is only a beginning:",
        "it is sewn on behind, drawn over the shoulder and pinned in front, on the body.",
    )
    return board
