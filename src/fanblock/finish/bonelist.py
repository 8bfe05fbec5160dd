"""The lists a maker buys and cuts by: bones piece by piece, bones by kind, eyelets and lace. All for the whole garment."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from fanblock.finish.eyeleting import LEVEL_MM, TAILS_MM
from fanblock.pattern.bones import BONE, BUSK, Bone, Channel, Lacing
from fanblock.pattern.model import Panel, Pattern
from fanblock.tolerances import TOUCH_MM
from fanblock.units import UNITS

CUT_STEP_MM = {"in": UNITS["in"] / 4.0}
"""Bones are cut to a quarter of an inch by those who measure so, by others to half a centimetre."""

CUT_STEP_ELSE_MM = 5.0

WASTE_RATIO = 0.05
"""What is added to a length of bone for cutting: 5 % (common practice)."""

ONE_SPARE_IN, FEWEST_SPARES = 20, 2
"""One bone in twenty breaks or is cut wrong, and no set goes without two to spare (from memory)."""

STEEL = ("flat steel", "spiral steel")
"""Bones whose ends are tipped; others are rounded and smoothed."""


@dataclass(frozen=True, slots=True)
class BoneRow:
    """Bones of one kind and length on a piece: the numbers of their channels, or the name of one without a number.

    ``channel_mm`` is the shortest of their channels, ``cut_mm`` what they are cut to, ``pieces`` how many in all, ``label``
    the piece's number as it is printed.
    """

    number: int
    panel: str
    channels: tuple[int, ...]
    name: str
    bone: Bone
    channel_mm: float
    cut_mm: float
    pieces: int
    label: str


@dataclass(frozen=True, slots=True)
class BoneTotal:
    """All bones of one kind: how many, the length to buy with spares and waste, how many to spare of which length, and tips."""

    bone: Bone
    pieces: int
    length_mm: float
    spares: int
    longest_mm: float
    tips: int


def cut_mm(channel_mm: float, units: str) -> float:
    """Return what a bone for a channel is cut to: rounded down to half a centimetre, or to a quarter of an inch.

    >>> cut_mm(187.4, "cm"), round(cut_mm(187.4, "in"), 2)
    (185.0, 184.15)
    """
    step = CUT_STEP_MM.get(units, CUT_STEP_ELSE_MM)
    return math.floor((channel_mm + TOUCH_MM) / step) * step


def bone_rows(pattern: Pattern) -> tuple[BoneRow, ...]:
    """Return the cut list of bones, piece by piece from the front; curved bones that cross several stand with the first."""
    rows: list[BoneRow] = []
    seen: set[str] = set()
    for panel in sorted(pattern.panels, key=lambda panel: panel.number):
        rows += _straight(panel, pattern.body.units)
        for channel in panel.channels:
            name = channel.name if channel.at_center or channel.kind == BUSK else f"{channel.name} {panel.side}"
            if channel.kind != BONE and not {channel.name, name} & seen:
                seen.add(name)
                rows.append(_named(pattern, panel, channel))
    return tuple(rows)


def bone_totals(pattern: Pattern) -> tuple[BoneTotal, ...]:
    """Return the bones by kind, the most numerous first."""
    rows = bone_rows(pattern)
    found = []
    for bone in dict.fromkeys(row.bone for row in rows):
        some = [row for row in rows if row.bone == bone]
        pieces = sum(row.pieces for row in some)
        alone = all(row.name == "busk" for row in some)
        spares = 0 if alone else max(math.ceil(pieces / ONE_SPARE_IN), FEWEST_SPARES)
        longest = max(row.cut_mm for row in some)
        length = sum(row.pieces * row.cut_mm for row in some) + spares * longest
        length *= 1.0 if alone else 1.0 + WASTE_RATIO
        tips = 2 * pieces if bone.material in STEEL else 0
        found.append(BoneTotal(bone, pieces, length, spares, longest, tips))
    return tuple(sorted(found, key=lambda total: (-total.pieces, total.bone.width_mm)))


def eyelet_count(lacing: Lacing) -> int:
    """Return how many eyelets an opening has in the whole garment."""
    return lacing.times * (len(lacing.left_mm) + len(lacing.right_mm))


def lace_mm(lacing: Lacing) -> float:
    """Return how long the lace of an opening is with its tails."""
    return lacing.lace_mm + TAILS_MM


def is_level(lacing: Lacing) -> bool:
    """Return whether the first holes of both halves stand at one height, and the last ones too."""
    pairs = ((lacing.left_mm[0], lacing.right_mm[0]), (lacing.left_mm[-1], lacing.right_mm[-1]))
    return all(abs(left - right) < LEVEL_MM for left, right in pairs)


def _straight(panel: Panel, units: str) -> Iterator[BoneRow]:
    """The numbered bones of a piece, those of one kind and length in one row."""
    rows: dict[tuple[Bone, float], list[Channel]] = {}
    for channel in panel.channels:
        if channel.kind == BONE:
            rows.setdefault((channel.bone, cut_mm(channel.line.length_mm, units)), []).append(channel)
    each = 1 if panel.single else 2
    for (bone, length), some in sorted(rows.items(), key=lambda row: row[1][0].number):
        numbers = tuple(channel.number for channel in some)
        shortest = min(channel.line.length_mm for channel in some)
        yield BoneRow(panel.number, panel.name, numbers, "", bone, shortest, length, each * len(some), panel.label)


def _named(pattern: Pattern, panel: Panel, channel: Channel) -> BoneRow:
    """A curved bone with all its parts, in one with its mirror image where it crosses the centre, or a busk."""
    named = [(other.side, one) for other in pattern.panels for one in other.channels if one.name == channel.name]
    once = channel.kind != BONE and any(one.at_center for _, one in named)
    crossing = once and channel.kind != BUSK
    sides = {""} | ({side for side, _ in named} if crossing else {panel.side})
    length = sum(one.line.length_mm for side, one in named if side in sides)
    if channel.kind == BUSK and pattern.halves:  # on a piece of both halves each has drawn its own half of the pocket
        length = channel.line.length_mm
    length *= 2.0 if crossing and not pattern.halves else 1.0
    pieces = 1 if once or panel.single else 2
    cut = cut_mm(length, pattern.body.units)
    return BoneRow(panel.number, panel.name, (), channel.name, channel.bone, length, cut, pieces, panel.label)
