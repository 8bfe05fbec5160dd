"""A front wider than the fitted one it is laid over, gathered to it at the neck and at the lower edge.

The fitted front is spread square to its centre line, most at the centre and less and less towards the place where the gathers
end. Beyond that the cloth is only moved aside, so the edges it is sewn in with stay what they are, to the point.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from fanblock.draft.adding import panel_of, with_piece
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.meet import foot
from fanblock.pattern.model import CENTER, HEM, NECKLINE, TOP, WAIST, Edge, Mark, Note, Panel
from fanblock.problems import GeometryError, Problem
from fanblock.shaping.edges import base_name
from fanblock.units import format_length

GATHERED_KINDS = (NECKLINE, TOP, HEM, WAIST)
"""The kinds of edges that may be gathered."""

EVEN_SHARE = 0.5
"""So much of the gathered stretch, from the centre on, has its full share of gathers; on the rest they thin out (from memory)."""

STEP_MM = 2.0
"""Distance between the points of an edge that is spread."""

BRIDGE_MM = 20.0
"""How far on either side of a dart's mouth the wide front's edge leaves that of the fitted one, to run on smoothly."""

BRIDGE_POINTS = 25

THREAD_MM = 6.0
"""How far within the stitch line the gathering thread is marked (from memory)."""

GRAIN_SHARE, GRAIN_INSET = 0.5, 0.12
"""Where across the gathered stretch the grain line stands, and how far its ends stay from the edges, as shares."""


@dataclass(frozen=True, slots=True)
class Spread:
    """How a front is spread: its piece's name, how many times as wide up to ``within_mm`` from the centre line."""

    name: str
    times: float
    within_mm: float

    def moved(self, across: Points) -> Points:
        """Return how far cloth so far from the centre line is moved aside, in mm.

        Its density is even over :data:`EVEN_SHARE` of the stretch and then falls to nothing as a cosine does; over the whole
        stretch it adds ``times - 1`` of it.
        """
        even, last = EVEN_SHARE * self.within_mm, self.within_mm
        peak = (self.times - 1.0) * last / (even + (last - even) / 2.0)
        x = np.clip(across, 0.0, last)
        share = np.clip((x - even) / (last - even), 0.0, 1.0)
        tail = (last - even) * (share + np.sin(np.pi * share) / np.pi) / 2.0
        return peak * (np.minimum(x, even) + tail)


def with_gathered_front(work: Work, panel_name: str, spread: Spread) -> Work:
    """Return the work with the wide front that is gathered over a panel.

    GeometryError when the panel has no centre line in front, or when the gathers would reach an edge that is not gathered.
    """
    panel = panel_of(work, panel_name)
    center = next((edge for edge in panel.edges if edge.kind == CENTER and edge.name == "center front"), None)
    if center is None:
        what = f"panel “{panel_name}” has no centre front that is cut on the fold or sewn."
        remedy = "Gather over a panel that reaches the centre front, and let the garment open behind."
        raise GeometryError([Problem("gather-center", "panel", what, remedy)])
    low, along, inward = _frame(panel, center)
    _check_reach(work, panel, center, spread, low, inward)
    edges = tuple(_edge(panel, edge, spread, low, inward) for edge in whole_edges(panel))
    marks = tuple(_thread(edge, spread, low, inward) for edge in edges if _is_gathered(edge, low, inward))
    piece = Panel(
        spread.name,
        0,
        edges,
        grain=_grain(center, spread, low, along, inward),
        marks=marks,
        loose=f"laid over “{panel_name}” and sewn in with it",
    )
    return with_piece(work, piece, _notes(work, panel, piece, spread))


def _frame(panel: Panel, center: Edge) -> tuple[Points, Points, Points]:
    """Return the lower end of the centre line, the direction up along it and that square to it, into the cloth."""
    low, high = sorted((center.curve.start, center.curve.end), key=lambda point: float(point[1]))
    along = (high - low) / np.hypot(*(high - low))
    inward = np.array([along[1], -along[0]])
    if float((panel.loop().mean(axis=0) - low) @ inward) < 0.0:
        inward = -inward
    return low, along, inward


def _check_reach(work: Work, panel: Panel, center: Edge, spread: Spread, low: Points, inward: Points) -> None:
    """Refuse gathers that reach an edge which is sewn in as it is."""
    kept = [edge for edge in panel.edges if edge is not center and edge.kind not in GATHERED_KINDS]
    near = {edge.name: float(((edge.curve.points - low) @ inward).min()) for edge in kept}
    name = min(near, key=lambda edge: near[edge])
    if near[name] >= spread.within_mm:
        return
    units = work.body.units
    what = (
        f"the gathers shall reach {format_length(spread.within_mm, units)} from the centre front, and {name} comes within "
        f"{format_length(max(near[name], 0.0), units)} of it."
    )
    raise GeometryError([Problem("gather-wide", "within", what, "Let them end nearer the centre front.")])


def whole_edges(panel: Panel) -> tuple[Edge, ...]:
    """Return the edges of a panel, those that a dart or the steps of a sleeve have parted put together again."""
    runs: list[list[Edge]] = []
    for edge in panel.edges:
        if runs and _whole(panel, runs[-1][0]) == _whole(panel, edge):
            runs[-1].append(edge)
        else:
            runs.append([edge])
    if len(runs) > 1 and _whole(panel, runs[0][0]) == _whole(panel, runs[-1][0]):
        runs[0] = [*runs.pop(), *runs[0]]
    return tuple(_joined(panel, run) for run in runs)


def _whole(panel: Panel, edge: Edge) -> tuple[str, str]:
    """Return the name and the kind of the edge that this one is a part of."""
    name, _, dart = base_name(edge).partition(" at ")
    darts = {mark.name for mark in panel.marks if mark.kind == "dart"}
    return (name if dart in darts else base_name(edge)), edge.kind


def _joined(panel: Panel, run: list[Edge]) -> Edge:
    if len(run) == 1:
        return run[0]
    points = np.vstack([run[0].curve.points[:1], *(edge.curve.points[1:] for edge in run)])
    name, _ = _whole(panel, run[0])
    return replace(run[0], name=name, curve=Curve(frozen(points)), mate=None, waist_at_mm=None)


def _edge(panel: Panel, edge: Edge, spread: Spread, low: Points, inward: Points) -> Edge:
    """Return an edge of the wide front: spread where it is gathered, without the peak of a dart, sewn to nothing of its own."""
    points = edge.curve.points
    if edge.kind in GATHERED_KINDS:
        points = _without_darts(panel, edge)
    across = (points - low) @ inward
    curve = Curve(frozen(points + spread.moved(across)[:, None] * inward))
    return Edge(edge.name, edge.kind, curve, pointed=edge.pointed)


def _without_darts(panel: Panel, edge: Edge) -> Points:
    """Return an edge in small steps, smooth across the mouth of every dart: what that takes is gathered too."""
    length = edge.curve.length_mm
    places = np.linspace(0.0, length, max(int(np.ceil(length / STEP_MM)), 1) + 1)
    points = np.array([edge.curve.at(float(place)) for place in places])
    for first, last in _mouths(panel, edge):
        low, high = max(first - BRIDGE_MM, 0.0), min(last + BRIDGE_MM, length)
        points = np.vstack((points[places < low], _bridge(edge.curve, low, high), points[places > high]))
        places = np.concatenate((places[places < low], np.linspace(low, high, BRIDGE_POINTS), places[places > high]))
    return points


def _bridge(curve: Curve, low: float, high: float) -> Points:
    """Return a smooth run between two places of a curve, with its directions there: Hermite's cubic."""
    start, end = curve.at(low), curve.at(high)
    span = float(np.hypot(*(end - start)))
    begin, finish = span * curve.tangent_at(low), span * curve.tangent_at(high)
    share = np.linspace(0.0, 1.0, BRIDGE_POINTS)[:, None]
    cube, square = share**3, share**2
    to_end = 3.0 * square - 2.0 * cube
    return (1.0 - to_end) * start + to_end * end + (cube - 2.0 * square + share) * begin + (cube - square) * finish


def _mouths(panel: Panel, edge: Edge) -> list[tuple[float, float]]:
    """Return where along an edge both legs of every dart in it begin, in mm."""
    legs: dict[str, list[float]] = {}
    count = np.arange(len(edge.curve.along))
    for mark in panel.marks:
        off, place = foot(edge.curve.points, mark.curve.start)
        if mark.kind == "dart" and off < STEP_MM:
            legs.setdefault(mark.name, []).append(float(np.interp(place, count, edge.curve.along)))
    return [(min(places), max(places)) for places in legs.values()]


def sewn_mm(panel: Panel, edge: Edge) -> float:
    """Return how long an edge of a fitted front is once its darts are sewn."""
    return edge.curve.length_mm - sum(last - first for first, last in _mouths(panel, edge))


def _is_gathered(edge: Edge, low: Points, inward: Points) -> bool:
    """Return whether an edge begins at the centre line and is of a kind that is gathered."""
    return edge.kind in GATHERED_KINDS and float(((edge.curve.points - low) @ inward).min()) < STEP_MM


def _thread(edge: Edge, spread: Spread, low: Points, inward: Points) -> Mark:
    """Return the line of the gathering thread beside an edge, from the centre line to where the gathers end."""
    across = (edge.curve.points - low) @ inward
    reach = spread.within_mm + float(spread.moved(np.array([spread.within_mm]))[0])
    run = edge.curve.points[across <= reach]
    step = np.gradient(run, axis=0)
    left = np.column_stack((-step[:, 1], step[:, 0])) / np.hypot(*step.T)[:, None]
    return Mark(f"gathers {edge.name}", "gather", Curve(frozen(run + THREAD_MM * left)), "gather")


def _grain(center: Edge, spread: Spread, low: Points, along: Points, inward: Points) -> tuple[Points, Points]:
    high = center.curve.length_mm
    at = low + GRAIN_SHARE * spread.within_mm * inward
    return frozen(at + GRAIN_INSET * high * along), frozen(at + (1.0 - GRAIN_INSET) * high * along)


def _notes(work: Work, panel: Panel, piece: Panel, spread: Spread) -> tuple[Note, ...]:
    units, number = work.body.units, len(work.panels) + 1
    low, _, inward = _frame(panel, next(edge for edge in panel.edges if edge.kind == CENTER))
    fitted = {edge.name: edge for edge in whole_edges(panel)}
    runs = " and ".join(
        f"{edge.name} by {format_length(edge.curve.length_mm - sewn_mm(panel, fitted[edge.name]), units)}"
        for edge in piece.edges
        if _is_gathered(edge, low, inward)
    )
    darts = " Sew its darts first: the wide front has none." if any(m.kind == "dart" for m in panel.marks) else ""
    sides = ", ".join(edge.name for edge in fitted.values() if edge.kind not in (*GATHERED_KINDS, CENTER))
    says = (
        f"The {panel.name} is the fitted lining of the {piece.name} (piece {number}).{darts} Lay the {piece.name} over it, centre on "
        f"centre, and draw its gathering threads up until its edges are as long as the lining's: on either half {runs}. Baste the "
        f"two together, and from there on sew them as one; at {sides} they are the same."
    )
    look = (
        f"Pin the {piece.name} over the fitted front on the body and push the gathers about: they belong under and between the "
        "breasts. If it stands off below, lay deeper gathers at the lower edge; if the neck gapes, draw that thread up more."
    )
    return Note("sewing first", says), Note("toile", look)
