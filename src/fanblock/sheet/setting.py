"""Setting words on a page from the top down: paragraphs, headings, tables of columns."""

from __future__ import annotations

from collections.abc import Sequence

from fanblock.sheet.drawing import Stroke, Words
from fanblock.sheet.font import fitted
from fanblock.sheet.ink import Box
from fanblock.sheet.paper import Paper
from fanblock.sheet.squares import line
from fanblock.sheet.tiles import below_header
from fanblock.sheet.wording import LEADING, RISE, wrapped

Items = list[Stroke | Words]

_INSET_MM = 1.5


def text_area(paper: Paper) -> Box:
    """Return the part of a page that words may stand in: what can be printed below the header, less a little."""
    return below_header(paper).grown(-_INSET_MM)


def paragraph(
    text: str, left: float, top: float, width_mm: float, size_mm: float, bold: bool = False, color: str = "#000000"
) -> tuple[Items, float]:
    """Return a wrapped paragraph whose capitals reach up to ``top``, and where the next may begin.

    Back ticks, which set off a name where text is plain, are left out.
    """
    items: Items = []
    base = top - RISE * size_mm
    for row in wrapped(text.replace("`", ""), size_mm, width_mm, bold):
        items.append(Words(fitted(row.text, size_mm, width_mm, bold), left, base, size_mm, bold=bold, color=color))
        base -= LEADING * size_mm
    return items, base + RISE * size_mm - 0.35 * size_mm


def paragraphs(
    texts: Sequence[str], left: float, top: float, width_mm: float, size_mm: float, mark: str = ""
) -> tuple[Items, float]:
    """Return paragraphs under one another, each with ``mark`` hung before it."""
    items: Items = []
    indent = (1.3 if len(texts) < 10 else 1.8) * size_mm if mark else 0.0
    for number, text in enumerate(texts, start=1):
        if mark:
            items.append(Words(mark.replace("1", str(number)), left, top - RISE * size_mm, size_mm))
        more, top = paragraph(text, left + indent, top, width_mm - indent, size_mm)
        items += more
    return items, top


def heading(text: str, left: float, top: float, width_mm: float, size_mm: float = 4.2) -> tuple[Items, float]:
    """Return a heading with a rule under it, and where its text may begin."""
    base = top - RISE * size_mm
    items: Items = [
        Words(fitted(text, size_mm, width_mm, True), left, base, size_mm, bold=True),
        line([(left, base - 1.3), (left + width_mm, base - 1.3)], "guide"),
    ]
    return items, base - 3.2


def table(
    rows: Sequence[Sequence[str]],
    left: float,
    top: float,
    widths_mm: Sequence[float],
    size_mm: float,
    *,
    bold_head: bool = True,
) -> tuple[Items, float]:
    """Return rows of columns, the first row bold if it is their head, long cells wrapped, a rule under each row."""
    items: Items = []
    for index, row in enumerate(rows):
        low = top
        at = left
        for text, width in zip(row, widths_mm, strict=True):
            more, end = paragraph(text, at, top, width - 2.0, size_mm, bold=bold_head and index == 0)
            items += more
            low, at = min(low, end), at + width
        rule = low + 0.1 * size_mm
        items.append(line([(left, rule), (left + sum(widths_mm), rule)], "guide"))
        top = rule - 0.45 * size_mm
    return items, top
