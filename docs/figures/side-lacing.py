"""A lacing gap along a seam: its two edges moved back, half the gap each."""

from __future__ import annotations

import numpy as np
from house import RED, SMALL, Board, even
from stages import LEFT, RIGHT, draw_draft, footnote, on_block, pair, recipe, stage

from fanblock.draft.cutting import sliced_loops
from fanblock.draft.separate import outline
from fanblock.draft.takes import takes_of
from fanblock.pattern.model import LACING

WIDTH = "50 mm"


def draw() -> Board:
    """Draw a seam, and what is cut away beside it when it is laced."""
    board, view = pair("A seam at the side, and the two lacing edges that stand in its place.", "sewn", "laced")
    seam = "seam: {name: side seam, through: [[side, top edge], [side, hem]], share: 1, below waist: sewn}"
    trial = recipe(seam, drop="lacing gap", unused="gap")
    laced = recipe(f"{seam}\n  - lacing gap: {{at: side seam, width: {WIDTH}}}", drop="lacing gap", unused="gap")
    draw_draft(board, view, stage(trial, "seam"), {"side seam"})
    x, y = view(stage(trial, "seam").block.at(0.52, 0.45))
    board.words("side seam", x, y, SMALL, bold=True, color=RED, halo=True)
    draft = stage(laced, "lacing gap")
    second = view.moved(RIGHT - LEFT)
    draw_draft(board, second, draft)
    loops = sliced_loops(draft, outline(draft), takes_of(draft))
    sides = [side for loop in loops for side in loop if side.kind == LACING]
    edges = [even(on_block(draft.block, side.points), 30) for side in sides]
    board.area(second(np.vstack(edges)), RED, 0.25)
    for edge in edges:
        board.line(second(edge), RED, 2.0)
    x, y = second(draft.block.at(0.56, 0.45))
    board.words("lacing edges", x, y, SMALL, bold=True, color=RED, halo=True)
    footnote(
        board,
        "Each edge is moved back half the gap, square to itself, so that the lace runs straight from armhole to hem.",
        f"The garment opens so on both sides of the body. (Drawn here with a gap of {WIDTH}, to be seen.)",
    )
    return board
