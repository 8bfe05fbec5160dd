"""The step ``lining``: rings of cloth one inside the other, and a panel with the outline of its lining."""

import numpy as np
from house import BLUE, CLOTH, INK, MIST, RED, SMALL, SOFT, Board, even
from stages import CARD, LEFT, RIGHT, TOP, footnote, pair, panel_view, pattern, recipe, stage

LAYERS = ((74.0, 12.0, "outer cloth"), (62.0, 7.0, "as drafted"), (52.0, 12.0, "lining"))
"""Radius and width of the rings of the picture, far thicker than cloth, and what they are."""


def draw() -> Board:
    """Draw three layers round a body, and the side of the trial stays with its lining."""
    board, _ = pair(
        "A layer further in is smaller round; each panel has its part of that.", "seen from above", "one panel"
    )
    middle = np.array([LEFT + 0.5 * CARD[0] - 40.0, TOP + 0.5 * CARD[1] + 14.0])
    for (radius, width, says), color in zip(LAYERS, (CLOTH, INK, MIST), strict=True):
        board.ring(middle, 1.45 * radius, color if color != CLOTH else "#c9b48f", width=width)
        tip = middle + 1.45 * radius * np.array([np.cos(0.5), -np.sin(0.5)])
        y = middle[1] - 80.0 + 80.0 * LAYERS.index((radius, width, says))
        board.line([tip, (LEFT + 276.0, y - 4.0)], SOFT, 0.8)
        board.words(says, LEFT + 280.0, y, SMALL)
    made = pattern(
        stage(
            recipe("lining: {layer: inner layer, panels: [front, side, back], inside: 8 mm, down to: waist}", "cut"),
            "lining",
        )
    )
    panel, copy = made.by_name["side"], made.by_name["side inner layer"]
    view = panel_view([panel], RIGHT, TOP)
    board.line(
        view(np.vstack([even(edge.curve.points, 60) for edge in panel.edges])), INK, 1.3, fill=CLOTH, closed=True
    )
    ring = np.vstack([even(edge.curve.points, 60) for edge in copy.edges])
    board.line(view(ring), RED, 1.8, fill=MIST, closed=True)
    for part in panel.levels["waist"]:
        board.line(view(even(part.points, 12)), BLUE, 1.0, (5.0, 3.0))
    x, y = view(ring.mean(axis=0))
    board.words("lining", x, y, SMALL, color=RED, anchor="middle", bold=True)
    footnote(
        board,
        "A ring so many millimetres further in is 6.3 times as many shorter. The lining of this panel, drawn for 8 mm of",
        "cloth so that it shows, is narrower at both seams and ends at the waist.",
    )
    return board
