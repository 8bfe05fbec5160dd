"""Where each piece lies on one sheet: upright, never overlapping, the same every time."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from fanblock.geometry.curve import Points
from fanblock.problems import ExportError, Problem
from fanblock.sheet.laying import GAP_MM, Packing, Shift, Table, proved
from fanblock.sheet.orders import orders

WORTH_RATIO = 0.99
"""A later order of laying is taken only when it is shorter than this: sheets in reading order are easier to
use.
"""


def pack(outlines: Sequence[Points], width_mm: float, gap_mm: float = GAP_MM, as_given: bool = False) -> Packing:
    """Return where the outlines lie on a strip ``width_mm`` wide, as short as many orders of laying find.

    The strip starts at y = 0 and grows upward. ``as_given`` keeps to the order given, which reads more easily.
    Raises ExportError naming the width that would be needed when an outline is wider than the strip.
    """
    widest = max(float(np.ptp(outline[:, 0])) for outline in outlines)
    if widest > width_mm:
        what = f"the widest piece is {widest:.0f} mm and the paper offers {width_mm:.0f} mm."
        raise ExportError([Problem("sheet-narrow", "sheet", what, "Choose wider paper or tiled pages.")])
    table = Table(tuple(outlines), gap_mm)
    best: tuple[float, tuple[Shift, ...]] | None = None
    for order in orders(outlines)[: 1 if as_given else None]:
        shifts = table.laid(order, width_mm, _lowest)
        tops = [shift[1] + float(outline[:, 1].max()) for shift, outline in zip(shifts, outlines, strict=True)]
        score = max(tops) + 0.001 * sum(tops)
        if best is None or score < WORTH_RATIO * best[0]:
            best = (score, shifts)
    if best is None:
        return Packing((), width_mm, 0.0)
    return proved(outlines, best[1], width_mm)


def _lowest(_index: int, shape: tuple[int, int], *_: object) -> NDArray[np.float64]:
    """The cost of every corner when low is good, and left among places equally low."""
    rows, columns = (np.arange(count, dtype=np.float64) for count in shape)
    return np.asarray(rows[:, None] + 0.0001 * columns)
