"""The shapes to cut from each layer's cloth: every piece with its mirror image, those on a fold opened out.

A shape lies with its grain along the length of the cloth, which is x here; y runs from selvedge to selvedge.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.region import united
from fanblock.pattern.model import Panel, Pattern
from fanblock.sheet.upright import upright


@dataclass(frozen=True, slots=True, eq=False)
class Shape:
    """A cut shape of one piece: its closed ring, first point not repeated, and how many are cut of it.

    ``label`` is its number as it is printed; ``paired`` tells that it is one of two, ``mirrored`` that it is the other half's
    of those; ``opened`` that it was opened out from a fold, which then is its ``fold``. ``grain`` is its grain line, the upper
    end last; where a piece has none it is the middle of its height.
    """

    name: str
    number: int
    ring: Points
    count: int
    grain: Points
    label: str
    mirrored: bool = False
    opened: bool = False
    paired: bool = False
    fold: Points | None = None


def layers_of(pattern: Pattern) -> tuple[str, ...]:
    """Return the layers a pattern is cut of, in the order its pieces name them."""
    return tuple(dict.fromkeys(layer for panel in pattern.panels for layer, count in panel.cuts if count))


def shapes_of(pattern: Pattern, layer: str) -> tuple[Shape, ...]:
    """Return every shape to cut of one layer, piece by piece."""
    return tuple(shape for panel in pattern.panels for shape in _shapes(panel, dict(panel.cuts).get(layer, 0)))


def _shapes(panel: Panel, count: int) -> Iterator[Shape]:
    if not count:
        return
    stood = upright(panel)
    ring = along_cloth(stood.cut_line.points if stood.cut_line is not None else stood.loop())
    name, number, grain, label = panel.name, panel.number, _grain(stood, ring), panel.label
    if panel.fold:
        edge = along_cloth(stood.edge(panel.fold).curve.points)
        whole = _opened(ring, edge[0], edge[-1])
        yield Shape(name, number, whole, count, grain, label, opened=True, fold=frozen(edge[[0, -1]]))
    elif panel.single or count % 2:
        yield Shape(name, number, ring, count, grain, label)
    else:
        yield Shape(name, number, ring, count // 2, grain, label, paired=True)
        other = frozen((ring * (1.0, -1.0))[::-1])
        yield Shape(name, number, other, count // 2, frozen(grain * (1.0, -1.0)), label, mirrored=True, paired=True)


def _grain(stood: Panel, ring: Points) -> Points:
    """The grain line of a piece that stands upright, as it runs along the cloth."""
    if stood.grain is not None:
        return along_cloth(np.array(stood.grain))
    middle = 0.5 * (ring.min(axis=0) + ring.max(axis=0))
    return frozen([(ring[:, 0].min(), middle[1]), (ring[:, 0].max(), middle[1])])


def along_cloth(points: Points) -> Points:
    """Return points turned a quarter so that what stood upright runs along the cloth."""
    return frozen(np.column_stack((points[:, 1], -points[:, 0])))


def _opened(ring: Points, start: Points, end: Points) -> Points:
    """Return a ring together with its mirror image in the line through two points."""
    along = (end - start) / np.hypot(*(end - start))
    off = ring - start
    mirrored = start + 2.0 * (off @ along)[:, None] * along - off
    return frozen(united([ring, mirrored[::-1]]))
