"""A trial in one picture: all outlines over one another, the middle bodies strongly, and where each body stands.

The halves lie on one another as their blocks do: centre front at the left and upright, its waist point common
to all. At the right every body is a dot, with what the lines are and what went wrong. Millimetres, y up.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from fanblock.geometry.curve import Points
from fanblock.proving.chart import Chart
from fanblock.proving.shapes import BACKGROUND, BLUE, COLORS, INK, MOSS, RED, SOFT, Dots, Lines, Shape
from fanblock.proving.summary import groups, verdict
from fanblock.proving.trial import BROKEN, NOT_SOUND, REFUSED, SOUND, Outcome, Trial
from fanblock.sheet.drawing import Drawing, Group, Words
from fanblock.sheet.font import fitted
from fanblock.sheet.setting import paragraph
from fanblock.sheet.svg import write_svg
from fanblock.units import UNITS

WIDTH_MM = 300.0
CAPTION = "Sound drawing, not fit: whether a garment fits, only a toile tells."

_EDGE, _HEAD, _FOOT, _COLUMN, _GAP = 9.0, 26.0, 18.0, 84.0, 10.0
_ROOM = WIDTH_MM - 2 * _EDGE - _COLUMN - _GAP
_LEAST_TALL, _MOST_TALL = 130.0, 200.0
_RIGHT = WIDTH_MM - _EDGE - _COLUMN
_LINE = 5.6
_MOST_CAUSES = 3


def picture_svg(trial: Trial) -> str:
    """Return the picture as SVG, 300 mm wide, its letters in it; the same trial gives the same picture."""
    view = _View.of(trial)
    tall = min(max(view.tall, _LEAST_TALL), _MOST_TALL)
    height = _EDGE + _HEAD + tall + _FOOT + _EDGE
    top = height - _EDGE - _HEAD
    view = view.centred(_EDGE + _FOOT + tall / 2.0)
    chart = Chart.of(trial, _RIGHT, top, _COLUMN)
    legend = _legend(trial, chart, chart.low - 3.0)
    words = [*_heading(trial, height), *chart.words(), *legend.words, *_causes(trial, legend.low), *_foot(trial)]
    shapes = [*_outlines(trial, view), *_scale_bar(trial, view.scale), *chart.shapes(), *legend.shapes]
    title = f"{trial.recipe.name}: {verdict(trial)}"
    svg = write_svg(Drawing(title, WIDTH_MM, height, (Group("words", tuple(words)),)), True, BACKGROUND)
    before, mark, after = svg.partition('<g id="words"')
    return "".join((before, *(f"{shape.svg(height)}\n" for shape in shapes), mark, after))


@dataclass(frozen=True, slots=True)
class _View:
    """Where points of a block stand on the sheet."""

    scale: float
    left: float
    low: float
    tall: float
    middle: float

    @classmethod
    def of(cls, trial: Trial) -> _View:
        rings = [ring for one in _drawn(trial) for ring in one.outlines]
        if not rings:
            return cls(1.0, 0.0, 0.0, 0.0, 0.0)
        points = np.vstack(rings)
        low, high = points.min(axis=0), points.max(axis=0)
        scale = float(min(_ROOM / (high - low)[0], _MOST_TALL / (high - low)[1]))
        left = _EDGE - scale * float(low[0])
        return cls(scale, left, 0.0, scale * float((high - low)[1]), scale * float((low + high)[1]) / 2.0)

    def centred(self, at: float) -> _View:
        return _View(self.scale, self.left, at - self.middle, self.tall, self.middle)

    def __call__(self, points: Points) -> Points:
        return np.asarray(points * self.scale + (self.left, self.low))


def _drawn(trial: Trial) -> list[Outcome]:
    middle = [one for one in (trial.median, trial.mean) if one is not None]
    return [one for one in (*trial.outcomes, *middle) if one.outlines]


def _outlines(trial: Trial, view: _View) -> Iterator[Lines]:
    """All outlines, fainter the more there are; those not sound above the others, the middle ones on top."""
    for state, width, times, most in ((SOUND, 0.16, 1.0, 0.6), (NOT_SOUND, 0.22, 2.0, 0.9)):
        some = trial.of(state)
        rings = [view(ring) for one in some for ring in one.outlines]
        if rings:
            opacity = min(times * max(40.0 / len(some), 0.14), most)
            yield Lines(f"outlines {state}", rings, COLORS[state], width, opacity, closed=True)
    for name, body, color, width, dash in _middles(trial):
        yield Lines(name, [view(ring) for ring in body.outlines], color, width, dash=dash, closed=True)


def _middles(trial: Trial) -> Iterator[tuple[str, Outcome, str, float, str]]:
    for name, body, color, width, dash in (
        ("median body", trial.median, INK, 0.6, ""),
        ("mean body", trial.mean, MOSS, 0.6, "2.4 1.6"),
    ):
        if body is not None and body.outlines:
            yield name, body, color, width, dash


def _heading(trial: Trial, height: float) -> Iterator[Words]:
    source = "invented bodies" if trial.people.invented else f"the bodies of {trial.people.source}"
    about = f"{trial.recipe.id} · drafted for {source}, measured over the {trial.over}"
    color = BLUE if len(trial.of(SOUND)) == len(trial.outcomes) > 0 else INK
    if trial.of(NOT_SOUND) or trial.of(BROKEN):
        color = RED
    y = height - _EDGE + 1.0
    for text, size, bold, ink in (
        (trial.recipe.name, 7.0, True, INK),
        (verdict(trial), 4.8, True, color),
        (about + (" · stopped before the end" if trial.stopped else ""), 3.8, False, SOFT),
    ):
        y -= 1.25 * size
        yield Words(fitted(text, size, WIDTH_MM - 2 * _EDGE, bold), _EDGE, y, size, bold=bold, color=ink)


@dataclass(frozen=True, slots=True)
class _Legend:
    words: tuple[Words, ...]
    shapes: tuple[Shape, ...]
    low: float


def _legend(trial: Trial, chart: Chart, top: float) -> _Legend:
    """What each kind of line is, from the top down in the right column."""
    entries = []
    for state, says in (
        (SOUND, "sound"),
        (NOT_SOUND, "not sound"),
        (REFUSED, "refused: no outline"),
        (BROKEN, "broken by a fault of ours: no outline"),
    ):
        if count := len(trial.of(state)):
            entries.append((f"{count} {says}", COLORS[state], 0.6 if state in (SOUND, NOT_SOUND) else 0.0, ""))
    entries += [(name, color, width, dash) for name, _, color, width, dash in _middles(trial)]
    if chart.has_equal:
        entries.append(("waist as large as the bust", SOFT, 0.3, "1.2 1.2"))
    words: list[Words] = []
    shapes: list[Shape] = []
    y = top
    for number, (says, color, width, dash) in enumerate(entries, start=1):
        y -= _LINE
        words.append(Words(fitted(says, 4.0, _COLUMN - 13.0), _RIGHT + 13.0, y, 4.0, color=INK))
        if width:
            stroke = np.array([[_RIGHT + 2.0, y + 1.3], [_RIGHT + 10.0, y + 1.3]])
            shapes.append(Lines(f"legend {number}", [stroke], color, width, dash=dash))
        else:
            shapes.append(Dots(f"legend {number}", [(_RIGHT + 6.0, y + 1.3)], color, 1.05))
    return _Legend(tuple(words), tuple(shapes), y - _LINE)


def _causes(trial: Trial, top: float) -> Iterator[Words]:
    """What stopped the most bodies, as far as there is room."""
    for group in groups(trial)[:_MOST_CAUSES]:
        text = f"{len(group.outcomes)} {group.state}, for example {group.example.name}: {group.says}"
        items, below = paragraph(text, _RIGHT + 2.0, top, _COLUMN - 2.0, 3.4, color=SOFT)
        if below < _EDGE:
            return
        yield from (item for item in items if isinstance(item, Words))
        top = below - 1.0


def _foot(trial: Trial) -> Iterator[Words]:
    yield Words(CAPTION, _EDGE, _EDGE - 2.0, 4.0, bold=True, color=SOFT)
    if _drawn(trial):
        says = "4 in on the body" if trial.people.units == "in" else "10 cm on the body"
        yield Words(says, _EDGE, _EDGE + 9.2, 3.4, color=SOFT)


def _scale_bar(trial: Trial, scale: float) -> Iterator[Lines]:
    if _drawn(trial):
        long, y = scale * (4.0 * UNITS["in"] if trial.people.units == "in" else 100.0), _EDGE + 7.0
        bar = np.array([(_EDGE, y + 1.4), (_EDGE, y), (_EDGE + long, y), (_EDGE + long, y + 1.4)])
        yield Lines("scale bar", [bar], SOFT, 0.3)
