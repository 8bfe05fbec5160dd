"""The step ``pleats``: cloth let into a seam below the waist, and how it is folded."""

from house import BLUE, CLOTH, INK, RED, SMALL, Board, View
from stages import LEFT, RIGHT, TOP, draw_panel, footnote, pair, stage

from fanblock.pattern.model import PLEAT_HEAD
from fanblock.recipe.dials import with_dials
from fanblock.recipe.library import open_recipe

HAIR = 0.06
KINDS = (
    ("box, turned in", ((-2, 0), (-HAIR, 0), (-HAIR, -1), (-1, -1), (-1, -2), (1, -2), (1, -1), (HAIR, -1), (HAIR, 0), (2, 0))),
    (
        "double box",
        (
            (-2, 0), (-HAIR, 0), (-HAIR, -1), (-1, -1), (-1, -2), (-HAIR, -2), (-HAIR, -3), (-1, -3), (-1, -4),
            (1, -4), (1, -3), (HAIR, -3), (HAIR, -2), (1, -2), (1, -1), (HAIR, -1), (HAIR, 0), (2, 0),
        ),
    ),
    ("knife, toward the back", ((-2, 2), (0, 2), (0, 1), (-1, 1), (-1, 0), (0, 0), (0, -1), (-1, -1), (-1, -2), (2, -2))),
)  # fmt: skip
"""For each kind of pleat the run of its cloth, from the front: folds from the line of the seam, and layers outward."""

FOLD, LAYER = 24.0, 5.0
"""How wide a fold and how far apart two layers are drawn."""


def draw() -> Board:
    """Draw a front before and after pleats are let into its side seam, and three pleats from below."""
    board, _ = pair(
        "Below the waist two panels are widened by the cloth of pleats, which is folded at the seam's line."
    )
    jacket = with_dials(open_recipe("jacket-pleated-skirts"))
    before = stage(jacket, "pleats", done=False).panels[0]
    after = stage(jacket, "pleats").panels[0]
    view = View.fitting(after.loop(), LEFT + 20.0, TOP + 40.0, 240.0, 240.0)
    second = view.moved(RIGHT - LEFT)
    draw_panel(board, view, before)
    draw_panel(board, second, after, CLOTH, INK)
    for mark in after.marks:
        board.line(second(mark.curve.points), BLUE, 1.2, (6.0, 3.0))
    for edge in after.edges:
        if edge.kind == PLEAT_HEAD or edge.name.endswith(("skirt", "pleat hem")):
            board.line(second(edge.curve.points), RED, 2.0)
    head = next(edge for edge in after.edges if edge.kind == PLEAT_HEAD).curve
    x, y = second(head.at(0.4 * head.length_mm))
    board.words("pleat head", x, y - 8.0, SMALL, color=RED)
    for number, (name, run) in enumerate(KINDS):
        middle, y = LEFT + 280.0, TOP + 76.0 + 88.0 * number
        board.words(name, middle, y - 26.0, SMALL, anchor="middle")
        board.line([(middle + FOLD * across, y - LAYER * out) for across, out in run], INK, 1.5)
        board.line([(middle, y + 26.0), (middle, y + 34.0)], RED, 1.5)
    footnote(
        board,
        "Red: the cloth of the pleats, its outer edge sewn to that of the next panel. Dashed: creases, the first on the line of",
        "the seam. Small: pleats seen from below, the outside up, the inside down, the front at the left, the seam's line in red.",
    )
    return board
