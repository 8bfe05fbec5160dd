"""Numbers for drawing every panel by hand: points, straight lines, and curves by a few offsets from their chords.

Each panel stands upright by its grain. Two lines are ruled first and everything is measured from them: the *upright*
runs along the grain through the panel's leftmost point, the *base line* through the waist at its front side, or, where a piece has no waist
level, through its lowest point. x counts to the right of the upright, y up from the base line. All numbers are rounded to
what can be read off a ruler, and curves get as many offsets as it takes for the rounded numbers to give the panel
back: a lath held at the points keeps within :data:`fanblock.sheet.handguide_curves.DRAWN_MM` of the true line.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator

import numpy as np

from fanblock.geometry.bezier import corners
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.meet import crossings, points_at
from fanblock.pattern.bones import BOTH, LEFT, RIGHT
from fanblock.pattern.model import Edge, Notch, Panel, Pattern
from fanblock.sheet.boning import called
from fanblock.sheet.handguide_curves import Rule, offsets_of, rule_for, swing_of, weights
from fanblock.sheet.handguide_cut import cut_corners
from fanblock.sheet.handguide_model import GRAIN, Diagonal, HandLine, HandNotch, HandPanel, HandPoint, Hole, Span
from fanblock.sheet.levels import told_level
from fanblock.sheet.piece import BAR_OUT_MM, clear_grain, on_marks
from fanblock.sheet.upright import moved_panel, upright

_HALVES = (BOTH, LEFT, RIGHT)
"""Eyelets of one number stand in this order."""

LEAST_DRAWN_MM = 2.0
"""A shorter line whose two ends are marked at one point is that point."""


def hand_panel(panel: Panel, rule: Rule, level: str = "waist") -> HandPanel:
    """Return the numbers for drawing a panel by hand, in its own frame; ``level`` is what heights are told from."""
    stood, level = _stood(panel, level)
    numbers = _Numbers(rule)
    outline = tuple(line for edge in _from_top(stood) for line in _edge_lines(edge, stood, numbers))
    inner = tuple(line for curve, of, kind in _inner(stood) for line in _lines(curve, of, kind, numbers))
    inner = (*inner, *_grain(stood, numbers))
    low, high = stood.loop().min(axis=0), stood.loop().max(axis=0)
    return HandPanel(
        panel=stood,
        rule=rule,
        level=level,
        left_mm=float(low[0]),
        right_mm=float(high[0]),
        low_mm=float(low[1]),
        high_mm=float(high[1]),
        points=tuple(numbers.points),
        outline=outline,
        inner=inner,
        notches=tuple(_notch(notch, stood, outline) for notch in stood.notches),
        diagonals=_diagonals(outline, numbers),
        across=tuple(_spans(stood.loop(), 1, rule)),
        upward=tuple(_spans(stood.loop(), 0, rule)),
        holes=tuple(
            Hole(eyelet.half, eyelet.number, rule.rounded(eyelet.point[0]), rule.rounded(eyelet.point[1]))
            for eyelet in sorted(stood.eyelets, key=lambda one: (one.number, _HALVES.index(one.half)))
        ),
        cutting=cut_corners(stood, rule),
    )


def hand_panels(pattern: Pattern) -> tuple[HandPanel, ...]:
    """Return the numbers of every panel, in order of their numbers."""
    rule, level = rule_for(pattern.body.units), told_level(pattern)
    return tuple(hand_panel(panel, rule, level) for panel in sorted(pattern.panels, key=lambda panel: panel.number))


def _stood(panel: Panel, level: str) -> tuple[Panel, str]:
    """The panel upright by its grain, its leftmost point at x 0, its level at the front side at y 0; and that level's name.

    Its grain line stands where it is printed.
    """
    stood = clear_grain(upright(panel))
    ends = [tuple(point) for part in stood.levels.get(level, ()) for point in (part.start, part.end)]
    left, low = stood.loop().min(axis=0)
    height = min(ends)[1] if ends else low
    return moved_panel(stood, np.eye(2), -np.array([left, height])), level if ends else ""


def _from_top(panel: Panel) -> tuple[Edge, ...]:
    """The edges in loop order, beginning at the corner that is highest and farthest left."""
    starts = [float(edge.curve.start[1] - edge.curve.start[0]) for edge in panel.edges]
    first = starts.index(max(starts))
    return panel.edges[first:] + panel.edges[:first]


class _Numbers:
    """Points numbered as they are first met; one place has one number."""

    def __init__(self, rule: Rule) -> None:
        self.rule = rule
        self.points: list[HandPoint] = []
        self.known: dict[tuple[float, float], int] = {}

    def rounded(self, point: Points) -> Points:
        """A point as it is marked."""
        return np.array([self.rule.rounded(float(point[0])), self.rule.rounded(float(point[1]))])

    def number(self, rounded: Points, says: str) -> int:
        """The number of a rounded place."""
        place = float(rounded[0]), float(rounded[1])
        if place not in self.known:
            self.known[place] = len(self.points) + 1
            self.points.append(HandPoint(len(self.points) + 1, *place, says))
        return self.known[place]

    def place(self, number: int) -> Points:
        """Where a numbered point stands."""
        return self.points[number - 1].place


def _edge_lines(edge: Edge, panel: Panel, numbers: _Numbers) -> Iterator[HandLine]:
    at = [one.name for one in panel.edges].index(edge.name)
    before, after = panel.edges[at - 1].name, panel.edges[(at + 1) % len(panel.edges)].name
    says = f"{before} meets {edge.name}", f"{edge.name} meets {after}"
    return _lines(edge.curve, edge.name, edge.kind, numbers, says)


def _inner(panel: Panel) -> Iterator[tuple[Curve, str, str]]:
    """Lines within the panel: levels, slits, marks, the middles of bones."""
    for name, parts in panel.levels.items():
        yield from ((part, f"{name} line", "level") for part in parts)
    for count, slit in enumerate(panel.slits, start=1):
        name = f"slit {count}" if len(panel.slits) > 1 else "slit"
        yield Curve(frozen([slit.start, slit.end])), name, "slit"
    yield from ((mark.curve, mark.name, "mark") for mark in panel.marks)
    yield from ((channel.line, called(channel), "channel") for channel in panel.channels)


def _grain(panel: Panel, numbers: _Numbers) -> tuple[HandLine, ...]:
    """The grain line from its foot to its top, as it is printed."""
    if panel.grain is None:
        return ()
    foot, top = panel.grain
    first = numbers.number(numbers.rounded(foot), "foot of the grain line")
    last = numbers.number(numbers.rounded(top), "top of the grain line")
    long = float(np.hypot(*(top - foot)))
    return (HandLine("grain line", GRAIN, first, last, long, (), long),)


def _lines(curve: Curve, of: str, kind: str, numbers: _Numbers, says: tuple[str, str] = ("", "")) -> Iterator[HandLine]:
    """A curve from corner to corner, in as many parts as can each be drawn by a few offsets."""
    end = len(curve.points) - 1
    spans = list(itertools.pairwise(sorted({0, *corners(curve.points), end})))
    while spans:
        first, last = spans.pop(0)
        part = Curve(frozen(curve.points[first : last + 1]))
        places = numbers.rounded(part.start), numbers.rounded(part.end)
        closed = np.array_equal(*places)
        if closed and part.length_mm < LEAST_DRAWN_MM:
            continue
        offsets = None if closed else offsets_of(part, *places, numbers.rule)
        if offsets is None and last - first > 1:
            middle = first + int(np.clip(np.searchsorted(weights(part), 0.5), 1, last - first - 1))
            spans[:0] = [(first, middle), (middle, last)]
            continue
        start = numbers.number(places[0], (first == 0 and says[0]) or f"on the {of}")
        stop = numbers.number(places[1], (last == end and says[1]) or f"on the {of}")
        chord = float(np.hypot(*(part.end - part.start))) if offsets else part.length_mm
        swing = swing_of(part, numbers.rule) if offsets and says[0] else None
        yield HandLine(of, kind, start, stop, chord, offsets or (), part.length_mm, swing)


def _notch(notch: Notch, panel: Panel, outline: tuple[HandLine, ...]) -> HandNotch:
    """A notch by how far it is from the upper end of its edge, or from the left one where the edge lies rather flat."""
    edge = panel.edge(notch.edge)
    lines = [line for line in outline if line.of == notch.edge]
    run = edge.curve.end - edge.curve.start
    from_end = run[1] > 0.0 if abs(run[1]) > abs(run[0]) else run[0] < 0.0
    start = lines[-1].last if from_end else lines[0].first
    at = edge.curve.length_mm - notch.at_mm if from_end else notch.at_mm
    if notch.kind == "waist":
        beyond = max(panel.allowances.get(notch.edge, 0.0), 0.0) or (BAR_OUT_MM if edge.mate is None else 0.0)
        return HandNotch(notch.edge, notch.kind, 0, start, at, beyond_mm=beyond)
    bars = [one.at_mm for one in panel.notches if one.edge == notch.edge and one.kind == "waist"]
    above = (notch.at_mm - bars[0]) * (1.0 if run[1] > 0.0 else -1.0) if bars else None
    outward = on_marks(panel, notch)
    return HandNotch(notch.edge, notch.kind, notch.count, start, at, above, notch.tick_mm, outward)


def _diagonals(outline: tuple[HandLine, ...], numbers: _Numbers) -> tuple[Diagonal, ...]:
    """The longest straight check between two corners that no line joins, and the longest that crosses it."""
    ends = sorted({line.first for line in outline} | {line.last for line in outline})
    joined = {frozenset((line.first, line.last)) for line in outline}
    pairs = [pair for pair in itertools.combinations(ends, 2) if frozenset(pair) not in joined]
    if not pairs:
        return tuple(Diagonal(line.first, line.last, line.chord_mm) for line in outline[:1])
    apart = {pair: float(np.hypot(*(numbers.place(pair[1]) - numbers.place(pair[0])))) for pair in pairs}
    longest = max(pairs, key=lambda pair: (apart[pair], pair))
    crossing = [pair for pair in pairs if _cross(*(numbers.place(end) for end in (*longest, *pair)))]
    chosen = [longest, *([max(crossing, key=lambda pair: (apart[pair], pair))] if crossing else [])]
    return tuple(Diagonal(*pair, apart[pair]) for pair in chosen)


def _cross(a: Points, b: Points, c: Points, d: Points) -> bool:
    """Whether two straight lines cross between their ends."""

    def side(p: Points, q: Points, r: Points) -> float:
        return float((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]))

    return side(a, b, c) * side(a, b, d) < 0.0 and side(c, d, a) * side(c, d, b) < 0.0


def _spans(loop: Points, axis: int, rule: Rule) -> Iterator[Span]:
    """Where the lines of the grid lie within a closed loop: at equal steps of one coordinate, its runs in the other."""
    ring = np.vstack((loop, loop[:1]))
    low, high = float(loop[:, axis].min()), float(loop[:, axis].max())
    for step in range(int(np.ceil(low / rule.grid_mm)), int(np.floor(high / rule.grid_mm)) + 1):
        at = step * rule.grid_mm
        met = np.sort(points_at(ring, crossings(ring, axis, at))[:, 1 - axis])
        ends = [rule.rounded(value) for value in met.tolist()]
        if ends:
            yield Span(at, tuple(zip(ends[::2], ends[1::2], strict=True)))
