"""The correction sheet: a page to print and fill in at the fitting. What is ticked on it is typed as it stands."""

from __future__ import annotations

from fanblock.fitting.questions import Questions
from fanblock.fitting.sentences import EDGES, GIRTHS, LENGTHS, SKIRTS, WAIST_GIRTH, Sentence
from fanblock.fitting.state import told_length
from fanblock.sheet.drawing import Drawing, Group
from fanblock.sheet.ink import Box
from fanblock.sheet.paper import Paper
from fanblock.sheet.setting import Items, heading, paragraph, paragraphs, table, text_area
from fanblock.sheet.squares import line

COLUMNS = 2

_TICK = "What you see: tick it, and write how much"
_RANKS = {
    LENGTHS: "lengths and arms",
    WAIST_GIRTH: "the waist",
    GIRTHS: "round the body",
    EDGES: "the edges",
    SKIRTS: "below the waist",
}
"""What the sentences of one rank are about."""

_TEXT_MM, _HEAD_MM, _BOX_MM, _ROW_MM, _BETWEEN_MM = 3.0, 6.0, 3.0, 1.6, 8.0
"""Size of the text and of the heading, of a tick box, room between two sentences, and between two columns."""

_INDENT_MM, _BLANK_MM, _GREY = 5.0, 16.0, "#555555"
"""Where a sentence begins beside its box, the blank for its amount, and the color of a heading among sentences."""


def correction_sheet(paper: Paper, words: str, questions: Questions) -> tuple[Drawing, ...]:
    """Return the pages to fill in for one garment; ``words`` say which garment and draft it is."""
    area = text_area(paper)
    items, top = heading("Correction sheet", area.left, area.top - 2.0, area.width_mm, _HEAD_MM)
    more, top = _blanks(words, questions, area.left, top - 1.0, area.width_mm)
    items += more
    more, top = paragraphs((questions.before,), area.left, top, area.width_mm, _TEXT_MM)
    items += more
    half = 0.5 * (area.width_mm - _BETWEEN_MM)
    more, left_low = heading("Look in this order", area.left, top - 3.0, half if questions.levels else area.width_mm)
    items += more
    more, left_low = paragraphs(questions.looks, area.left, left_low, half, _TEXT_MM, mark="1.")
    items += more
    right_low = left_low
    if questions.levels:
        more, right_low = _girths(questions, area.left + half + _BETWEEN_MM, top - 3.0, half)
        items += more
    low = min(left_low, right_low) - 3.0
    pages = _sentences(questions, items, area, low, words)
    name = "correction sheet"
    return tuple(
        Drawing(
            name if number == 1 else f"{name}, page {number}",
            paper.width_mm,
            paper.height_mm,
            (Group("form", tuple(page)),),
        )
        for number, page in enumerate(pages, 1)
    )


def _blanks(words: str, questions: Questions, left: float, top: float, width: float) -> tuple[Items, float]:
    """What garment it is, who wore it, when, on the body or a stand, and which bones were in."""
    items: Items = []
    if words:
        items, top = paragraph(words, left, top, width, 3.6, bold=True)
        top -= 1.5
    start = left
    blanks = [("on", 0.2, 5.0), ("worn on the body / on a stand (strike one out)", 0.4, 0.0)]
    for says, share, blank_mm in (*blanks, *([("bones in", 0.4, 13.0)] if questions.boned else [])):
        more, _ = paragraph(says, start, top, share * width, _TEXT_MM)
        items += more
        if blank_mm:
            items.append(line([(start + blank_mm, top - 3.0), (start + share * width - 4.0, top - 3.0)], "grain"))
        start += share * width
    return items, top - 7.0


def _girths(questions: Questions, left: float, top: float, width: float) -> tuple[Items, float]:
    """The table of gaps and pinches at the levels, and the waist line at three places."""
    items, low = heading("Measure", left, top, width)
    head = ("at the", "should be", questions.gap, "pinched in all", "where (L, R, both)")
    rows = [
        head,
        *((called, told_length(mm, questions.units) if mm else "0", "", "", "") for _, called, mm in questions.levels),
    ]
    more, low = table(rows, left, low, tuple(share * width for share in (0.2, 0.17, 0.19, 0.23, 0.21)), 3.2)
    items += more
    for place in ("all round", "centre back", "centre front", "left side", "right side"):
        more, after = paragraph(f"{questions.line}, {place}:", left, low - 2.6, 0.5 * width, _TEXT_MM)
        items += more
        items.append(line([(left + 0.46 * width, low - 5.8), (left + 0.62 * width, low - 5.8)], "grain"))
        more, _ = paragraph("above / below string", left + 0.64 * width, low - 2.6, 0.36 * width, 2.7)
        items += more
        low = after
    return items, low


def _sentences(questions: Questions, first: Items, area: Box, low: float, words: str) -> list[Items]:
    """Every sentence with a box to tick and a blank for its amount, in two columns, on as many pages as it takes."""
    width = 0.5 * (area.width_mm - _BETWEEN_MM)
    more, top = heading(_TICK, area.left, low, area.width_mm)
    pages, x, y, column = [[*first, *more]], area.left, top, 0
    rank = 0
    for sentence in questions.spoken:
        head = _RANKS[sentence.order] if sentence.order != rank else ""
        made, end = _sentence(sentence, head, x, y, width, questions.units)
        if end < area.bottom:
            column += 1
            if column == COLUMNS:
                title = f"Correction sheet, page {len(pages) + 1} · {words}".removesuffix(" · ")
                again, top = heading(title, area.left, area.top - 2.0, area.width_mm)
                pages.append(again)
                column = 0
            x, y = area.left + column * (width + _BETWEEN_MM), top
            made, end = _sentence(sentence, head, x, y, width, questions.units)
        pages[-1] += made
        rank, y = sentence.order, end - _ROW_MM
    return pages


def _sentence(sentence: Sentence, head: str, x: float, y: float, width: float, units: str) -> tuple[Items, float]:
    """One sentence, under the heading of its kind if it is the first of it."""
    items: Items = []
    if head:
        items, y = paragraph(head, x, y, width, _TEXT_MM, bold=True, color=_GREY)
        y -= _ROW_MM
    amount = (
        f"{sentence.asks}; usual {told_length(sentence.usual_mm(units), units)}" if sentence.effects else "no amount"
    )
    more, low = paragraph(sentence.words, x + _INDENT_MM, y, width - _BLANK_MM - _INDENT_MM - 3.0, _TEXT_MM, bold=True)
    under, low = paragraph(amount, x + _INDENT_MM, low + 0.6, width - _BLANK_MM - _INDENT_MM - 3.0, 2.4)
    box = [(x, y - _BOX_MM), (x + _BOX_MM, y - _BOX_MM), (x + _BOX_MM, y), (x, y)]
    items += [*more, *under, line(box, "grain", closed=True)]
    if sentence.effects:
        items.append(line([(x + width - _BLANK_MM, y - 3.6), (x + width, y - 3.6)], "grain"))
    return items, low
