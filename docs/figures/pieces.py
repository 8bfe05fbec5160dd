"""The step ``pieces``: a band cut into equal pieces."""

import numpy as np
from house import INK, RED, SMALL, SOFT, USUAL, Board, View
from stages import CARD, LEFT, RIGHT, TOP, body, draw_panel, footnote, pair

from fanblock.block.band import Band, band_fan
from fanblock.draft.model import Draft
from fanblock.draft.pieces import Division, divided
from fanblock.sheet.upright import moved_panel


def draw() -> Board:
    """Draw a band that is half a circle, as it is asked for and as it is cut."""
    board, _ = pair("A band is a part of a ring; it is cut into equal pieces.", "asked for", "cut into three")
    band = Band(300.0, 300.0 + np.pi * 140.0, 140.0, halved=False)
    pieces = divided(Draft(body(), band_fan(band), band=band), Division("cape", least=3)).panels
    ring = np.vstack([panel.loop() for panel in pieces])
    first = View.fitting(ring, LEFT + 36.0, TOP + 70.0, CARD[0] - 72.0, CARD[1] - 110.0)
    for panel in pieces:
        draw_panel(board, first, panel, color=SOFT)
    for name, height, down in (("inner", 1.0, -8.0), ("outer", 0.0, 18.0)):
        x, y = first(band_fan(band).at(0.5, height))
        board.words(name, float(x), float(y) + down, SMALL, anchor="middle", color=RED)
    second = first.moved(RIGHT - LEFT)
    for panel, away in zip(pieces, (-26.0, 0.0, 26.0), strict=True):
        moved = moved_panel(panel, np.eye(2), np.array([away, -10.0 if away == 0.0 else 0.0]))
        draw_panel(board, second, moved, color=INK)
        x, y = second(moved.loop().mean(axis=0))
        board.words(str(panel.number), float(x), float(y) + 5.0, USUAL, bold=True, anchor="middle")
    footnote(
        board,
        "Inner edge, outer edge and depth are exact. Half a circle here; a whole one and more is cut in as many",
        "pieces as can lie open, and a straight strip in as many as the cloth is wide.",
    )
    return board
