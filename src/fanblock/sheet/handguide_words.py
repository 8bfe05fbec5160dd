"""What is said to somebody who draws a panel by hand: the steps, and the tables they speak of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from fanblock.pattern.bones import BOTH
from fanblock.pattern.model import Edge, Panel, Pattern
from fanblock.sheet import phrases
from fanblock.sheet.boning import called
from fanblock.sheet.handguide import HandLine, HandNotch, HandPanel, Offset, Rule, Span
from fanblock.sheet.telling import half_of, telling
from fanblock.units import format_length

LONG_NAMES = {"in": "inches, to the nearest thirty-second", "cm": "centimetres, to the nearest half millimetre"}


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


@dataclass(frozen=True, slots=True)
class HandSheet:
    """All that is said of one panel: its title, what to cut, the steps in order, the tables."""

    title: str
    cut: str
    steps: tuple[str, ...]
    points: Table
    lines: Table
    tables: tuple[Table, ...]


def say(mm: float, rule: Rule) -> str:
    """Return a length without its unit, as it is read off the ruler.

    >>> from fanblock.sheet.handguide import IN_CENTIMETRES, IN_INCHES
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


def hand_sheet(hand: HandPanel, pattern: Pattern) -> HandSheet:
    """Return the words and tables for one panel of a pattern."""
    panel = hand.panel
    tables = (_notches(hand), _seams(hand, pattern), _holes(hand), _grid(hand, across=True), _grid(hand, across=False))
    return HandSheet(
        title=f"{panel.number} · {panel.name}",
        cut=" · ".join((*phrases.cutting(panel), half_of(panel, pattern))),
        steps=tuple(_steps(hand, pattern)),
        points=_points(hand),
        lines=_lines(hand),
        tables=tuple(table for table in tables if table.rows),
    )


def before_you_begin(pattern: Pattern, hands: Sequence[HandPanel]) -> tuple[str, ...]:
    """Return what is told once, before the first panel."""
    rule = hands[0].rule
    squares = "1 inch" if rule.units == "in" else "2 cm"
    verdict = () if pattern.sound else (f"{phrases.NOT_SOUND}: do not cut cloth by it. See the report.",)
    return (
        *verdict,
        f"Every piece has its own sheet. All lengths are in {LONG_NAMES[rule.units]}, taken so finely that the piece comes "
        "out within a millimetre of the printed one.",
        "You need paper, a long ruler, a square, a tape that can stand on its edge, a sharp pencil, and for the curves a thin "
        "lath that bends evenly: a strip of wood, cane or plastic as long as your hand and forearm.",
        "On each piece two lines are ruled first: the upright, which is the grain, and square to it the level. A point is "
        "told by how far it is to the right of the upright, and how far up or down from the level.",
        "A curve is told by the straight line between its ends, the chord. Rule it faintly. Measure along it from the point "
        "named first; there set off, square to it, as much as is told: out is away from the piece, in is into it. Hold the "
        "lath at these points and draw along it.",
        "What you draw is the stitch line. What the column “beyond” says is added outside it when the outline is right.",
        f"Or draw by the grid: on paper ruled in squares of {squares} mark where the outline crosses each line, by the last "
        "tables of each sheet, and join the marks.",
        f"{telling(pattern).half.capitalize()}. Match each drawn seam against its mate with the tape before you cut.",
    )


def pieces_table(hands: Sequence[HandPanel]) -> Table:
    """Return the list of all pieces with the paper each needs."""
    rows = tuple(
        (
            str(hand.panel.number),
            hand.panel.name,
            " by ".join(say(side, hand.rule) for side in paper_mm(hand)[:2]),
            "; ".join(phrases.cutting(hand.panel)),
        )
        for hand in hands
    )
    return Table("The pieces", ("piece", "name", "paper, wide by high", "cut"), rows, wide=3)


def paper_mm(hand: HandPanel) -> tuple[float, float, float, float]:
    """Return how wide and high paper for a piece is at least, and where its upright and its level are ruled on it: from
    the left and from the lower edge. Allowances lie on the paper, with a square of the grid around them.
    """
    ring = hand.panel.cut_line.points if hand.panel.cut_line is not None else hand.panel.loop()
    clear = hand.rule.grid_mm
    (left, low), (right, high) = ring.min(axis=0) - clear, ring.max(axis=0) + clear
    sizes = (float(right - left), float(high - low), float(-left), float(-low))
    wide, tall, from_left, from_low = (_up_to_half(size, hand.rule) for size in sizes)
    return wide, tall, from_left, from_low


def _up_to_half(mm: float, rule: Rule) -> float:
    """A length raised to half a square of the grid."""
    half = 0.5 * rule.grid_mm
    return -(-mm // half) * half


def _steps(hand: HandPanel, pattern: Pattern) -> Iterator[str]:
    rule, panel = hand.rule, hand.panel
    wide, tall, from_left, from_low = (say(mm, rule) for mm in paper_mm(hand))
    level = f"the {hand.level} at the front side of this piece" if hand.level else "on which this piece stands"
    yield (
        f"Take paper {wide} wide and {tall} high. Rule the upright {from_left} from its left edge and, square to it, the "
        f"level {from_low} from its lower edge: {level}."
    )
    yield f"Mark the points 1 to {len(hand.points)}: up or down the upright, then square out to the right."
    checks = "; ".join(f"{one.first} to {one.last}, {say(one.length_mm, rule)}" for one in hand.diagonals)
    yield f"Check with a ruler, straight across: {checks}. If it is more than a pencil line out, a point is wrong."
    yield "Rule the straight lines. Draw each curve from its chord."
    if hand.notches:
        yield "Measure the notches along the edge, the tape on its edge. A waist bar crosses the seam, ticks point inward."
    fold = f" The {phrases.prose(panel.fold)} lies on the fold." if panel.fold else ""
    yield f"The upright is the grain: draw an arrow along it.{fold}"
    yield "Draw the cutting line outside the stitch line, by the column “beyond”."
    toward = "" if panel.added else f"{telling(pattern).toward} at the left; "
    words = (
        f"{panel.number} {panel.name}; {'; '.join(phrases.cutting(panel))}; TOP; {toward}{phrases.stamp(pattern.title)}"
    )
    letters = "".join(f"; {edge.letter} at both ends of {edge.name}" for edge in panel.edges if edge.letter)
    yield f"Write on it: {words}{letters}."


def _up(mm: float, rule: Rule) -> str:
    text = say(abs(mm), rule)
    return text if text == "0" else f"{text} {'up' if mm > 0.0 else 'down'}"


def _points(hand: HandPanel) -> Table:
    rule = hand.rule
    rows = tuple(
        (str(point.number), say(point.x_mm, rule), _up(point.y_mm, rule), phrases.prose(point.says))
        for point in hand.points
    )
    return Table("Points", ("no.", "right", "up or down", "what"), rows, frozenset({1, 2}), wide=3)


def _lines(hand: HandPanel) -> Table:
    panel, rule = hand.panel, hand.rule
    letters = {edge.name: edge.letter for edge in panel.edges if edge.letter}
    told = dict(_told(panel, rule))
    rows = []
    for line in (*hand.outline, *hand.inner):
        edge = line in hand.outline
        more = (letters if edge else told).get(line.of, "")
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
        yield f"or swing it: pin {right} and {_up(line.swing.y_mm, rule)}, string {say(line.swing.string_mm, rule)}"


def _side(right: bool, line: HandLine, hand: HandPanel) -> str:
    """On which side of its chord a point lies: out of or in the piece, or, of a line within it, as it is seen."""
    if line in hand.outline:
        return "out" if right else "in"
    x, y = hand.point(line.last).place - hand.point(line.first).place
    if abs(x) >= abs(y):
        return "down" if right == (x > 0.0) else "up"
    return "right" if right == (y > 0.0) else "left"


def _beyond(line: HandLine, panel: Panel, rule: Rule) -> str:
    edge = panel.edge(line.of)
    width = panel.allowances.get(edge.name, 0.0)
    if edge.kind == "fold" or panel.fold == edge.name:
        return "fold"
    return format_length(width, rule.units).rsplit(" ", 1)[0] if width > 0.0 else "0"


def _notches(hand: HandPanel) -> Table:
    rows = tuple(
        (phrases.prose(notch.edge), str(notch.start), say(notch.at_mm, hand.rule), _ticks(notch))
        for notch in hand.notches
    )
    return Table("Notches", ("edge", "from point", "along it", "what"), rows, frozenset({1, 2}))


def _ticks(notch: HandNotch) -> str:
    if notch.kind == "waist":
        return "waist bar"
    return "1 tick" if notch.ticks == 1 else f"{notch.ticks} ticks, the middle of them here"


def _seams(hand: HandPanel, pattern: Pattern) -> Table:
    """Each seam of this panel beside its mate: lengths, above and below the waist too."""
    rows = []
    for edge in hand.panel.edges:
        if edge.mate is None:
            continue
        other = pattern.by_name[edge.mate.panel]
        mate = other.edge(edge.mate.edge)
        says = f"{other.number} {other.name}: {mate.name}"
        taken = next((seam for seam in pattern.seams if edge.letter and seam.letter == edge.letter), None)
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


def _holes(hand: HandPanel) -> Table:
    rows = tuple(
        (
            str(hole.number),
            "both halves" if hole.half == BOTH else f"{hole.half} half",
            say(hole.x_mm, hand.rule),
            _up(hole.y_mm, hand.rule),
        )
        for hole in hand.holes
    )
    return Table("Eyelets", ("no.", "for", "right", "up or down"), rows, frozenset({2, 3}))


def _grid(hand: HandPanel, across: bool) -> Table:
    """Where the outline crosses the lines of the grid."""
    rule = hand.rule
    if across:
        rows = tuple((_up(span.at_mm, rule), _runs(span, rule)) for span in reversed(hand.across))
        head = ("level", "to the right, from – to")
        return Table("The outline on the grid: across", head, rows, frozenset({0}))
    rows = tuple((say(span.at_mm, rule), _heights(span, rule)) for span in hand.upward)
    return Table("The outline on the grid: upward", ("right", "level, from – to"), rows, frozenset({0}))


def _runs(span: Span, rule: Rule) -> str:
    return ", ".join(f"{say(start, rule)} – {say(end, rule)}" for start, end in span.runs)


def _heights(span: Span, rule: Rule) -> str:
    return ", ".join(f"{_up(start, rule)} – {_up(end, rule)}" for start, end in span.runs)
