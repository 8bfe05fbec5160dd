"""The step ``gathered front``: a fitted front, and the wide one that is gathered onto it."""

import numpy as np
from house import CLOTH, CLOTH_TOO, INK, RED, SMALL, Board, View, even
from stages import CARD, LEFT, RIGHT, TOP, WEARER, footnote, pair

from fanblock.make import draft_pattern
from fanblock.pattern.model import Panel
from fanblock.recipe.library import open_recipe
from fanblock.wearer.library import open_wearer

RECIPE, FITTED, WIDE = "bodice-regency", "front", "gathered front"


def _ring(panel: Panel) -> np.ndarray:
    return np.vstack([even(edge.curve.points, 60) for edge in panel.edges])


def draw() -> Board:
    """Draw both fronts at one scale, the centre line of each at its left."""
    board, _ = pair("The wide front is the fitted one, spread at the centre.", "fitted", "wide")
    pattern = draft_pattern(open_wearer(WEARER), open_recipe(RECIPE))
    fitted, wide = pattern.by_name[FITTED], pattern.by_name[WIDE]
    frame = _ring(wide) - _ring(wide).min(axis=0)
    for panel, left, color in ((fitted, LEFT, CLOTH), (wide, RIGHT, CLOTH_TOO)):
        low = _ring(panel).min(axis=0)
        view = View.fitting(frame, left + 24.0, TOP + 46.0, CARD[0] - 48.0, CARD[1] - 66.0)
        board.line(view(_ring(panel) - low), INK, 1.3, fill=color, closed=True)
        for mark in panel.marks:
            board.line(view(mark.curve.points - low), RED, 1.8)
        mark = panel.marks[0]
        x, y = view(mark.curve.points.mean(axis=0) - low)
        says = "its dart" if panel is fitted else "gathering threads"
        board.words(
            says,
            float(x),
            float(y) + (-26.0 if panel is fitted else 26.0),
            SMALL,
            anchor="middle",
            color=RED,
            halo=True,
        )
    footnote(
        board,
        "Shoulder, armhole and side are the same on both. At the neck and below, the wide front is drawn up on its threads",
        "until it lies on the fitted one; it has no dart, for what that takes is gathered too.",
    )
    return board
