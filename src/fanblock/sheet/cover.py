"""The first pages of a pattern that is printed at home: what it is, whether the printer told the truth,
what to cut.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from fanblock.pattern.model import Pattern
from fanblock.sheet import phrases
from fanblock.sheet.drawing import Drawing, Group, Words
from fanblock.sheet.ink import Box
from fanblock.sheet.joining import JOIN, LONG
from fanblock.sheet.key import key
from fanblock.sheet.listpages import list_pages
from fanblock.sheet.pagemap import page_map
from fanblock.sheet.paper import Paper
from fanblock.sheet.setting import Items, heading, paragraph, paragraphs, table, text_area
from fanblock.sheet.sewing import joining, toile
from fanblock.sheet.squares import square_at, square_box
from fanblock.sheet.symbols import symbols, used_in
from fanblock.sheet.tapes import tape_words
from fanblock.sheet.telling import telling
from fanblock.sheet.tiles import TilePlan
from fanblock.sheet.upright import moved_group

RED = "#c62828"
FOOT_MM = 9.0
"""Room kept at the foot of a page for NOT SOUND."""


def cover(pattern: Pattern, paper: Paper, drawing: Drawing, plan: TilePlan) -> tuple[Drawing, ...]:
    """Return the cover pages for a pattern printed as ``drawing`` over the pages of ``plan``."""
    more = (*_more(pattern, paper), *list_pages(pattern, paper))
    if not pattern.sound:
        more = tuple(replace(page, groups=(*page.groups, _not_sound(paper))) for page in more)
    return (_first(pattern, paper, drawing, plan), *more)


def _not_sound(paper: Paper) -> Group:
    """NOT SOUND at the foot of a page."""
    area = text_area(paper)
    middle = 0.5 * (area.left + area.right)
    return Group(
        "not sound", (Words(phrases.NOT_SOUND, middle, area.bottom + 1.5, 6.0, "middle", bold=True, color=RED),)
    )


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
    more, below = paragraphs((*JOIN, LONG), side_left, below - 1.0, side, 2.9)
    items += more
    more, below = paragraph(f"{len(plan.tiles)} pages to join:", side_left, below - 1.0, side, 3.2, bold=True)
    items += more
    square_low = top - room.height_mm - 1.0
    groups.append(page_map(plan, drawing, Box(side_left, square_low, area.right, below - 0.5)))
    cut, cut_height = _cut_list(pattern, left, width)
    key_top, key_low = square_low - 2.0, area.bottom + cut_height + 2.0
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
        rows.append((str(panel.number), panel.name, counts))
    _, low = table(rows, left, 0.0, (12.0, 0.32 * width, 0.68 * width - 12.0), 3.2)
    return rows, -low


def _more(pattern: Pattern, paper: Paper) -> tuple[Drawing, ...]:
    """What does not fit on the first page: the numbers to measure, the key to the marks, sewing, the toile, the
    cautions; on every page with a test square.
    """
    area = text_area(paper)
    room = square_box()
    right = area.right - room.width_mm
    half = right - area.left - 7.0
    items, top = heading("Believe it with a tape", area.left, area.top - 2.0, half)
    rows = [("measure", "should be"), *tape_words(pattern)]
    more, first = table(rows, area.left, top, (half - 18.0, 18.0), 3.2)
    items += more
    more, low = heading("Lines and marks", area.left, first - 3.0, half)
    items += more
    more, first = symbols(area.left, low, half, used_in(pattern))
    items += more
    more, low = _sewing_order(pattern, Box(right, area.bottom, area.right, area.top), room.height_mm)
    items += more
    second = low - room.height_mm - 2.0
    square = square_at(right - room.left, second - room.bottom)
    said = telling(pattern)
    texts = (
        (SEWING, () if more else joining(pattern)),
        ("For the toile", toile(pattern)),
        ("On the toile", [said.look, *(note.says for note in pattern.notes if note.kind == "toile")]),
        ("Guessed or predicted", [note.says for note in pattern.notes if note.kind == "guess"]),
        (said.before, said.cautions),
    )
    return _with_texts(items, min(first, second), square, texts, paper)


def _sewing_order(pattern: Pattern, column: Box, square_mm: float) -> tuple[Items, float]:
    """The order of sewing in a column over a test square, and how low it reaches; nothing where it is too long for that."""
    head, top = heading(SEWING, column.left, column.top - 2.0, column.width_mm)
    for size in (3.2, 2.9, 2.6):
        more, low = paragraphs(joining(pattern), column.left, top, column.width_mm, size, "1.")
        if low - square_mm - 2.0 >= column.bottom + FOOT_MM:
            return head + more, low
    return [], column.top - 2.0


SEWING = "Sewing order"


def _with_texts(
    items: Items, top: float, square: Group, texts: Sequence[tuple[str, Sequence[str]]], paper: Paper
) -> tuple[Drawing, ...]:
    """The page of ``items`` with more texts under them, each on a page of its own where it finds no room.

    A new page keeps a place for a test square at its foot.
    """
    area = text_area(paper)
    room = square_box()
    pages: list[tuple[Items, Group]] = [(items, square)]
    floor = area.bottom + FOOT_MM
    for head, lines in (text for text in texts if text[1]):
        for size in (3.2, 2.9, 2.6):
            set_, low = _text(head, lines, area, top - 3.0, size)
            if low >= floor:
                break
        else:
            foot = area.bottom + FOOT_MM - room.bottom
            floor = foot + room.top + 2.0
            columns = _columns(head, lines, area, floor)
            pages += [(column, square_at(area.right - room.right, foot)) for column, _ in columns]
            top = columns[-1][1]
            continue
        pages[-1][0].extend(set_)
        top = low
    return tuple(_page(paper, items, square) for items, square in pages)


def _columns(head: str, lines: Sequence[str], area: Box, floor: float) -> list[tuple[Items, float]]:
    """A text on pages of its own, none of it below ``floor``, each with how low it reaches; it goes on as often as need be."""
    found, rest = [], list(lines)
    while rest:
        count = len(rest)
        while count > 1 and _text(head, rest[:count], area, area.top - 2.0, 3.4)[1] < floor:
            count -= 1
        found.append(_text(head, rest[:count], area, area.top - 2.0, 3.4))
        rest, head = rest[count:], f"{head.removesuffix(GOES_ON)}{GOES_ON}"
    return found


GOES_ON = ", going on"


def _text(head: str, lines: Sequence[str], area: Box, top: float, size_mm: float) -> tuple[Items, float]:
    items, low = heading(head, area.left, top, area.width_mm)
    more, low = paragraphs(lines, area.left, low, area.width_mm, size_mm, "–")
    return items + more, low


def _page(paper: Paper, items: Items, *more: Group) -> Drawing:
    return Drawing("cover", paper.width_mm, paper.height_mm, (Group("cover words", tuple(items)), *more))
