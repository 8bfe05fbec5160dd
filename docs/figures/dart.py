"""The step ``dart``: the legs on the panel, and the dart sewn, its peak folded under the edge."""

from typing import Any

import numpy as np
from house import BLUSH, CLOTH, INK, RED, SMALL, SOFT, Board, View, even
from stages import CARD, LEFT, RIGHT, TOP, body, footnote, pair, panel_view

from fanblock.block.from_body import block_of
from fanblock.draft.model import Draft
from fanblock.make import run_steps
from fanblock.pattern.model import Panel
from fanblock.recipe.dials import with_dials
from fanblock.recipe.reading import read_recipe

RECIPE = """recipe: 1
name: Trial bodice
makes: bodice
steps:
  - top edge:
      through:
        - [center front, bust + 25 mm]
        - [20%, bust + 25 mm]
        - [38%, underarm - 25 mm]
        - [58%, underarm - 25 mm]
        - [center back, bust + 60 mm]
  - hem: {through: [[center front, waist - 45 mm], [26%, waist - 8 mm], [55%, waist], [center back, waist - 20 mm]]}
  - seam: {name: side seam, through: [[50%, top edge], [50%, waist]], share: 1}
  - dart: {name: front dart, through: [[22%, hem], [20%, 80%]], take: 24 mm}
  - separate: {panels: [front, back]}
"""


def front() -> Panel:
    """The front of a bodice with one dart."""
    start = Draft(body(), block_of(body()))
    return run_steps(start, with_dials(read_recipe(RECIPE, "trial.yaml"), None)).panels[0]


def draw() -> Board:
    """Draw the panel with its dart, and what it becomes when the dart is sewn."""
    board, _ = pair(
        "The legs of a dart are marked on the panel; sewn, its peak lies under the edge.", "marked", "its mouth, sewn"
    )
    panel = front()
    view = panel_view([panel], LEFT, TOP)
    board.line(
        view(np.vstack([even(edge.curve.points, 40) for edge in panel.edges])), INK, 1.3, fill=CLOTH, closed=True
    )
    one, other = (mark.curve for mark in panel.marks)
    board.area(view(np.vstack((even(one.points, 40), even(other.points, 40)[::-1]))), BLUSH)
    for leg in (one, other):
        board.line(view(even(leg.points, 40)), RED, 1.6, (5.0, 3.0))
    peak = [edge for edge in panel.edges if " at front dart" in edge.name]
    board.line(view(np.vstack([even(edge.curve.points, 12) for edge in peak])), RED, 2.4)
    x, y = view(peak[0].curve.end)
    board.words("peak", x - 8.0, y + 18.0, SMALL, color=RED, halo=True, anchor="middle")
    x, y = view(one.points[-1])
    board.words("point", x + 6.0, y - 5.0, SMALL, color=RED, halo=True)
    _sewn(board, panel)
    footnote(
        board,
        "What lies between the legs is folded away, not cut. The legs are equally long and lie along each other at the",
        "point. The peak is shaped so that, folded and pressed to the centre, its raw edge lies on that of the panel.",
    )
    return board


REACH_MM = 42.0
"""How much of edge and legs is shown round the mouth of the sewn dart."""


def _sewn(board: Board, panel: Panel) -> None:
    """Draw the mouth of the dart when it is sewn: the part behind turned to the one in front, what is folded under dashed."""
    edges = {edge.name: edge.curve for edge in panel.edges}
    one, other = (mark.curve for mark in panel.marks)
    near, far = one.between(0.0, REACH_MM), other.between(0.0, REACH_MM)
    before = edges["hem 1"].between(edges["hem 1"].length_mm - REACH_MM, edges["hem 1"].length_mm)
    after = edges["hem 2"].between(0.0, REACH_MM)
    turned = _onto(far.points[[0, -1]], near.points[[0, -1]])
    up = near.points[-1] - near.points[0]
    front = np.vstack((even(before.points, 20), even(near.points, 20), before.points[:1] + up))
    back = turned(np.vstack((even(far.points, 20)[::-1], even(after.points, 20))))
    back = np.vstack((back, back[-1:] + up))
    fold = 0.5 * (even(near.points, 20) + even(far.points, 20))
    under = _mirrored(
        np.vstack((fold[::-1], even(edges["hem at front dart 1"].points, 10)[::-1])), near.points[[0, -1]]
    )
    view = View.fitting(np.vstack((front, back)), RIGHT + 40.0, TOP + 60.0, CARD[0] - 80.0, CARD[1] - 110.0)
    for ring in (back, front):
        board.area(view(ring), CLOTH)
    board.line(view(np.vstack((even(before.points, 20), turned(even(after.points, 20))))), INK, 1.8)
    board.line(view(even(near.points, 20)), RED, 2.2)
    board.line(view(under), SOFT, 1.3, (4.0, 3.0))
    x, y = view(under[8])
    board.words("folded under", x - 8.0, y, SMALL, color=SOFT, anchor="end", halo=True)
    x, y = view(near.points[-1])
    board.words("seam", x + 8.0, y + 12.0, SMALL, color=RED)
    x, y = view(under[-1])
    board.words("one smooth edge", x + 70.0, y + 30.0, SMALL, anchor="middle")


def _mirrored(points: Any, line: Any) -> Any:
    """Points mirrored about a line."""
    along = (line[1] - line[0]) / np.hypot(*(line[1] - line[0]))
    off = points - line[0]
    return line[0] + 2.0 * (off @ along)[:, None] * along - off


def _onto(line: Any, target: Any) -> Any:
    """What turns and slides one line onto another, its first point on the other's."""
    (a, b), (c, d) = line, target
    turn = np.angle(complex(*(d - c)) / complex(*(b - a)))
    matrix = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    return lambda points: (points - a) @ matrix.T + c
