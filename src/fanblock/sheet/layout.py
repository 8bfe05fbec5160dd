"""All pieces of a pattern on one sheet: laid for a roll or a large sheet, or for home pages that are to be
joined.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fanblock.geometry.curve import frozen
from fanblock.pattern.model import Pattern
from fanblock.sheet import phrases
from fanblock.sheet.arranging import arranged, off_joins
from fanblock.sheet.clothlayers import on_cloth
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.font import fitted, width_mm
from fanblock.sheet.longline import Block, ends_clear, join_lines, line_on_tiles, long_line_block
from fanblock.sheet.packing import pack
from fanblock.sheet.paper import Paper
from fanblock.sheet.piece import Piece, printed
from fanblock.sheet.placing import Placed
from fanblock.sheet.squares import LONG_LINE_MM, square_at, square_box
from fanblock.sheet.tags import tags
from fanblock.sheet.telling import telling
from fanblock.sheet.tiles import TilePlan, plan_tiles
from fanblock.sheet.upright import moved_group

SCREEN_WIDTH_MM = 860.0
ONE_PAGE_MM = 500.0
"""Sheets at least this wide are printed in one piece; smaller ones are joined."""
EDGE_MM = 5.0
TITLE_ROOM = 1.2
"""Room kept for the title, against its width in our own font: a screen without that font shows it in a wider one."""
NEEDED = ("all", "number", "tag", "seam", "top", "cut", "flag")
"""What is written on a piece that not even the long line may cross, when that would cost a page."""
RED = "#c62828"
PALE_RED = "#f0a3a3"


def pieces_of(pattern: Pattern) -> tuple[Piece, ...]:
    """Return every panel as a printed piece; hand them on where several sheets of one pattern are wanted."""
    return printed(pattern.panels, pattern)


def is_tiled(paper: Paper) -> bool:
    """Tell whether a pattern on this paper is printed over several pages that are joined."""
    return not paper.is_roll and min(paper.width_mm, paper.height_mm) < ONE_PAGE_MM


def laid_out(pattern: Pattern, paper: Paper | None = None, pieces: Sequence[Piece] = ()) -> Drawing:
    """Return all pieces on one sheet.

    Without paper the sheet is for the screen and carries a test square of its own. A roll or a large sheet
    carries the title and the long line; the test square is added by whoever writes the page. For paper that
    is joined from pages see :func:`tiled_layout`. Raises ExportError when a piece is wider than the paper.
    """
    if paper is not None and is_tiled(paper):
        return tiled_layout(pattern, paper, pieces)[0]
    pieces = pieces or pieces_of(pattern)
    widest = max(float(np.ptp(item.outline[:, 0])) for item in pieces) + 2 * EDGE_MM + 1.0
    wide = max(SCREEN_WIDTH_MM, widest) if paper is None else paper.width_mm - 2 * paper.margin_mm
    blocks = [_title(pattern)]
    if paper is None:
        room = square_box()
        blocks.append(Block(square_at(-room.left, -room.bottom), room.width_mm, room.height_mm))
    if wide >= LONG_LINE_MM + 20.0:
        blocks.append(long_line_block())
    outlines = [*(item.outline for item in pieces), *(block.outline for block in blocks)]
    packing = pack([outline * (1.0, -1.0) for outline in outlines], wide - 2 * EDGE_MM, as_given=paper is None)
    height = packing.height_mm + 2 * EDGE_MM
    shifts = [(x + EDGE_MM, height - EDGE_MM - y) for x, y in packing.shifts]
    drawn = [*(item.group for item in pieces), *(block.group for block in blocks)]
    groups = [moved_group(group, shift) for group, shift in zip(drawn, shifts, strict=True)]
    if paper is None:
        ends = [float(ring[:, 0].max()) + x for ring, (x, _) in zip(outlines, packing.shifts, strict=True)]
        wide = max(ends) + 2 * EDGE_MM
    if not pattern.sound:
        groups.insert(0, not_sound_over(wide, height))
    return Drawing(_name(pattern), wide, height, tuple(groups))


def tiled_layout(pattern: Pattern, paper: Paper, pieces: Sequence[Piece] = ()) -> tuple[Drawing, TilePlan]:
    """Return all pieces laid so that few pages are needed, and the plan of those pages."""
    laid = off_joins(arranged(pieces or pieces_of(pattern), paper, _name(pattern)), pattern)
    placed, plan, size, groups = laid.placed, laid.plan, laid.size_mm, list(laid.groups)
    worded = [(label, label.box.corners() + shift) for item, shift in placed for label in item.labels]
    for piece, labels, shift in _tags(placed, plan, pattern):
        worded += [(label, label.box.corners() + shift) for label in labels]
        items = on_cloth((item for label in labels for item in label.items), piece.panel, pattern)
        groups.append(moved_group(Group("tags", items), shift))
    every = [ring for _, ring in worded]
    weighty = [ring for label, ring in worded if not label.name.startswith(("allowance", "grain"))]
    needed = [ring for label, ring in worded if label.name.startswith(NEEDED)]
    found = line_on_tiles((laid.grounds, every, weighty, needed), laid.firm, plan, size)
    if found is None:
        groups, size, plan = _line_beside(groups, size, paper, _name(pattern))
    else:
        groups.append(moved_group(found[0].group, found[1]))
    groups += join_lines(laid.grounds, every, plan, size, groups[-1:])
    if not pattern.sound:
        inner = [(tile.field.left, tile.field.bottom, tile.field.right, tile.field.top) for tile in plan.tiles]
        groups.insert(0, _not_sound(inner))
    return Drawing(_name(pattern), *size, tuple(groups)), plan


def _line_beside(
    groups: Sequence[Group], size: tuple[float, float], paper: Paper, name: str
) -> tuple[list[Group], tuple[float, float], TilePlan]:
    """The long line upright beside everything else, at a height at which both its ends stand whole on a page."""
    line = long_line_block(upright=True)
    for up in range(0, 60, 4):
        low = size[0] + EDGE_MM, float(up)
        wide = size[0] + EDGE_MM + line.width_mm, max(size[1], up + line.height_mm)
        every = [*groups, moved_group(line.group, low)]
        plan = plan_tiles(Drawing(name, *wide, tuple(every)), paper)
        if ends_clear(line, low, plan):
            break
    return every, wide, plan


def _tags(
    placed: Sequence[tuple[Piece, tuple[float, float]]], plan: TilePlan, pattern: Pattern
) -> list[tuple[Piece, tuple[Placed, ...], tuple[float, float]]]:
    found = []
    for item, shift in placed:
        fields = [tile.field.moved(-shift[0], -shift[1]) for tile in plan.tiles]
        windows = [(frozen([box.left, box.bottom]), frozen([box.right, box.top])) for box in fields]
        labels = tags(item, windows, pattern)
        if labels:
            found.append((item, labels, shift))
    return found


def _name(pattern: Pattern) -> str:
    garment, stamp = phrases.identity(pattern.title)
    return f"{garment} · {stamp}"


def _title(pattern: Pattern) -> Block:
    """The title block: garment, wearer, draft and code, how many pieces, verdict."""
    title, said = pattern.title, telling(pattern)
    sound = "Whether it fits only a toile tells."
    lines = (
        (title.garment, 9.0, True),
        (f"for {title.wearer}", 6.0, False),
        (phrases.stamp(title), 6.0, True),
        (f"{len(pattern.panels)} pieces {said.counted} · {said.half}", 4.0, False),
        ("Measure the test square and the long line before cutting.", 4.0, False),
        (f"It adds up and sews up. {sound}" if pattern.sound else "NOT SOUND: see the report.", 4.0, False),
    )
    texts = [fitted(text, size, 330.0, bold) for text, size, bold in lines]
    width = max(width_mm(text, size, bold) for text, (_, size, bold) in zip(texts, lines, strict=True))
    y = height = sum(1.35 * size for _, size, _ in lines) + 2.0
    items: list[Stroke | Words] = []
    for text, (_, size, bold) in zip(texts, lines, strict=True):
        y -= 1.35 * size
        red = text.startswith("NOT SOUND")
        items.append(Words(text, 1.0, y + 0.3 * size, size, bold=bold, color=RED if red else "#000000"))
    return Block(Group("title", tuple(items)), TITLE_ROOM * width + 2.0, height)


def _every(wide: float, high: float) -> list[tuple[float, float, float, float]]:
    """The sheet in fields of about 300 mm."""
    columns, rows = max(1, round(wide / 320.0)), max(1, round(high / 260.0))
    return [
        (wide * c / columns, high * r / rows, wide * (c + 1) / columns, high * (r + 1) / rows)
        for c in range(columns)
        for r in range(rows)
    ]


def not_sound_over(wide_mm: float, high_mm: float) -> Group:
    """Return NOT SOUND over a whole sheet of this size, to lie under everything else."""
    return _not_sound(_every(wide_mm, high_mm))


def _not_sound(fields: Sequence[tuple[float, float, float, float]]) -> Group:
    """NOT SOUND, large and red, under everything else so that it hides no line, once in every field."""
    items = []
    for left, bottom, right, top in fields:
        size = min(30.0, 0.9 * (right - left) / width_mm(phrases.NOT_SOUND, 1.0, True))
        x, y = 0.5 * (left + right), 0.5 * (bottom + top)
        items.append(Words(phrases.NOT_SOUND, x, y - 0.3 * size, size, "middle", bold=True, color=PALE_RED))
    return Group("not sound", tuple(items))
