"""The correction sheet: a page to print and fill in at the fitting. What is ticked on it is typed as it stands."""

from __future__ import annotations

from collections.abc import Sequence

from fanblock.fitting.notes import sentence_list
from fanblock.fitting.sentences import LEVELS, Sentence
from fanblock.sheet.drawing import Drawing, Group
from fanblock.sheet.paper import Paper
from fanblock.sheet.setting import Items, heading, paragraph, paragraphs, table, text_area
from fanblock.sheet.squares import line
from fanblock.units import format_length

LOOKS = (
    "The waist: does the drawn line lie on the string you tied, all round?",
    "The gap: is it as wide above as below? Measure it at four heights.",
    "The centre front: does it hang plumb?",
    "Under the arm: stretch both arms forward, then lift them.",
    "The top edge, in front and behind.",
    "The tabs, over the hip.",
    "Sit, breathe, walk: wear it for 20 minutes, then look again.",
)
"""In this order: a waist at a wrong height makes every other note false (common practice, no source)."""

BEFORE = (
    "Lace it snug and comfortable over the shift, a string tied round the waist. Where you are not comfortable, loosen first "
    "and then look. Change one girth at a time and lace again between two changes. Lay a tape along the top edge when you "
    "judge it: binding makes it a millimetre or two higher.",
)

_TEXT_MM, _HEAD_MM, _BOX_MM, _ROW_MM = 3.0, 6.0, 2.6, 1.6
"""Size of the text and of the heading, of a tick box, and room between two sentences."""


def correction_sheet(paper: Paper, words: str = "", units: str = "cm") -> tuple[Drawing, ...]:
    """Return the page to fill in; ``words`` say which garment and draft it is of, usual amounts
    stand in these units."""
    area = text_area(paper)
    items, top = heading("Correction sheet", area.left, area.top - 2.0, area.width_mm, _HEAD_MM)
    more, top = _blanks(words, area.left, top - 1.0, area.width_mm)
    items += more
    more, top = paragraphs(BEFORE, area.left, top, area.width_mm, _TEXT_MM)
    items += more
    half = (area.width_mm - 8.0) / 2.0
    more, left_low = heading("Look in this order", area.left, top - 3.0, half)
    items += more
    more, left_low = paragraphs(LOOKS, area.left, left_low, half, _TEXT_MM, mark="1.")
    items += more
    more, right_low = _girths(area.left + half + 8.0, top - 3.0, half)
    items += more
    more, low = heading(
        "What you see: tick it, and write how much", area.left, min(left_low, right_low) - 3.0, area.width_mm
    )
    items += more
    items += _sentences(sentence_list(), area.left, low, half, area.bottom, units)
    return (Drawing("correction sheet", paper.width_mm, paper.height_mm, (Group("form", tuple(items)),)),)


def _blanks(words: str, left: float, top: float, width: float) -> tuple[Items, float]:
    """What garment it is, who wore it, when, on the body or a stand, and which bones were in."""
    items: Items = []
    if words:
        items, top = paragraph(words, left, top, width, 3.6, bold=True)
        top -= 0.5
    start = left
    for says, share in (("on", 0.2), ("worn on body / stand", 0.3), ("bones in", 0.5)):
        more, _ = paragraph(says, start, top, share * width, _TEXT_MM)
        items += more
        blank = start + 1.9 * len(says) * _TEXT_MM / 3.4 + 2.0
        items.append(line([(blank, top - 3.4), (start + share * width - 3.0, top - 3.4)], "grain"))
        start += share * width
    return items, top - 6.0


def _girths(left: float, top: float, width: float) -> tuple[Items, float]:
    """The table of gaps and pinches at four heights, and the waist line at three places."""
    items, low = heading("Measure", left, top, width)
    rows = [("at the", "gap", "pinched in all", "where"), *((level, "", "", "") for level in LEVELS)]
    more, low = table(rows, left, low, (0.2 * width, 0.2 * width, 0.3 * width, 0.3 * width), 3.4)
    items += more
    for place in ("all round", "centre back", "centre front"):
        more, after = paragraph(f"drawn waist, {place}:", left, low - 1.6, 0.5 * width, _TEXT_MM)
        items += more
        items.append(line([(left + 0.46 * width, low - 5.0), (left + 0.62 * width, low - 5.0)], "grain"))
        more, _ = paragraph("above / below string", left + 0.64 * width, low - 1.6, 0.36 * width, 2.7)
        items += more
        low = after
    return items, low


def _sentences(
    sentences: Sequence[Sentence], left: float, top: float, width: float, bottom: float, units: str
) -> Items:
    """Every sentence with a box to tick and a blank for its amount, in two columns."""
    items: Items = []
    x, y, count = left, top, 0
    for sentence in sentences:
        amount = (
            f"{sentence.asks}; usual {format_length(sentence.typical_mm, units)}"
            if sentence.effects
            else "nothing to measure"
        )
        more, low = paragraph(sentence.words, x + 5.0, y, width - 24.0, _TEXT_MM, bold=True)
        under, low = paragraph(amount, x + 5.0, low + 0.6, width - 24.0, 2.4)
        if low < bottom and not count:
            x, y, count = left + width + 8.0, top, 1
            more, low = paragraph(sentence.words, x + 5.0, y, width - 24.0, _TEXT_MM, bold=True)
            under, low = paragraph(amount, x + 5.0, low + 0.6, width - 24.0, 2.4)
        items += [*more, *under]
        box = [(x, y - _BOX_MM), (x + _BOX_MM, y - _BOX_MM), (x + _BOX_MM, y), (x, y)]
        items.append(line(box, "grain", closed=True))
        if sentence.effects:
            items.append(line([(x + width - 17.0, y - 3.2), (x + width, y - 3.2)], "grain"))
        y = low - _ROW_MM
    return items
