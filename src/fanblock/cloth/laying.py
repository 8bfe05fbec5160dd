"""How all pieces of a layer lie on its cloth, how long that is, and how much to buy.

Cloth is washed before it is cut. So the pieces are laid on the washed cloth, which is narrower, and what is bought is longer
by what washing will take of it.
"""

from __future__ import annotations

import math
import os
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np

from fanblock.cloth.nesting import APART_MM, Laid, nested
from fanblock.cloth.shapes import Shape, layers_of, shapes_of
from fanblock.garment.model import Cloth
from fanblock.garment.starter import WIDTHS
from fanblock.geometry.curve import frozen
from fanblock.geometry.region import area_mm2
from fanblock.pattern.model import Pattern
from fanblock.problems import ExportError, Problem
from fanblock.tolerances import SAME_POINT_MM
from fanblock.units import EIGHTHS, SOLD_MM, YARD_MM, format_length, parse_length

ASSUMED = MappingProxyType(
    {units: Cloth(parse_length(width), written=width) for units, width in WIDTHS.items()},
)
"""Cloth that nothing was said about, by the maker's units: as wide as linen and coutil are sold."""

END_MM = 20.0
"""Cloth kept free at both ends, where it was torn or cut crooked in the shop (common practice, no source)."""

CLOTH_MM = MappingProxyType({"in": YARD_MM / EIGHTHS, "cm": SOLD_MM, "mm": SOLD_MM})
"""The step in which cloth is sold."""


@dataclass(frozen=True, slots=True, eq=False)
class Lay:
    """A layer's pieces as they lie on its cloth.

    ``doubled`` lie on cloth folded selvedge to selvedge, two cut at once; ``single`` behind them, on one thickness.
    ``length_mm`` is of washed cloth, ``buy_mm`` of cloth as it is sold. ``rows_mm`` is how long the same pieces would be laid
    in rows; ``pieces_mm2`` what they cover.
    """

    layer: str
    cloth: Cloth
    width_mm: float
    doubled: tuple[Laid, ...]
    single: tuple[Laid, ...]
    doubled_mm: float
    length_mm: float
    buy_mm: float
    rows_mm: float
    pieces_mm2: float
    assumed: bool = False

    @property
    def used_ratio(self) -> float:
        """How much of the washed cloth the pieces cover."""
        return self.pieces_mm2 / (self.length_mm * self.width_mm)


def lays_of(pattern: Pattern, cloths: Mapping[str, Cloth], units: str) -> tuple[Lay, ...]:
    """Return how every layer lies on its cloth; cloth that nothing was said about is assumed.

    Raises ExportError with every piece that is wider than its cloth, and with every cloth for a layer there is not.
    """
    layers = layers_of(pattern)
    problems = [
        Problem("cloth-layer", f"cloth › {name}", f"no piece is cut of “{name}”.", f"Layers here: {', '.join(layers)}.")
        for name in cloths
        if name not in layers
    ]
    wanted = {layer: (shapes_of(pattern, layer), cloths.get(layer, ASSUMED[units])) for layer in layers}
    for layer, (shapes, cloth) in wanted.items():
        problems += _too_wide(layer, shapes, cloth, units)
    if problems:
        raise ExportError(problems)
    keys = {layer: _key(shapes, cloth) for layer, (shapes, cloth) in wanted.items()}
    different = {keys[layer]: (layer, *wanted[layer]) for layer in reversed(layers)}
    with ThreadPoolExecutor(os.cpu_count()) as side_by_side:
        lays = list(side_by_side.map(lambda one: _lay(one[0], one[1], one[2], units), different.values()))
    known = dict(zip(different, lays, strict=True))
    return tuple(replace(known[keys[layer]], layer=layer, assumed=layer not in cloths) for layer in layers)


def _key(shapes: Sequence[Shape], cloth: Cloth) -> object:
    """Return what two layers have in common that lie alike: the same pieces, as often, on the same cloth."""
    return cloth, tuple((shape.name, shape.count, shape.mirrored) for shape in shapes)


def width_words(cloth: Cloth, units: str) -> str:
    """Return how wide cloth is as its maker wrote it, or in ``units``."""
    return cloth.written or format_length(cloth.width_mm, units)


def washed_width_mm(cloth: Cloth) -> float:
    """Return how wide cloth is from selvedge to selvedge once it has been washed."""
    return cloth.width_mm * (1.0 - cloth.weft_shrinks)


def usable_mm(cloth: Cloth) -> float:
    """Return the width that pieces may lie on: of folded cloth, from the fold to the selvedges."""
    washed = washed_width_mm(cloth)
    return washed / 2.0 - cloth.selvedge_mm if cloth.folded else washed - 2.0 * cloth.selvedge_mm


def _too_wide(layer: str, shapes: Sequence[Shape], cloth: Cloth, units: str) -> Iterator[Problem]:
    for shape in shapes:
        singly = cloth.folded and not shape.paired
        room = usable_mm(replace(cloth, folded=False) if singly else cloth) - 2.0 * APART_MM
        wide = float(np.ptp(shape.ring[:, 1]))
        if wide > room and not shape.mirrored:
            what = f"piece {shape.label} ({shape.name}) is {format_length(wide, units)} wide, and the cloth has room for {format_length(room, units)}."
            yield Problem("cloth-narrow", f"cloth › {layer}", what, "Take wider cloth, or do not fold it.")


def _lay(layer: str, shapes: Sequence[Shape], cloth: Cloth, units: str) -> Lay:
    doubled: tuple[Laid, ...] = ()
    rest, rows = list(shapes), 0.0
    if cloth.folded:
        mirrored = {shape.name for shape in shapes if shape.mirrored}
        twice = [shape for shape in shapes if shape.name in mirrored and not shape.mirrored]
        rest = [shape for shape in shapes if shape.name not in mirrored]
        doubled, rows = _shortest(twice, usable_mm(cloth), cloth) if twice else ((), 0.0)
    single, more = _shortest(rest, usable_mm(replace(cloth, folded=False)), cloth) if rest else ((), 0.0)
    doubled_mm = _end(doubled) + (END_MM if doubled and single else 0.0)
    single = tuple(laid.moved(doubled_mm, 0.0) for laid in single)
    length = _end((*doubled, *single)) + END_MM
    length += cloth.repeat_mm * _following(shapes, length)
    sold = CLOTH_MM[units]
    buy = math.ceil(length / (1.0 - cloth.warp_shrinks) / sold - SAME_POINT_MM) * sold
    area = sum(shape.count * abs(area_mm2(shape.ring)) for shape in shapes)
    return Lay(
        layer=layer,
        cloth=cloth,
        width_mm=washed_width_mm(cloth),
        doubled=doubled,
        single=single,
        doubled_mm=doubled_mm,
        length_mm=length,
        buy_mm=buy,
        rows_mm=rows + more + 2.0 * END_MM,
        pieces_mm2=area,
    )


def _shortest(shapes: Sequence[Shape], width_mm: float, cloth: Cloth) -> tuple[tuple[Laid, ...], float]:
    """Return the shapes laid as short as is found, beginning at the free end, and how long rows of them would be."""
    in_rows = rows(shapes, width_mm)
    found = nested(shapes, width_mm, nap=cloth.nap)
    best = found if _end(found) <= _end(in_rows) else in_rows
    return tuple(laid.moved(END_MM, 0.0) for laid in best), _end(in_rows)


def rows(shapes: Sequence[Shape], width_mm: float) -> tuple[Laid, ...]:
    """Return the shapes in rows across the cloth, the longest first, each in its own oblong of cloth."""
    each = [shape for shape in shapes for _ in range(shape.count)]
    each.sort(key=lambda shape: (-float(np.ptp(shape.ring[:, 0])), shape.number, shape.mirrored))
    laid, x, y, deep = [], 0.0, 0.0, 0.0
    for shape in each:
        long, wide = np.ptp(shape.ring, axis=0)
        if y and y + APART_MM + wide > width_mm:
            x, y, deep = x + deep + APART_MM, 0.0, 0.0
        shift = np.array([x, y + APART_MM]) - shape.ring.min(axis=0)
        laid.append(Laid(shape, frozen(shape.ring + shift), False))
        y, deep = y + APART_MM + float(wide), max(deep, float(long))
    return tuple(laid)


def _end(laid: Sequence[Laid]) -> float:
    return max((float(one.ring[:, 0].max()) for one in laid), default=0.0)


def _following(shapes: Sequence[Shape], length_mm: float) -> int:
    """Return about how many pieces follow one another along the cloth: each may want a repeat of its own."""
    longest = max(float(np.ptp(shape.ring[:, 0])) for shape in shapes)
    return max(round(length_mm / longest), 1)
