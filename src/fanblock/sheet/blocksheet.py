"""A block by itself, as a sheet at true scale; how to draw it by hand is in :mod:`fanblock.sheet.guidepages`."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fanblock.block.bowed import BowBlock
from fanblock.block.guide import levelled
from fanblock.block.lean import center_lean_deg
from fanblock.geometry.bezier import fit, polyline
from fanblock.geometry.curve import Points
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.font import fitted
from fanblock.sheet.guidepages import guide_html, guide_pages
from fanblock.sheet.joining import TITLE_NAME
from fanblock.sheet.upright import moved_group
from fanblock.units import format_length
from fanblock.wearer.body import Body

__all__ = ["block_sheet", "guide_html", "guide_pages"]

MARGIN_MM = 22.0
WORDS_MM = 3.6


def block_sheet(block: BowBlock, body: Body, half: str = "left") -> Drawing:
    """Return the block at true scale: both centres, waist and bust, rulings every 10 %, levels every 25 %,
    the side.

    It lies as it does when drawn by hand, the ends of the bust level: so it takes the fewest pages.
    """
    block = levelled(block)
    frame = np.vstack([block.at(np.linspace(0.0, 1.0, 41), height) for height in (0.0, 1.0)])
    shift = np.array([MARGIN_MM, MARGIN_MM]) - frame.min(axis=0)
    width, height = np.ptp(frame, axis=0) + 2 * MARGIN_MM
    title_mm = 43.0
    lines = Group("block", tuple(_lines(block)))
    groups = (
        moved_group(lines, (float(shift[0]), float(shift[1]))),
        moved_group(Group("block words", tuple(_words(block, body))), (float(shift[0]), float(shift[1]))),
        Group(TITLE_NAME, tuple(_title(block, body, half, float(height) + title_mm, float(width) - 20.0))),
    )
    return Drawing(f"block of {body.name}", float(width), float(height) + title_mm, groups)


def _lines(block: BowBlock) -> Iterator[Stroke]:
    for share in (0.25, 0.5, 0.75):
        yield Stroke(fit(block.level(share)), "guide", f"{share:.0%} level")
    for around in np.linspace(0.1, 0.9, 9):
        yield Stroke(_ruling(block, float(around)), "guide", f"{around:.0%} around")
    yield Stroke(_ruling(block, block.side_ratio), "level", "side")
    for name, height in (("waist", 0.0), ("bust", 1.0)):
        yield Stroke(fit(block.level(height)), "cut", name)
    for name, around in (("center front", 0.0), ("center back", 1.0)):
        yield Stroke(_ruling(block, around), "cut", name)


def _ruling(block: BowBlock, around: float) -> Points:
    return polyline(block.at(np.array([around, around]), np.array([0.0, 1.0])))


def _words(block: BowBlock, body: Body) -> Iterator[Words]:
    units = body.units
    whole = {"WAIST": (0.0, block.half_waist_mm, -6.0), "BUST": (1.0, block.half_bust_mm, 2.4)}
    for name, (height, half, off) in whole.items():
        says = f"{name} · half {format_length(half, units)}"
        yield _along(block, 0.115, height, off, says, True)
    for share in (0.25, 0.5, 0.75):
        yield _along(block, 0.04, share, 1.0, f"{share:.0%}".replace("%", " %"), False)
    for around in np.linspace(0.1, 0.9, 9):
        (x, y), (dx, dy) = block.at(float(around), 1.0), block.ruling_direction(float(around))
        yield Words(f"{around:.0%}".replace("%", " %"), float(x + 10.0 * dx), float(y + 10.0 * dy), 2.8, "middle")
    yield _upright(block, 0.0, f"CENTER FRONT · {format_length(block.center_front_mm, units)}", -2.4)
    yield _upright(block, 1.0, f"CENTER BACK · {format_length(block.center_back_mm, units)}", 5.4)
    yield _upright(block, block.side_ratio, "side", -1.4)


def _along(block: BowBlock, around: float, height: float, off_mm: float, says: str, bold: bool) -> Words:
    (x, y), (dx, dy) = block.at(around, height), block.around_slope(around, height)
    size = float(np.hypot(dx, dy))
    nx, ny = -float(dy) / size, float(dx) / size
    angle = float(np.degrees(np.arctan2(dy, dx)))
    return Words(says, float(x) + off_mm * nx, float(y) + off_mm * ny, WORDS_MM if bold else 2.8, "start", angle, bold)


def _upright(block: BowBlock, around: float, says: str, off_mm: float) -> Words:
    (x, y), (dx, dy) = block.at(around, 0.5), block.ruling_direction(around)
    angle = float(np.degrees(np.arctan2(dy, dx)))
    return Words(says, float(x + off_mm * dy), float(y - off_mm * dx), WORDS_MM, "middle", angle)


def _title(block: BowBlock, body: Body, half: str, top: float, room: float) -> Iterator[Words]:
    turn = float(np.degrees(abs(block.turn_rad)))
    tilts = [
        f"{format_length(abs(tilt.take_mm), body.units)} {'taken out' if tilt.take_mm > 0 else 'let in'} at the "
        f"{tilt.at.replace('center', 'centre')}"
        for tilt in block.corrections
    ]
    lies = "seen from outside" if half == "left" else "drawn as a left one: turn it over to see it from outside"
    front, back = (abs(lean) for lean in center_lean_deg(block))
    lines = (
        (f"Block of {body.name}, over {body.over}", 7.0, True),
        (f"one half, the wearer's {half}, {lies}; no garment, no allowance", 4.0, False),
        (f"from centre front to centre back the half turns {turn:.0f}°", 4.0, False),
        ("; ".join(tilts) if tilts else "no correction of the figure", 4.0, False),
        (f"from square to the waist the centre front leans {front:.1f}°, the centre back {back:.1f}°", 4.0, False),
    )
    y = top - 4.0
    for text, size, bold in lines:
        y -= 1.3 * size
        yield Words(fitted(text, size, room, bold), 10.0, y, size, bold=bold)
