"""The first draft of the ferrywoman's stays, half of it, laid seam to seam."""

import numpy as np
import storyline
from house import CLOTH, CLOTH_TOO, INK, SMALL, Board, View, even

from fanblock.sheet.joined import joined


def draw() -> Board:
    """Draw the five pieces as they are sewn, the centre front at the left."""
    board = Board(760.0, 420.0, "Five pieces of stays laid seam to seam, the centre front at the left.")
    panels = joined(storyline.pattern("stays.yaml"))
    rings = {name: np.vstack((panel.loop(), panel.loop()[:1])) for name, panel in panels.items()}
    view = View.fitting(np.vstack(list(rings.values())), 24.0, 20.0, 712.0, 340.0)
    for number, ring in enumerate(rings.values()):
        board.area(view(even(ring, 240)), (CLOTH, CLOTH_TOO)[number % 2])
        board.line(view(even(ring, 240)), INK, 1.4)
    for number, ring in enumerate(rings.values(), 1):
        x, y = view(np.average(ring, axis=0))
        board.words(f"{number}", x - (14.0 if number == 1 else 0.0), y, SMALL, anchor="middle", bold=True)
    names = ", ".join(f"{number} {name.replace('center', 'centre')}" for number, name in enumerate(rings, 1))
    board.words(f"{names}. Her left half from outside, the centre front at the left.", 24.0, 395.0, SMALL)
    return board
