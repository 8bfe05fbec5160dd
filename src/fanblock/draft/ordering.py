"""The order of panels and of seams: from front to back, those one above another from the top down."""

from __future__ import annotations

import numpy as np

from fanblock.draft.mates import MatePair, Part
from fanblock.draft.model import AROUND, HEIGHT, Draft
from fanblock.draft.slicing import Loop, inside_at
from fanblock.geometry.curve import Points

LEVELS = 24
"""At how many heights panels are compared."""

OVERLAP = 0.02
"""How much, in around, two panels share of a level seam when one hangs from the other; takes let neighbours lap by less."""

ON_IT = 0.03
"""How near to a level seam, as a share of bust to waist, the upper end of a seam stands on it."""


def front_to_back(loops: tuple[Loop, ...], *, crossed: bool) -> tuple[Loop, ...]:
    """Return loops so that, at every height, one that lies in front of another comes before it, and one before what hangs
    from it at a level seam.

    Among those that nothing keeps waiting the one nearest to the front comes first, and of equals the highest.
    ``crossed`` tells that some seam ends on another or on a centre line; else the loops stand simply side by side.
    """
    points = [np.vstack([side.points for side in loop]) for loop in loops]
    if not crossed:
        return tuple(loops[number] for number in sorted(range(len(loops)), key=lambda number: _middle(points[number])))
    waits_for = [front | above for front, above in zip(_in_front(loops, points), _above(loops), strict=True)]
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


def _above(loops: tuple[Loop, ...]) -> list[set[int]]:
    """Return for each loop the numbers of those that lie above it on a level seam."""
    found: list[set[int]] = [set() for _ in loops]
    sides = [(number, side) for number, loop in enumerate(loops) for side in loop if side.level]
    for upper, over in sides:
        for lower, under in sides:
            first = max(over.points[:, AROUND].min(), under.points[:, AROUND].min())
            last = min(over.points[:, AROUND].max(), under.points[:, AROUND].max())
            if (over.seam, over.face, under.face) == (under.seam, "front", "back") and last - first > OVERLAP:
                found[lower].add(upper)
    return found


def seam_order(draft: Draft, pairs: tuple[MatePair, ...]) -> dict[Part, int]:
    """Return the number of each seam, or of each part of one that level seams cut.

    They are counted from front to back where they cross the waist or come nearest to it: first those that lie above all
    level seams, then the first level seam, those below it, and so on. Edges of the outline that are sewn to each other, as
    shoulders are, come after all seams.
    """
    drawn = {seam.name for seam in draft.in_order}
    parts = sorted(
        {(pair.seam, pair.part) for pair in pairs if pair.seam in drawn}, key=lambda part: _rank(draft, part)
    )
    sewn = {pair.seam for pair in pairs}
    edges = [line.seam for line in draft.lines if line.seam in sewn]
    ordered = [*parts, *((name, "") for name in dict.fromkeys(edges))]
    return {part: number for number, part in enumerate(ordered, start=1)}


def _rank(draft: Draft, part: Part) -> tuple[int, bool, float, str]:
    """Return how many level seams lie above a part of a seam, whether it is one itself, how far back it lies, its name."""
    name, which = part
    level = next((level for level in draft.level_seams if level.name == name), None)
    if level is not None:
        middle = (level.start + level.end) / 2.0
        return _storey(draft, middle, level.height_at(middle), but=name), True, level.start, name
    seam = draft.seam(name)
    cut = [other.height_at(seam.around_at(0.0)) for other in draft.level_seams if f"below {other.name}" == which]
    around = seam.around_at(min(max(0.0, seam.low), seam.top))
    top = cut[0] if cut else seam.top
    return _storey(draft, seam.around_at(top), top), False, around, name


def _storey(draft: Draft, around: float, height: float, but: str = "") -> int:
    """Return how many level seams lie above a place, or on it."""
    above = (level for level in draft.level_seams if level.name != but and level.passes(around))
    return sum(level.height_at(around) > height - ON_IT for level in above)
