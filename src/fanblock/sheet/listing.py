"""The lists of bones, lace, eyelets and binding, in words: for the report and for the printed pages."""

from __future__ import annotations

import string
from collections.abc import Iterator, Sequence

from fanblock.finish.binding import bound
from fanblock.finish.bonelist import (
    BoneRow,
    bone_rows,
    bone_totals,
    eyelet_count,
    lace_mm,
)
from fanblock.pattern.bones import SPIRAL, Bone, Lacing
from fanblock.pattern.model import Pattern
from fanblock.sheet import phrases
from fanblock.sheet.channelwords import unboned
from fanblock.sheet.lacingup import first_row, lacing_words, rows_of
from fanblock.units import EIGHTHS, UNITS, fine_length, format_length, retold, sold_length

Rows = list[tuple[str, ...]]

BONE_HEADS = ("piece", "channels", "bone", "cut to", "in all")
HOLE = "hole"
"""What heads the numbers of a lacing's holes."""

BINDING_HEADS = ("bound", "length", "to buy")


def is_listed(pattern: Pattern) -> bool:
    """Return whether there is anything to list: bones, eyelets or binding."""
    boned = any(panel.channels for panel in pattern.panels)
    return boned or bool(pattern.lacings) or pattern.binding is not None


def bone_table(pattern: Pattern) -> Rows:
    """Return the cut list of bones, a row for each piece, kind and length; kinds are told by a letter."""
    units = pattern.body.units
    letters = _letters(pattern)
    return [
        (
            f"{row.label} {row.panel}",
            _channels(row),
            letters[row.bone],
            format_length(row.cut_mm, units),
            str(row.pieces),
        )
        for row in bone_rows(pattern)
    ]


def _letters(pattern: Pattern) -> dict[Bone, str]:
    """A letter for every kind of bone, the most numerous first."""
    return dict(zip((total.bone for total in bone_totals(pattern)), string.ascii_lowercase, strict=False))


def _channels(row: BoneRow) -> str:
    """The numbers of some channels, those in a row written short; or a name."""
    if row.name:
        return {"busk": "busk"}.get(row.name, row.name.replace("shaping", "curved bone"))
    runs: list[list[int]] = []
    for number in row.channels:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}-{run[-1]}" for run in runs)


def bone_words(bone: Bone) -> str:
    """Return a kind of bone in words, in millimetres, as bones are sold."""
    return f"{_mm(bone.width_mm)} × {_mm(bone.thickness_mm)} mm {bone.material}"


def _mm(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def bone_sentences(pattern: Pattern) -> Iterator[str]:
    """Yield what to buy of each kind of bone, and how they are cut and put in."""
    units = pattern.body.units
    letters = _letters(pattern)
    busks = {row.bone for row in bone_rows(pattern) if row.name == "busk"}
    for total in bone_totals(pattern):
        what = f"{'Busk' if total.bone in busks else 'Bone'} {letters[total.bone]}, {bone_words(total.bone)}"
        words = f"{what}: {sold_length(total.length_mm, units)} in all, for {total.pieces if total.pieces > 1 else 'one'}{' of them' * (total.pieces > 1)}"
        if total.spares:
            longest = format_length(total.longest_mm, units)
            words += f", {total.spares} of {longest} to spare, and 5 % of waste"
        yield words + (f"; {total.tips} tips." if total.tips else ".")
    if any(panel.channels for panel in pattern.panels):
        step = "1/4 in" if units == "in" else "half a centimetre"
        yield (
            f"Lengths are those of the channels, rounded down to {step}. Channels are numbered on each piece from its front "
            "side. Round the ends of every bone and smooth them, or tip them."
        )
    for panel, off_mm in unboned(pattern):
        yield (
            f"The lowest bone of piece {panel.number} ({panel.name}) ends {format_length(off_mm, units)} above the lower edge, and is "
            "meant to: below it the piece is too narrow for a channel beside its seam."
        )
    yield from (note.says for note in pattern.notes if note.kind == "bones")


def lace_table(lacing: Lacing, units: str) -> Rows:
    """Return how far down its edge every hole is, in both rows."""
    return [
        (str(number), fine_length(left, units), fine_length(right, units))
        for number, (left, right) in enumerate(zip(lacing.left_mm, lacing.right_mm, strict=True), start=1)
    ]


def lace_sentences(lacing: Lacing, units: str) -> Iterator[str]:
    """Yield how an opening is laced and how long its lace is."""
    count, each = eyelet_count(lacing), len(lacing.left_mm)
    first, second = rows_of(lacing)
    from_edge = phrases.short_length(lacing.from_edge_mm, units)
    spacing = fine_length(lacing.spacing_mm, units)
    yield (
        f"{count} eyelets in all, {each} {'on each edge' if lacing.across else 'on either half'}, {from_edge} from the "
        f"{lacing.edge} and {spacing} apart. Distances are measured down the edge from its top."
    )
    if lacing.way == SPIRAL:
        stepped, other = (second, first) if first_row(lacing) else (first, second)
        yield (
            f"For a spiral lace: on the {stepped} the second hole is only half a space down, on the {other} the last one, so "
            "that the edges close level above and below."
        )
    else:
        yield "For crossed lacing: the holes stand in level pairs."
    gap = f"a gap of {format_length(lacing.gap_mm, units)}" if lacing.gap_mm else "edges that meet"
    many = f"{lacing.times} of " if lacing.times > 1 else ""
    sold = retold("laces are sold in 2.5 to 3 m (2 3/4 to 3 1/4 yd)", units)
    yield (
        f"Lace: {many}{sold_length(lace_mm(lacing), units)}, with its tails, for {gap}. Take more if you want to loosen it "
        f"for dressing without drawing it out: {sold}."
    )


def binding_table(pattern: Pattern) -> Rows:
    """Return how much binding there is in all and what to buy, then how much of it each kind of edge takes."""
    units = pattern.body.units
    parts = [(one.name, _shown_mm(one.length_mm, units)) for one in bound(pattern)]
    whole = sum(mm for _, mm in parts)
    buy = sold_length((1.0 + JOINS_RATIO) * whole, units)
    if len(parts) == 1:
        return [(parts[0][0], format_length(whole, units), buy)]
    return [
        ("all", format_length(whole, units), buy),
        *((f"of it: {name}", format_length(mm, units), "–") for name, mm in parts),
    ]


def _shown_mm(mm: float, units: str) -> float:
    """A length as it is printed, in mm, so that a sum is that of the numbers beside it."""
    step = UNITS["in"] / EIGHTHS if units == "in" else UNITS[units] / 10.0
    return round(mm / step) * step


JOINS_RATIO = 0.05
"""What binding takes more than the edge is long, for joins and turned ends (from memory)."""


def binding_sentences(pattern: Pattern) -> Iterator[str]:
    """Yield what the edges are bound with and how."""
    binding = pattern.binding
    if binding is None:
        return
    slits = any(panel.slits for panel in pattern.panels)
    width = phrases.short_length(binding.width_mm, pattern.body.units)
    both = " Both sides of every slit are counted." if slits else ""
    yield f"{binding.material[:1].upper()}{binding.material[1:]}, {width} wide before it is folded over the edge.{both}"


def tables(pattern: Pattern) -> Iterator[tuple[str, Sequence[str], Rows, tuple[str, ...]]]:
    """Yield every list of a pattern: its heading, the heads of its columns, its rows, and the sentences below it."""
    rows = bone_table(pattern)
    units = pattern.body.units
    says = tuple(bone_sentences(pattern))
    if rows or says:
        yield "Bones", BONE_HEADS, rows, says
    for lacing in pattern.lacings:
        head = f"Eyelets and lace: {lacing.edge}{f', {lacing.side} side' if lacing.side else ''}"
        yield (
            head,
            (HOLE, *rows_of(lacing)),
            lace_table(lacing, units),
            (*lace_sentences(lacing, units), *lacing_words(pattern, lacing)),
        )
    if pattern.binding is not None:
        yield "Binding", BINDING_HEADS, binding_table(pattern), tuple(binding_sentences(pattern))
