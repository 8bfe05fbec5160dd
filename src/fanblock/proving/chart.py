"""Every body of a trial as a dot by its bust and its waist, so that one sees where a recipe fails."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from fanblock.proving.kinds import figure
from fanblock.proving.shapes import CARD, COLORS, FAINT, INK, SOFT, Dots, Lines, Shape
from fanblock.proving.trial import SOUND, Trial
from fanblock.sheet.drawing import Words
from fanblock.units import UNITS

_STEPS = {"cm": (5.0, 10.0, 20.0), "mm": (50.0, 100.0, 200.0), "in": (2.0, 4.0, 8.0)}
_MOST_STEPS = 6
_LEFT, _FOOT, _RIGHT, _TOP = 13.0, 11.0, 3.0, 2.0


@dataclass(frozen=True, slots=True)
class Chart:
    """The dots below a line at ``top``, right of ``left``; both axes have the same ``scale``.

    ``busts`` and ``waists`` are the numbers along the axes, in ``units``; the scale is mm for one of these.
    """

    left: float
    top: float
    scale: float
    units: str
    busts: Sequence[float]
    waists: Sequence[float]
    dots: tuple[tuple[str, tuple[tuple[float, float], ...]], ...]

    @classmethod
    def of(cls, trial: Trial, left: float, top: float, side: float) -> Chart:
        """Return the chart of a trial within a square ``side`` mm wide; rows that cannot be read are not in it."""
        units = trial.people.units
        places = [
            (outcome.state, (values["bust"] / UNITS[units], values["waist"] / UNITS[units]))
            for outcome in trial.outcomes
            if not outcome.person.faults
            if {"bust", "waist"} <= (values := figure(outcome.person)).keys()
        ]
        busts = [bust for _, (bust, _) in places] or [900.0 / UNITS[units]]
        waists = [waist for _, (_, waist) in places] or [740.0 / UNITS[units]]
        wide = max(max(busts) - min(busts), max(waists) - min(waists))
        fitting = [step for step in _STEPS[units] if wide <= _MOST_STEPS * step]
        step = fitting[0] if fitting else _STEPS[units][-1] * math.ceil(wide / _STEPS[units][-1] / _MOST_STEPS)
        dots = tuple((state, tuple(place for one, place in places if one == state)) for state in COLORS)
        along, up = _ticks(busts, step), _ticks(waists, step)
        scale = (side - _LEFT - _RIGHT) / max(along[-1] - along[0], up[-1] - up[0])
        return cls(left, top, scale, units, along, up, dots)

    @property
    def low(self) -> float:
        """Where the chart ends below, the words under it with it."""
        return self.top - _TOP - self.scale * (self.waists[-1] - self.waists[0]) - _FOOT

    def at(self, bust: float, waist: float) -> tuple[float, float]:
        """Return where a bust and a waist, in the chart's units, stand on the sheet."""
        return (
            self.left + _LEFT + self.scale * (bust - self.busts[0]),
            self.low + _FOOT + self.scale * (waist - self.waists[0]),
        )

    def words(self) -> Iterator[Words]:
        """Yield the numbers along both axes, and what they are."""
        for bust in self.busts:
            x, y = self.at(bust, self.waists[0])
            yield Words(f"{bust:.0f}", x, y - 4.2, 3.2, "middle", color=SOFT)
        for waist in self.waists:
            x, y = self.at(self.busts[0], waist)
            yield Words(f"{waist:.0f}", x - 1.6, y - 1.1, 3.2, "end", color=SOFT)
        right, top = self.at(self.busts[-1], self.waists[-1])
        yield Words(f"bust ({self.units})", right, self.low + 1.6, 3.6, "end", color=INK)
        yield Words(f"waist ({self.units})", self.left + 3.0, top, 3.6, "end", 90.0, color=INK)

    def shapes(self) -> Iterator[Shape]:
        """Yield the grid, the line where waist and bust are equal, and the dots."""
        (x0, y0), (x1, y1) = self.at(self.busts[0], self.waists[0]), self.at(self.busts[-1], self.waists[-1])
        frame = np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1]])
        yield Lines("chart", [frame], FAINT, 0.2, closed=True, fill=CARD)
        upright = [np.array([(x, y0), (x, y1)]) for x in (self.at(bust, 0.0)[0] for bust in self.busts)]
        level = [np.array([(x0, y), (x1, y)]) for y in (self.at(0.0, waist)[1] for waist in self.waists)]
        yield Lines("chart grid", [*upright, *level], FAINT, 0.12)
        if self.has_equal:
            ends = [max(self.busts[0], self.waists[0]), min(self.busts[-1], self.waists[-1])]
            yield Lines("waist equals bust", [np.array([self.at(end, end) for end in ends])], SOFT, 0.3, dash="1.2 1.2")
        for state, places in self.dots:
            if places:
                opacity, radius = (0.45, 0.85) if state == SOUND else (0.85, 1.05)
                yield Dots(f"bodies {state}", [self.at(*place) for place in places], COLORS[state], radius, opacity)

    @property
    def has_equal(self) -> bool:
        """Whether the line where waist and bust are equal runs through the chart."""
        return min(self.busts[-1], self.waists[-1]) > max(self.busts[0], self.waists[0])


def _ticks(values: Sequence[float], step: float) -> Sequence[float]:
    first, last = math.floor(min(values) / step), math.ceil(max(values) / step)
    return [number * step for number in range(first, max(last, first + 1) + 1)]
