"""How to draw a block by hand, as pages to print and as one HTML page: text, a table of points and a small
plan.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from html import escape

from fanblock.block.bowed import BowBlock
from fanblock.block.guide import Guide, guide_of
from fanblock.block.guide_words import Chapter, chapters_of
from fanblock.sheet.drawing import Drawing, Group
from fanblock.sheet.font import width_mm
from fanblock.sheet.htmlpage import page
from fanblock.sheet.ink import Box
from fanblock.sheet.inline import inline_svg
from fanblock.sheet.paper import Paper
from fanblock.sheet.plan import plan_drawing
from fanblock.sheet.reportstyle import STYLE
from fanblock.sheet.setting import Items, heading, paragraphs, table, text_area
from fanblock.sheet.upright import moved_group
from fanblock.units import drawn_length
from fanblock.wearer.body import Body

_TEXT_MM, _TABLE_MM, _BESIDE_MM = 3.3, 3.2, 10.0


def guide_pages(block: BowBlock, body: Body, paper: Paper, half: str = "left", says: str = "") -> tuple[Drawing, ...]:
    """Return pages that tell how to draw the block by hand, a small plan first; they keep within the
    printable part. ``says`` stands under their heading.

    The points on a grid come last, their table in one with the text that speaks of it.
    """
    guide = replace(guide_of(block, body.units), half=half)
    area = text_area(paper)
    items, top = heading(f"Drawing the block of {body.name} by hand", area.left, area.top - 2.0, area.width_mm, 5.4)
    if says:
        more, top = paragraphs([says], area.left, top, area.width_mm, _TEXT_MM)
        items += more
    plan = plan_drawing(guide, area.width_mm, 96.0)
    groups = [moved_group(group, (area.left, top - plan.height_mm)) for group in plan.groups]
    top -= plan.height_mm + 3.0
    pages: list[Drawing] = []
    *chapters, points = chapters_of(guide)
    for chapter in chapters:
        for at, text in enumerate(chapter.lines):
            needed = 14.0 if at == 0 else 0.0
            _, low = paragraphs([text], area.left, top - needed, area.width_mm, _TEXT_MM)
            if low < area.bottom:
                pages.append(_page(body, paper, items, groups))
                items, groups, top = [], [], area.top - 2.0
            if at == 0:
                more, top = heading(chapter.title, area.left, top - 2.0, area.width_mm)
                items += more
            more, top = paragraphs([text], area.left, top, area.width_mm, _TEXT_MM)
            items += more
    more, low = _points(guide, points, area, top)
    if low < area.bottom:
        pages.append(_page(body, paper, items, groups))
        items, groups = [], []
        more, _ = _points(guide, points, area, area.top - 2.0)
    return (*pages, _page(body, paper, items + more, groups))


def _points(guide: Guide, chapter: Chapter, area: Box, top: float) -> tuple[Items, float]:
    """The chapter on the grid and its table, side by side in two halves where the paper is wide enough."""
    items, top = heading(chapter.title, area.left, top - 2.0, area.width_mm)
    more, top = paragraphs(chapter.lines, area.left, top, area.width_mm, _TEXT_MM)
    items += more
    head, *rows = list(_point_rows(guide))
    widths = [max(width_mm(row[at], _TABLE_MM, True) for row in (head, *rows)) + 5.0 for at in range(len(head))]
    columns = max(1, min(2, int((area.width_mm + _BESIDE_MM) / (sum(widths) + _BESIDE_MM))))
    length = -(-len(rows) // columns)
    low = top = top - 2.0
    for column in range(columns):
        left = area.left + column * (sum(widths) + _BESIDE_MM)
        more, end = table([head, *rows[column * length : (column + 1) * length]], left, top, widths, _TABLE_MM)
        items += more
        low = min(low, end)
    return items, low


def guide_html(block: BowBlock, body: Body, half: str = "left") -> str:
    """Return the same as one HTML page that needs nothing from anywhere else."""
    head = f"Drawing the block of {body.name} by hand"
    return page(head, STYLE, (f"<h1>{escape(head)}</h1>", *guide_sections(block, body, half)))


def guide_sections(block: BowBlock, body: Body, half: str = "left") -> tuple[str, ...]:
    """Return how to draw the block as parts of an HTML page: the plan, the chapters, the table of points."""
    guide = replace(guide_of(block, body.units), half=half)
    picture = inline_svg(plan_drawing(guide, 190.0, 110.0), "plan", "plan of the block")
    parts = [f"<figure>{picture}</figure>"]
    for chapter in chapters_of(guide):
        lines = "".join(f"<p>{escape(line)}</p>" for line in chapter.lines)
        parts.append(f"<section><h2>{escape(chapter.title)}</h2>{lines}</section>")
    first, *rest = _point_rows(guide)
    heads = "".join(f'<th class="n">{escape(cell)}</th>' for cell in first)
    rows = "".join("<tr>" + "".join(f'<td class="n">{escape(cell)}</td>' for cell in row) + "</tr>" for row in rest)
    return (*parts, f'<div class="wide"><table><tr>{heads}</tr>{rows}</table></div>')


def _point_rows(guide: Guide) -> Iterator[tuple[str, ...]]:
    """The grid: how far from the left edge of the paper, and how far up each level lies there."""
    names = list(guide.marks)
    yield ("from the left", *(f"{name}, up" for name in names))
    by_station: dict[float, dict[str, float]] = {}
    for name in names:
        for mark in guide.marks[name]:
            by_station.setdefault(round(mark.x_mm, 3), {})[name] = mark.y_mm
    for station in sorted(by_station):
        heights = by_station[station]
        yield (
            drawn_length(station, guide.units),
            *(drawn_length(heights[name], guide.units) if name in heights else "–" for name in names),
        )


def _page(body: Body, paper: Paper, items: Items, groups: list[Group]) -> Drawing:
    title = f"guide for the block of {body.name}"
    return Drawing(title, paper.width_mm, paper.height_mm, (Group("guide words", tuple(items)), *groups))
