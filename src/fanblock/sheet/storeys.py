"""Panels above one another: which stand on those at the waist, and which hang from them, by the level seams between them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from fanblock.pattern.model import LOWER, UPPER, Panel, Pattern


def is_at_waist(panel: Panel) -> bool:
    """Tell whether a panel goes round the body at the waist: of two on a shaped level seam the one that has most of it."""
    held = sum(part.length_mm for part in panel.levels.get("waist", ()))
    upper, lower = (sum(edge.curve.length_mm for edge in panel.edges if edge.across == word) for word in (UPPER, LOWER))
    return held > upper / 2.0 and held >= lower / 2.0 and held > 0.0


def storeys(pattern: Pattern, row: Sequence[Panel]) -> tuple[Mapping[str, int], Mapping[str, int]]:
    """Return the panels over a row and those under it, by name, each with the number of the one it stands over or under.

    They are followed from level seam to level seam; a panel over several of the row goes with the first.
    """
    return MappingProxyType(_reached(pattern, row, up=True)), MappingProxyType(_reached(pattern, row, up=False))


def _reached(pattern: Pattern, row: Sequence[Panel], *, up: bool) -> dict[str, int]:
    found = {panel.name: number for number, panel in enumerate(row)}
    waiting = [panel.name for panel in row]
    while waiting:
        name = waiting.pop(0)
        for edge in pattern.by_name[name].edges:
            if edge.mate is None or not edge.across or (edge.across == UPPER) != up:
                continue
            if edge.mate.panel not in found:
                found[edge.mate.panel] = found[name]
                waiting.append(edge.mate.panel)
    own = {panel.name for panel in row}
    return {name: number for name, number in found.items() if name not in own}
