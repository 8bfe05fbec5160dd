"""A small plan of a block as it is drawn by hand: sheet, pin, upright line, levels, cut and lengths.

The sheet and what lies on it are to one scale. A pin far off the paper is drawn nearer, behind a break in its line,
and its distance written beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from fanblock.block.guide import Guide, Mark
from fanblock.geometry.bezier import fit, polyline
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.font import width_mm
from fanblock.sheet.squares import line
from fanblock.units import drawn_length

Items = Iterator[Stroke | Words]

_SIZE_MM, _PIN_DROP_MM, _HEAD_MM = 3.0, 14.0, 3.0


def plan_drawing(guide: Guide, width_mm: float, height_mm: float) -> Drawing:
    """Return the plan, as large as fits the given room."""
    plan = _Plan(guide, width_mm, height_mm)
    items = (*plan.sheet(), *plan.upright_line(), *plan.levels(), *plan.centres(), *plan.cuts())
    return Drawing("plan", width_mm, plan.height_mm, (Group("plan", items),))


class _Plan:
    """Where things of the sheet lie on the plan, and how each is drawn."""

    def __init__(self, guide: Guide, width_mm: float, height_mm: float) -> None:
        self.guide = guide
        below = _PIN_DROP_MM if guide.pin is not None and guide.pin.y_mm < 0.0 else 1.0
        above = _PIN_DROP_MM if guide.pin is not None and guide.pin.y_mm > guide.height_mm else 1.0
        room = width_mm - 2.0, height_mm - below - above - _HEAD_MM
        self.scale = min(room[0] / guide.width_mm, room[1] / guide.height_mm)
        self.height_mm = self.scale * guide.height_mm + below + above + _HEAD_MM
        self.corner = np.array([0.5 * (width_mm - self.scale * guide.width_mm), below])

    def put(self, marks: Sequence[Mark]) -> Points:
        """Points of the sheet on the plan."""
        return frozen(self.scale * np.array([[mark.x_mm, mark.y_mm] for mark in marks]) + self.corner)

    def say(self, mm: float) -> str:
        """A length as the wearer measures."""
        return drawn_length(mm, self.guide.units)

    def sheet(self) -> Items:
        """The paper and how large it is."""
        wide, high = self.guide.width_mm, self.guide.height_mm
        corners = self.put([Mark(0.0, 0.0), Mark(wide, 0.0), Mark(wide, high), Mark(0.0, high)])
        yield Stroke(polyline(corners, closed=True), "frame", "paper", True)
        x, y = corners[3]
        yield Words(f"paper, {self.say(wide)} by {self.say(high)}", float(x), float(y) + 0.9, 2.6)

    def upright_line(self) -> Items:
        """The upright line and the pin on it, nearer than it is where it stands off the paper."""
        pin, high = self.guide.pin, self.guide.height_mm
        if pin is None:
            return
        x, low = (float(value) for value in self.put([Mark(pin.x_mm, 0.0)])[0])
        top = float(self.put([Mark(pin.x_mm, high)])[0][1])
        y = float(self.put([Mark(pin.x_mm, pin.y_mm)])[0][1])
        says = "pin"
        if pin.y_mm < 0.0:
            y, says = low - _PIN_DROP_MM + 4.5, f"pin, {self.say(-pin.y_mm)} below the paper"
            yield from _break(x, low - 0.35 * _PIN_DROP_MM)
        elif pin.y_mm > high:
            y, says = top + _PIN_DROP_MM - 4.0, f"pin, {self.say(pin.y_mm - high)} above the paper"
            yield from _break(x, top + 0.4 * _PIN_DROP_MM)
        yield line([(x, min(low, y)), (x, max(top, y))], "guide", "upright line")
        yield Stroke(polyline(_box(x, y, 0.7), closed=True), "ink", "pin", True)
        strings = ", ".join(f"{arc.name} {self.say(arc.string_mm or 0.0)}" for arc in self.guide.arcs)
        yield Words(says, x + 2.0, y + 0.4, _SIZE_MM)
        yield Words(f"from it: {strings}", x + 2.0, y + 0.4 - 1.2 * _SIZE_MM, _SIZE_MM)
        yield Words(f"upright line, {self.say(pin.x_mm)} from the left", x + 1.5, low + 1.6, 2.6)

    def levels(self) -> Items:
        """The finished levels with half their girths, and, under a tilt, the levels as they were drawn first."""
        halves = {arc.name: arc.length_mm for arc in self.guide.arcs}
        for name, marks in self.guide.first.items():
            corners = self.guide.corners
            ends = (
                (corners[f"center front {name}"], corners[f"center back {name}"]) if name in ("waist", "bust") else ()
            )
            run = self.put([*ends[:1], *self.guide.marks[name], *ends[1:]])
            if self.guide.wedges and name != "bust":
                yield Stroke(fit(Curve.through(self.put(marks))), "ghost", f"{name} drawn first")
            yield Stroke(fit(Curve.through(run)), "mark", name)
            yield from _along(run, 0.24, 1.4, f"{name} · half {self.say(halves[name])}")
        if self.guide.wedges:
            run = self.put(self.guide.first["waist"])
            yield from _along(run, 0.72, -0.8 - 0.75 * 2.4, "waist as drawn first", 2.4)

    def centres(self) -> Items:
        """The finished centre lines with their lengths."""
        high = any(
            wedge.cut and wedge.cut_to_mm + wedge.cut_from_mm > self.guide.ruling_mm for wedge in self.guide.wedges
        )
        share = 0.3 if high else 0.68
        for end, anchor, step in (("front", "start", 2.2), ("back", "end", -2.2)):
            low, top = (self.guide.corners[f"center {end} {level}"] for level in ("waist", "bust"))
            run = self.put([low, top])
            yield Stroke(polyline(run), "mark", f"center {end}")
            x, y = run[0] + share * (run[1] - run[0])
            length = float(np.hypot(top.x_mm - low.x_mm, top.y_mm - low.y_mm))
            for row, text in enumerate((f"centre {end}", self.say(length))):
                yield Words(text, float(x) + step, float(y) - 1.3 * _SIZE_MM * row, _SIZE_MM, anchor)

    def cuts(self) -> Items:
        """Where the sheet is cut for each tilt, with the heights of the cut's ends above the waist drawn first."""
        for wedge in self.guide.wedges:
            if not wedge.cut:
                continue
            run = self.put(wedge.cut)
            yield Stroke(fit(Curve.through(run)), "stitch", "cut")
            says = f"cut, {self.say(wedge.cut_from_mm)} above the waist"
            if abs(wedge.cut_from_mm - wedge.cut_to_mm) > 0.5:
                says = (
                    f"cut, {self.say(wedge.cut_from_mm)} above the waist at the {wedge.at.replace('center', 'centre')}"
                )
            yield from _along(run, 0.72, 1.0, says, 2.6)


def _along(run: Points, share: float, off_mm: float, text: str, size_mm: float = _SIZE_MM) -> Items:
    """Words along a run of points, their middle at a share of it."""
    curve = Curve.through(run)
    at = share * curve.length_mm
    half = min(0.5 * width_mm(text, size_mm), at, curve.length_mm - at)
    first, last = curve.at(at - half), curve.at(at + half)
    x, y = (last - first) / np.hypot(*(last - first))
    bulge = float((curve.at(at) - first) @ np.array([-y, x]))
    place = 0.5 * (first + last) + (off_mm + (max(bulge, 0.0) if off_mm > 0.0 else min(bulge, 0.0))) * np.array([-y, x])
    yield Words(text, float(place[0]), float(place[1]), size_mm, "middle", float(np.degrees(np.arctan2(y, x))))


def _break(x: float, y: float) -> Items:
    """Two slanting strokes: here a length is left out."""
    for step in (-0.5, 0.5):
        yield line([(x - 1.6, y + step - 0.6), (x + 1.6, y + step + 0.6)], "mark", "break")


def _box(x: float, y: float, half: float) -> Points:
    return frozen([[x - half, y - half], [x + half, y - half], [x + half, y + half], [x - half, y + half]])
