"""What the waist adds up to: pieces, gap and takes make the block; pieces and gap make the worn waist."""

from house import CARD, CLOTH, CLOTH_TOO, INK, RED, SMALL, SOFT, Board

from fanblock.make import draft_pattern
from fanblock.recipe.library import open_recipe
from fanblock.units import format_length
from fanblock.wearer.library import open_wearer

LEFT, WIDTH = 36.0, 688.0


def draw() -> Board:
    """Draw the sum of the half waist as a strip."""
    board = Board(760.0, 300.0, "The half waist as a strip: five panels, half the gap, and what the seams take.")
    board.card(20.0, 20.0, 720.0, 222.0, "half the waist, centre front to centre back")
    pattern = draft_pattern(open_wearer("ferrywoman"), open_recipe("stays-five-panels"))
    girth = next(one for one in pattern.girths if one.name == "waist")
    parts = [
        (panel.name, sum(part.length_mm for part in panel.levels["waist"]), (CLOTH, CLOTH_TOO)[panel.number % 2])
        for panel in pattern.panels
    ]
    parts += [("gap", girth.gap_mm, CARD), ("takes", girth.takes_mm, RED)]
    scale, x = WIDTH / girth.block_mm, LEFT
    for name, width, fill in parts:
        board.line(
            _box(x, 96.0, scale * width, 46.0), INK, 1.2, fill=fill, closed=True, faint=0.6 if fill == RED else 1.0
        )
        if name == "center front":
            board.words(f"{name} {width:.0f}", x, 88.0, SMALL, color=SOFT)
        elif name in ("gap", "takes"):
            board.words(
                name, x + 0.5 * scale * width, 72.0, SMALL, anchor="middle", color=RED if name == "takes" else SOFT
            )
            board.words(f"{width:.0f}", x + 0.5 * scale * width, 88.0, SMALL, anchor="middle", bold=True)
        else:
            board.words(name, x + 0.5 * scale * width, 116.0, SMALL, anchor="middle", color=SOFT)
            board.words(f"{width:.0f} mm", x + 0.5 * scale * width, 133.0, SMALL, anchor="middle", bold=True)
        x += scale * width
    worn = girth.parts_mm + girth.gap_mm
    units = pattern.body.units
    for y, width, text in (
        (
            168.0,
            girth.block_mm,
            f"the block: {girth.block_mm:.0f} mm, half of {format_length(2 * girth.block_mm, units)}",
        ),
        (208.0, worn, f"as worn: {worn:.0f} mm, half of {format_length(2 * worn, units)}"),
    ):
        board.arrow((LEFT, y), (LEFT + scale * width, y), SOFT, 1.2, both=True)
        board.words(text, LEFT + 0.5 * scale * width, y + 19.0, SMALL, anchor="middle", bold=True, halo=True)
    board.lines(
        ("Stays in five panels for the ferrywoman. The check adds the pieces up again from what is drawn, not from what was",
         "meant, and compares the sum with the block and with her tape less the reduction."),
        22.0, 264.0, SMALL, color=SOFT,
    )  # fmt: skip
    return board


def _box(x: float, y: float, wide: float, high: float) -> list[tuple[float, float]]:
    return [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]
