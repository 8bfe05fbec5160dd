"""A toile: two pieces of stays with their spare cloth, and the strip by which it laces."""

from functools import cache

import numpy as np
from house import BLUE, CLOTH, INK, MOSS, RED, SMALL, SOFT, Board, View, even

from fanblock.finish.toile import toile_of
from fanblock.geometry.bezier import sample
from fanblock.make import draft_pattern
from fanblock.recipe.library import open_recipe
from fanblock.sheet.drawing import Stroke
from fanblock.sheet.grid import gridded
from fanblock.sheet.layout import pieces_of
from fanblock.wearer.library import open_wearer

SHOWN = ("side front", "side", "lacing strip")
"""The pieces in the picture: one that is raised on one side only, one from under the arm, and the strip."""

APART_MM = 55.0
"""Room between two pieces."""

PENS = {
    "square cm": ("#b9c9d2", 0.6, ()), "stitch": (INK, 1.2, (5.0, 3.0)), "level": (BLUE, 1.0, (8.0, 3.0)), "slit": (INK, 1.4, ()),
    "place": (RED, 1.4, (2.0, 3.0)), "crease": (RED, 1.2, (8.0, 3.0, 2.0, 3.0)), "eyelet": (INK, 1.0, ()),
    "mark": (INK, 1.2, ()), "grain": (SOFT, 1.0, ()),
}  # fmt: skip
"""How each pen of the sheets is drawn here: colour, width, dashes. What has no entry is left out."""

HIGH = 430.0
"""The picture is a little higher than those of the steps."""


@cache
def _pieces():
    """The pieces shown, with their grid, each as (cut line, lines by pen), side by side in millimetres."""
    toile = toile_of(draft_pattern(open_wearer("ferrywoman"), open_recipe("stays-five-panels")))
    found, left = [], 0.0
    pieces = {piece.group.name: piece for piece in gridded(pieces_of(toile), "cm")}
    for name in SHOWN:
        piece = next(one for key, one in pieces.items() if key == name or key.endswith(f" {name}"))
        strokes = [item for item in piece.group.items if isinstance(item, Stroke)]
        cut = np.vstack([sample(stroke.beziers, 4.0) for stroke in strokes if stroke.pen == "cut"])
        shift = np.array([left - cut[:, 0].min(), -cut[:, 1].max()])
        lines = [(stroke.pen, sample(stroke.beziers, 4.0) + shift) for stroke in strokes if stroke.pen in PENS]
        found.append((name, cut + shift, lines))
        left += np.ptp(cut[:, 0]) + APART_MM
    return found


def draw() -> Board:
    """Draw the pieces, and name what a toile has more than the pattern."""
    board = Board(760.0, HIGH, "Two pieces of a toile with their spare cloth, and a strip of eyelets.")
    board.card(
        20.0,
        20.0,
        720.0,
        HIGH - 84.0,
        "a toile of stays: the piece in front of the arm, the one under it, the lacing strip",
    )
    pieces = _pieces()
    view = View.fitting(np.vstack([cut for _, cut, _ in pieces]), 130.0, 84.0, 470.0, HIGH - 162.0)
    for _, cut, lines in pieces:
        board.area(view(even(cut, 160)), CLOTH)
        for pen, points in sorted(lines, key=lambda one: list(PENS).index(one[0])):
            color, width, dash = PENS[pen]
            board.line(even(view(points), 2 if pen == "square cm" or len(points) < 3 else 24), color, width, dash)
        board.line(view(even(cut, 160)), MOSS, 2.0)
    _named(board, view, pieces)
    board.lines(
        (
            "Green: cut here. Dashed: the finished edges and seams, as in the garment. Blue: bust and waist. Red: a slit to be cut on the",
            "body, and the fold of the strip, which lies on the lacing line. The grid is 2 cm wide and lies along the grain.",
        ),
        22.0, HIGH - 40.0, SMALL, color=SOFT,
    )  # fmt: skip
    return board


def _named(board, view, pieces) -> None:
    """Words with arrows to what is more."""
    front, side, strip = ((np.min(view(cut), axis=0), np.max(view(cut), axis=0)) for _, cut, _ in pieces)
    for text, (x, y), tip in (
        (("6 cm more", "in front"), (30.0, front[0][1] + 14.0), (front[0][0] + 22.0, front[0][1] + 18.0)),
        (
            ("2.5 cm beside", "every seam"),
            (30.0, 0.5 * (front[0][1] + front[1][1])),
            (front[0][0] + 14.0, 0.5 * (front[0][1] + front[1][1])),
        ),
        (("3 cm longer", "below"), (30.0, front[1][1] - 16.0), (front[0][0] + 6.0, front[1][1] - 10.0)),
    ):
        board.lines(text, x, y, SMALL, color=MOSS)
        board.arrow((x + 84.0, y + 4.0), tip, MOSS)
    board.words(
        "1 cm under the arm", 0.5 * (side[0][0] + side[1][0]), side[0][1] - 8.0, SMALL, anchor="middle", color=MOSS
    )
    x = strip[1][0] + 10.0
    board.lines(("the eyelets of", "both halves"), x, strip[0][1] + 60.0, SMALL, color=INK)
    board.lines(("fold, and lay", "it on the", "lacing line"), x, strip[0][1] + 150.0, SMALL, color=RED)
