"""How pleats fold: the creases on a piece with their numbers, and the cloth in cross-section with the same numbers."""

from functools import cache

import numpy as np
from house import BLUE, CLOTH, INK, RED, SMALL, Board, View
from stages import CARD, LEFT, RIGHT, TOP, footnote, pair

from fanblock.make import draft_pattern
from fanblock.pattern.model import Pattern
from fanblock.recipe.library import open_recipe
from fanblock.sheet.pleatfolds import sections_of
from fanblock.wearer.library import open_wearer

LAYER = 24.0
"""How far apart two layers are drawn."""

GAP = 17.0
"""Half the room between the two sides at the line of the seam."""


@cache
def _jacket() -> Pattern:
    return draft_pattern(open_wearer("ferrywoman"), open_recipe("jacket-pleated-skirts"))


def draw() -> Board:
    """Draw the front of the jacket with numbered creases, and its side pleats folded."""
    board, _ = pair(
        "The creases of double box pleats with their numbers, on the piece and in cross-section.",
        "on the piece",
        "folded, seen from below",
    )
    front = _jacket().panels[0]
    view = View.fitting(front.loop(), LEFT + 16.0, TOP + 34.0, CARD[0] - 32.0, CARD[1] - 46.0)
    board.line(view(front.loop()), INK, 1.4, fill=CLOTH, closed=True)
    for mark in (one for one in front.marks if one.kind == "crease"):
        number = mark.says.partition(":")[0].removeprefix("fold ")
        board.line(view(mark.curve.points), BLUE, 1.2, (6.0, 3.0))
        x, y = view(mark.curve.at(0.5 * mark.curve.length_mm))
        board.words(number, x + 5.0, y + 4.0, SMALL, bold="outward" in mark.says, halo=True)
    _folded(board)
    footnote(
        board,
        "Double box pleats in the side seam of a jacket. Each number stands for the same crease on both sides; bold ones are folded",
        "outward, the others inward: all the cloth lies inside. Folded, it ends where it began, on the line of the seam (C).",
    )
    return board


def _folded(board: Board) -> None:
    """The section of the side seam in the second card."""
    section = sections_of(_jacket())[0]
    deepest = min(level for _, level in section.fronts.corners)
    foot = TOP + CARD[1] - 70.0
    middle, low = RIGHT + 0.5 * CARD[0], foot + LAYER * deepest
    across = max(abs(x) for x, _ in section.fronts.corners)
    scale = (0.5 * CARD[0] - 30.0 - GAP) / across
    for run, way in ((section.fronts, 1.0), (section.backs, -1.0)):
        corners = np.array(run.corners)
        points = np.column_stack((middle - way * GAP + way * scale * corners[:, 0], low - LAYER * corners[:, 1]))
        board.line(points, INK, 2.0)
        for bend in run.bends:
            x, y = middle - way * GAP + way * scale * bend.across_mm, low - LAYER * bend.level
            board.words(str(bend.number), x + way * bend.way * 8.0, y + 4.5, SMALL, anchor="middle", bold=bend.outward)
    top = low - LAYER * section.fronts.end[1]
    board.line([(middle - GAP, top), (middle + GAP, top)], INK, 2.0)
    board.line([(middle, top), (middle, top + 9.0)], RED, 3.0)
    board.words(section.letter, middle, top - 8.0, SMALL, anchor="middle", bold=True, color=RED)
    board.words("outside", RIGHT + 20.0, low - 8.0, SMALL)
    board.words("inside", middle, foot + 28.0, SMALL, anchor="middle")
    board.words("front", RIGHT + 20.0, foot + 28.0, SMALL)
    board.words("back", RIGHT + CARD[0] - 20.0, foot + 28.0, SMALL, anchor="end")
