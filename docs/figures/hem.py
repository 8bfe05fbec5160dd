"""The step ``hem``: the lower edge at one height, or through points."""

from house import RED, Board
from stages import LEFT, RIGHT, draw_draft, footnote, pair, recipe, stage

from fanblock.draft.places import place_of
from fanblock.steps.hem import Hem

POINTED = "hem: {through: [[center front, waist - 90 mm], [14%, waist - 85 mm], [36%, waist - 70 mm], [center back, waist - 75 mm]]}"


def draw() -> Board:
    """Draw a hem at one height, and a hem through points that makes a point in front."""
    board, view = pair("A hem at one height below the waist, and a hem through points.", "height: …", "through: […]")
    level = stage(recipe(), "hem")
    draw_draft(board, view, level, {"hem"})
    trial = recipe(POINTED, before="hem", drop="hem", unused="tab depth")
    pointed = stage(trial, "hem")
    second = view.moved(RIGHT - LEFT)
    draw_draft(board, second, pointed, {"hem"})
    options = next(step.options for step in trial.steps if isinstance(step.options, Hem))
    for position in options.through:
        board.dot(second(pointed.block.at(*place_of(pointed, position))))
    x, y = view(level.block.at(0.3, -0.45))
    board.words("waist - 80 mm", x, y + 16.0, color=RED, halo=True)
    footnote(
        board,
        "One height follows the waist all round. Points make a deeper front, a shorter side, a longer back.",
    )
    return board
