"""How pleats lie when they are folded: the run of their cloth in cross-section, worked out from the creases on the pieces.

A section is seen from below, the outside up, the front at the left. Places across are millimetres from the line of the
seam, or from the front end of a skirt; levels count layers of cloth outward. Numbers are those of the creases on the
pieces. Seen from outside, cloth that is folded outward is convex: with its right side up it goes on underneath, with its
wrong side up on top; folded inward it goes the other way.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.meet import foot
from fanblock.pattern.model import PLEAT_HEAD, WAIST, Edge, EdgeName, Mark, Panel, Pattern, Seam
from fanblock.sheet import phrases
from fanblock.skirts.pleating import skirt_name
from fanblock.tolerances import LEAST_EDGE_MM
from fanblock.units import fine_length, format_length, marked_mm
from fanblock.wearer.model import LEFT, RIGHT

CREASE, OUTWARD = "crease", "outward"
"""The kind of mark that is folded on, and the word by which its words tell which way."""

LEAD = 1.6
"""How much of the panel beside the pleats is shown, in folds."""

FEW = 8
"""Of a pleated skirt the first pleats are shown, up to this many creases; the others are alike."""


@dataclass(frozen=True, slots=True)
class Bend:
    """A crease as it lies: where it comes to, between which levels, and the number and words it has on the piece.

    ``way`` is 1 where the bend is convex away from the front, -1 where toward it.
    """

    across_mm: float
    level: float
    number: int
    outward: bool
    says: str
    way: float


@dataclass(frozen=True, slots=True)
class Run:
    """One piece's cloth as it lies folded: its corners as (across in mm, level), and its bends."""

    corners: tuple[tuple[float, float], ...]
    bends: tuple[Bend, ...]

    @property
    def end(self) -> tuple[float, float]:
        """Where the cloth ends, at the seam or where no more of it is shown."""
        return self.corners[-1]

    def moved(self, levels: float) -> Run:
        """Return the run lifted by some levels."""
        return Run(
            tuple((x, y + levels) for x, y in self.corners),
            tuple(replace(one, level=one.level + levels) for one in self.bends),
        )


@dataclass(frozen=True, slots=True)
class Section:
    """Pleats at one place: the run that comes from the front, and the one from behind, mirrored, if they meet at a seam.

    ``says`` tells how wide they are. ``letter`` is that of the seam at which the two runs are sewn to each other.
    """

    name: str
    kind: str
    fronts: Run
    backs: Run | None
    letter: str
    says: str


@dataclass(frozen=True, slots=True)
class _Crease:
    """A crease on the flat cloth: how far out it lies, its number, which way it is folded, its words."""

    at_mm: float
    number: int
    outward: bool
    says: str


def run_of(creases: Sequence[tuple[float, int, bool, str]], width_mm: float, lead_mm: float) -> Run:
    """Return how ``width_mm`` of cloth lies when it is folded at creases: (how far out, number, whether outward, words).

    The panel comes along level 0 from ``lead_mm`` before the place; there the cloth begins.

    >>> run_of([(0.0, 1, False, ""), (40.0, 2, True, "")], 80.0, 50.0).corners
    ((-50.0, 0.0), (0.0, 0.0), (0.0, 1.0), (-40.0, 1.0), (-40.0, 2.0), (0.0, 2.0))
    """
    x, level, way, right_side_up, before = 0.0, 0.0, 1.0, True, 0.0
    corners, bends = [(-lead_mm, 0.0)], []
    for at, number, outward, says in creases:
        x += way * (at - before)
        up = 1.0 if right_side_up != outward else -1.0
        corners += [(x, level), (x, level + up)]
        bends.append(Bend(x, level + 0.5 * up, number, outward, says, way))
        level, way, right_side_up, before = level + up, -way, not right_side_up, at
    corners.append((x + way * (width_mm - before), level))
    return Run(tuple(corners), tuple(bends))


def sections_of(pattern: Pattern) -> tuple[Section, ...]:
    """Return the pleats of a pattern: those let into seams from the front back, then those of skirts of their own."""
    if pattern.halves:
        return tuple(_of_halves([sections_of(half) for half in pattern.halves]))
    panels = sorted((panel for panel in pattern.panels if not panel.layer), key=lambda panel: panel.number)
    heads = [(panel, edge) for panel in panels for edge in panel.edges if edge.kind == PLEAT_HEAD]
    places = dict.fromkeys(edge.name.removesuffix(" pleat head") for _, edge in heads)
    skirts = [panel for panel in panels if panel.added and any(edge.kind == WAIST for edge in panel.edges)]
    return (
        *(_at_seam(pattern, place) for place in places),
        *(_of_skirt(pattern, panel) for panel in skirts if any(mark.kind == CREASE for mark in panel.marks)),
    )


def _of_halves(halves: Sequence[tuple[Section, ...]]) -> Iterator[Section]:
    """The pleats of two halves that differ, each told once where both have it alike."""
    for ours, theirs in zip(*halves, strict=True):
        if (ours.kind, ours.says) == (theirs.kind, theirs.says):
            yield ours
        else:
            yield from (replace(one, name=f"{one.name}, {half} half") for one, half in ((ours, LEFT), (theirs, RIGHT)))


def _at_seam(pattern: Pattern, place: str) -> Section:
    name = skirt_name(place)
    seam = next((seam for seam in pattern.seams if seam.name == name), None)
    sides = (seam.front, seam.back) if seam is not None else (_center(pattern, name),) * 2
    runs = [_side(pattern.by_name[side.panel], place) for side in sides]
    fold = max(_fold_mm(run) for run in runs)
    front, back = (
        run_of([(one.at_mm, one.number, one.outward, one.says) for one in run[0]], run[1], LEAD * fold) for run in runs
    )
    lift = front.end[1] - back.end[1]
    back = back.moved(lift) if lift > 0.0 else back
    front = front.moved(-lift) if lift < 0.0 else front
    kind, layers = _kind(runs[0][0], runs[1][0]), round((runs[0][1] + runs[1][1]) / fold)
    return Section(
        f"At the {phrases.prose(place)}",
        _kind_words(kind, layers),
        front,
        back,
        _letter(seam),
        _says(pattern, kind, runs, fold),
    )


def _letter(seam: Seam | None) -> str:
    return "" if seam is None else seam.letter


def _center(pattern: Pattern, name: str) -> EdgeName:
    """The one edge of pleats at a centre line, which meets its own mirror image."""
    return next(
        EdgeName(panel.name, edge.name) for panel in pattern.panels for edge in panel.edges if edge.name == name
    )


def _side(panel: Panel, place: str) -> tuple[list[_Crease], float]:
    """A panel's creases at a place, from the panel outward, and how much cloth it brings."""
    head = next((edge for edge in panel.edges if edge.name == f"{place} pleat head"), None)
    if head is None:
        return [], 0.0
    curve = head.curve if _corner_first(panel, head, place) else head.curve.reversed()
    marks = [mark for mark in panel.marks if mark.kind == CREASE and mark.name.startswith(f"{place} fold ")]
    return [_crease(mark, curve) for mark in marks], curve.length_mm


def _corner_first(panel: Panel, head: Edge, place: str) -> bool:
    """Whether a pleat head begins at the panel's own line, and not at the outer edge of the pleats' cloth."""
    outer = panel.edge(skirt_name(place)).curve
    ends = np.vstack((outer.start, outer.end))
    far = [float(np.min(np.hypot(*(ends - point).T))) for point in (head.curve.start, head.curve.end)]
    return far[0] > far[1]


def _crease(mark: Mark, upper: Curve) -> _Crease:
    """A crease that begins on an upper edge, by how far along it."""
    at = foot(upper.points, _near(mark.curve, upper.points))[1]
    along = float(np.interp(at, np.arange(len(upper.along)), upper.along))
    name, _, says = mark.says.partition(": ")
    return _Crease(along, int(name.removeprefix("fold ")), says.startswith(OUTWARD), says)


def _near(curve: Curve, line: Points) -> Points:
    return min((curve.start, curve.end), key=lambda point: foot(line, point)[0])


def _fold_mm(run: tuple[list[_Crease], float]) -> float:
    """How wide one fold is: the distance between two creases, or of the last from the outer edge."""
    at = [*(one.at_mm for one in run[0]), run[1]]
    return at[-1] - at[-2] if len(at) > 1 else at[0]


def _kind(front: list[_Crease], back: list[_Crease]) -> str:
    """Which kind of pleats two sides make: of a box two folded edges meet on the seam, the others are knife."""
    starts = [bool(side) and side[0].at_mm < LEAST_EDGE_MM for side in (front, back)]
    return "box" if all(starts) else "knife"


def _kind_words(kind: str, layers: int) -> str:
    """A box takes four folds, both sides together, and a knife pleat two."""
    count = layers // (2 if kind == "knife" else 4)
    if kind == "knife":
        return "knife pleat" if count == 1 else f"{count} knife pleats"
    return f"{ {1: '', 2: 'double ', 3: 'triple '}.get(count, f'{count}-fold ') }{kind} pleat, turned in"


def _says(pattern: Pattern, kind: str, runs: Sequence[tuple[list[_Crease], float]], fold_mm: float) -> str:
    units = pattern.body.units
    one = marked_mm(fold_mm, units)
    wide = f"one fold is {fine_length(one, units)} wide"
    if kind != "knife":
        wide += f", the box inside {fine_length(2.0 * one, units)}"
    counts = [round(run[1] / fold_mm) for run in runs]
    cloth = [f"{fine_length(count * one, units)} ({count} folds)" for count in counts]
    brings = f"{cloth[0]} from the front and {cloth[1]} from behind"
    if cloth[0] == cloth[1]:
        brings = f"{cloth[0]} from either side"
    elif not all(counts):
        brings = f"{cloth[0]}, all from the front" if counts[0] else f"{cloth[1]}, all from behind"
    return f"At the head {wide}. The cloth is {brings}; folded it takes up nothing of the seam."


def _of_skirt(pattern: Pattern, panel: Panel) -> Section:
    """The first pleats of a skirt of its own, along its upper edge from the front."""
    edges = [edge for edge in panel.edges if edge.kind == WAIST]
    upper = Curve.through(np.vstack([edges[0].curve.points, *(edge.curve.points[1:] for edge in edges[1:])]))
    upper = upper if upper.start[0] < upper.end[0] else upper.reversed()
    creases = sorted((_crease(mark, upper) for mark in panel.marks if mark.kind == CREASE), key=lambda one: one.at_mm)
    whole = run_of([(one.at_mm, one.number, one.outward, one.says) for one in creases], upper.length_mm, 0.0)
    shown, further = creases[:FEW], creases[FEW : FEW + 1]
    end = further[0].at_mm if further else upper.length_mm
    run = run_of([(one.at_mm, one.number, one.outward, one.says) for one in shown], end, 0.0)
    units = pattern.body.units
    more = "; the first are shown, the others are alike" if further else ""
    says = (
        f"{format_length(upper.length_mm, units)} of cloth become {format_length(whole.end[0], units)} when the pleats are folded"
        f"{more}."
    )
    return Section(f"Piece {panel.number} ({panel.name})", "pleats", run, None, "", says)
