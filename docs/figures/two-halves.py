"""Stays for a body whose left and right differ: both halves seam to seam, and each right piece under its left fellow."""

from house import BLUE, CLOTH, CLOTH_TOO, INK, RED, SMALL, SOFT, Board, View, even

from fanblock.geometry.region import inner_point
from fanblock.make import draft_pattern
from fanblock.recipe.library import open_recipe
from fanblock.sheet.joined import joined
from fanblock.wearer.reading import read_wearer

WIDE, HIGH = 760.0, 560.0
WEARER = """\
wearer: 1
name: sample
units: cm
taken: {on: 2026-04-12, over: shift}
measures:
  bust: {left: 47, right: 45}
  waist: {left: 38.4, right: 36}
  bust to waist: 16
  raised: 18
  underarm: {left: 20, right: 18.4}
  hip: {left: 51, right: 49}
  hip depth: 20
"""


def draw() -> Board:
    """Draw the two halves as they are worn, and below them how far their pieces differ."""
    pattern = draft_pattern(read_wearer(WEARER, "sample.yaml"), open_recipe("stays-three-panels"))
    board = Board(WIDE, HIGH, "Two halves of stays that are not alike, and each right piece over its left fellow.")
    laid = list(joined(pattern).values())
    view = View.fitting([point for panel in laid for point in panel.loop()], 40.0, 20.0, WIDE - 80.0, 280.0)
    for panel in laid:
        outline = view(even([*panel.loop(), panel.loop()[0]], 160))
        board.area(outline, CLOTH if panel.side == "left" else CLOTH_TOO)
        board.line(outline, INK, 1.4)
    for panel in laid:
        x, y = view(inner_point(panel.loop()))
        board.words(panel.label, x, y + 8.0, 22.0, anchor="middle", bold=True)
    board.words("the wearer's right half", 150.0, 36.0, SMALL, color=SOFT, anchor="middle")
    board.words("the wearer's left half", WIDE - 150.0, 36.0, SMALL, color=SOFT, anchor="middle")
    x = 130.0
    left, right = pattern.halves
    pairs = [(panel, right.by_name[panel.name]) for panel in left.panels]
    scale = 170.0 / max(float(one.loop()[:, 1].max() - one.loop()[:, 1].min()) for one, _ in pairs)
    for one, two in pairs:
        low = one.loop().min(axis=0)
        part = View(scale, x - scale * float(low[0]), 505.0 + scale * float(low[1]))
        shift = one.loop().mean(axis=0) * (1.0, 0.0) - two.loop().mean(axis=0) * (1.0, 0.0)
        outline = part(even([*one.loop(), one.loop()[0]], 160))
        board.area(outline, CLOTH)
        board.line(outline, INK, 1.6)
        board.line(part(even([*(two.loop() + shift), two.loop()[0] + shift], 160)), RED, 1.4, (5.0, 4.0))
        x += scale * float(one.loop()[:, 0].max() - low[0]) + 50.0
    board.words(
        "full: the left piece. Dashed: the right one, turned over and laid on it.", 130.0, 545.0, SMALL, color=BLUE
    )
    return board
