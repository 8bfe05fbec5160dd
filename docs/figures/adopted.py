"""A neckline lowered and a seam moved on the ferrywoman's drawing, and what the recipe of it draws for the innkeeper."""

from dataclasses import replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
from house import CLOTH, INK, RED, SMALL, Board, View, even

from fanblock.adopting.adopt import adopted
from fanblock.adopting.finding import origin_of
from fanblock.adopting.kept import open_kept
from fanblock.block.ruled import Block
from fanblock.geometry.curve import Curve
from fanblock.make import draft_pattern
from fanblock.pattern.model import Edge, Panel, Pattern
from fanblock.recipe.bases import Base, shipped_base
from fanblock.recipe.library import open_recipe
from fanblock.recipe.model import Recipe
from fanblock.recipe.reading import read_source
from fanblock.sheet.json import pattern_json
from fanblock.sheet.svg import write_svg
from fanblock.sheet.views import Views
from fanblock.wearer.library import open_wearer

RECIPE = "stays-three-panels"
SEAM = "side front"


@cache
def drafted(wearer: str) -> Pattern:
    """The stays as their recipe draws them."""
    return draft_pattern(open_wearer(wearer), open_recipe(RECIPE))


def _drawn(edge: Edge, block: Block) -> Edge:
    """An edge as somebody drew it: 18 mm lower before, and the seam 9 mm further back at the waist."""
    around, height = block.where(edge.curve.points)
    if edge.name == "top edge":
        height = height - 18.0 * np.exp(-((around / 0.12) ** 2)) / block.ruling_length_mm(around)
    elif edge.name.startswith(SEAM):
        around = block.along(around, height, 9.0 * np.exp(-((height / 0.6) ** 2)))
    else:
        return edge
    return replace(edge, curve=Curve.through(block.at(around, height)))


@cache
def adopted_recipe() -> Recipe:
    """The recipe that comes of the drawing."""
    pattern = drafted("ferrywoman")
    moved = tuple(
        replace(panel, edges=tuple(_drawn(edge, pattern.block) for edge in panel.edges)) for panel in pattern.panels
    )
    with TemporaryDirectory() as folder:
        (Path(folder) / "pattern.json").write_text(pattern_json(pattern), "utf-8")
        kept = open_kept(folder)
    svg = write_svg(Views(replace(pattern, panels=moved)).flat)
    text = adopted(svg.encode(), "stays.svg", kept, origin_of(RECIPE, None, ".", None)).text
    return read_source(Base(text, "new.yaml", "", shipped_base), "new")


def draw() -> Board:
    """Draw each body's pieces as they were, dashed, and by the new recipe."""
    board = Board(820.0, 320.0, "Lines moved on one body's drawing, and by the recipe that came of it on another body.")
    for number, (wearer, head) in enumerate(
        (
            ("ferrywoman", "the ferrywoman, on whose drawing the lines were moved"),
            ("innkeeper", "the innkeeper, by the new recipe"),
        )
    ):
        x = 24.0 + 402.0 * number
        board.words(head, x, 24.0, SMALL, bold=True)
        _pieces(board, x, drafted(wearer), draft_pattern(open_wearer(wearer), adopted_recipe()))
    board.lines(
        (
            "Dashed: the recipe as it was. Red: the front of the top edge lowered and the side front seam moved back at the waist. On",
            "the other body both lie at the same places around and of the same height, so they move as far as that body asks.",
        ),
        24.0,
        290.0,
    )
    return board


def _pieces(board: Board, x: float, before: Pattern, after: Pattern) -> None:
    rings, right = [], 0.0
    for panel in after.panels:
        was, now = _ring(before.by_name[panel.name]), _ring(panel)
        shift = np.array([right - min(was[:, 0].min(), now[:, 0].min()), 0.0])
        rings.append((was + shift, now + shift))
        right = float(max((was + shift)[:, 0].max(), (now + shift)[:, 0].max())) + 30.0
    view = View.fitting(np.vstack([ring for pair in rings for ring in pair]), x, 40.0, 372.0, 215.0)
    for was, now in rings:
        board.area(view(even(now, 240)), CLOTH)
        board.line(view(even(was, 240)), INK, 1.0, dash=(5.0, 4.0))
        board.line(view(even(now, 240)), RED, 1.6)


def _ring(panel: Panel) -> np.ndarray:
    loop = panel.loop()
    return np.vstack((loop, loop[:1]))
