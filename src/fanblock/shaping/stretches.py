"""Stretches of a level: what darts and slits take out of the cloth there."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from fanblock.draft.darts import DartTake
from fanblock.draft.model import Draft
from fanblock.pattern.model import Panel
from fanblock.tolerances import SAME_POINT_MM

Stretch = tuple[float, float]
"""From one around to a greater one."""


def darts_on(panel: Panel, takes: Iterable[DartTake]) -> list[DartTake]:
    """Return those of a draft's darts that lie on a panel."""
    names = {mark.name for mark in panel.marks if mark.kind == "dart"}
    return [take for take in takes if take.dart.name in names]


def dart_stretches(draft: Draft, takes: Iterable[DartTake], height: float) -> list[Stretch]:
    """Return what darts fold away at a height, as stretches of around; beyond its mouth a dart is carried on."""
    found = []
    for take in takes:
        half = float(take(height)) / 2.0
        if half > SAME_POINT_MM:
            middle = float(take.dart.around_of(np.array([height]))[0])
            found.append((draft.block.along(middle, height, -half), draft.block.along(middle, height, half)))
    return found


def without(stretches: list[Stretch], gone: Iterable[Stretch]) -> list[Stretch]:
    """Return what is left of stretches where others are taken away.

    >>> without([(0.0, 0.5)], [(0.1, 0.2)])
    [(0.0, 0.1), (0.2, 0.5)]
    """
    for first, last in gone:
        left = []
        for start, end in stretches:
            left += [(start, min(end, first)), (max(start, last), end)]
        stretches = [(start, end) for start, end in left if end > start]
    return stretches
