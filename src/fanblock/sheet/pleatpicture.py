"""How the pleats fold, as a picture: their cloth in cross-section, each crease with the number it has on the piece."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import frozen
from fanblock.pattern.model import Pattern
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.paper import Paper
from fanblock.sheet.pleatfolds import Run, Section, sections_of
from fanblock.sheet.pleatheads import heads_pictured
from fanblock.sheet.setting import Items, heading, paragraph, text_area
from fanblock.sheet.squares import square_at, square_box
from fanblock.sheet.upright import moved_group

WIDE_MM = 180.0
"""Width of the picture: the sections at the left, what is to be done beside them."""

SECTION_MM, GAP_MM = 92.0, 3.0
"""Room for a section across, and half the room between the two sides of a seam, where the numbers of inner creases stand."""

LAYER_MM, APART_MM = 4.2, 7.0
"""How far apart two layers are drawn, that lie on one another in cloth, and two sections."""

_SIZE_MM, _HEAD_MM, _BESIDE_MM, _STUB_MM = 2.6, 3.4, 1.6, 2.0
"""Sizes of the words; how far beside a crease its number stands; how far the seam's stitches stand out."""

_SPARE_RATIO = 0.88
"""Of the room beside a section words take so much: a page on a screen may set them in a wider face."""

HEAD = "How the pleats fold"
CAPTION = (
    "How the pleats fold, seen from below with the outside up: each number is that of the crease on the piece, bold where it is "
    "folded outward. Layers lie on one another in truth."
)


def pleat_picture(pattern: Pattern) -> Drawing | None:
    """Return all sections under one another; None for a pattern without pleats."""
    sections = sections_of(pattern)
    if not sections:
        return None
    drawn = [*(_drawn(section) for section in sections), *_heads(sections)]
    high = sum(tall for _, tall in drawn) + APART_MM * (len(drawn) - 1)
    groups, top = [], high
    for group, tall in drawn:
        groups.append(moved_group(group, (0.0, top - tall)))
        top -= tall + APART_MM
    return Drawing("pleats", WIDE_MM, high, tuple(groups))


def pleat_pages(pattern: Pattern, paper: Paper) -> tuple[Drawing, ...]:
    """Return the pages that show how pleats fold, each with a test square at its foot; none where there are no pleats."""
    area, room = text_area(paper), square_box()
    floor = area.bottom + room.height_mm + APART_MM
    pages: list[list[Group]] = []
    top = area.bottom
    sections = sections_of(pattern)
    for group, tall in map(_drawn, sections):
        if not pages or top - tall < floor:
            items, low = heading(HEAD, area.left, area.top - 2.0, area.width_mm)
            more, top = paragraph(CAPTION, area.left, low, area.width_mm, _SIZE_MM)
            square = square_at(area.right - room.right, area.bottom - room.bottom)
            pages.append([Group("cover words", (*items, *more)), square])
            top -= APART_MM
        pages[-1].append(moved_group(group, (area.left, top - tall)))
        top -= tall + APART_MM
    for group, _ in _heads(sections, stacked=True):
        pages[-1].append(moved_group(group, (area.left, area.bottom)))
    return tuple(Drawing("cover", paper.width_mm, paper.height_mm, tuple(groups)) for groups in pages)


def _heads(sections: Sequence[Section], *, stacked: bool = False) -> Iterator[tuple[Group, float]]:
    """How the head of box pleats let into a seam looks when it is done, shown once for all of them; on a page by the square."""
    if any("box pleat" in section.kind for section in sections):
        yield heads_pictured("pleat heads", stacked=stacked)


def _drawn(section: Section) -> tuple[Group, float]:
    """One section with its words, its foot at nothing, and how tall it is."""
    head: Items = [Words(f"{section.name}: {section.kind}", 0.0, 0.0, _HEAD_MM, bold=True)]
    picture, tall = _section(section)
    words, low = _words(section)
    tall = max(tall, -low) + _HEAD_MM + 1.0
    lifted = [
        *(_moved(item, tall - _HEAD_MM) for item in head),
        *(_moved(item, tall - _HEAD_MM - 2.5) for item in (*picture, *words)),
    ]
    return Group(f"pleats {section.name}", tuple(lifted)), tall + 1.5


def _moved(item: Stroke | Words, up_mm: float) -> Stroke | Words:
    if isinstance(item, Words):
        return replace(item, y=item.y + up_mm)
    return replace(item, beziers=frozen(item.beziers + np.array([0.0, up_mm])))


def _section(section: Section) -> tuple[list[Stroke | Words], float]:
    """The cloth as it lies, its upper edge at nothing, and how deep it reaches."""
    runs = [run for run in (section.fronts, section.backs) if run is not None]
    across = max(abs(x) for run in runs for x, _ in run.corners)
    levels = [y for run in runs for _, y in run.corners]
    low, high = min(levels), max(levels)
    room = SECTION_MM if section.backs is None else 0.5 * SECTION_MM
    scale = (room - GAP_MM - 2.0 * _BESIDE_MM) / across
    top = 3.2 * _SIZE_MM
    items: list[Stroke | Words] = []
    for run, way in zip(runs, (1.0, -1.0), strict=False):
        items += _run(run, scale, way, high, top, alone=section.backs is None)
    if section.backs is not None:
        x, y = 0.5 * SECTION_MM, -top + LAYER_MM * (section.fronts.end[1] - high)
        ends = [x - GAP_MM, x + GAP_MM]
        items.append(Stroke(polyline(frozen([(ends[0], y), (ends[1], y)])), "mark", "joined"))
        items.append(Stroke(polyline(frozen([(x, y - _STUB_MM), (x, y)])), "sewn", "seam"))
        items.append(Words(section.letter or "seam", x, y + 1.2, _SIZE_MM, "middle", bold=bool(section.letter)))
    foot = -top - LAYER_MM * (high - low) - 2.0 * _SIZE_MM
    left, right = ("front", "back") if section.letter or section.backs is None else ("left half", "right half")
    items.append(Words(left, 0.0, foot, _SIZE_MM))
    items.append(Words(right, SECTION_MM, foot, _SIZE_MM, "end"))
    items.append(Words("outside", 0.0, -_SIZE_MM, _SIZE_MM, color="#555555"))
    items.append(Words("inside", 0.5 * SECTION_MM, foot, _SIZE_MM, "middle", color="#555555"))
    return items, -foot + 1.5


def _run(run: Run, scale: float, way: float, high: float, top: float, *, alone: bool) -> Iterator[Stroke | Words]:
    """One piece's cloth with its numbers; ``way`` is -1 for the mirrored one behind a seam."""
    middle = 0.0 if alone else 0.5 * SECTION_MM - way * GAP_MM

    def at(x: float, level: float) -> tuple[float, float]:
        return middle + way * scale * x, -top + LAYER_MM * (level - high)

    yield Stroke(polyline(frozen([at(x, level) for x, level in run.corners])), "mark", "cloth")
    for bend in run.bends:
        x, y = at(bend.across_mm, bend.level)
        beside = way * bend.way * _BESIDE_MM
        yield Words(str(bend.number), x + beside, y - 0.35 * _SIZE_MM, _SIZE_MM, "middle", bold=bend.outward)


def _words(section: Section) -> tuple[Items, float]:
    """How each crease is folded, as the pieces say it, then how wide the pleats are."""
    left, wide = SECTION_MM + 6.0, _SPARE_RATIO * (WIDE_MM - SECTION_MM - 6.0)
    items: Items = []
    top = 0.0
    for name, run in _sides(section):
        told = "; ".join(f"{bend.number} {bend.says}" for bend in run.bends)
        if told:
            more, top = paragraph(f"{name}{told}.", left, top, wide, _SIZE_MM)
            items += more
            top -= 0.8
    more, top = paragraph(section.says, left, top, wide, _SIZE_MM)
    return items + more, top


def _sides(section: Section) -> Sequence[tuple[str, Run]]:
    if section.backs is None:
        return (("", section.fronts),)
    if not section.letter:
        return (("Both halves alike: ", section.fronts),)
    return (("Before the seam: ", section.fronts), ("Behind it: ", section.backs))
