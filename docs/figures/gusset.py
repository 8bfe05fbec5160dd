"""The step ``gusset``: slits in a front, and the pieces that are let in."""

import numpy as np
from house import BLUSH, CLOTH, INK, RED, SMALL, SOFT, Board, View, even
from stages import CARD, LEFT, RIGHT, TOP, body, footnote, pair, panel_view

from fanblock.draft.starting import GirthSpec, started
from fanblock.make import run_steps
from fanblock.pattern.model import LET_IN, Panel
from fanblock.recipe.dials import with_dials
from fanblock.recipe.reading import read_recipe

RECIPE = """recipe: 1
name: Trial short stays
makes: short stays
block: {lower: underbust, upper: upper chest}
steps:
  - top edge:
      through:
        - [center front, bust + 45 mm]
        - [27%, bust + 45 mm]
        - [40%, underarm - 25 mm]
        - [58%, underarm - 25 mm]
        - [center back, bust + 60 mm]
  - hem: {height: underbust - 12 mm}
  - seam: {name: side seam, through: [[44%, top edge], [43%, hem]], share: 1}
  - separate: {panels: [front, back]}
  - gusset:
      name: inner
      panel: front
      through: [[11%, top edge], [13%, underbust + 15 mm]]
      width: 25% of bust - 25% of underbust
      wide at: bust
      swell: 3 mm
  - gusset:
      name: outer
      panel: front
      through: [[20%, top edge], [19%, underbust + 15 mm]]
      width: 25% of bust - 25% of underbust
      wide at: bust
      swell: 3 mm
"""


def draw() -> Board:
    """Draw the slit front, and beside it both pieces, the letters of their sides on either."""
    board, _ = pair("Two slits in a front, and the two pieces that are let into them.", "slit", "let in")
    work = run_steps(
        started(body(), GirthSpec("underbust", "upper chest")), with_dials(read_recipe(RECIPE, "trial.yaml"), None)
    )
    front, _, *pieces = work.panels
    view = panel_view([front], LEFT, TOP)
    loop = np.vstack([even(edge.curve.points, 40) for edge in front.edges])
    board.line(view(loop), INK, 1.3, fill=CLOTH, closed=True)
    for edge in front.edges:
        if edge.kind == LET_IN:
            board.line(view(even(edge.curve.points, 20)), RED, 1.4, (5.0, 3.0))
    for slit in front.slits:
        board.line(view(np.array([slit.start, slit.end])), INK, 1.8)
        board.dot(view(slit.start))
    x, y = view(front.slits[0].start)
    board.words("bar", x + 8.0, y + 12.0, SMALL, color=RED, halo=True)
    x, y = view(front.slits[1].end)
    board.words("slit, and its stitch lines", x + 14.0, y - 6.0, SMALL, color=RED, halo=True)
    _pieces(board, pieces, view.scale)
    footnote(
        board,
        "Along the slit cloth is turned in: nothing at the bar, some millimetres at the edge. Each piece has sides exactly",
        "as long as those stitch lines, and an outer edge that runs on from the edge on either side.",
    )
    return board


def _pieces(board: Board, pieces: list[Panel], scale: float) -> None:
    """Draw the pieces side by side, to the scale of the panel."""
    for number, piece in enumerate(pieces):
        loop = np.vstack([even(edge.curve.points, 30) for edge in piece.edges])
        low, high = loop.min(axis=0), loop.max(axis=0)
        left = RIGHT + 70.0 + 130.0 * number - scale * low[0]
        view = View(scale, left, TOP + 0.5 * (CARD[1] + 20.0) + 0.5 * scale * (high[1] - low[1]) + scale * low[1])
        board.line(view(loop), INK, 1.3, fill=BLUSH, closed=True)
        outer = next(edge for edge in piece.edges if edge.kind == "top")
        board.line(view(even(outer.curve.points, 30)), RED, 2.2)
        x, y = view(loop.mean(axis=0))
        board.words(piece.name, x, y, SMALL, anchor="middle", bold=True)
        foot = view(np.array([0.5 * (low[0] + high[0]), low[1]]))
        board.words("to the bar", foot[0], foot[1] + 18.0, SMALL, color=SOFT, anchor="middle")
