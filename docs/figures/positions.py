"""Arounds and heights on the block: how a recipe says where."""

import numpy as np
from house import BLUE, MOSS, RED, SMALL, SOFT, Board, View
from stages import LOW_AT, body, recipe, stage

from fanblock.draft.places import height_on, place_of
from fanblock.recipe.parts import parse_around, parse_height
from fanblock.recipe.phrase import Vocabulary
from fanblock.terms import Position
from fanblock.wearer.measures import MEASURES

TOP = 1.62
AROUNDS = (("center front", 0.0), ("24%", 0.24), ("side", 0.5), ("70%", 0.7), ("center back", 1.0))
HEIGHTS = ("waist - 60 mm", "waist", "33%", "bust", "underarm")


def draw() -> Board:
    """Draw the block with arounds, heights and one position."""
    board = Board(
        760.0, 470.0, "Arounds run from centre front to centre back, heights from the waist up to the bust and beyond."
    )
    board.card(20.0, 20.0, 720.0, 400.0)
    draft = stage(recipe(), "lacing gap", done=False)
    block = draft.block
    u = np.linspace(0.0, 1.0, 40)
    view = View.fitting(np.vstack([block.at(u, v) for v in (LOW_AT, TOP)]), 130.0, 62.0, 500.0, 336.0)
    words = Vocabulary(measures=tuple(MEASURES))
    for name, around in AROUNDS:
        ends = view(block.at(np.full(2, around), np.array([LOW_AT, TOP])))
        board.line(ends, MOSS if around not in (0.0, 1.0) else SOFT, 1.3)
        x, y = ends[1]
        board.words(name, x + (0.0 if around else 4.0), y - 8.0, SMALL, anchor="middle", color=MOSS, bold=True)
    for text in HEIGHTS:
        height = parse_height(text, words)
        run = np.array([height_on(draft, height, float(one)) for one in u])
        plain = text in ("waist", "bust")
        board.line(view(block.at(u, run)), BLUE, 1.8 if plain else 1.1, () if plain else (5.0, 3.0))
        if text == "underarm":
            x, y = view(block.at(1.0, run[-1]))
            board.words(text, x + 8.0, y + 4.0, SMALL, color=BLUE)
        else:
            x, y = view(block.at(0.0, run[0]))
            board.words(text, x - 8.0, y + 4.0, SMALL, anchor="end", color=BLUE, bold=plain)
    place = place_of(draft, Position(parse_around("24%", words), parse_height("bust + 30 mm", words)))
    spot, foot = view(block.at(*place)), view(block.at(place[0], 1.0))
    board.line([foot, spot], RED, 2.2)
    board.dot(spot, RED, 4.5)
    board.words("[24%, bust + 30 mm]", spot[0] + 10.0, spot[1] + 2.0, SMALL, bold=True, color=RED, halo=True)
    board.words("around: front to back", 520.0, 380.0, SMALL, color=MOSS, anchor="start")
    board.words("height: along the upright line", 520.0, 398.0, SMALL, color=BLUE, anchor="start")
    board.lines(
        (f"The block of the {body().name}. An around picks an upright line; the height is then measured along that line, from",
         "the waist or the bust or another landmark. So the same words mean the same place on every body."),
        22.0, 440.0, SMALL, color=SOFT,
    )  # fmt: skip
    return board
