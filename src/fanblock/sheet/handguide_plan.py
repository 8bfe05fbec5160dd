"""The drawn plan of a panel that is drawn by hand: grid, upright and base line, numbered points, lines with their chords.

It is as large as the room allows and not to scale; its numbers are those of the tables beside it. Every number stands
where it covers nothing.
"""

from __future__ import annotations

import math

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.meet import contains, crossings, points_at
from fanblock.geometry.region import thinned
from fanblock.pattern.model import FOLD, OPEN_KINDS
from fanblock.sheet import phrases
from fanblock.sheet.drawing import PAPER_BLUE, Drawing, Group, Stroke, Words
from fanblock.sheet.font import width_mm
from fanblock.sheet.handguide_marks import (
    CAPITALS,
    DOT_MM,
    LETTER_MM,
    NUMBER_MM,
    SMALL_MM,
    arrow_head,
    dense,
    dot,
    outward,
)
from fanblock.sheet.handguide_model import GRAIN, HandLine, HandPanel
from fanblock.sheet.handguide_tables import say
from fanblock.sheet.handguide_words import paper_mm
from fanblock.sheet.squares import line
from fanblock.tolerances import SOLVED, STRAIGHT_MM

Items = list[Stroke | Words]

_AWAY_MM = (2.6, 3.6, 4.8, 6.2, 8.0, 10.0, 12.5)
"""How far from its point a number may stand, best first."""
_LED_MM = 4.0
"""A number that stands farther from its point is joined to it by a thin line."""
_NEARER_COST = 8.0
"""What it costs a number to stand nearer to another point than to its own, unless it is joined to it."""
_WAYS = 16
_LEAST_LABEL_MM = 5.5
"""Lines of the grid are named no closer than this."""
_FRAME_MM = 7.0
"""Room left of and below the grid for its numbers."""
_CLEAR_MM, _ROUND_MM = 1.3, 0.35
"""Clear paper around words that are placed freely, and around every box."""
_OFFS_MM = (1.4, 2.6, 4.0, 6.0, 9.0, 13.0)
_SLIDES_MM = (0.0, 4.0, -4.0, 8.0, -8.0, 14.0, -14.0)
"""How far inside an edge its words may stand, and how far to either side of its middle, best first."""
_WORDS_COST, _POINT_COST, _OUTWARD = 60.0, 2.0, 1.6
"""What it costs a number to cover words, to cover a point of a line, and not to stand outside; in millimetres away."""
_PENS = {"level": "level", "slit": "slit", "channel": "channel", GRAIN: GRAIN}
_TICK_MM, _BAR_MM, _TICK_STEP_MM = 2.2, 3.0, 1.0


def hand_plan(hand: HandPanel, wide_mm: float, high_mm: float) -> Drawing:
    """Return the plan of a panel, as large as fits the given room."""
    return _Plan(hand, wide_mm, high_mm).drawing()


class _Plan:
    """Where the panel's places lie on the plan, what has been drawn, and where words stand already."""

    def __init__(self, hand: HandPanel, wide_mm: float, high_mm: float) -> None:
        self.hand = hand
        paper_wide, paper_high, from_left, from_low = paper_mm(hand)
        room = wide_mm - _FRAME_MM - 1.0, high_mm - _FRAME_MM - 1.0
        self.scale = min(room[0] / paper_wide, room[1] / paper_high)
        self.size = self.scale * np.array([paper_wide, paper_high])
        self.corner = np.array([0.5 * (wide_mm - self.size[0] + _FRAME_MM - 1.0), _FRAME_MM])
        self.origin = self.corner + self.scale * np.array([from_left, from_low])
        self.wide_mm, self.high_mm = wide_mm, float(self.size[1]) + _FRAME_MM + 1.0
        self.items: Items = []
        self.taken: list[Points] = []
        self.boxes: list[tuple[float, float, float, float]] = []

    def put(self, points: Points) -> Points:
        """Places of the panel on the plan."""
        return np.asarray(self.origin + self.scale * np.asarray(points))

    def drawing(self) -> Drawing:
        """Everything, from the grid up to the words."""
        self._grid()
        self._foundation()
        self._checks()
        self._lines()
        self._notches()
        self._words()
        self._foundation_names()
        self._numbers()
        return Drawing("plan", self.wide_mm, self.high_mm, (Group("plan", tuple(self.items)),))

    def _grid(self) -> None:
        """The grid over the paper, counted from the upright and the base line."""
        rule = self.hand.rule
        step = self.scale * rule.grid_mm
        every = max(1, math.ceil(_LEAST_LABEL_MM / step))
        (left, low), (right, high) = self.corner, self.corner + self.size
        for axis, (start, end) in enumerate(((left, right), (low, high))):
            zero = float(self.origin[axis])
            first, last = math.ceil(round((start - zero) / step, 3)), math.floor(round((end - zero) / step, 3))
            for count in range(first, last + 1):
                at = zero + count * step
                run = [(at, low), (at, high)] if axis == 0 else [(left, at), (right, at)]
                self.items.append(line(run, "grid"))
                if count % every == 0:
                    text = say(abs(count) * rule.grid_mm, rule)
                    x, y = (at, low - 3.0) if axis == 0 else (left - 1.2, at - 0.5 * CAPITALS * SMALL_MM)
                    self.items.append(Words(text, x, y, SMALL_MM, "end" if axis else "middle", color=PAPER_BLUE))
        corners = [(left, low), (right, low), (right, high), (left, high)]
        self.items.append(line(corners, "frame", "paper", closed=True))

    def _foundation(self) -> None:
        """The upright and the base line."""
        (left, low), (right, high) = self.corner, self.corner + self.size
        x, y = self.origin
        self.items += [
            line([(x, low), (x, high)], "base", "upright"),
            line([(left, y), (right, y)], "base", "base line"),
        ]
        self.taken += [dense(np.array([[x, low], [x, high]])), dense(np.array([[left, y], [right, y]]))]

    def _checks(self) -> None:
        """The straight checks, from corner to corner."""
        for check in self.hand.diagonals:
            run = self.put(np.array([self.hand.point(end).place for end in (check.first, check.last)]))
            self.items.append(Stroke(polyline(run), "frame", f"check {check.first} {check.last}"))
            self.taken.append(dense(run)[::2])

    def _lines(self) -> None:
        """Every line as the hand draws it, with its chord and offsets."""
        allowed = self.hand.panel.cut_line
        if allowed is not None and any(width > 0.0 for width in self.hand.panel.allowances.values()):
            ring = self.put(np.vstack((allowed.points, allowed.points[:1])))
            self.items.append(Stroke(polyline(thinned(ring, STRAIGHT_MM)), "ghost", "cut line", True))
            for corner in self.hand.cutting:
                self.items.append(dot(self.put(np.array([corner.x_mm, corner.y_mm])), 0.55 * DOT_MM))
        for one in (*self.hand.outline, *self.hand.inner):
            run = self.put(self.hand.drawn(one))
            self.taken.append(dense(run))
            if one.offsets:
                self._chord(one)
            pen = _PENS.get(one.kind, "mark") if one in self.hand.inner else "cut"
            on_fold = one in self.hand.outline and (one.kind == FOLD or self.hand.panel.fold == one.of)
            self.items.append(Stroke(polyline(thinned(run, STRAIGHT_MM)), "fold" if on_fold else pen, one.of))
            if one.kind == GRAIN:
                self.items.append(arrow_head(run))

    def _chord(self, one: HandLine) -> None:
        """A curve's chord, and its offsets square to it."""
        start, end = (self.hand.point(number).place for number in (one.first, one.last))
        way = (end - start) / np.hypot(*(end - start))
        right = np.array([way[1], -way[0]])
        self.items.append(Stroke(polyline(self.put(np.array([start, end]))), "guide", "chord"))
        for offset in one.offsets:
            foot = start + offset.along_mm * way
            run = self.put(np.array([foot, foot + offset.out_mm * right]))
            if float(np.hypot(*(run[1] - run[0]))) > 2.0 * DOT_MM:
                self.items.append(Stroke(polyline(run), "guide", "offset"))
            self.items.append(dot(run[1], 0.55 * DOT_MM))

    def _notches(self) -> None:
        """Waist bars across the edge, ticks inward, drawn large enough to be seen."""
        for notch in self.hand.panel.notches:
            point, inward = self.put(notch.point), np.asarray(notch.inward)
            along = np.array([-inward[1], inward[0]])
            if notch.kind == "waist":
                run = np.array([point - _BAR_MM * inward, point + _BAR_MM * inward])
                self.items.append(Stroke(polyline(run), "mark", "waist bar"))
                self.taken.append(dense(run))
                continue
            for tick in range(notch.count):
                foot = point + (tick - 0.5 * (notch.count - 1)) * _TICK_STEP_MM * along
                run = np.array([foot, foot + _TICK_MM * inward])
                self.items.append(Stroke(polyline(run), "mark", "tick"))
                self.taken.append(dense(run))
        for hole in self.hand.holes:
            place = self.put(np.array([hole.x_mm, hole.y_mm]))
            self.items.append(dot(place, 0.7 * DOT_MM))
            self.taken.append(dense(np.array([place - DOT_MM, place + DOT_MM])))

    def _words(self) -> None:
        """Letters of seams inside their edges, the names of the others, TOP, and which side is the front."""
        for edge in self.hand.panel.edges:
            middle, (x, y) = (
                edge.curve.at(0.5 * edge.curve.length_mm),
                edge.curve.tangent_at(0.5 * edge.curve.length_mm),
            )
            inward = np.array([-y, x])
            if edge.letter:
                self._word(edge.letter, self.put(middle), inward, LETTER_MM, bold=True)
            elif edge.kind in {FOLD, "center", *OPEN_KINDS} or self.hand.panel.fold == edge.name:
                self._word(phrases.prose(edge.name), self.put(middle), inward, SMALL_MM, turned=(x, y))
        loop = self.hand.panel.loop()
        x = 0.5 * float(loop[:, 0].min() + loop[:, 0].max())
        ring = np.vstack((loop, loop[:1]))
        top = float(points_at(ring, crossings(ring, 0, x))[:, 1].max())
        self._word("TOP", self.put(np.array([x, top])), np.array([0.0, -1.0]), LETTER_MM - 1.2, bold=True)

    def _word(
        self,
        text: str,
        at: Points,
        way: Points,
        size: float,
        bold: bool = False,
        turned: tuple[float, float] | None = None,
    ) -> None:
        """Words off a place, the nearer the better, within the panel where they cover nothing, or else none at all; along an
        edge where ``turned`` is its run.
        """
        angle = 0.0
        wide, high = width_mm(text, size, bold), CAPITALS * size
        if turned is not None and abs(turned[1]) > abs(turned[0]):
            angle = math.degrees(math.atan(turned[1] / turned[0])) if abs(turned[0]) > SOLVED else 90.0
            wide, high = high, wide
        reach = 0.5 * abs(way[0]) * wide + 0.5 * abs(way[1]) * high
        aside = np.array([-way[1], way[0]])
        tried = np.array([at + (reach + off) * way + slide * aside for off in _OFFS_MM for slide in _SLIDES_MM])
        ring = self.put(self.hand.panel.loop())
        inside = np.array([contains(ring, middle) for middle in tried])
        free = np.flatnonzero((self._costs(tried, wide + _CLEAR_MM, high + _CLEAR_MM) == 0.0) & inside)
        if len(free):
            middle, turn = tried[free[0]], math.radians(angle)
            base = middle - 0.5 * CAPITALS * size * np.array([-math.sin(turn), math.cos(turn)])
            self.items.append(Words(text, float(base[0]), float(base[1]), size, "middle", angle, bold))
            self._take(middle, wide, high)

    def _foundation_names(self) -> None:
        """What the upright and the base line are, beside them where they cover least."""
        (left, low), (right, high) = self.corner, self.corner + self.size
        names = (f"base line: {self.hand.level}" if self.hand.level else "base line", 0), ("upright", 1)
        for name, axis in names:
            long, tall = width_mm(name, SMALL_MM), CAPITALS * SMALL_MM
            start, end = ((left, right), (low, high))[axis]
            along = np.linspace(end - 0.5 * long - 1.0, min(start + 0.5 * long + 1.0, end), 12)
            off = [float(self.origin[1 - axis]) + side * (0.5 * tall + 0.9) for side in (1.0, -1.0)]
            tried = np.array([(at, beside) if axis == 0 else (beside, at) for at in along for beside in off])
            size = (long, tall) if axis == 0 else (tall, long)
            middle = tried[int(np.argmin(self._costs(tried, *size)))]
            x, y = (float(value) for value in middle)
            foot = (x, y - 0.5 * CAPITALS * SMALL_MM) if axis == 0 else (x + 0.5 * CAPITALS * SMALL_MM, y)
            self.items.append(Words(name, *foot, SMALL_MM, "middle", 90.0 * axis, color=PAPER_BLUE))
            self._take(middle, *size)

    def _numbers(self) -> None:
        """Every point's dot and its number, out of the panel if there is room, else where it covers least."""
        ring = self.hand.panel.loop()
        turns = np.arange(_WAYS) * 2.0 * math.pi / _WAYS
        ways = np.stack((np.cos(turns), np.sin(turns)), axis=1)
        aways = np.repeat(_AWAY_MM, _WAYS)
        steps = aways[:, None] * np.tile(ways, (len(_AWAY_MM), 1))
        places = {point.number: self.put(point.place) for point in self.hand.points}
        for place in places.values():
            self.taken.append(dense(np.array([place - 0.6, place + 0.6])))
        for point in self.hand.points:
            place = places[point.number]
            text = str(point.number)
            wide, high = width_mm(text, NUMBER_MM, True), CAPITALS * NUMBER_MM
            out = np.array(outward(point.place, ring))
            costs = self._costs(place + steps, wide, high) + aways - _OUTWARD * (steps @ out) / aways
            others = np.array([other for number, other in places.items() if number != point.number]).reshape(-1, 2)
            nearest = np.hypot(*np.moveaxis((place + steps)[:, None] - others[None], 2, 0)).min(
                axis=1, initial=math.inf
            )
            costs = costs + _NEARER_COST * ((nearest < aways) & (aways <= _LED_MM))
            middle = (place + steps)[int(np.argmin(costs))]
            self.items.append(dot(place, DOT_MM))
            self._lead(place, middle, wide, high)
            self.items.append(
                Words(
                    text,
                    float(middle[0]),
                    float(middle[1]) - 0.5 * CAPITALS * NUMBER_MM,
                    NUMBER_MM,
                    "middle",
                    bold=True,
                )
            )
            self._take(middle, wide, high)

    def _lead(self, place: Points, middle: Points, wide: float, high: float) -> None:
        """A thin line from a point to its number where that stands away from it."""
        run = middle - place
        far = float(np.hypot(*run))
        if far <= _LED_MM:
            return
        end = place + run * (1.0 - (0.5 * math.hypot(wide, high) + _ROUND_MM) / far)
        self.items.append(Stroke(polyline(frozen([place, end])), "guide", "lead"))
        self.taken.append(dense(np.array([place, end])))

    def _costs(self, middles: Points, wide: float, high: float) -> Points:
        """How much a box would cover about each of some middles: words already set count most, lines by their points."""
        half = 0.5 * np.array([wide, high]) + _ROUND_MM
        low, top = middles.min(axis=0) - half, middles.max(axis=0) + half
        near = [run[np.all((run > low) & (run < top), axis=1)] for run in self.taken]
        points = np.vstack(near)
        apart = np.abs(points[None] - middles[:, None]) < half
        boxes = np.array(self.boxes).reshape(-1, 4)
        low, top = (middles - half)[:, None], (middles + half)[:, None]
        met = np.all((low < boxes[None, :, 2:]) & (top > boxes[None, :, :2]), axis=2)
        outside = np.any((low < 0.0) | (top > (self.wide_mm, self.high_mm)), axis=(1, 2))
        return np.asarray(_WORDS_COST * (met.sum(axis=1) + outside) + _POINT_COST * apart.all(axis=2).sum(axis=1))

    def _take(self, middle: Points, wide: float, high: float) -> None:
        x, y = (float(value) for value in middle)
        self.boxes.append((x - 0.5 * wide - 0.4, y - 0.5 * high - 0.4, x + 0.5 * wide + 0.4, y + 0.5 * high + 0.4))
