"""The orders in which pieces are tried on a sheet: by size first, then shuffled the same way every time."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fanblock.geometry.curve import Points

SHUFFLES = 12


def orders(outlines: Sequence[Points], shuffles: int = SHUFFLES) -> list[tuple[int, ...]]:
    """Return orders of laying, without repeats: as given, tallest first, largest, widest, backwards, and
    shuffles.

    A shuffle is a stride through the tallest-first order, so it depends on nothing but the count.

    >>> orders([np.array([[0, 0], [1, 0], [1, h]]) for h in (1, 3, 2)], shuffles=0)
    [(0, 1, 2), (1, 2, 0), (2, 1, 0)]
    """
    count = len(outlines)
    sizes = [np.ptp(outline, axis=0) for outline in outlines]
    tallest = tuple(sorted(range(count), key=lambda i: (-sizes[i][1], i)))
    found = [
        tuple(range(count)),
        tallest,
        tuple(sorted(range(count), key=lambda i: (-sizes[i][0] * sizes[i][1], i))),
        tuple(sorted(range(count), key=lambda i: (-sizes[i][0], i))),
        tuple(reversed(range(count))),
    ]
    for turn in range(1, shuffles + 1):
        left = list(tallest)
        mixed = []
        at = turn
        while left:
            at = (at * 5 + turn) % len(left)
            mixed.append(left.pop(at))
        found.append(tuple(mixed))
    return list(dict.fromkeys(order for order in found if order))
