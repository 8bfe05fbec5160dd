"""Which edges were moved: every edge of every piece, brought back onto the block, against what was drafted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from fanblock.adopting.feet import feet, followed
from fanblock.adopting.kept import KeptPanel
from fanblock.adopting.placing import SAME_MM, Motion, loosely, motion_of
from fanblock.adopting.strokes import CUT, Found, Stroke
from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.region import off_lines_mm, thinned
from fanblock.problems import GeometryError, Place, Problem

TIGHTEST_MM = 40.0
"""Beyond its old end a line may bend on as tightly as this radius and is still the old line, carried on."""


SPARED_MM = 0.002
"""Points of a drawn line that the others can spare within this are left out where it is only held against another one."""


@dataclass(frozen=True, slots=True, eq=False)
class DrawnEdge:
    """One edge as it was drafted and as it is drawn, both on the block; ``off_mm`` is how far it was moved at most, ``at`` where.

    ``nth`` counts the edges of its piece that have its name, from 0. An edge that only became longer or shorter was not moved: its ends follow the lines that it meets.
    """

    panel: str
    name: str
    nth: int
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
class DrawnMark:
    """One line drawn on a piece, as it was drafted and as it is now, both on the block; ``number`` counts a piece's marks."""

    panel: str
    number: int
    name: str
    old: Curve
    new: Curve
    off_mm: float
    place: Place

    @property
    def is_moved(self) -> bool:
        """Whether it lies elsewhere than it was drafted, or is longer or shorter."""
        return self.off_mm > SAME_MM


@dataclass(frozen=True, slots=True, eq=False)
class Compared:
    """Every edge and mark of the pieces cut from the block, those edges of other pieces that have been drawn, how every piece
    lies, and what is to be told."""

    edges: tuple[DrawnEdge, ...]
    notes: tuple[str, ...]
    marks: tuple[DrawnMark, ...]
    added: Mapping[str, tuple[DrawnEdge, ...]]
    motions: Mapping[str, Motion]


def compared(found: Found, panels: Sequence[KeptPanel]) -> Compared:
    """Return all edges against what was drafted; GeometryError when pieces have lost their shape altogether."""
    problems: list[Problem] = []
    notes: list[str] = []
    by_panel: dict[str, tuple[DrawnEdge, ...]] = {}
    marks: list[DrawnMark] = []
    motions: dict[str, Motion] = {}
    for panel in panels:
        strokes = found.of(panel.name)
        motion = motion_of(panel.title, strokes)
        if isinstance(motion, Problem) and panel.added:
            motion = loosely(strokes) or motion
        if isinstance(motion, Problem):
            if panel.added:
                notes.append(
                    f"the piece “{panel.title}” cannot be made out in the drawing, and has been left as it was"
                )
            else:
                problems.append(motion)
            continue
        motions[panel.name] = motion
        by_panel[panel.name] = tuple(_edge(panel, one.number, motion, one) for one in strokes if one.number is not None)
        marks += [_mark(one, motion) for one in strokes if one.mark is not None]
        notes += _cut_notes(panel, motion, strokes)
    if problems:
        raise GeometryError(problems)
    added = {panel.name for panel in panels if panel.added}
    return Compared(
        tuple(edge for name, edges in by_panel.items() if name not in added for edge in edges),
        tuple(notes),
        tuple(marks),
        {name: edges for name, edges in by_panel.items() if name in added},
        motions,
    )


def _mark(stroke: Stroke, motion: Motion) -> DrawnMark:
    new = motion.put(stroke.drawn)
    if _is_reversed(stroke.old, new):
        new = new.reversed()
    return DrawnMark(
        stroke.panel, stroke.mark or 0, stroke.name, stroke.old, new, apart_mm(stroke.old, new), stroke.place
    )


def apart_mm(old: Curve, new: Curve) -> float:
    """Return how far two lines stand apart at most, their ends included."""
    pairs = ((followed(old), _sparse(new)), (followed(new), _sparse(old)))
    off = max(float(np.hypot(*(points - held_on(points, line)).T).max()) for points, line in pairs)
    ends = (np.hypot(*(old.start - new.start)), np.hypot(*(old.end - new.end)))
    return max(off, *(float(end) for end in ends))


def _sparse(curve: Curve) -> Curve:
    return Curve.through(thinned(curve.points, SPARED_MM))


def held_on(points: Points, line: Curve) -> Points:
    """Return the nearest point of a line itself to each of some points."""
    found = feet(points, line)
    foot = found.foot.copy()
    foot[found.along < 0.0] = line.start
    foot[found.along > line.length_mm] = line.end
    return foot


def _edge(panel: KeptPanel, number: int, motion: Motion, stroke: Stroke) -> DrawnEdge:
    edge = panel.edges[number]
    new = motion.put(stroke.drawn)
    if _is_reversed(edge.curve, new):
        new = new.reversed()
    off, at = _off(edge.curve, new)
    nth = sum(one.name == edge.name for one in panel.edges[:number])
    return DrawnEdge(panel.name, edge.name, nth, edge.kind, edge.curve, new, off, at, stroke.place)


def _is_reversed(old: Curve, new: Curve) -> bool:
    straight = np.hypot(*(new.start - old.start)) + np.hypot(*(new.end - old.end))
    crossed = np.hypot(*(new.end - old.start)) + np.hypot(*(new.start - old.end))
    return bool(crossed < straight)


def _off(old: Curve, new: Curve) -> tuple[float, Points]:
    """Return how far a line stands off another at most, and where on the old one that is."""
    there, here = followed(new), followed(old)
    ahead, back = feet(there, old), feet(here, _sparse(new))
    off = np.concatenate((ahead.off, back.off))
    beyond = np.concatenate((ahead.beyond, back.beyond))
    places = np.vstack((ahead.foot, here))
    off = np.where(off > SAME_MM + beyond**2 / (2.0 * TIGHTEST_MM), off, np.minimum(off, SAME_MM) * (beyond == 0.0))
    worst = int(np.argmax(off))
    return float(off[worst]), places[worst]


def _cut_notes(panel: KeptPanel, motion: Motion, strokes: Sequence[Stroke]) -> list[str]:
    cut = next((stroke for stroke in strokes if stroke.name == CUT and not stroke.edge), None)
    if cut is None:
        return []
    old, new = cut.old, motion.put(cut.drawn)
    pairs = ((new, old), (old, new))
    if all(off_lines_mm(followed(one), [_sparse(other).points]).max() < SAME_MM for one, other in pairs):
        return []
    return [
        f"the cut line of the piece “{panel.title}” was moved: it is made from the stitch lines when you draft, so move those"
    ]
