"""How to draw a block by hand, as pages to print and as one HTML page: text, a table of points and a small
plan.
"""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

import numpy as np

from fanblock.block.guide import Guide, guide_of
from fanblock.block.guide_words import chapters_of
from fanblock.block.ruled import Block
from fanblock.geometry.bezier import fit, polyline
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.ink import Box
from fanblock.sheet.inline import inline_svg
from fanblock.sheet.paper import Paper
from fanblock.sheet.reportstyle import STYLE
from fanblock.sheet.setting import Items, heading, paragraphs, table, text_area
from fanblock.sheet.upright import moved_group
from fanblock.units import format_length
from fanblock.wearer.body import Body

ROWS_A_COLUMN = 18


def guide_pages(block: Block, body: Body, paper: Paper) -> tuple[Drawing, ...]:
    """Return pages that tell how to draw the block by hand, a small plan first; they keep within the
    printable part.
    """
    guide = guide_of(block, body.units)
    area = text_area(paper)
    items, top = heading(f"Drawing the block of {body.name} by hand", area.left, area.top - 2.0, area.width_mm, 5.4)
    plan = plan_drawing(block, guide, area.width_mm, 78.0)
    groups = [moved_group(group, (area.left, top - plan.height_mm)) for group in plan.groups]
    top -= plan.height_mm + 3.0
    pages: list[Drawing] = []
    for chapter in chapters_of(guide):
        for at, text in enumerate(chapter.lines):
            needed = 14.0 if at == 0 else 0.0
            _, low = paragraphs([text], area.left, top - needed, area.width_mm, 3.3)
            if low < area.bottom:
                pages.append(_page(body, paper, items, groups))
                items, groups, top = [], [], area.top - 2.0
            if at == 0:
                more, top = heading(chapter.title, area.left, top - 2.0, area.width_mm)
                items += more
            more, top = paragraphs([text], area.left, top, area.width_mm, 3.3)
            items += more
    rows = list(_point_rows(guide))
    for start in range(0, max(len(rows) - 1, 1), ROWS_A_COLUMN):
        some = [rows[0], *rows[1 + start : 1 + start + ROWS_A_COLUMN]]
        widths = [34.0] * len(rows[0])
        _, low = table(some, area.left, top, widths, 3.2)
        if low < area.bottom:
            pages.append(_page(body, paper, items, groups))
            items, groups, top = [], [], area.top - 4.0
        more, top = table(some, area.left, top, widths, 3.2)
        items += more
        top -= 3.0
    return (*pages, _page(body, paper, items, groups))


def guide_html(block: Block, body: Body) -> str:
    """Return the same as one HTML page that needs nothing from anywhere else."""
    guide = guide_of(block, body.units)
    head = f"Drawing the block of {body.name} by hand"
    parts = [f"<h1>{escape(head)}</h1>"]
    picture = inline_svg(plan_drawing(block, guide, 190.0, 90.0), "plan", "plan of the block")
    parts.append(f"<figure>{picture}</figure>")
    for chapter in chapters_of(guide):
        lines = "".join(f"<p>{escape(line)}</p>" for line in chapter.lines)
        parts.append(f"<section><h2>{escape(chapter.title)}</h2>{lines}</section>")
    first, *rest = _point_rows(guide)
    heads = "".join(f'<th class="n">{escape(cell)}</th>' for cell in first)
    body_rows = "".join(
        "<tr>" + "".join(f'<td class="n">{escape(cell)}</td>' for cell in row) + "</tr>" for row in rest
    )
    parts.append(f'<div class="wide"><table><tr>{heads}</tr>{body_rows}</table></div>')
    return "\n".join(
        (
            "<!DOCTYPE html>",
            '<html lang="en">',
            f'<head><meta charset="utf-8"/><title>{escape(head)}</title><style>{STYLE}</style></head>',
            "<body>",
            *parts,
            "</body>",
            "</html>",
            "",
        )
    )


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
            _both(station, guide.units),
            *(_both(heights[name], guide.units) if name in heights else "–" for name in names),
        )


def _both(mm: float, units: str) -> str:
    """A length as the wearer measures; inches, which are read to an eighth, in centimetres too."""
    return f"{format_length(mm, 'in')} ({format_length(mm, 'cm')})" if units == "in" else format_length(mm, units)


def _page(body: Body, paper: Paper, items: Items, groups: list[Group]) -> Drawing:
    title = f"guide for the block of {body.name}"
    return Drawing(title, paper.width_mm, paper.height_mm, (Group("guide words", tuple(items)), *groups))


def plan_drawing(block: Block, guide: Guide, width_mm: float, height_mm: float) -> Drawing:
    """Return a small plan of the block on its sheet, with the pin where one fits and the names of corners
    and levels.
    """
    points = {name: np.array([mark.x_mm, mark.y_mm]) for name, mark in guide.corners.items()}
    marks = {name: np.array([[mark.x_mm, mark.y_mm] for mark in some]) for name, some in guide.marks.items()}
    room = Box(2.0, 6.0, width_mm - 2.0, height_mm - 6.0)
    scale = min(room.width_mm / guide.width_mm, room.height_mm / guide.height_mm)
    offset = np.array([room.left + 0.5 * (room.width_mm - scale * guide.width_mm), room.bottom])
    small = {name: scale * point + offset for name, point in points.items()}
    items: Items = [
        Stroke(
            polyline(_rectangle(offset, scale * guide.width_mm, scale * guide.height_mm), True), "guide", "paper", True
        )
    ]
    for name, run in marks.items():
        ends = (points[f"center front {name}"], points[f"center back {name}"]) if name in ("waist", "bust") else ()
        line = np.vstack((ends[0], run, ends[1])) if ends else run
        placed = scale * line + offset
        items.append(Stroke(fit(Curve.through(placed)), "grain", name))
        middle = placed[len(placed) // 2]
        items.append(Words(name, float(middle[0]), float(middle[1]) + 1.6, 3.2, "middle"))
    for center in ("center front", "center back"):
        low, high = small[f"{center} waist"], small[f"{center} bust"]
        items.append(Stroke(polyline(frozen([low, high])), "mark", center))
        middle = 0.5 * (low + high)
        front = center == "center front"
        items.append(
            Words(
                center, float(middle[0]) + (-2.0 if front else 2.0), float(middle[1]), 3.2, "end" if front else "start"
            )
        )
    if guide.pin is not None:
        pin = scale * np.array([guide.pin.x_mm, guide.pin.y_mm]) + offset
        if pin[1] >= 1.0:
            items.append(Words("pin", float(pin[0]) + 1.6, float(pin[1]) - 1.0, 3.2))
            items.append(Stroke(polyline(_rectangle(pin - 0.5, 1.0, 1.0), True), "ink", "pin", True))
    return Drawing("plan", width_mm, height_mm, (Group("plan", tuple(items)),))


def _rectangle(corner: Points, wide: float, high: float) -> Points:
    return frozen(corner + np.array([[0.0, 0.0], [wide, 0.0], [wide, high], [0.0, high]]))
