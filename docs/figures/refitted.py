"""Two drafts of the ferrywoman's stays: the one her toile was cut by, and the one after its fitting."""

from collections.abc import Callable, Sequence
from functools import cache

import numpy as np
from house import CLOTH, INK, RED, SMALL, Board, View, even

from fanblock.draft.altering import RaiseEdge, TakeMore
from fanblock.make import draft_pattern
from fanblock.pattern.model import Panel, Pattern
from fanblock.recipe.library import open_recipe
from fanblock.terms import Around, Height, Length, Share
from fanblock.wearer.library import open_wearer

RECIPE = "stays-three-panels"
CHANGES = (
    TakeMore("side front", Height(landmark="top edge"), Length(8.0)),
    TakeMore("side front", Height(share=Share(0.5)), Length(9.0)),
    TakeMore("side back", Height(share=Share(0.5)), Length(9.0)),
    RaiseEdge("top edge", Around(ratio=0.32), Length(-10.0), Share(0.1)),
)


@cache
def drafted(altered: bool) -> Pattern:
    """The stays before the fitting, or after it."""
    return draft_pattern(
        open_wearer("ferrywoman"), open_recipe(RECIPE), alterations=CHANGES if altered else (), draft=1 + altered
    )


def draw() -> Board:
    """Draw each piece as it was, dashed, and as it is now."""
    board = Board(760.0, 400.0, "Three pieces of stays before a fitting, dashed, and after it.")
    laid(board, drafted(False), drafted(True), (24.0, 20.0, 712.0, 310.0))
    board.lines(
        (
            "Dashed: the draft the toile was cut by. Full: the next one, taken in at the ribs, closer at the top of the",
            "front, and lower before the arm.",
        ),
        24.0,
        372.0,
    )
    return board


def laid(
    board: Board,
    before: Pattern,
    after: Pattern,
    room: Sequence[float],
    wanted: Callable[[Panel], bool] = lambda panel: not panel.added,
) -> None:
    """Lay pieces in a row, each new one on its old one, dashed: waist on waist, front edge on front edge."""
    rings, x = [], 0.0
    for panel in (panel for panel in after.panels if wanted(panel)):
        old = before.by_name[panel.name]
        was, now = _ring(old) + _waist(panel) - _waist(old), _ring(panel)
        shift = np.array([x - min(was[:, 0].min(), now[:, 0].min()), 0.0])
        rings.append((panel.name, was + shift, now + shift))
        x = float(max((was + shift)[:, 0].max(), (now + shift)[:, 0].max())) + 45.0
    left, top, width, height = room
    view = View.fitting(np.vstack([ring for _, *pair in rings for ring in pair]), left, top, width, height)
    for name, was, now in rings:
        board.area(view(even(now, 240)), CLOTH)
        board.line(view(even(was, 240)), INK, 1.0, dash=(5.0, 4.0))
        board.line(view(even(now, 240)), RED, 1.8)
        middle = view(0.5 * (now.min(axis=0) + now.max(axis=0)))[0]
        board.words(name.replace("center", "centre"), middle, top + height + 20.0, SMALL, anchor="middle")


def _waist(panel: Panel) -> np.ndarray:
    """Where the waist line begins at the edge that faces front."""
    lines = panel.levels.get("waist") or ()
    ends = [point for line in lines for point in (line.start, line.end)]
    return min(ends, key=lambda point: point[0]) if ends else _ring(panel)[0]


def _ring(panel: Panel) -> np.ndarray:
    loop = panel.loop()
    return np.vstack((loop, loop[:1]))
