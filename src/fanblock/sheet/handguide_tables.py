"""The tables by which a panel is drawn: its points, lines, notches, seams, eyelets, and its outline on the grid."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from fanblock.pattern.bones import BOTH
from fanblock.pattern.model import Edge, EdgeName, Panel, Pattern
from fanblock.sheet import phrases
from fanblock.sheet.boning import called
from fanblock.sheet.handguide_curves import Offset, Rule
from fanblock.sheet.handguide_model import GRAIN, CutCorner, HandLine, HandNotch, HandPanel, Span
from fanblock.sheet.piece import BAR_IN_MM, TICK_STEP_MM

POINTS, CUTTING = "Points", "The cutting line"
"""Headings of tables."""


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under a heading; ``numbers`` are the columns set to the right, ``wide`` the one that takes what room is left.

    A table without ``wide`` may be set in several columns beside one another.
    """

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numbers: frozenset[int] = frozenset()
    wide: int | None = None
    says: str = ""


def say(mm: float, rule: Rule) -> str:
    """Return a length without its unit, as it is read off the ruler.

    >>> from fanblock.sheet.handguide_curves import IN_CENTIMETRES, IN_INCHES
    >>> say(293.4, IN_CENTIMETRES), say(40.0, IN_CENTIMETRES), say(293.4, IN_INCHES)
    ('29.35', '4', '11 9/16')
    """
    rounded = rule.rounded(mm)
    if rule.units != "in":
        return f"{rounded / 10.0:.2f}".rstrip("0").rstrip(".")
    steps = round(rounded / rule.least_mm)
    whole, rest = divmod(abs(steps), round(rule.grid_mm / rule.least_mm))
    part = str(Fraction(rest, round(rule.grid_mm / rule.least_mm))) if rest else ""
    sign = "-" if steps < 0 else ""
    return sign + " ".join(text for text in (str(whole) if whole or not part else "", part) if text)


def up(mm: float, rule: Rule) -> str:
    """Return how far a place is up or down from the base line."""
    text = say(abs(mm), rule)
    return text if text == "0" else f"{text} {'up' if mm > 0.0 else 'down'}"


def across(mm: float, rule: Rule) -> str:
    """Return how far a place is right of the upright, or left of it."""
    return f"{say(-mm, rule)} left" if say(mm, rule).startswith("-") else say(mm, rule)


def points_table(hand: HandPanel) -> Table:
    """Return the numbered points: how far right of the upright, how far up or down from the base line, and what meets there."""
    rule = hand.rule
    rows = tuple(
        (str(point.number), across(point.x_mm, rule), up(point.y_mm, rule), phrases.prose(point.says))
        for point in hand.points
    )
    return Table(POINTS, ("no.", "right", "up or down", "what"), rows, frozenset({1, 2}), wide=3)


def lines_table(hand: HandPanel) -> Table:
    """Return every line: its points, its chord, its curve, its length along, and what is added beyond an edge."""
    panel, rule = hand.panel, hand.rule
    letters = {edge.name: edge.letter for edge in panel.edges if edge.letter}
    told = dict(_told(panel, rule))
    rows = []
    for line in (*hand.outline, *hand.inner):
        edge = line in hand.outline
        more = (letters if edge else told).get(line.of, "") or ("an arrow, up" if line.kind == GRAIN else "")
        rows.append(
            (
                f"{phrases.prose(line.of)} ({more})" if more else phrases.prose(line.of),
                f"{line.first}–{line.last}",
                say(line.chord_mm, rule),
                "; ".join([*(_offset(offset, line, hand) for offset in line.offsets), *_swung(line, rule)])
                or "straight",
                say(line.length_mm, rule),
                _beyond(line, panel, rule) if edge else "",
            )
        )
    head = ("line", "points", "chord", "curve: so far along the chord: so far off it", "along", "beyond")
    return Table("Lines", head, tuple(rows), frozenset({2, 4, 5}), wide=3)


def _told(panel: Panel, rule: Rule) -> Iterator[tuple[str, str]]:
    """What is said of marks and channels, by their names."""
    for mark in panel.marks:
        yield mark.name, mark.says if mark.says != mark.name else ""
    for channel in panel.channels:
        yield called(channel), f"the middle; stitched {say(channel.width_mm, rule)} wide"


def _offset(offset: Offset, line: HandLine, hand: HandPanel) -> str:
    """One offset in words."""
    along, off = say(offset.along_mm, hand.rule), say(abs(offset.out_mm), hand.rule)
    return f"at {along}: {off} {_side(offset.out_mm > 0.0, line, hand)}" if off != "0" else f"at {along}: 0"


def _swung(line: HandLine, rule: Rule) -> Iterator[str]:
    """How a part of a circle may be drawn as well."""
    if line.swing is not None:
        x = line.swing.x_mm
        right = f"{say(abs(x), rule)} {'right' if x >= 0.0 else 'left'}"
        yield f"or swing it: pin {right} and {up(line.swing.y_mm, rule)}, string {say(line.swing.string_mm, rule)}"


def _side(right: bool, line: HandLine, hand: HandPanel) -> str:
    """On which side of its chord a point lies: out of or in the piece, or, of a line within it, as it is seen."""
    if line in hand.outline:
        return "outward" if right else "inward"
    x, y = hand.point(line.last).place - hand.point(line.first).place
    if abs(x) >= abs(y):
        return "down" if right == (x > 0.0) else "up"
    return "right" if right == (y > 0.0) else "left"


def _beyond(line: HandLine, panel: Panel, rule: Rule) -> str:
    edge = panel.edge(line.of)
    width = panel.allowances.get(edge.name, 0.0)
    if edge.kind == "fold" or panel.fold == edge.name:
        return "fold"
    return say(width, rule) if width > 0.0 else "0"


def cutting_table(hand: HandPanel) -> Table:
    """Return the corners of the cutting line, and how it runs from each to the next."""
    rule = hand.rule
    rows = tuple(
        (f"c{number}", across(corner.x_mm, rule), up(corner.y_mm, rule), _onward(corner, hand))
        for number, corner in enumerate(hand.cutting, start=1)
    )
    return Table(
        CUTTING,
        ("corner", "right", "up or down", "from here to the next"),
        rows,
        frozenset({1, 2}),
        wide=3,
        says=f"Down its left side first; from c{len(rows)} back to c1.",
    )


def _onward(corner: CutCorner, hand: HandPanel) -> str:
    if not corner.along:
        return "straight"
    letter = hand.panel.edge(corner.along).letter
    name = f"{phrases.prose(corner.along)} ({letter})" if letter else phrases.prose(corner.along)
    return (
        f"{say(corner.width_mm, hand.rule)} outside: {name}" if corner.width_mm > 0.0 else f"on the stitch line: {name}"
    )


def notches_table(hand: HandPanel) -> Table:
    """Return the notches, each so far along its edge from a numbered point."""
    rows = tuple(
        (
            phrases.prose(notch.edge),
            str(notch.start),
            say(notch.at_mm, hand.rule),
            "" if notch.above_mm is None else up(notch.above_mm, hand.rule),
            _ticks(notch, hand.rule),
        )
        for notch in hand.notches
    )
    head = ("edge", "from point", "along it", "from the waist bar", "what")
    return Table("Notches", head, rows, frozenset({1, 2, 3}))


def _ticks(notch: HandNotch, rule: Rule) -> str:
    if notch.kind == "waist":
        return f"waist bar: {say(BAR_IN_MM, rule)} inward, {say(notch.beyond_mm, rule)} outward"
    long = f"{say(notch.long_mm, rule)} {'outward' if notch.outward else 'inward'}"
    if notch.ticks == 1:
        return f"1 tick, {long}"
    return f"{notch.ticks} ticks, {say(TICK_STEP_MM, rule)} apart, {long}; the middle of them here"


def seams_table(hand: HandPanel, pattern: Pattern) -> Table:
    """Return each seam of this panel beside its mate: lengths, above and below the waist too."""
    rows = []
    for edge in hand.panel.edges:
        if edge.mate is None:
            continue
        other = pattern.by_name[edge.mate.panel]
        mate = other.edge(edge.mate.edge)
        says = f"{other.label} {other.name}: {mate.name}"
        name = EdgeName(hand.panel.name, edge.name)
        taken = next((seam for seam in pattern.seams if edge.letter and name in (seam.front, seam.back)), None)
        if taken is not None and taken.fullness_mm:
            says += f", {say(taken.fullness_mm, hand.rule)} {taken.how}"
        rows.append((edge.letter, phrases.prose(edge.name), _lengths(edge, hand.rule), says, _lengths(mate, hand.rule)))
    return Table(
        "Seams and their mates",
        ("letter", "this edge", "is long", "sewn to", "is long"),
        tuple(rows),
        says="Above + below the waist bar. Both sides must agree, but for what is taken up.",
    )


def _lengths(edge: Edge, rule: Rule) -> str:
    """How long an edge is: above and below the waist, where it crosses it."""
    length = edge.curve.length_mm
    at = edge.waist_at_mm
    if at is None or min(at, length - at) < rule.least_mm:
        return say(length, rule)
    up, down = (length - at, at) if edge.curve.end[1] > edge.curve.start[1] else (at, length - at)
    return f"{say(up, rule)} + {say(down, rule)}"


def holes_table(hand: HandPanel) -> Table:
    """Return the eyelets, for both halves or for one."""
    rows = tuple(
        (
            str(hole.number),
            "both halves" if hole.half == BOTH else f"{hole.half} half",
            across(hole.x_mm, hand.rule),
            up(hole.y_mm, hand.rule),
        )
        for hole in hand.holes
    )
    return Table("Eyelets", ("no.", "for", "right", "up or down"), rows, frozenset({2, 3}))


def grid_table(hand: HandPanel, across: bool) -> Table:
    """Return where the outline crosses the lines of the grid: the level ones for ``across``, else the upright ones."""
    rule = hand.rule
    if across:
        rows = tuple((up(span.at_mm, rule), _runs(span, rule)) for span in reversed(hand.across))
        head = ("up or down", "to the right, from – to")
        return Table("The outline on the grid: across", head, rows, frozenset({0}))
    rows = tuple((say(span.at_mm, rule), _heights(span, rule)) for span in hand.upward)
    return Table("The outline on the grid: upward", ("right", "up or down, from – to"), rows, frozenset({0}))


def _runs(span: Span, rule: Rule) -> str:
    return ", ".join(f"{say(start, rule)} – {say(end, rule)}" for start, end in span.runs)


def _heights(span: Span, rule: Rule) -> str:
    return ", ".join(f"{up(start, rule)} – {up(end, rule)}" for start, end in span.runs)
