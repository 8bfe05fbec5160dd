"""Top edge and hem in named edges with corners: a bodice's outline on the block."""

from functools import cache

import numpy as np
from house import BLUE, CLOTH, INK, RED, SMALL, SOFT, Board, View, even
from stages import body, on_block

from fanblock.block.from_body import block_of
from fanblock.draft.model import Draft
from fanblock.draft.separate import outline
from fanblock.pattern.model import SHOULDER
from fanblock.recipe.reading import read_recipe
from fanblock.steps.table import BY_NAME

TRIAL = """\
recipe: 1
name: Trial bodice
makes: bodice
steps:
  - top edge:
      edges:
        - {name: front neckline, kind: neckline, through: [[center front, bust + 30 mm], [center front + 95 mm, bust + 55 mm]]}
        - {name: front strap, kind: neckline, through: [[center front + 85 mm, 101% of front length]], straight: yes}
        - {name: front shoulder, kind: shoulder, through: [[center front + 150 mm, 95% of front length]], sewn to: back shoulder}
        - name: armhole
          kind: armhole
          through: [[35%, underarm + 60 mm], [43%, underarm - 15 mm], [53%, underarm - 15 mm], [center back - 150 mm, 92% of back length]]
        - {name: back shoulder, kind: shoulder, through: [[center back - 85 mm, 98% of back length]]}
        - {name: back neckline, kind: neckline, through: [[center back, 86% of back length]]}
  - hem:
      edges:
        - name: waist
          kind: waist
          through: [[center front, waist - 45 mm], [30%, waist - 8 mm], [60%, waist - 4 mm], [center back, waist - 70 mm]]
          pointed: yes
  - separate: {panels: [whole]}
"""
COLORS = (RED, BLUE)


@cache
def _drawn() -> Draft:
    draft = Draft(body(), block_of(body()))
    for step in read_recipe(TRIAL, "trial.yaml").steps[:2]:
        draft = BY_NAME[step.kind].run(draft, step.options)
    return draft


def draw() -> Board:
    """Draw a bodice's outline, every named edge of it by turns in two colours, with its corners."""
    board = Board(
        760.0, 470.0, "A bodice's top edge and waist in named edges, each begun where the one before it ends."
    )
    board.card(20.0, 20.0, 720.0, 380.0)
    draft = _drawn()
    sides = outline(draft)
    runs = [on_block(draft.block, side.points) for side in sides]
    view = View.fitting(np.vstack(runs), 150.0, 52.0, 460.0, 320.0)
    board.area(view(np.vstack([even(run, 50) for run in runs])), CLOTH)
    for name, height in (("waist level", 0.0), ("bust level", 1.0)):
        points = on_block(draft.block, [(around, height) for around in np.linspace(0.0, 1.0, 40)])
        board.line(view(points), SOFT, 0.9, (5.0, 3.0))
        x, y = view(points[-1])
        board.words(name, x + 8.0, y + 4.0, 11.5, color=SOFT)
    turn = 0
    for side, run in zip(sides, runs, strict=True):
        if side.kind == "center":
            board.line(view(even(run, 12)), INK, 1.2)
            continue
        color = COLORS[turn % 2]
        turn += 1
        board.line(view(even(run, 60)), color, 2.4)
        for end in (run[0], run[-1]):
            board.dot(view(end), INK, 3.0)
        _name(board, view, side.name, run, color, shoulder=side.kind == SHOULDER)
    board.lines(
        (
            "Each edge begins where the one before it ends; the dots are the corners. The two shoulders are sewn to each other.",
            "A neckline meets the centre squarely. The waist is pointed: it may meet both centres at a point.",
        ),
        22.0, 426.0, SMALL, color=SOFT,
    )  # fmt: skip
    return board


def _name(board: Board, view: View, name: str, run: object, color: str, *, shoulder: bool) -> None:
    """Write an edge's name beside its middle, outside the cloth."""
    points = np.asarray(run)
    along = even(points, 41)
    middle, way = along[20], along[21] - along[19]
    out = np.array([way[1], -way[0]]) / np.hypot(*way)
    x, y = view(middle + 9.0 * out)
    anchor = "start" if out[0] > 0.5 else "end" if out[0] < -0.5 else "middle"
    lift = 0.0 if abs(out[1]) < 0.5 else (-4.0 if out[1] > 0 else 12.0)
    if name == "front neckline":  # its corner stands in the way
        (x, y), anchor, lift = view(points[-1]), "end", 4.0
        x -= 10.0
    board.words(name + (" (mate)" if shoulder else ""), x, y + lift, SMALL, anchor=anchor, color=color, halo=True)
