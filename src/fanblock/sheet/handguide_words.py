"""What is said to somebody who draws a panel by hand: the steps, and the tables they speak of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fanblock.pattern.bones import RIGHT
from fanblock.pattern.model import Pattern
from fanblock.sheet import phrases
from fanblock.sheet.handguide_curves import Rule
from fanblock.sheet.handguide_model import GRAIN, HandPanel
from fanblock.sheet.handguide_tables import (
    Table,
    across,
    cutting_table,
    grid_table,
    holes_table,
    lines_table,
    notches_table,
    points_table,
    say,
    seams_table,
    up,
)
from fanblock.sheet.telling import half_of, telling

LONG_NAMES = {"in": "inches, to the nearest thirty-second", "cm": "centimetres, to the nearest half millimetre"}


@dataclass(frozen=True, slots=True)
class HandSheet:
    """All that is said of one panel: its title, what to cut, the steps in order, the tables."""

    title: str
    cut: str
    steps: tuple[str, ...]
    points: Table
    lines: Table
    tables: tuple[Table, ...]


def hand_sheet(hand: HandPanel, pattern: Pattern) -> HandSheet:
    """Return the words and tables for one panel of a pattern."""
    panel = hand.panel
    tables = (
        cutting_table(hand),
        notches_table(hand),
        seams_table(hand, pattern),
        holes_table(hand),
        grid_table(hand, across=True),
        grid_table(hand, across=False),
    )
    return HandSheet(
        title=f"{panel.label} · {panel.name}",
        cut=" · ".join((*phrases.cutting(panel), half_of(panel, pattern))),
        steps=tuple(_steps(hand, pattern)),
        points=points_table(hand),
        lines=lines_table(hand),
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
        "On each piece two lines are ruled first: the upright, which runs as the grain does, and square to it the base line. A point is "
        "told by how far it is to the right of the upright, and how far up or down from the base line.",
        "A curve is told by the straight line between its ends, the chord. Rule it faintly. Measure along it from the point "
        "named first; there set off, square to it, as much as is told: outward is away from the piece, inward is into it. Hold the "
        "lath at these points and draw along it.",
        "What you draw is the stitch line. The column “beyond” says what is added outside each edge when the outline is right. "
        "How it ends at the corners is told by the corners of the cutting line, in a table of their own; where it runs on beyond the end of an edge, carry that "
        "edge on straight."
        + (" Where it says 19/32, the printed sheets round that to 5/8: either will do." if rule.units == "in" else ""),
        "The lengths along curves are a check, for a tape on its edge. Each length is rounded by itself, so two parts may differ "
        "from their whole by the last fraction.",
        f"Or draw by the grid: on paper ruled in squares of {squares} mark where the outline crosses each line, by the last "
        "tables of each sheet, and join the marks.",
        f"{_first_up(telling(pattern).half)}. Match each drawn seam against its mate with the tape before you cut.",
    )


NO_NEED = (
    "The pieces above are complete without this. It is for whoever wants to see the block that they were cut from, or to draw it "
    "anew for a garment of their own."
)
"""What is said before the block."""


def _first_up(says: str) -> str:
    return says[:1].upper() + says[1:]


def pieces_table(hands: Sequence[HandPanel]) -> Table:
    """Return the list of all pieces with the paper each needs."""
    rows = tuple(
        (
            hand.panel.label,
            hand.panel.name,
            " by ".join(say(side, hand.rule) for side in paper_mm(hand)[:2]),
            "; ".join(phrases.cutting(hand.panel)),
        )
        for hand in hands
    )
    return Table("The pieces", ("piece", "name", "paper, wide by high", "cut"), rows, wide=3)


def paper_mm(hand: HandPanel) -> tuple[float, float, float, float]:
    """Return how wide and high paper for a piece is at least, and where its upright and its base line are ruled on it: from
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
        f"base line {from_low} from its lower edge: {level}."
    )
    yield f"Mark the points 1 to {len(hand.points)}: up or down the upright, then square out to the right."
    checks = "; ".join(f"{one.first} to {one.last}, {say(one.length_mm, rule)}" for one in hand.diagonals)
    yield f"Check with a ruler, straight across: {checks}. If it is more than a pencil line out, a point is wrong."
    yield "Rule the straight lines. Draw each curve from its chord."
    yield from _marking(hand)
    if hand.cutting:
        yield (
            f"Mark the corners of the cutting line, c1 to c{len(hand.cutting)}, as the points were marked, and draw it from "
            "corner to corner by its table: beside a curve, set off the width square to the stitch line every thumb's width."
        )
    else:
        yield "Nothing is added: the stitch line is the cutting line."
    toward = "" if panel.added else f"{telling(pattern).toward} at the {'right' if panel.side == RIGHT else 'left'}; "
    words = (
        f"{panel.label} {panel.name}; {'; '.join(phrases.cutting(panel))}; TOP; {toward}{phrases.stamp(pattern.title)}"
    )
    letters = "".join(f"; {edge.letter} at both ends of {edge.name}" for edge in panel.edges if edge.letter)
    yield f"Write on it: {words}{letters}."


def _marking(hand: HandPanel) -> Iterator[str]:
    """What is marked within the outline: notches, channels, the grain line, the fold."""
    panel, rule = hand.panel, hand.rule
    if hand.notches:
        yield "Measure the notches along the edge, the tape on its edge. A waist bar crosses the seam, ticks stand square to it."
    if any(channel.number for channel in panel.channels):
        yield "Write each channel's number at its upper end; they count from the front side of this piece, 1 first."
    fold = f"The {phrases.prose(panel.fold)} lies on the fold." if panel.fold else ""
    for line in (one for one in hand.inner if one.kind == GRAIN):
        foot, top = hand.point(line.first), hand.point(line.last)
        yield " ".join(
            text
            for text in (
                f"Draw the grain line, an arrow from point {foot.number} up to point {top.number}: {across(foot.x_mm, rule)} "
                f"{_beside(foot.x_mm)}the upright, from {up(foot.y_mm, rule)} to {up(top.y_mm, rule)}. The cloth plan "
                "measures from its foot and its top.",
                fold,
            )
            if text
        )
    if fold and panel.grain is None:
        yield fold


def _beside(x_mm: float) -> str:
    """How the words go on behind a length that is told right or left."""
    return "of " if x_mm < 0.0 else "right of "
