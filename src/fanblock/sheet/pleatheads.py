"""How the head of pleats that are let into a seam looks when it is done: from outside, and from inside."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import frozen
from fanblock.sheet.drawing import Group, Stroke, Words
from fanblock.sheet.upright import moved_group

WIDE_MM, HIGH_MM, APART_MM, OVER_MM = 66.0, 34.0, 18.0, 8.0
"""Size of one picture with its words, and the room between the two beside and over each other."""

_CLOTH_MM, _HEAD_MM, _FOOT_MM = 40.0, 20.0, 5.0
"""Width of the cloth that is shown, how high over the foot of the picture the heads lie, and room for the words under it."""

_BOX_MM, _ALLOWANCE_MM, _STITCH_MM, _SIZE_MM = 13.0, 4.0, 1.6, 2.6
"""Half the width of the box inside; of an allowance; length of a whip stitch; size of the words."""

OUTSIDE, INSIDE = "outside: two folds meet", "inside: heads whipped to the allowance"


def heads_pictured(name: str, *, stacked: bool = False) -> tuple[Group, float]:
    """Return the two pictures, their foot at nothing, and how tall they are; ``name`` is the group's.

    They stand side by side, or ``stacked`` the first over the second.
    """
    if not stacked:
        return Group(name, (*_outside(0.0), *_inside(WIDE_MM + APART_MM))), HIGH_MM
    lift = HIGH_MM + OVER_MM
    upper = moved_group(Group(name, tuple(_outside(0.0))), (0.0, lift))
    return Group(name, (*upper.items, *_inside(0.0))), lift + HIGH_MM


def _outside(left: float) -> Iterator[Stroke | Words]:
    middle = left + 0.5 * _CLOTH_MM
    yield from _cloth(left)
    yield _line([(middle, _HEAD_MM), (middle, HIGH_MM)], "stitch", "seam")
    for side in (-0.25, 0.25):
        yield _line([(middle + side, _FOOT_MM), (middle + side, _HEAD_MM)], "mark", "fold")
    yield Words("seam", middle + 1.5, HIGH_MM - 4.0, _SIZE_MM)
    yield Words("folds", middle + 1.5, _FOOT_MM + 5.0, _SIZE_MM)
    yield Words(OUTSIDE, left, 1.0, _SIZE_MM, bold=True)


def _inside(left: float) -> Iterator[Stroke | Words]:
    middle = left + 0.5 * _CLOTH_MM
    yield from _cloth(left)
    yield _line([(middle, _HEAD_MM), (middle, HIGH_MM)], "stitch", "seam")
    for side in (-_ALLOWANCE_MM, _ALLOWANCE_MM):
        yield _line([(middle + side, _HEAD_MM - 1.0), (middle + side, HIGH_MM)], "guide", "allowance")
    low, high = _FOOT_MM, _HEAD_MM
    box = [(middle - _BOX_MM, low), (middle - _BOX_MM, high), (middle + _BOX_MM, high), (middle + _BOX_MM, low)]
    yield _line(box, "mark", "box")
    yield _line([(middle, low), (middle, high)], "stitch", "skirt seam")
    for at in np.arange(-_ALLOWANCE_MM, _ALLOWANCE_MM + 0.1, _STITCH_MM):
        x = middle + float(at)
        yield _line([(x - 0.4, high - 0.8), (x + 0.4, high + 0.8)], "mark", "whip stitch")
    beside = middle + _BOX_MM + 2.0
    yield Words("allowance", middle + _ALLOWANCE_MM + 1.2, HIGH_MM - 4.0, _SIZE_MM)
    yield Words("turned-in head", beside + 6.0, high - 0.9, _SIZE_MM)
    yield Words("seam of the skirts", beside + 6.0, low + 5.0, _SIZE_MM)
    yield _line([(middle + 0.5, low + 6.0), (beside + 5.0, low + 6.0)], "guide", "leader")
    yield Words("box", middle - 0.5 * _BOX_MM, low + 5.0, _SIZE_MM, "middle")
    yield Words(INSIDE, left, 1.0, _SIZE_MM, bold=True)


def _cloth(left: float) -> Iterator[Stroke]:
    right = left + _CLOTH_MM
    corners = [(left, _FOOT_MM), (right, _FOOT_MM), (right, HIGH_MM), (left, HIGH_MM)]
    yield Stroke(polyline(frozen(corners), closed=True), "map", "cloth", True)


def _line(points: list[tuple[float, float]], pen: str, name: str) -> Stroke:
    return Stroke(polyline(frozen(points)), pen, name)
