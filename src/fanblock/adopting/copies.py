"""Copies of the pattern's own lines: what an editor makes when it doubles a line, breaks it in two or loses its id.

They are nobody's marks. A copy is known by its name, which is ours or ours with what editors put behind it, or by where it
lies: all along lines that were drawn there before.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from fanblock.adopting.feet import followed
from fanblock.adopting.kept import KeptPanel
from fanblock.adopting.moved import Compared, DrawnEdge, DrawnMark
from fanblock.adopting.placing import UNMOVED_MM
from fanblock.adopting.strangers import our_names
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.region import off_lines_mm
from fanblock.tracing.bare import plain_name

_OF_COPIES = re.compile(r"\W+(copy|\d+)\W*$")
"""What editors put behind the name of a line to name its copy: a number, or the word for it."""


@dataclass(frozen=True, slots=True, eq=False)
class Ours:
    """The lines of a pattern by what they are called, and as they lie on each piece."""

    names: frozenset[str]
    lines: Mapping[str, tuple[tuple[str, Points], ...]]
    compared: Compared

    def like(self, name: str) -> str:
        """Return the name of our line that a line so called is a copy of; empty when the name is the maker's."""
        own = _shorter(plain_name(name))
        for one in own:
            if one in self.names:
                return one
        return min((one for one in self.names if len(own) > 1 and _shorter(one)[-1] == own[-1]), default="")

    def under(self, curve: Curve) -> str:
        """Return the name of the line of ours along which all of a drawn one lies; empty where it does not."""
        for panel, motion in self.compared.motions.items():
            lines = self.lines[panel]
            points = followed(motion.put(curve))
            corners = np.vstack([run for _, run in lines])
            if np.any(points < corners.min(axis=0) - UNMOVED_MM) or np.any(points > corners.max(axis=0) + UNMOVED_MM):
                continue
            if float(off_lines_mm(points, [run for _, run in lines]).max()) > UNMOVED_MM:
                continue
            middle = points[len(points) // 2][None]
            return min(lines, key=lambda one: float(off_lines_mm(middle, [one[1]])[0]))[0]
        return ""


def ours(panels: Sequence[KeptPanel], compared: Compared) -> Ours:
    """Return the lines of the pattern's pieces, as they were drafted and, where they were moved, as they are drawn now too."""
    moved: dict[str, list[tuple[str, Points]]] = {panel.name: [] for panel in panels}
    edges = [*compared.edges, *(edge for added in compared.added.values() for edge in added)]
    drawn: list[DrawnEdge | DrawnMark] = [*edges, *compared.marks]
    for line in drawn:
        if line.is_moved:
            moved[line.panel].append((line.name, line.new.points))
    lines = {panel.name: (*_drafted(panel), *moved[panel.name]) for panel in panels}
    return Ours(our_names(panels), lines, compared)


def _shorter(name: str) -> list[str]:
    """Return a name, and what is left of it each time something is taken away that editors put behind a copy's."""
    found = [name]
    while (shorter := _OF_COPIES.sub("", found[-1])) != found[-1]:
        found.append(shorter)
    return found


def _drafted(panel: KeptPanel) -> tuple[tuple[str, Points], ...]:
    own = [(one.name, one.curve) for group in (panel.edges, panel.marks, panel.rest) for one in group]
    levels = [(f"{name} level", part) for name, parts in panel.levels.items() for part in parts]
    cut = [] if panel.cut is None else [("cut line", panel.cut)]
    return tuple((name, curve.points) for name, curve in (*own, *levels, *cut))
