"""Which edges were moved: every edge of every piece, brought back onto the block, against what was drafted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fanblock.adopting.feet import feet, followed
from fanblock.adopting.kept import KeptPanel
from fanblock.adopting.placing import SAME_MM, Motion, motion_of
from fanblock.adopting.strokes import CUT, Found, Stroke
from fanblock.geometry.curve import Curve, Points
from fanblock.problems import GeometryError, Place, Problem

TIGHTEST_MM = 40.0
"""Beyond its old end a line may bend on as tightly as this radius and is still the old line, carried on."""


@dataclass(frozen=True, slots=True, eq=False)
class DrawnEdge:
    """One edge as it was drafted and as it is drawn, both on the block; ``off_mm`` is how far it was moved at most, ``at`` where.

    An edge that only became longer or shorter was not moved: its ends follow the lines that it meets.
    """

    panel: str
    name: str
    kind: str
    old: Curve
    new: Curve
    off_mm: float
    at: Points
    place: Place

    @property
    def is_moved(self) -> bool:
        """Whether it lies elsewhere than it was drafted."""
        return self.off_mm > SAME_MM


@dataclass(frozen=True, slots=True, eq=False)
class Compared:
    """Every edge of the pieces cut from the block, and what is to be told of other pieces."""

    edges: tuple[DrawnEdge, ...]
    notes: tuple[str, ...]


def compared(found: Found, panels: Sequence[KeptPanel]) -> Compared:
    """Return all edges against what was drafted; GeometryError when pieces have lost their shape altogether."""
    problems: list[Problem] = []
    edges: list[DrawnEdge] = []
    notes: list[str] = []
    for panel in panels:
        strokes = found.of(panel.name)
        motion = motion_of(panel.title, strokes)
        if isinstance(motion, Problem):
            if panel.added:
                notes.append(
                    f"the piece “{panel.title}” is not cut from the block, and its drawing has been left alone"
                )
            else:
                problems.append(motion)
            continue
        here = [
            _edge(panel, number, motion, found) for number in range(len(panel.edges)) if _there(panel, number, found)
        ]
        notes += _cut_notes(panel, motion, strokes)
        if panel.added:
            notes += _added_notes(panel, here)
        else:
            edges += here
    if problems:
        raise GeometryError(problems)
    return Compared(tuple(edges), tuple(notes))


def _there(panel: KeptPanel, number: int, found: Found) -> bool:
    return any(stroke.edge and stroke.name == panel.edges[number].name for stroke in found.of(panel.name))


def _edge(panel: KeptPanel, number: int, motion: Motion, found: Found) -> DrawnEdge:
    edge = panel.edges[number]
    stroke = next(one for one in found.of(panel.name) if one.edge and one.name == edge.name)
    new = motion.put(stroke.drawn)
    if _is_reversed(edge.curve, new):
        new = new.reversed()
    off, at = _off(edge.curve, new)
    return DrawnEdge(panel.name, edge.name, edge.kind, edge.curve, new, off, at, stroke.place)


def _is_reversed(old: Curve, new: Curve) -> bool:
    straight = np.hypot(*(new.start - old.start)) + np.hypot(*(new.end - old.end))
    crossed = np.hypot(*(new.end - old.start)) + np.hypot(*(new.start - old.end))
    return bool(crossed < straight)


def _off(old: Curve, new: Curve) -> tuple[float, Points]:
    """Return how far a line stands off another at most, and where on the old one that is."""
    there, here = followed(new), followed(old)
    ahead, back = feet(there, old), feet(here, new)
    off = np.concatenate((ahead.off, back.off))
    beyond = np.concatenate((ahead.beyond, back.beyond))
    places = np.vstack((ahead.foot, here))
    off = np.where(off > SAME_MM + beyond**2 / (2.0 * TIGHTEST_MM), off, np.minimum(off, SAME_MM) * (beyond == 0.0))
    worst = int(np.argmax(off))
    return float(off[worst]), places[worst]


def _cut_notes(panel: KeptPanel, motion: Motion, strokes: Sequence[Stroke]) -> list[str]:
    cut = next((stroke for stroke in strokes if stroke.name == CUT and not stroke.edge), None)
    if cut is None or _off(cut.old, motion.put(cut.drawn))[0] < SAME_MM:
        return []
    return [
        f"the cut line of the piece “{panel.title}” was moved: it is made from the stitch lines when you draft, so move those"
    ]


def _added_notes(panel: KeptPanel, edges: Sequence[DrawnEdge]) -> list[str]:
    moved = [edge.name for edge in edges if edge.is_moved]
    if not moved:
        return []
    names = " and ".join(moved)
    return [
        f"{names} of the piece “{panel.title}” was moved: that piece is not cut from the block, so it is not adopted"
    ]
