"""The numbers by which two drafts of a garment are told apart."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from types import MappingProxyType

import numpy as np

from fanblock.fitting.levels import heights_of, top_height
from fanblock.fitting.parts import sleeve_panels
from fanblock.fitting.sentences import BUST, MIDDLE, TOP, WAIST
from fanblock.fitting.state import told_length
from fanblock.pattern.model import ARMHOLE, HEM, NECKLINE, Pattern
from fanblock.pattern.model import TOP as TOP_KIND
from fanblock.pattern.model import WAIST as WAIST_KIND
from fanblock.sheet.tapes import tape_numbers
from fanblock.units import format_length
from fanblock.wearer.model import HALVES

MOVED_MM = 1.0
"""A number that changed by less did not move: no tape shows it."""

ALIKE_MM = 0.5
"""Two halves that changed by amounts that differ by less have changed alike."""


def numbers(pattern: Pattern) -> Mapping[str, float]:
    """Return what a maker would measure on the pieces, in millimetres, by its name; a garment has no part it lacks."""
    if pattern.band is not None:
        edges = {"inner edge": pattern.band.inner_mm, "outer edge": pattern.band.outer_edge_mm}
        return {**edges, "depth": pattern.band.depth_mm}
    tapes = tape_numbers(pattern)
    upper = pattern.stand.upper.name
    found = {
        f"worn {tapes.worn}": tapes.worn_waist_mm,
        WORN_MIDDLE: panel_sum_mm(pattern, MIDDLE),
        f"worn {upper}": panel_sum_mm(pattern, BUST),
        "gap": tapes.gap_mm,
        f"centre front above the {tapes.level}": tapes.front_mm,
        f"under the arm above the {tapes.level}": _mean(tapes.underarm_mm, tapes.underarm_right_mm),
        f"centre back above the {tapes.level}": tapes.back_mm,
        **{name: _halved(pattern, partial(_edges_mm, kinds=kinds)) for name, kinds in _EDGES.items()},
        **_sleeve(pattern),
    }
    return {name: mm for name, mm in found.items() if mm}


_EDGES: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "top edge of one half": (TOP_KIND,),
        "neckline of one half": (NECKLINE,),
        "armhole": (ARMHOLE,),
        "lower edge of one half": (HEM, WAIST_KIND),
    }
)

WORN_MIDDLE = "worn middle"
"""What the garment measures round half way from the waist to the bust."""


def half_numbers(pattern: Pattern) -> Mapping[str, tuple[float, float]]:
    """Return what either half measures, left and right: its girths and its edges; the same twice where both are alike."""
    if pattern.band is not None:
        return {}
    lower, upper = pattern.stand.names
    tapes = tape_numbers(pattern)
    left = tapes.underarm_mm or 0.0
    halves = pattern.halves or (pattern, pattern)
    found = {
        lower: _both(halves, lambda half: 0.5 * panel_sum_mm(half, WAIST)),
        MIDDLE: _both(halves, lambda half: 0.5 * panel_sum_mm(half, MIDDLE)),
        upper: _both(halves, lambda half: 0.5 * panel_sum_mm(half, BUST)),
        f"under the arm above the {tapes.level}": (
            left,
            left if not pattern.halves else tapes.underarm_right_mm or 0.0,
        ),
        **{
            name.removesuffix(" of one half"): _both(halves, partial(_edges_mm, kinds=kinds))
            for name, kinds in _EDGES.items()
        },
    }
    return {name: both for name, both in found.items() if any(both)}


def _both(halves: Sequence[Pattern], number: Callable[[Pattern], float]) -> tuple[float, float]:
    left, right = halves
    return number(left), number(right)


def _halved(pattern: Pattern, number: Callable[[Pattern], float]) -> float:
    """A number of one half; of two that are not alike the mean."""
    return 0.5 * sum(_both(pattern.halves or (pattern, pattern), number))


def _mean(left: float | None, right: float | None) -> float | None:
    return left if left is None or right is None else 0.5 * (left + right)


def _sleeve(pattern: Pattern) -> Mapping[str, float]:
    """How long a sleeve's pieces are and how wide together, upright as they lie."""
    sizes = [np.ptp(panel.loop(), axis=0) for panel in sleeve_panels(pattern)]
    if not sizes:
        return {}
    return {
        "sleeve, length over all": max(float(tall) for _, tall in sizes),
        "sleeve, width over all": sum(float(wide) for wide, _ in sizes),
    }


def moved_words(before: Pattern, after: Pattern) -> tuple[str, ...]:
    """Return every number that moved, in words: from what to what, or by how much where a tape in inches shows no more.

    Where the two halves did not move alike, what each of them measures is told besides.
    """
    first, second, units = numbers(before), numbers(after), before.body.units
    of_all = [
        _moved(name, first[name], second[name], units)
        for name in first
        if name in second and has_moved(first[name], second[name])
    ]
    return (*of_all, *_halves_moved(half_numbers(before), half_numbers(after), units))


def _halves_moved(
    first: Mapping[str, tuple[float, float]], second: Mapping[str, tuple[float, float]], units: str
) -> Iterator[str]:
    for name in first:
        if name in second and not moved_alike(first[name], second[name]):
            for half, was, now in zip(HALVES, first[name], second[name], strict=True):
                if has_moved(was, now):
                    yield _moved(f"{half} half, {name}", was, now, units)


def has_moved(before_mm: float, after_mm: float) -> bool:
    """Tell whether a tape shows that a number has changed."""
    return abs(after_mm - before_mm) >= MOVED_MM


def moved_alike(before: tuple[float, float], after: tuple[float, float]) -> bool:
    """Tell whether left and right changed by as much, so that the whole says all of it."""
    by = [now - was for was, now in zip(before, after, strict=True)]
    return abs(by[0] - by[1]) < ALIKE_MM


def _moved(name: str, before_mm: float, after_mm: float, units: str) -> str:
    before, after = format_length(before_mm, units), format_length(after_mm, units)
    if before != after:
        return f"{name} from {before} to {after}"
    return f"{name} {told_length(abs(after_mm - before_mm), units)} {'more' if after_mm > before_mm else 'less'}"


def panel_sum_mm(pattern: Pattern, level: str) -> float:
    """Return what the garment measures round at a level, gap and open parts included: the cone less its takes.

    The top is the level at which the opening, or the centre back, ends: the cone there.
    """
    if level == TOP:
        return 2.0 * float(pattern.block.level_length_mm(top_height(pattern)))
    height = heights_of(pattern)[level]
    girth = min(pattern.girths, key=lambda girth: abs(girth.height - height))
    return 2.0 * (girth.block_mm - girth.takes_mm)


def _edges_mm(pattern: Pattern, kinds: tuple[str, ...]) -> float:
    return sum(
        edge.curve.length_mm
        for panel in pattern.panels
        if not panel.added
        for edge in panel.edges
        if edge.kind in kinds
    )
