"""The step ``sleeve``: an armhole, the one-piece sleeve bent in two ways, and the sleeve in two pieces."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
from house import BLUE, CLOTH, INK, MOSS, RED, SMALL, SOFT, Board, View, even

from fanblock.make import draft_pattern
from fanblock.pattern.model import ARMHOLE, Panel, Pattern
from fanblock.recipe.library import open_recipe
from fanblock.recipe.model import Recipe
from fanblock.sheet.joined import joined
from fanblock.sleeves.pieces import ELBOW
from fanblock.steps.sleeve import Sleeve
from fanblock.wearer.library import open_wearer

CARD = (352.0, 268.0)
SCALE = 0.34
"""How large two pieces are drawn, alike."""

LEFT, RIGHT, TOP, LOW = 20.0, 388.0, 20.0, 312.0


def draw() -> Board:
    """Draw the gown's armhole and sleeve, the same sleeve long and bent by its seam, and the doublet's two pieces."""
    board = Board(760.0, 640.0, "A sleeve is drawn to the armhole, stretch for stretch; in one piece, or in two.")
    cards = (
        (LEFT, TOP, "the armhole it is drawn to", SOFT),
        (RIGHT, TOP, "one piece, bent by darts", RED),
        (LEFT, LOW, "one piece, bent by its seam behind", RED),
        (RIGHT, LOW, "two pieces", RED),
    )
    for x, y, head, color in cards:
        board.card(x, y, *CARD, head, color)
    gown, doublet = made("gown-bodice-1770s"), made("doublet-bodice-1570s")
    flat = tuple(seam.back for seam in gown.seams if seam.front.panel == "sleeve" and not seam.fullness_mm)
    draw_bodice(board, gown, {(place.panel, place.edge) for place in flat})
    draw_sleeves(board, gown, ("sleeve",), RIGHT, TOP)
    draw_sleeves(board, made("gown-bodice-1770s", "seam"), ("sleeve",), LEFT, LOW)
    draw_sleeves(board, doublet, ("top sleeve", "under sleeve"), RIGHT, LOW)
    board.lines(
        (
            "Red: what is sewn in flat, each stretch of cap on the stretch of armhole that is as long. Blue: over the strap or the",
            "shoulder, where the cap is longer: tucked in gowns, eased in doublets. Green: elbow darts and elbow line.",
        ),
        LEFT + 2.0, LOW + CARD[1] + 24.0, SMALL, color=SOFT,
    )  # fmt: skip
    return board


@cache
def made(name: str, bend: str = "") -> Pattern:
    """The pattern of a shipped recipe; with a ``bend``, its sleeve long and bent so."""
    recipe = open_recipe(name)
    return draft_pattern(open_wearer("ferrywoman"), bent(recipe, bend) if bend else recipe)


def bent(recipe: Recipe, bend: str) -> Recipe:
    """A recipe with its sleeve made long and bent otherwise."""
    steps = tuple(
        replace(step, options=replace(step.options, bend=bend, length="long"))
        if isinstance(step.options, Sleeve)
        else step
        for step in recipe.steps
    )
    return replace(recipe, steps=steps)


def draw_bodice(board: Board, pattern: Pattern, flat: set[tuple[str, str]]) -> None:
    """Draw the panels seam to seam with their armhole."""
    panels = tuple(joined(pattern).values())
    view = View.fitting(
        np.vstack([panel.loop() for panel in panels]), LEFT + 30.0, TOP + 44.0, CARD[0] - 60.0, CARD[1] - 60.0
    )
    for panel in panels:
        board.line(
            view(np.vstack([even(edge.curve.points, 20) for edge in panel.edges])), INK, 1.1, fill=CLOTH, closed=True
        )
    for panel in panels:
        for edge in panel.edges:
            if edge.kind == ARMHOLE:
                board.line(view(even(edge.curve.points, 20)), RED if (panel.name, edge.name) in flat else BLUE, 2.6)


def draw_sleeves(board: Board, pattern: Pattern, names: tuple[str, ...], x: float, y: float) -> None:
    """Draw the pieces of a sleeve side by side in a card."""
    wide = CARD[0] / len(names)
    for number, name in enumerate(names):
        panel = pattern.by_name[name]
        full = {seam.front.edge for seam in pattern.seams if seam.fullness_mm and seam.front.panel == name}
        view = View.fitting(panel.loop(), x + 20.0 + number * wide, y + 40.0, wide - 40.0, CARD[1] - 56.0)
        scale = SCALE if len(names) > 1 else view.scale
        low, high = panel.loop().min(axis=0), panel.loop().max(axis=0)
        left = x + (number + 0.5) * wide - 0.5 * scale * float(low[0] + high[0])
        foot = y + CARD[1] - 16.0 + scale * float(low[1])
        draw_piece(board, View(scale, left, foot) if len(names) > 1 else view, panel, full)


def draw_piece(board: Board, view: View, panel: Panel, full: set[str]) -> None:
    """Draw one piece with its cap, darts and elbow line."""
    board.line(
        view(np.vstack([even(edge.curve.points, 24) for edge in panel.edges])), INK, 1.2, fill=CLOTH, closed=True
    )
    for edge in panel.edges:
        if edge.kind == ARMHOLE:
            board.line(view(even(edge.curve.points, 24)), BLUE if edge.name in full else RED, 2.6)
    for mark in panel.marks:
        if mark.kind in ("dart", "tuck"):
            board.line(view(mark.curve.points), MOSS if mark.kind == "dart" else BLUE, 1.2)
        if mark.name == ELBOW:
            board.line(view(mark.curve.points), MOSS, 1.0, (4.0, 3.0))
            x, y = view(mark.curve.at(0.5 * mark.curve.length_mm))
            board.words("elbow", float(x), float(y) - 4.0, 11.0, anchor="middle", color=MOSS, halo=True)
