"""A blank form for measuring: a figure, the measures with their how-to, and room to write."""

from __future__ import annotations

from fanblock.sheet.cautions import COSTUME
from fanblock.sheet.drawing import Drawing, Group
from fanblock.sheet.figure import figures
from fanblock.sheet.paper import Paper
from fanblock.sheet.setting import Items, heading, paragraph, paragraphs, table, text_area
from fanblock.sheet.squares import line
from fanblock.wearer.measures import MEASURES

FIRST = (
    "bust",
    "waist",
    "bust to waist",
    "raised",
    "bust to waist at side",
    "bust to waist at back",
    "underarm",
    "front arc",
    "underbust",
    "underbust height",
    "upper chest",
    "hip",
    "hip depth",
    "belly",
    "back length",
)
"""The measures on the first page, in the order they are taken; the rest follow on the second."""

BEFORE = (
    "Wear the shift and nothing under it. Tie one tape round the fullest part of the bust, level, and one round the "
    "waist where you crease when you bend sideways; let it settle by itself.",
    "Write what the tape says. Nothing is deducted here, not for clothes and not for lacing: that is reckoned later, "
    "and an old book that tells you to deduct would have you do it twice.",
    "Alone? Half a centimetre either way is good enough; the toile decides. No tape at hand? A strip of paper, nicked "
    "and labelled, keeps every length.",
    "Over stays, measure again laced, in the last column: a gown is cut over that body, not this one.",
)


def measure_form(paper: Paper) -> tuple[Drawing, ...]:
    """Return the pages of the form; the measures the block cannot do without are marked."""
    numbers = {name: at for at, name in enumerate(FIRST, start=1)}
    rest = [name for name in MEASURES if name not in numbers]
    numbers |= {name: at for at, name in enumerate(rest, start=len(FIRST) + 1)}
    area = text_area(paper)
    items, top = heading("Measures", area.left, area.top - 2.0, area.width_mm, 6.0)
    more, top = _blanks(area.left, top - 2.0, area.width_mm)
    items += more
    figure_mm = 96.0 if paper.height_mm > 285.0 else 84.0
    figure, wide = figures(area.left, top - figure_mm, figure_mm, numbers)
    beside = area.left + wide + 3.0
    more, _ = paragraphs(BEFORE, beside, top - 2.0, area.right - beside, 3.2)
    items += more
    more, low = _table(
        [name for name in FIRST if name in MEASURES], numbers, area.left, top - figure_mm - 9.0, area.width_mm
    )
    items += more
    says = (
        "* The block cannot be drawn without these three. The other lengths make it better; "
        "what is missing is guessed, aloud."
    )
    more, _ = paragraph(says, area.left, low - 1.0, area.width_mm, 2.8)
    items += more
    second, below = heading("More measures, for bodices, sleeves and collars", area.left, area.top - 2.0, area.width_mm)
    more, below = _table(rest, numbers, area.left, below, area.width_mm)
    second += more
    more, _ = paragraph(COSTUME, area.left, below - 4.0, area.width_mm, 3.2)
    second += more
    return _page(paper, items, figure), _page(paper, second)


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


def _table(names: list[str], numbers: dict[str, int], left: float, top: float, width: float) -> tuple[Items, float]:
    rows = [("", "measure", "how", "over shift", "over stays")]
    for name in names:
        measure = MEASURES[name]
        star = " *" if measure.needed else ""
        rows.append((str(numbers[name]), f"{name}{star}", measure.how, "", ""))
    widths = (7.0, 36.0, width - 87.0, 22.0, 22.0)
    items, low = table(rows, left, top, widths, 3.1)
    for at in (3, 4, 5):
        x = left + sum(widths[:at]) - 2.0
        items.append(line([(x, top - 4.6), (x, low + 1.4)], "guide"))
    return items, low


def _page(paper: Paper, items: Items, *more: Group) -> Drawing:
    return Drawing("measures", paper.width_mm, paper.height_mm, (Group("form", tuple(items)), *more))
