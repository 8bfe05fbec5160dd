"""The hand guide as pages to print: what to know first, then each panel with its plan, its steps and its tables.

Nothing on these pages is at true scale; whoever has no printer reads the same in ``guide.html``.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from fanblock.block.bowed import BowBlock
from fanblock.pattern.model import Pattern
from fanblock.sheet import phrases
from fanblock.sheet.drawing import Drawing, Group, Words
from fanblock.sheet.font import fitted, width_mm
from fanblock.sheet.guidepages import guide_pages
from fanblock.sheet.handguide import hand_panels
from fanblock.sheet.handguide_chord import chord_picture
from fanblock.sheet.handguide_model import HandPanel
from fanblock.sheet.handguide_plan import hand_plan
from fanblock.sheet.handguide_tables import CUTTING, POINTS, Table
from fanblock.sheet.handguide_words import LONG_NAMES, NO_NEED, HandSheet, before_you_begin, hand_sheet, pieces_table
from fanblock.sheet.ink import Box
from fanblock.sheet.paper import Paper
from fanblock.sheet.setting import Items, heading, paragraphs, table, text_area
from fanblock.sheet.tapes import tape_sentence
from fanblock.sheet.tiles import HEADER_MM
from fanblock.sheet.upright import moved_group

TEXT_MM, TABLE_MM, HEAD_MM = 3.1, 2.9, 3.6
"""Sizes of running text, of tables and of the headings of tables."""

_GAP_MM, _CELL_MM, _STEP_MM = 6.0, 3.6, 3.0
"""Between columns of the page; between columns of a table; before a heading."""

_LEAST_WIDE_MM = 32.0
"""A long table whose widest column still gets as much is set in two columns."""

_PAIRED_ROWS = 16
"""Longer tables stand by themselves, in columns."""

_BESIDE_PLAN = (POINTS, CUTTING)
"""What may stand beside a plan, under the words, where there is room."""

_OVERHANG_MM = 30.0
"""How far the words beside a plan may reach below it."""

_TALL, _TALL_SHARE, _FLAT_SHARE = 1.05, 0.52, 0.40
"""A panel this many times as high as wide has its words beside its plan, which takes such a share of the page's height or,
above its words, the other.
"""


def hand_guide_pages(pattern: Pattern, paper: Paper, hands: Sequence[HandPanel] = ()) -> tuple[Drawing, ...]:
    """Return the pages; of a garment cut from a block by bows, the block with pin and string comes last.

    ``hands`` may hand on :func:`fanblock.sheet.handguide.hand_panels` of the pattern.
    """
    hands = hands or hand_panels(pattern)
    flow = _Flow(paper)
    _first(flow, pattern, hands)
    for hand in hands:
        flow.turn()
        _panel(flow, hand, hand_sheet(hand, pattern))
    pages = flow.finished(pattern, hands[0])
    for half in pattern.halves or (pattern,):
        if half.band is None and isinstance(half.block, BowBlock):
            body = replace(half.body, name=f"{half.body.name}, {half.half} half") if half.half else half.body
            pages = (*pages, *guide_pages(half.block, body, paper, half.half or "left", NO_NEED))
    return pages


class _Flow:
    """Pages that fill from the top; what does not fit begins the next one."""

    def __init__(self, paper: Paper) -> None:
        self.paper = paper
        self.area = text_area(paper)
        self.pages: list[tuple[Items, list[Group]]] = [([], [])]
        self.top = self.area.top - 2.0
        self.title = ""

    def turn(self) -> None:
        """Begin a page."""
        self.pages.append(([], []))
        self.top = self.area.top - 2.0

    def add(self, items: Items, groups: Sequence[Group], low: float) -> None:
        """Put what was set at the flow's place, which ends at ``low``."""
        self.pages[-1][0].extend(items)
        self.pages[-1][1].extend(groups)
        self.top = low

    def need(self, high_mm: float) -> None:
        """Begin a page, under the title carried on, unless so much room is left."""
        if self.top - high_mm < self.area.bottom:
            self.turn()
            if self.title:
                items, low = heading(f"{self.title}, continued", self.area.left, self.top, self.area.width_mm)
                self.add(items, (), low - 1.0)

    def finished(self, pattern: Pattern, hand: HandPanel) -> tuple[Drawing, ...]:
        """The pages, each with its head."""
        return tuple(
            Drawing(
                f"hand guide, {phrases.identity(pattern.title)[0]}",
                self.paper.width_mm,
                self.paper.height_mm,
                (Group("head", tuple(self._head(pattern, hand, number))), Group("guide words", tuple(items)), *groups),
            )
            for number, (items, groups) in enumerate(self.pages, start=1)
        )

    def _head(self, pattern: Pattern, hand: HandPanel, number: int) -> Items:
        left, right = self.paper.margin_mm, self.paper.width_mm - self.paper.margin_mm
        base = self.paper.height_mm - self.paper.margin_mm - HEADER_MM + 1.9
        unit = LONG_NAMES[hand.rule.units].split(",")[0]
        tail = f"all lengths in {unit} · page {number} of {len(self.pages)}"
        says = " · ".join(phrases.identity(pattern.title))
        room = right - left - width_mm(tail, 3.0) - 5.0
        return [Words(fitted(says, 3.0, room), left, base, 3.0), Words(tail, right, base, 3.0, "end")]


def _first(flow: _Flow, pattern: Pattern, hands: Sequence[HandPanel]) -> None:
    """What is told once."""
    area = flow.area
    name = f"By hand: {phrases.identity(pattern.title)[0]}"
    items, low = heading(name, area.left, flow.top, area.width_mm, 5.4)
    flow.add(items, (), low)
    texts = before_you_begin(pattern, hands)
    items, low = paragraphs(texts, area.left, flow.top, area.width_mm, 3.4, mark="1.")
    flow.add(items, (), low - 1.0)
    picture = chord_picture(min(area.width_mm, 150.0))
    group = moved_group(picture.groups[0], (area.left, flow.top - picture.height_mm))
    flow.add([], (group,), flow.top - picture.height_mm - _STEP_MM)
    _table(flow, pieces_table(hands))
    items, low = paragraphs([tape_sentence(pattern)], area.left, flow.top - 1.0, area.width_mm, 3.4)
    flow.add(items, (), low)


def _panel(flow: _Flow, hand: HandPanel, sheet: HandSheet) -> None:
    """One panel: its plan beside its words or above them, then its tables."""
    area = flow.area
    flow.title = ""
    items, low = heading(sheet.title, area.left, flow.top, area.width_mm, 5.4)
    flow.add(items, (), low)
    items, low = paragraphs([sheet.cut], area.left, flow.top, area.width_mm, TEXT_MM)
    flow.add(items, (), low - 1.0)
    flow.title = sheet.title
    tall = hand.high_mm - hand.low_mm > _TALL * (hand.right_mm - hand.left_mm)
    wide = 0.5 * (area.width_mm - _GAP_MM) if tall else area.width_mm
    plan = hand_plan(hand, wide, (_TALL_SHARE if tall else _FLAT_SHARE) * area.height_mm)
    group = moved_group(plan.groups[0], (area.left, flow.top - plan.height_mm))
    left = area.left + wide + _GAP_MM if tall else area.left
    top = flow.top if tall else flow.top - plan.height_mm - 2.0
    items, low = paragraphs(sheet.steps, left, top, area.right - left, TEXT_MM, mark="1.")
    under = [sheet.points, sheet.lines, *sheet.tables]
    floor = flow.top - plan.height_mm - _OVERHANG_MM
    for one in [each for each in under if tall and each.title in _BESIDE_PLAN]:
        beside = _beside(one, left, low, area, floor)
        if beside is not None:
            items, low = items + beside[0], beside[1]
            under.remove(one)
    flow.add(items, (group,), min(low, flow.top - plan.height_mm) - 1.0)
    while under:
        one = under.pop(0)
        if under and one.wide is None and _paired(flow, one, under[0]):
            under.pop(0)
        else:
            _table(flow, one)


def _paired(flow: _Flow, one: Table, other: Table) -> bool:
    """Set two small tables beside one another, and tell whether there was room for them."""
    area = flow.area
    sizes = [sum(_widths(each, area.width_mm)) for each in (one, other)]
    if sum(sizes) + _GAP_MM > area.width_mm or max(len(one.rows), len(other.rows)) > _PAIRED_ROWS:
        return False
    flow.need(_STEP_MM + 2.0 * (max(len(one.rows), len(other.rows)) + 3) * TABLE_MM)
    half = 0.5 * (area.width_mm + _GAP_MM)
    split = area.left + (half if max(sizes) <= half - _GAP_MM else sizes[0] + _GAP_MM)
    left = _set(one, area.left, flow.top, split - _GAP_MM - area.left)
    right = _set(other, split, flow.top, area.right - split)
    flow.add(left[0] + right[0], (), min(left[1], right[1]) - 1.0)
    return True


def _beside(one: Table, left: float, top: float, area: Box, floor: float) -> tuple[Items, float] | None:
    """A table in what is left of the column beside a plan, or None where it finds no room there."""
    widths = _widths(one, area.right - left)
    if sum(widths) > area.right - left:
        return None
    items, low = _set(one, left, top, area.right - left)
    return (items, low) if low >= floor else None


def _set(one: Table, left: float, top: float, wide_mm: float) -> tuple[Items, float]:
    """A whole table with its heading in a column of the page."""
    items, low = heading(one.title, left, top - _STEP_MM, wide_mm, HEAD_MM)
    if one.says:
        said, low = paragraphs([one.says], left, low, wide_mm, TABLE_MM)
        items += said
    more, low = table([one.head, *one.rows], left, low - 0.5, _widths(one, wide_mm), TABLE_MM)
    return items + more, low


def _table(flow: _Flow, one: Table) -> None:
    """A table with its heading, several columns of it beside one another where its cells are short."""
    area = flow.area
    widths = _widths(one, area.width_mm)
    columns = max(1, int((area.width_mm + _GAP_MM) / (sum(widths) + _GAP_MM)))
    if columns == 1 and one.wide is not None and len(one.rows) > _PAIRED_ROWS and not one.says:
        half = 0.5 * (area.width_mm - _GAP_MM)
        widths = _widths(one, half)
        columns = 2 if widths[one.wide] >= _LEAST_WIDE_MM and sum(widths) <= half else 1
        widths = widths if columns == 2 else _widths(one, area.width_mm)
    columns = min(columns, -(-len(one.rows) // 4))
    rows = list(one.rows)
    head = [one.head]
    items, low = _headed(one, flow, 0.0)
    flow.need(flow.top - low + 4.0 * TABLE_MM)
    items, low = _headed(one, flow, 0.0)
    flow.add(items, (), low)
    while rows:
        fits = _fitting(flow, head, rows, widths, columns)
        taken, rows = rows[: fits * columns], rows[fits * columns :]
        length = -(-len(taken) // columns)
        lowest = flow.top
        for column in range(columns):
            part = taken[column * length : (column + 1) * length]
            if part:
                left = area.left + column * (sum(widths) + _GAP_MM)
                items, low = table([*head, *part], left, flow.top, widths, TABLE_MM)
                flow.pages[-1][0].extend(items)
                lowest = min(lowest, low)
        flow.top = lowest - 1.0
        if rows:
            flow.need(flow.area.height_mm)


def _headed(one: Table, flow: _Flow, more: float) -> tuple[Items, float]:
    """A table's heading and what is said under it."""
    area = flow.area
    items, low = heading(one.title, area.left, flow.top - _STEP_MM - more, area.width_mm, HEAD_MM)
    if one.says:
        said, low = paragraphs([one.says], area.left, low, area.width_mm, TABLE_MM)
        items += said
    return items, low - 0.5


def _fitting(
    flow: _Flow, head: list[tuple[str, ...]], rows: list[tuple[str, ...]], widths: Sequence[float], columns: int
) -> int:
    """How many rows fit into one column of the page; at least one, since a page holds any row."""
    count = 0
    longest = -(-len(rows) // columns)
    for tried in range(1, longest + 1):
        _, low = table([*head, *rows[:tried]], flow.area.left, flow.top, widths, TABLE_MM)
        if low < flow.area.bottom:
            break
        count = tried
    return max(count, 1)


def _widths(one: Table, room_mm: float) -> list[float]:
    """Widths of columns: as wide as their cells, but for the one that takes what room is left."""
    rows = (one.head, *one.rows)
    widths = [
        max(width_mm(row[at], TABLE_MM, row is one.head) for row in rows) + _CELL_MM for at in range(len(one.head))
    ]
    if one.wide is not None:
        others = sum(width for at, width in enumerate(widths) if at != one.wide)
        widths[one.wide] = min(widths[one.wide], max(room_mm - others, 0.25 * room_mm))
    return widths
