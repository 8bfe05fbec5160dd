"""The step ``opening``: edges that meet, stand apart or lie over each other."""

from typing import Any

import numpy as np
from house import BLUE, CLOTH, INK, RED, SOFT, Board, View, even
from stages import body, footnote

from fanblock.block.from_body import block_of
from fanblock.draft.model import Draft
from fanblock.finish.openings import with_opening_marks
from fanblock.pattern.model import Panel
from fanblock.recipe.reading import read_recipe
from fanblock.steps.table import BY_NAME

TRIAL = """\
recipe: 1
name: Trial
makes: bodice
steps:
  - opening: {STEP}
  - top edge: {through: [[center front, bust + 20 mm], [20%, bust + 15 mm], [40%, underarm - 15 mm], [56%, underarm - 15 mm], [center back, bust + 80 mm]]}
  - hem: {edges: [{name: waist, kind: waist, pointed: yes, through: [[center front, waist - 45 mm], [25%, waist - 6 mm], [60%, waist], [center back, waist]]}]}
  - seam: {name: side seam, through: [[34%, top edge], [33%, waist]], share: 1}
  - separate: {panels: [front, back]}
"""
WAYS = (
    ("pins, edge to edge", "closed with: pins"),
    ("ties, 2 cm apart", "closed with: ties, width: 20 mm, number: 4"),
    ("buttons, 15 mm past the centre", "closed with: buttons, overlap: 15 mm, down to: hem"),
)


def front(step: str) -> Panel:
    """The front panel of a trial garment that opens so."""
    state: Any = Draft(body(), block_of(body()))
    for one in read_recipe(TRIAL.replace("STEP", step), "trial.yaml").steps:
        state = BY_NAME[one.kind].run(state, one.options)
    return next(panel for panel in with_opening_marks(state).panels if panel.name == "front")


def draw() -> Board:
    """Draw the two halves of a front, closed in three ways."""
    board = Board(760.0, 372.0, "Three ways to close a front without a lace.")
    for number, (says, step) in enumerate(WAYS):
        left = 20.0 + 244.0 * number
        board.card(left, 20.0, 232.0, 300.0, says, RED if number == 2 else SOFT)
        panel = front(step)
        loop = np.vstack([even(edge.curve.points, 40) for edge in panel.edges])
        both = np.vstack((loop, loop * (-1.0, 1.0)))
        view = View.fitting(both, left + 14.0, 56.0, 204.0, 250.0)
        for mirror in (-1.0, 1.0):
            board.line(view(loop * (mirror, 1.0)), INK, 1.3, fill=CLOTH, closed=True)
        for mark in panel.marks:
            if mark.kind == "fastening":
                for mirror in (-1.0, 1.0):
                    board.line(view(mark.curve.points * (mirror, 1.0)), RED, 2.2)
            else:
                board.line(view(even(mark.curve.points, 12)), BLUE, 1.2, (5.0, 3.0))
    footnote(
        board,
        "Each half is drawn as it lies when closed. Under an overlap the centre line (blue) is marked on the piece,",
        "and what runs past it is the mirror image of what lies before it.",
    )
    return board
