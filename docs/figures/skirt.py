"""The step ``skirt``: a skirt of its own, sewn to the lower edge of a bodice."""

from dataclasses import replace

import numpy as np
from house import BLUE, CLOTH, INK, MOSS, RED, SMALL, Board, View, even
from stages import LEFT, RIGHT, TOP, draw_panel, footnote, pair

from fanblock.make import draft_pattern
from fanblock.pattern.model import HEM, WAIST, Pattern
from fanblock.recipe.library import open_recipe
from fanblock.recipe.model import Step
from fanblock.sheet.joined import joined
from fanblock.sheet.upright import moved_panel
from fanblock.skirts.spec import Depths, PleatSpec
from fanblock.steps.skirt import Skirt
from fanblock.terms import Length, Share
from fanblock.wearer.library import open_wearer

TO = ("front", "side back", "back")
DEPTHS = Depths(Length(120.0), Length(180.0), Length(140.0))
FLARED = Skirt("skirt", TO, DEPTHS, circle=Share(0.6), begins=Length(60.0))
PLEATED = Skirt(
    "skirt", TO, DEPTHS, kind="pleated", begins=Length(60.0),
    pleats=PleatSpec(6, Length(22.0), between=(Share(0.4), Share(1.0))),
)  # fmt: skip


def draw() -> Board:
    """Draw a bodice, and a flared and a pleated skirt for it."""
    board, _ = pair(
        "A skirt's upper edge is as long as the lower edge of the bodice that it is sewn to.", "the bodice", "its skirt"
    )
    pattern = skirted(FLARED)
    laid = list(joined(pattern).values())
    view = View.fitting(np.vstack([panel.loop() for panel in laid]), LEFT + 16.0, TOP + 32.0, 320.0, 254.0)
    sewn = {(seam.back.panel, seam.back.edge) for seam in pattern.seams if seam.front.panel == "skirt"}
    for panel in laid:
        draw_panel(board, view, panel)
    for panel in laid:
        for edge in panel.edges:
            if (panel.name, edge.name) in sewn:
                board.line(view(even(edge.curve.points, 30)), RED, 2.4)
    scale = 0.42
    for made, x, y, name in (
        (pattern, RIGHT + 30.0, TOP + 50.0, "flared"),
        (skirted(PLEATED), RIGHT + 22.0, TOP + 208.0, "pleated"),
    ):
        piece = made.by_name["skirt"]
        low, high = piece.loop().min(axis=0), piece.loop().max(axis=0)
        piece = moved_panel(piece, np.eye(2), np.array([-low[0], -high[1]]))
        own = View(scale, x, y)
        draw_panel(board, own, piece, CLOTH, INK)
        for mark in piece.marks:
            board.line(own(mark.curve.points), BLUE, 1.0, (5.0, 3.0))
        for edge in piece.edges:
            if edge.kind == WAIST:
                board.line(own(even(edge.curve.points, 40)), RED, 2.4)
            if edge.kind == HEM:
                board.line(own(even(edge.curve.points, 160)), MOSS, 1.6)
        right = own(piece.loop()).max(axis=0)[0]
        board.words(name, min(right + 8.0, RIGHT + 290.0), y + 6.0 if name == "flared" else y - 8.0, SMALL)
    footnote(
        board,
        "Red: what is sewn together, edge to edge with its letters. A flared skirt's upper edge has the same length and another",
        "shape. A pleated one is longer by its pleats; its lower edge is level when they are folded.",
    )
    return board


def skirted(skirt: Skirt) -> Pattern:
    """The gown's bodice with a skirt sewn to it."""
    recipe = open_recipe("gown-bodice-1770s")
    at = next(number for number, step in enumerate(recipe.steps) if step.kind == "grain")
    step = Step("skirt", skirt, recipe.steps[at].place, at)
    return draft_pattern(
        open_wearer("ferrywoman"), replace(recipe, steps=(*recipe.steps[:at], step, *recipe.steps[at:]))
    )
