"""The step ``cut``: how many pieces of each layer."""

import numpy as np
from house import CLOTH, CLOTH_TOO, MIST, SMALL, SOFT, Board, View
from stages import LEFT, RIGHT, TOP, draw_panel, footnote, pair, pattern, recipe, stage

from fanblock.sheet.phrases import layer_counts
from fanblock.sheet.upright import moved_panel, upright

FILLS = {"outer": CLOTH_TOO, "strength layer": CLOTH, "lining": MIST}


def draw() -> Board:
    """Draw one panel as it is drawn, and all the pieces to be cut by it."""
    board, _ = pair("A panel is drawn once and cut in pairs, so many for each layer.", "drawn once", "cut in pairs")
    panel = upright(next(one for one in pattern(stage(recipe(), "cut")).panels if one.name == "side"))
    loop = panel.loop()
    draw_panel(board, View.fitting(loop, LEFT + 90.0, TOP + 60.0, 170.0, 190.0), panel)
    flipped = moved_panel(panel, np.array([[-1.0, 0.0], [0.0, 1.0]]), np.array([float(loop[:, 0].max()), 0.0]))
    for row, (layer, words) in enumerate(layer_counts(panel)):
        y = TOP + 36.0 + 88.0 * row
        count = dict(panel.cuts)[layer]
        for number in range(count // 2):
            for half, one in enumerate((panel, flipped)):
                x = RIGHT + 112.0 + 104.0 * half + 12.0 * (count // 2 - 1 - number)
                view = View.fitting(loop, x, y + 5.0 * (number - 0.5 * (count // 2 - 1)), 66.0, 74.0)
                draw_panel(board, view, one, FILLS[layer], width=1.0)
        board.words(layer, RIGHT + 12.0, y + 36.0, SMALL, bold=True)
        board.words(words, RIGHT + 12.0, y + 53.0, SMALL, color=SOFT)
    footnote(
        board,
        "For outer 2, strength layer 4, lining 2. The sheets show the wearer's left half; its mirror image",
        "is the right half. A panel on the fold is one whole piece instead of a pair.",
    )
    return board
