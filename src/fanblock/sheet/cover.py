"""The first pages of a pattern that is printed at home: what it is, whether the printer told the truth,
what to cut.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

import numpy as np

from fanblock.pattern.model import Pattern
from fanblock.sheet import phrases
from fanblock.sheet.columns import (
    APART_MM,
    SIZE_MM,
    Column,
    Setting,
    column_from,
    column_on,
    headed,
    off_bars,
    read_page,
    set_text,
)
from fanblock.sheet.drawing import Drawing, Group, Words
from fanblock.sheet.ink import Box
from fanblock.sheet.joining import CROSSED, JOIN, hanging, has_gaps, proving
from fanblock.sheet.key import key
from fanblock.sheet.listpages import list_pages
from fanblock.sheet.looks import TOILE_NOTE, looks
from fanblock.sheet.pagemap import page_map
from fanblock.sheet.paper import Paper
from fanblock.sheet.pleatpicture import pleat_pages
from fanblock.sheet.setting import Items, paragraph, paragraphs, table, text_area
from fanblock.sheet.sewing import joining, toile
from fanblock.sheet.sewingpictures import sewing_rows, steps_of, strip_caption
from fanblock.sheet.squares import square_at, square_box
from fanblock.sheet.symbols import symbols, used_in
from fanblock.sheet.tapes import tape_words
from fanblock.sheet.telling import telling
from fanblock.sheet.tiles import TilePlan
from fanblock.sheet.upright import moved_group

RED = "#c62828"
SIZES_MM = (3.2, 3.0, 2.8)
"""Sizes of the text before the sewing order, the first of those that take fewest pages."""

ABREAST = 2
"""How many columns of text stand side by side."""

STEP_MM, LEAST_MM = 6.0, 90.0
"""By how much the texts of their last page are made shorter, and how much of it the sewing order wants below them."""

NUMBER_MM = 18.0
"""Width of the column of numbers to measure."""


def cover(pattern: Pattern, paper: Paper, drawing: Drawing, plan: TilePlan) -> tuple[Drawing, ...]:
    """Return the cover pages for a pattern printed as ``drawing`` over the pages of ``plan``."""
    more = (*_more(pattern, paper), *pleat_pages(pattern, paper), *list_pages(pattern, paper))
    if not pattern.sound:
        more = tuple(replace(page, groups=(*page.groups, _not_sound(paper))) for page in more)
    return (_first(pattern, paper, drawing, plan), *more)


def _not_sound(paper: Paper) -> Group:
    """NOT SOUND at the foot of a page, left of its bars."""
    area = text_area(paper)
    return Group("not sound", (Words(phrases.NOT_SOUND, area.left, area.bottom + 1.5, 6.0, bold=True, color=RED),))


def _first(pattern: Pattern, paper: Paper, drawing: Drawing, plan: TilePlan) -> Drawing:
    area = text_area(paper)
    left, width = area.left, area.width_mm
    items, top = _title(pattern, left, area.top - 2.0, width)
    room = square_box()
    groups = [square_at(left - room.left, top - room.height_mm - room.bottom - 1.0)]
    side_left = left + room.width_mm + 5.0
    side = area.right - side_left
    more, below = paragraph("Measure the square now.", side_left, top - 1.0, side, 4.2, bold=True)
    items += more
    more, below = paragraphs((*JOIN, *((CROSSED,) if has_gaps(plan) else ())), side_left, below - 1.0, side, 2.9)
    items += more
    more, below = paragraph(f"{len(plan.tiles)} pages to join:", side_left, below - 1.0, side, 3.2, bold=True)
    items += more
    square_low = top - room.height_mm - 1.0
    groups.append(page_map(plan, drawing, Box(side_left, square_low, area.right, below - 0.5)))
    more, below = paragraphs((*hanging(plan), *proving(drawing, plan)), left, square_low - 2.0, width, 2.9)
    items += more
    cut, cut_height = _cut_list(pattern, left, width)
    key_top, key_low = below - 1.0, area.bottom + cut_height + 2.0
    picture = key(pattern, width, key_top - key_low)
    groups += [moved_group(group, (left, key_low)) for group in picture.groups]
    rows, _ = table(cut, left, area.bottom + cut_height, (12.0, 0.32 * width, 0.68 * width - 12.0), 3.2)
    items += rows
    return Drawing("cover", paper.width_mm, paper.height_mm, (Group("cover words", tuple(items)), *groups))


def _title(pattern: Pattern, left: float, top: float, width: float) -> tuple[Items, float]:
    title = pattern.title
    items, top = paragraph(title.garment, left, top, width, 7.0, bold=True)
    about = f"for {title.wearer} · {phrases.stamp(title)}" + (f" · {title.period}" if title.period else "")
    more, top = paragraph(about, left, top, width, 4.6)
    items += more
    says = (
        phrases.SOUND if pattern.sound else f"{phrases.NOT_SOUND}: something does not add up or sew up. See the report."
    )
    more, top = paragraph(
        says, left, top, width, 3.6, bold=not pattern.sound, color="#000000" if pattern.sound else RED
    )
    items += more
    for line in provisos(pattern):
        more, top = paragraph(line, left, top, width, 3.6, bold=True, color=RED)
        items += more
    return items, top


def provisos(pattern: Pattern) -> tuple[str, ...]:
    """Return what must be put right before good cloth is cut by this: measures predicted, or the bust taken at rest."""
    predicted = any(note.says.startswith("PREDICTED") for note in pattern.notes)
    found = (
        ["PREDICTED from measures over the shift: measure again laced in the stays, before you cut."]
        if predicted
        else []
    )
    if any(finding.code == "bust-at-rest" for finding in pattern.findings):
        found.append(
            "PROVISIONAL: the bust was measured at rest. Measure `raised` and draft again before you cut good cloth."
        )
    return tuple(found)


def _cut_list(pattern: Pattern, left: float, width: float) -> tuple[list[tuple[str, str, str]], float]:
    rows = [("piece", "name", "cut, for the whole garment")]
    for panel in sorted(pattern.panels, key=lambda panel: panel.number):
        counts = ", ".join(f"{layer} {count}" for layer, count in phrases.layer_counts(panel))
        rows.append((panel.label, panel.name, counts))
    _, low = table(rows, left, 0.0, (12.0, 0.32 * width, 0.68 * width - 12.0), 3.2)
    return rows, -low


def _more(pattern: Pattern, paper: Paper) -> tuple[Drawing, ...]:
    """What does not fit on the first page: the numbers to measure, the key to the marks, the toile, the cautions, sewing."""
    column = _fewest(pattern, paper)
    area, last = off_bars(paper), max(column.pages)
    heights = np.arange(STEP_MM, area.height_mm - LEAST_MM, STEP_MM)
    short = partial(_told, pattern, paper, column.size_mm)
    at = bisect_left(heights, True, key=lambda tried: max(short((last, float(tried))).pages) == last)
    if at < len(heights):
        column = short((last, float(heights[at])))
    low = column.lows[last] - APART_MM
    goes_on = low - area.bottom >= LEAST_MM
    sewn = column_from(paper, last, low) if goes_on else column_from(paper, last + 1, area.top)
    set_text(sewn, SEWING, joining(pattern), "1.")
    for row in _pictures(pattern):
        sewn.put(row, APART_MM)
    pages = [[*column.pages.get(page, ()), *sewn.pages.get(page, ())] for page in range(1 + max(sewn.pages))]
    return tuple(read_page(paper, items) for items in pages)


def _fewest(pattern: Pattern, paper: Paper) -> Column:
    """What is to be read first, its text as large as the fewest pages allow."""
    ways: list[Column] = []
    for size in SIZES_MM:
        ways.append(_told(pattern, paper, size))
        if len(ways[-1].pages) == 1:
            break
    return min(ways, key=lambda way: len(way.pages))


def _told(pattern: Pattern, paper: Paper, size_mm: float, short: tuple[int, float] | None = None) -> Column:
    """Set all that is to be read before anything is cut; one page of it may be made shorter."""
    column = column_on(paper, ABREAST, size_mm, short)
    said = telling(pattern)
    rows = [("measure", "should be"), *tape_words(pattern)]
    column.put(headed("Believe it with a tape", _tape(rows)))
    used = used_in(pattern)
    column.put(headed("Lines and marks", lambda left, top, width: symbols(left, top, width, used)), APART_MM)
    for head, lines in (
        ("For the toile", toile(pattern)),
        ("On the toile", [said.look, *(note.says for note in pattern.notes if note.kind == "toile")]),
        *((head, says) for kind, head, says in looks(pattern) if kind != TOILE_NOTE),
        (said.before, said.cautions),
    ):
        set_text(column, head, lines)
    return column


SEWING = "Sewing order"


def _pictures(pattern: Pattern) -> Iterator[Setting]:
    """The sewing order in pictures, row by row, the first under a heading and what they show."""
    caption = strip_caption(steps_of(pattern))
    for at, row in enumerate(sewing_rows(pattern)):

        def told(left: float, top: float, width: float, row: Setting = row) -> tuple[Items, float]:
            items, low = paragraph(caption, left, top, width, SIZE_MM)
            more, low = row(left, low - 1.0, width)
            return items + more, low

        yield headed("The seams in pictures", told) if at == 0 else row


def _tape(rows: Sequence[tuple[str, str]]) -> Setting:
    return lambda left, top, width: table(rows, left, top, (width - NUMBER_MM, NUMBER_MM), SIZE_MM)
