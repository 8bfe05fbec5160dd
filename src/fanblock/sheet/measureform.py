"""A blank form for measuring: a figure, the measures with their how-to, and room to write."""

from __future__ import annotations

from fanblock.sheet.drawing import Drawing, Group
from fanblock.sheet.figure import figures
from fanblock.sheet.ink import Box
from fanblock.sheet.paper import Paper
from fanblock.sheet.setting import Items, heading, paragraph, paragraphs, table, text_area
from fanblock.sheet.squares import line
from fanblock.wearer.measures import MEASURES, NUMBERS

FIRST = tuple(name for name, number in NUMBERS.items() if number <= 15)
"""The measures for stays and bodies, in the order they are taken; the rest follow."""

STARS = "* Stays want these too; what is missing of them is guessed, and the report says so."
NEEDS = "** Nothing can be drawn without these three."
BEWARE = (
    "Stays press on the body. This is for dress-making and says nothing about health: in doubt ask a clinician before "
    "you lace, never lace a growing child, and have somebody by who can cut the lace."
)

BEFORE = (
    "Wear the shift and nothing under it. Tie one tape round the fullest part of the bust, level, and one round the "
    "waist where you crease when you bend sideways; let it settle by itself.",
    "Write what the tape says. Nothing is deducted here, not for clothes and not for lacing: that is reckoned later, "
    "and an old book that tells you to deduct would have you do it twice.",
    "Alone? Half a centimetre either way is good enough; the toile decides. No tape at hand? A strip of paper, nicked "
    "and labelled, keeps every length.",
    "Sides that are not alike: measure both and write L and R. Of a girth take the halves, each from the centre front to the "
    "centre back.",
    "Measure again over stays, laced, and petticoats: gowns are cut over these. Last column.",
)


def measure_form(paper: Paper) -> tuple[Drawing, ...]:
    """Return the pages of the form; the measures the block and stays cannot well do without are marked."""
    area = text_area(paper)
    items, top = heading("Measures", area.left, area.top - 2.0, area.width_mm, 6.0)
    more, top = _blanks(area.left, top - 2.0, area.width_mm)
    items += more
    figure_mm = 97.0 if paper.height_mm > 285.0 else 84.0
    figure, wide = figures(area.left, top - figure_mm, figure_mm, dict(NUMBERS))
    beside = area.left + wide + 3.0
    more, low = paragraphs(BEFORE, beside, top - 1.0, area.right - beside, 2.9)
    items += more
    more, _ = paragraph(BEWARE, beside, low - 1.5, area.right - beside, 3.0, bold=True)
    items += more
    items += paragraph(f"{NEEDS} {STARS}", area.left, top - figure_mm - 6.5, area.width_mm, 2.8)[0]
    pages: list[tuple[Items, tuple[Group, ...]]] = [(items, (figure,))]
    top -= figure_mm + 11.0
    for head, names in (("", FIRST), (_MORE, tuple(name for name in NUMBERS if name not in FIRST))):
        left = list(names)
        while left:
            if head:
                _, low = heading(head, area.left, top - 3.0, area.width_mm)
            fitting = _fitting(left, low if head else top, area)
            if fitting < min(3, len(left)):
                pages.append(([], ()))
                top = area.top - 2.0
                continue
            items = pages[-1][0]
            if head:
                more, top = heading(head, area.left, top - 3.0, area.width_mm)
                items += more
                head = ""
            more, top = _table(left[:fitting], area.left, top, area.width_mm)
            items += more
            left = left[fitting:]
            if left:
                pages.append(([], ()))
                top = area.top - 2.0
    return tuple(_page(paper, items, *groups) for items, groups in pages)


_MORE = "More measures, for short waists, bodices, sleeves and collars"


def _fitting(names: list[str], top: float, area: Box) -> int:
    """How many of some measures find room from ``top`` down to the foot of the page."""
    for count in range(len(names), 0, -1):
        if _table(names[:count], area.left, top, area.width_mm)[1] > area.bottom - 1.0:
            return count
    return 0


def _blanks(left: float, top: float, width: float) -> tuple[Items, float]:
    """Name, date, and the unit the numbers are written in."""
    items: Items = []
    third = width / 3.0
    for at, says in enumerate(("who", "when", "in cm or in inches?")):
        more, _ = paragraph(says, left + at * third, top, third, 3.4)
        items += more
        start = left + at * third + {0: 9.0, 1: 11.0, 2: 32.0}[at]
        items.append(line([(start, top - 4.0), (left + (at + 1) * third - 4.0, top - 4.0)], "grain"))
    return items, top - 6.0


def _table(names: list[str], left: float, top: float, width: float) -> tuple[Items, float]:
    rows = [("", "measure", "how", "over shift", "over stays")]
    for name in names:
        measure = MEASURES[name]
        star = " **" if measure.needed else " *" if measure.for_stays else ""
        rows.append((str(NUMBERS[name]), f"{name}{star}", measure.how, "", ""))
    widths = (7.0, 34.0, width - 79.0, 19.0, 19.0)
    items, low = table(rows, left, top, widths, 3.0)
    for at in (3, 4, 5):
        x = left + sum(widths[:at]) - 2.0
        items.append(line([(x, top - 4.6), (x, low + 1.4)], "guide"))
    return items, low


def _page(paper: Paper, items: Items, *more: Group) -> Drawing:
    return Drawing("measures", paper.width_mm, paper.height_mm, (Group("form", tuple(items)), *more))
