"""The front of the top edge as the ferrywoman moved it on the drawing, and as her own recipe draws it."""

import numpy as np
import storyline
from house import CLOTH, INK, RED, SMALL, Board, View, even
from refitted import laid

from fanblock.pattern.model import Pattern

SHOWN = ("center front", "side front")


def draw() -> Board:
    """Draw the two front pieces twice: the line moved by hand, and drawn by the recipe that was made of that."""
    board = Board(760.0, 420.0, "Two pieces of stays with their top edge lowered in front, by hand and by a recipe.")
    second, room = storyline.pattern("stays-2.yaml"), (40.0, 346.0, 290.0)
    for left, head in ((24.0, "the line moved on the drawing"), (390.0, "drawn by low-stays.yaml")):
        board.words(head, left + 173.0, 24.0, SMALL, anchor="middle", bold=True)
    _moved(board, second, storyline.edited_pattern(), (24.0, *room))
    laid(board, second, storyline.pattern("stays-3.yaml"), (390.0, *room), lambda panel: panel.name in SHOWN)
    board.lines(
        (
            "Dashed: her second draft. Red: half an inch lower at the centre front, running out to nothing before the arm. On the",
            "drawing she moved the top edge alone; by the recipe the centre front and the seam end lower with it.",
        ),
        24.0,
        386.0,
    )
    return board


def _moved(board: Board, second: Pattern, moved: Pattern, room: tuple[float, float, float, float]) -> None:
    """The pieces as they were, and the one line that was moved."""
    rings, lines, x = [], [], 0.0
    for name in SHOWN:
        ring = second.by_name[name].loop()
        ring = np.vstack((ring, ring[:1]))
        shift = np.array([x - ring[:, 0].min(), 0.0])
        rings.append((name, ring + shift))
        lines.append(moved.by_name[name].edge("top edge").curve.points + shift)
        x = float((ring + shift)[:, 0].max()) + 45.0
    left, top, width, height = room
    view = View.fitting(np.vstack([ring for _, ring in rings]), left, top, width, height)
    for (name, ring), line in zip(rings, lines, strict=True):
        board.area(view(even(ring, 240)), CLOTH)
        board.line(view(even(ring, 240)), INK, 1.0, dash=(5.0, 4.0))
        board.line(view(even(line, 60)), RED, 1.8)
        middle = view(0.5 * (ring.min(axis=0) + ring.max(axis=0)))[0]
        board.words(name.replace("center", "centre"), middle, top + height + 20.0, SMALL, anchor="middle")
