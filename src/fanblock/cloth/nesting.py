"""Nesting by a library: shapes on a strip of cloth, as short as it finds within a fixed number of tries.

The library improves its answer as long as it is given time. Its reports come in one order for one seed and one thread,
so the answer taken is the last before a fixed number of reports, or of tries that came to nothing: it does not depend on
how fast the machine is, only how long one waits for it does.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from fanblock.cloth.shapes import Shape
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.region import thinned

REPORTS = 180
"""How many reports of the library are listened to: mostly answers, each about a thousandth shorter than the one before
it; later ones gain a few hundredths, and come ever more slowly."""

MISSES = 3
"""After how many tries that came to nothing no more reports are listened to: the next answer, if any, is long in coming."""

SEED = 1780

APART_MM = 4.0
"""Cloth kept between two shapes, so that shears pass between them (common practice, no source)."""

THIN_MM = 0.25
"""How far the outline handed to the library may stand off the true one; twice that is kept free besides."""

FIRST_SECONDS, MOST_SECONDS = 1, 32
"""How long the library is given at first, and at most, to come to the answer."""


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """One shape on the cloth: its ring where it lies, and whether it was turned end for end."""

    shape: Shape
    ring: Points
    turned: bool

    @property
    def grain(self) -> Points:
        """Its grain line where it lies, the end at the top of the piece last."""
        return self.put(self.shape.grain)

    def put(self, points: Points) -> Points:
        """Return points of the shape where they lie on the cloth."""
        way = -1.0 if self.turned else 1.0
        return frozen(way * np.asarray(points) + self.ring[0] - way * self.shape.ring[0])

    def moved(self, x_mm: float, y_mm: float) -> Laid:
        """Return the same shape so much further along and across the cloth."""
        return replace(self, ring=frozen(self.ring + np.array([x_mm, y_mm])))


def nested(shapes: Sequence[Shape], width_mm: float, *, nap: bool) -> tuple[Laid, ...]:
    """Return where every shape lies on a strip this wide that begins at x = 0; with a nap none is turned end for end."""
    import spyrrow

    turns = [0.0] if nap else [0.0, 180.0]
    items = [spyrrow.Item(str(number), _corners(shape.ring), shape.count, turns) for number, shape in enumerate(shapes)]
    instance = spyrrow.StripPackingInstance("cloth", width_mm, items)
    seconds = FIRST_SECONDS
    while True:
        settings = spyrrow.StripPackingConfig(
            total_computation_time=None,
            exploration_time=seconds,
            compression_time=0,
            num_workers=1,
            seed=SEED,
            min_items_separation=APART_MM + 2.0 * THIN_MM,
        )
        queue = spyrrow.ProgressQueue()
        instance.solve(settings, queue)
        reports = queue.drain()
        kinds = spyrrow.ReportType
        misses = [at for at, (kind, _) in enumerate(reports) if kind == kinds.ExplInfeas]
        enough = min([REPORTS, *misses[MISSES - 1 : MISSES]])
        if len(reports) >= enough or seconds >= MOST_SECONDS:
            break
        seconds *= 2
    answer = [found for kind, found in reports[:enough] if kind == kinds.ExplFeas][-1]
    return tuple(_laid(shapes[int(item.id)], item.rotation, item.translation) for item in answer.placed_items)


def _corners(ring: Points) -> list[tuple[float, float]]:
    closed = np.vstack((ring, ring[:1]))
    return _without_spikes([(float(x), float(y)) for x, y in thinned(closed, THIN_MM)[:-1]])


def _without_spikes(corners: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Return corners without those from which an outline runs straight back: the library takes no place twice.

    A piece opened out has one where its two halves meet at the end of the fold.

    >>> _without_spikes([(0.0, 0.0), (4.0, 0.0), (9.0, 0.0), (4.0, 0.0), (4.0, 4.0)])
    [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0)]
    """
    for at, start in enumerate(corners):
        if len(corners) > 3 and math.dist(start, corners[(at + 2) % len(corners)]) < THIN_MM:
            spike = {(at + 1) % len(corners), (at + 2) % len(corners)}
            return _without_spikes([corner for place, corner in enumerate(corners) if place not in spike])
    return corners


def _laid(shape: Shape, turn_deg: float, shift: tuple[float, float]) -> Laid:
    turned = abs(turn_deg) > 90.0
    ring = -shape.ring if turned else shape.ring
    return Laid(shape, frozen(ring + np.asarray(shift)), turned)
