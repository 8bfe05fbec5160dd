"""The order of panels: from front to back, those one above another from the top down."""

from __future__ import annotations

import numpy as np

from fanblock.draft.model import AROUND, HEIGHT
from fanblock.draft.slicing import Loop, inside_at
from fanblock.geometry.curve import Points

LEVELS = 24
"""At how many heights panels are compared."""


def front_to_back(loops: tuple[Loop, ...], *, crossed: bool) -> tuple[Loop, ...]:
    """Return loops so that, at every height, one that lies in front of another comes before it.

    Among those that nothing keeps waiting the one nearest to the front comes first, and of equals the highest.
    ``crossed`` tells that some seam ends on another or on a centre line; else the loops stand simply side by side.
    """
    points = [np.vstack([side.points for side in loop]) for loop in loops]
    if not crossed:
        return tuple(loops[number] for number in sorted(range(len(loops)), key=lambda number: _middle(points[number])))
    waits_for = _in_front(loops, points)
    waiting, ordered = sorted(range(len(loops)), key=lambda number: _place(points[number])), []
    while waiting:
        free = [number for number in waiting if not waits_for[number] & set(waiting)]
        ordered.append((free or waiting)[0])
        waiting.remove(ordered[-1])
    return tuple(loops[number] for number in ordered)


def _middle(points: Points) -> float:
    return float(points[:, AROUND].min() + points[:, AROUND].max())


def _place(points: Points) -> tuple[float, float]:
    return float(points[:, AROUND].min()), -float(points[:, HEIGHT].mean())


def _in_front(loops: tuple[Loop, ...], points: list[Points]) -> list[set[int]]:
    """Return for each loop the numbers of those that lie in front of it at some height."""
    every = np.vstack(points)[:, HEIGHT]
    found: list[set[int]] = [set() for _ in loops]
    for height in np.linspace(every.min(), every.max(), LEVELS + 2)[1:-1].tolist():
        inside = [inside_at(loop, height) for loop in loops]
        starts = sorted((stretches[0][0], number) for number, stretches in enumerate(inside) if stretches)
        for place, (_, number) in enumerate(starts):
            found[number].update(other for _, other in starts[:place])
    return found
