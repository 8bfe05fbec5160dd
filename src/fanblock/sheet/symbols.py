"""The key to the lines and marks on a piece."""

from __future__ import annotations

from collections.abc import Container

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import frozen
from fanblock.pattern.model import FOLD, MARK_KINDS, Pattern
from fanblock.sheet import boning
from fanblock.sheet.drawing import Stroke, Words
from fanblock.sheet.setting import Items, paragraph
from fanblock.sheet.squares import line

_ROW_MM, _SAMPLE_MM, _SIZE_MM = 6.2, 22.0, 3.2
_SHORT_MM = 6.0
"""Length of a sample that is short on the pieces too."""

ROWS = (
    ("cut", "cut here; where nothing lies outside the stitch line it is the stitch line too"),
    ("stitch", "stitch here"),
    ("fold", "lay on the fold of the cloth"),
    ("slit", "slit up to the bar, and reinforce there"),
    ("waist", "waist: a long bar across the seam, the same on every seam"),
    ("notch", "seam notch: as many ticks as the seam's place from the front; thread-mark, do not snip"),
    ("level", "waist or bust level"),
    ("crease", "fold here; the words beside it say which way"),
    ("place", "another piece or edge lies here, or what the words beside it name"),
    ("dart", "stitch a dart along this line"),
    ("gather", "gather along this line"),
    ("tuck", "take up a tuck here: lay the two lines on each other"),
    ("fastening", "a button, hook, tie or loop sits here"),
    ("channel", "stitch both lines: a channel for a bone, numbered from the front side"),
    ("eyelet", "eyelet: a ring in the half that is drawn, a cross in the other, both where they are level"),
    ("own eyelet", "eyelet, numbered from the top"),
    ("grain", "straight grain, along the warp"),
    ("letter", "seam letter: join like to like"),
)


def used_in(pattern: Pattern) -> frozenset[str]:
    """Return which kinds of line and mark the pieces of a pattern carry."""
    panels = pattern.panels
    kinds = {notch.kind for panel in panels for notch in panel.notches}
    found = {
        "cut": True,
        "stitch": True,
        "fold": any(panel.fold or any(edge.kind == FOLD for edge in panel.edges) for panel in panels),
        "slit": any(panel.slits for panel in panels),
        "waist": "waist" in kinds,
        "notch": "seam" in kinds,
        "level": any(panel.levels for panel in panels),
        "channel": any(panel.channels for panel in panels),
        "eyelet": any(panel.eyelets and not panel.side for panel in panels),
        "own eyelet": any(panel.eyelets and panel.side for panel in panels),
        "grain": any(panel.grain is not None for panel in panels),
        **{kind: any(mark.kind == kind for panel in panels for mark in panel.marks) for kind in MARK_KINDS},
        "letter": any(edge.letter for panel in panels for edge in panel.edges),
    }
    return frozenset(kind for kind, used in found.items() if used)


def symbols(left: float, top: float, width_mm: float, used: Container[str]) -> tuple[Items, float]:
    """Return the key to the ``used`` kinds of line and mark, its samples at the left, and where it ends."""
    items: Items = []
    for kind, says in ROWS:
        if kind not in used:
            continue
        middle = top - 0.5 * _ROW_MM
        items += _sample(kind, left, middle)
        more, low = paragraph(
            says, left + _SAMPLE_MM + 3.0, middle + 0.5 * _SIZE_MM, width_mm - _SAMPLE_MM - 3.0, _SIZE_MM
        )
        items += more
        top = min(top - _ROW_MM, low)
    return items, top


def _sample(kind: str, left: float, y: float) -> list[Stroke | Words]:
    right, middle = left + _SAMPLE_MM, left + 0.5 * _SAMPLE_MM
    if kind == "slit":
        return [
            line([(left, y), (right - 6.0, y)], "slit"),
            line([(right - 6.0, y - 2.2), (right - 6.0, y + 2.2)], "mark"),
        ]
    if kind == "waist":
        return [line([(left, y), (right, y)], "mark"), line([(middle, y - 2.6), (middle, y + 2.6)], "stitch")]
    if kind == "notch":
        ticks = [line([(middle + 2.6 * at, y - 1.5), (middle + 2.6 * at, y + 2.2)], "mark") for at in (-1, 0, 1)]
        return [line([(left, y - 1.5), (right, y - 1.5)], "stitch"), *ticks]
    if kind == "fastening":
        return [line([(middle - 0.5 * _SHORT_MM, y), (middle + 0.5 * _SHORT_MM, y)], kind)]
    if kind == "grain":
        heads = [
            Stroke(
                polyline(frozen([[tip, y], [tip + way * 4.0, y + 1.3], [tip + way * 4.0, y - 1.3]]), True),
                "ink",
                "",
                True,
            )
            for tip, way in ((left, 1.0), (right, -1.0))
        ]
        return [line([(left, y), (right, y)], "grain"), *heads]
    if kind == "channel":
        return [line([(left, y + 1.5), (right, y + 1.5)], kind), line([(left, y - 1.5), (right, y - 1.5)], kind)]
    if kind == "eyelet":
        both = (middle - 6.0, middle + 6.0)
        rings = [boning.ring(frozen([x, y]), 1.5) for x in (both[0], middle)]
        return [*rings, *(arm for x in (middle, both[1]) for arm in boning.cross(frozen([x, y]), 1.5))]
    if kind == "own eyelet":
        return [boning.ring(frozen([middle, y]), 1.5)]
    if kind == "letter":
        return [Words("A", middle, y - 1.6, 4.6, "middle", bold=True)]
    return [line([(left, y), (right, y)], kind)]
