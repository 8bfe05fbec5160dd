"""Two drafts of one garment side by side: what moved, in numbers and in a picture, the old one dashed under the new."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fanblock.fitting.numbers import has_moved, moved_alike
from fanblock.fitting.seen import SeenDraft, SeenPiece
from fanblock.fitting.state import told_length
from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.region import thinned
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.phrases import prose
from fanblock.sheet.upright import moved_group
from fanblock.tolerances import BEZIER_MM
from fanblock.units import UNITS, format_length
from fanblock.wearer.model import HALVES

WIDE_MM = 700.0
"""Width of the picture, in millimetres of cloth: pieces go on in a second row beyond it."""

_GAP_MM, _TEXT_MM, _HEAD_MM = 24.0, 9.0, 14.0


def rows(old: SeenDraft, new: SeenDraft) -> tuple[tuple[str, str, str, str], ...]:
    """Return every number that moved: what it is, what it was, what it is now, and by how much."""
    return tuple(_rows(old, new))


def _rows(old: SeenDraft, new: SeenDraft) -> Iterator[tuple[str, str, str, str]]:
    units = new.units
    for name in (name for name in new.numbers if name in old.numbers):
        yield from _row(name, old.numbers[name], new.numbers[name], units)
    for name in (name for name in new.halves if name in old.halves):
        if not moved_alike(old.halves[name], new.halves[name]):
            for half, before_mm, now_mm in zip(HALVES, old.halves[name], new.halves[name], strict=True):
                yield from _row(f"{half} half, {name}", before_mm, now_mm, units)
    for name, piece in new.pieces.items():
        before = old.pieces.get(name)
        if before is None:
            yield name, "was not there", "is new", ""
            continue
        for edge in (edge for edge in piece.edges if edge in before.edges):
            yield from _row(f"{name}, {edge}", before.edges[edge], piece.edges[edge], units)
        if abs(piece.area_mm2 - before.area_mm2) > 100.0:
            was, is_now = (_area(mm2, units) for mm2 in (before.area_mm2, piece.area_mm2))
            if was != is_now:
                yield prose(f"{name}, area"), was, is_now, ""
    for name in (name for name in old.pieces if name not in new.pieces):
        yield name, "was there", "is gone", ""


def _area(mm2: float, units: str) -> str:
    """An area in square inches for who measures in them, else in square centimetres."""
    unit = "in" if units == "in" else "cm"
    return f"{mm2 / UNITS[unit] ** 2:.0f} {unit}²"


def _row(name: str, before: float, after: float, units: str) -> Iterator[tuple[str, str, str, str]]:
    if has_moved(before, after):
        sign = "+" if after > before else "-"
        yield (
            prose(name),
            format_length(before, units),
            format_length(after, units),
            f"{sign}{told_length(abs(after - before), units)}",
        )


def overlaid(old: SeenDraft, new: SeenDraft) -> Drawing:
    """Return the pieces of both drafts, each new one upright on its old one: waist on waist, front edge on front edge."""
    groups, x, y, deep = [], 0.0, 0.0, 0.0
    for piece in sorted(new.pieces.values(), key=lambda piece: piece.number):
        before = old.pieces.get(piece.name)
        ring = _upright(piece)
        rings = [ring] if before is None else [ring, _laid(before, piece)]
        low, high = np.vstack(rings).min(axis=0), np.vstack(rings).max(axis=0)
        wide, tall = (high - low).tolist()
        if x and x + wide > WIDE_MM:
            x, y, deep = 0.0, y + deep + _GAP_MM, 0.0
        shift = np.array([x - low[0], -y - high[1]])
        groups.append(
            Group(f"{piece.number} {piece.name}", tuple(_piece(piece, [one + shift for one in rings], x, -y - tall)))
        )
        x, deep = x + wide + _GAP_MM, max(deep, tall + 2.0 * _TEXT_MM)
    return _framed(groups, old, new, y + deep)


def _piece(piece: SeenPiece, rings: list[Points], x: float, low: float) -> Iterator[Stroke | Words]:
    kinds = (("stitch", "before"), ("slit", "now"))[2 - len(rings) :]
    for ring, (pen, name) in zip(rings[::-1], kinds, strict=True):
        yield Stroke(polyline(thinned(np.vstack((ring, ring[:1])), BEZIER_MM)), pen, name, True)
    yield Words(f"{piece.number} {piece.name}", x, low - 1.2 * _TEXT_MM, _TEXT_MM, bold=True)


def _framed(groups: list[Group], old: SeenDraft, new: SeenDraft, deep: float) -> Drawing:
    """The groups on a sheet with a heading."""
    height = deep + 4.0 * _HEAD_MM
    moved = tuple(moved_group(group, (10.0, deep + 10.0)) for group in groups)
    head = (
        Words(f"now (full line): {new.title}", 10.0, height - 1.4 * _HEAD_MM, _TEXT_MM, bold=True),
        Words(f"before (dashed): {old.title}", 10.0, height - 2.4 * _HEAD_MM, _TEXT_MM),
    )
    return Drawing("two drafts compared", WIDE_MM + 20.0, height, (Group("heading", head), *moved))


def _upright(piece: SeenPiece) -> Points:
    return _turned(piece.ring, _up(piece))


def _up(piece: SeenPiece) -> Points:
    along = piece.grain[1] - piece.grain[0]
    return np.asarray(along / np.hypot(*along))


def _turned(points: Points, up: Points) -> Points:
    """Points turned so that ``up`` points up."""
    x, y = up
    return frozen(points @ np.array([[y, -x], [x, y]]).T)


def _laid(old: SeenPiece, new: SeenPiece) -> Points:
    """The old piece where it lies on the new one, which stands upright."""
    if not (len(old.waist) and len(new.waist)):
        ring, over = _upright(old), _upright(new)
        return frozen(ring + (over.min(axis=0) - ring.min(axis=0)))
    ends = _turned(new.waist, _up(new))
    mine, due = old.waist[-1] - old.waist[0], ends[-1] - ends[0]
    turn = np.angle(complex(*due) / complex(*mine))
    matrix = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    return frozen((old.ring - old.waist[0]) @ matrix.T + ends[0])
