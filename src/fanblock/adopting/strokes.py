"""The lines of a pattern's pieces, found again in a drawing that an editor has saved.

Every line is called by an id of its own, and by a shorter name within its piece's group. Either will do, as an id, a
label or a title. A line that has neither any more is lost, and told; nothing is guessed from its shape.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from fanblock.adopting.kept import KeptPanel
from fanblock.adopting.strangers import strangers
from fanblock.geometry.curve import Curve
from fanblock.problems import GeometryError, Place, Problem
from fanblock.sheet.writing import identifier, plain
from fanblock.tracing.bare import Element, plain_name, read_elements
from fanblock.tracing.lines import CLONE, CLOSED, SHAPES, NoLineError, curve_of
from fanblock.units import shown

CUT = "cut line"
SCALE_SURE = 0.001
"""Most that the lengths of lines may differ in scale for the whole drawing to be read at one scale."""

LONGEST, LONGER_MM = 2.0, 300.0
"""A line that is so many times as long as it was, and so much longer, is a scribble: no edge of a garment grows like that."""


@dataclass(frozen=True, slots=True, eq=False)
class Stroke:
    """One line of a piece: as it was drafted, in the block's frame, and as it is drawn now, in the drawing's (mm, y up).

    ``edge`` tells that it is an edge of the piece, the one of this ``number``: two may have one name. Else it is a level, the
    cut line or, by its ``mark``, that one of its marks.
    """

    panel: str
    name: str
    edge: bool
    old: Curve
    drawn: Curve
    place: Place
    mark: int | None = None
    number: int | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Found:
    """The strokes of all pieces by the piece's name, and what else is to be told of the drawing.

    ``strangers`` are what is drawn that was not drafted; their curves are to be taken ``scale`` times as large.
    """

    strokes: tuple[Stroke, ...]
    notes: tuple[str, ...]
    strangers: tuple[Element, ...] = ()
    scale: float = 1.0

    def of(self, panel: str) -> tuple[Stroke, ...]:
        """Return the strokes of one piece."""
        return tuple(stroke for stroke in self.strokes if stroke.panel == panel)


@dataclass(frozen=True, slots=True, eq=False)
class _Wanted:
    panel: KeptPanel
    group: str
    key: str
    name: str
    edge: bool
    old: Curve
    mark: int | None = None
    number: int | None = None


def found_strokes(data: bytes, file: str, panels: Sequence[KeptPanel]) -> Found:
    """Return the lines of ``panels`` in the drawing ``data``; GeometryError with all that are lost or are no lines.

    A level that is lost is passed over: it only helps to tell how a piece lies.
    """
    root = read_elements(data, file, GeometryError)
    wanted = list(_wanted(panels))
    by_name: dict[str, list[Element]] = {}
    for element in root.all():
        for name in {plain_name(name) for name in element.names}:
            by_name.setdefault(name, []).append(element)
    problems: list[Problem] = []
    strokes: list[Stroke] = []
    taken: set[int] = set()
    for one in wanted:
        there = _lines(by_name, one)
        taken |= {id(element) for element in there}
        if one.edge and not one.panel.added and len(there) != 1:
            problems.append(_lost(one, there, by_name, root, file))
        elif len(there) == 1:
            try:
                curve = curve_of(_opened(there[0]) if one.name == CUT else there[0])
            except NoLineError as fault:
                if one.edge and not one.panel.added:
                    what = f"{_called(one)} {fault.what}"
                    problems.append(Problem("drawing-line", "", what, fault.remedy, there[0].place(file)))
            else:
                place = there[0].place(file)
                strokes.append(Stroke(one.panel.name, one.name, one.edge, one.old, curve, place, one.mark, one.number))
    if problems:
        raise GeometryError(problems)
    scale = _scale_of(strokes)
    scaled, notes = _at_scale(strokes, scale)
    long = [_long(one) for one in scaled if one.drawn.length_mm > LONGEST * one.old.length_mm + LONGER_MM]
    if long:
        raise GeometryError(long)
    return Found(tuple(scaled), notes, strangers(root, panels, taken), scale)


def _wanted(panels: Sequence[KeptPanel]) -> Iterator[_Wanted]:
    """Yield every edge and level with the id that it was written with: the sheet's own way of making them, again."""
    taken: set[str] = set()
    for panel in panels:
        group = identifier(plain(panel.title), taken)
        key = identifier(f"{group} {CUT}", taken)
        if panel.cut is not None:
            yield _Wanted(panel, group, key, CUT, False, panel.cut)
        for number, edge in enumerate(panel.edges):
            key = identifier(f"{group} {plain(edge.name)}", taken)
            yield _Wanted(panel, group, key, edge.name, True, edge.curve, None, number)
        for name, parts in panel.levels.items():
            for part in parts:
                key = identifier(f"{group} {plain(name)} level", taken)
                yield _Wanted(panel, group, key, f"{name} level", False, part)
        for number, mark in enumerate(panel.marks):
            key = identifier(f"{group} {plain(mark.name)}", taken)
            yield _Wanted(panel, group, key, mark.name, False, mark.curve, number)


def _lines(by_name: dict[str, list[Element]], one: _Wanted) -> list[Element]:
    """Return the lines that have a name: by the id it was written with, else by its name in its piece's group."""
    found = by_name.get(plain_name(one.key), [])
    if not found:
        groups = {plain_name(one.group), plain_name(one.panel.title)}
        found = [element for element in by_name.get(plain_name(one.name), []) if _lies_in(element, groups)]
    lines = {id(line): line for element in found for line in _shapes(element)}
    return list(lines.values())


def _opened(element: Element) -> Element:
    """Return a closed line as one that ends where it begins."""
    run = re.sub(r"[Zz]\s*$", "", element.attributes.get("d", ""))
    return replace(element, attributes={**element.attributes, "d": run})


def _shapes(element: Element) -> Iterator[Element]:
    return (one for one in element.all() if one.tag in SHAPES or one.tag in CLOSED or one.tag == CLONE)


def _lies_in(element: Element, groups: set[str]) -> bool:
    parent = element.parent
    while parent is not None:
        if groups & {plain_name(name) for name in parent.names}:
            return True
        parent = parent.parent
    return False


def _called(one: _Wanted) -> str:
    return f"{shown(one.name)} of piece {shown(one.panel.title)}"


def _lost(
    one: _Wanted, there: Sequence[Element], by_name: dict[str, list[Element]], root: Element, file: str
) -> Problem:
    if there:
        what = f"{len(there)} lines are called {_called(one)}; the first stands in line {there[0].line}."
        return Problem("drawing-twice", "", what, "Join them to one line, or rename the others.", there[1].place(file))
    group = next(iter(by_name.get(plain_name(one.group), by_name.get(plain_name(one.panel.title), []))), root)
    what = f"no line is called {_called(one)} any more."
    return Problem("drawing-name", "", what, f"Give that line the id {shown(one.key)}.", group.place(file))


def _long(one: Stroke) -> Problem:
    times = one.drawn.length_mm / one.old.length_mm
    what = f"{shown(one.name)} of piece {shown(one.panel)} is drawn {times:.1f} times as long as it was drafted."
    return Problem("drawing-long", "", what, "Draw it as one plain line.", one.place)


def _scale_of(strokes: Sequence[Stroke]) -> float:
    """Return how many times the drawing must be enlarged to be at true scale: 1 unless its lines agree on another."""
    ratios = np.array([stroke.old.length_mm / stroke.drawn.length_mm for stroke in strokes])
    scale = float(np.median(ratios)) if len(ratios) else 1.0
    agree = np.mean(np.abs(ratios / scale - 1.0) < SCALE_SURE) if len(ratios) else 0.0
    return 1.0 if abs(scale - 1.0) < SCALE_SURE or agree < 0.5 else scale


def _at_scale(strokes: Sequence[Stroke], scale: float) -> tuple[list[Stroke], tuple[str, ...]]:
    """Return the strokes at true scale, where an editor has saved the whole drawing at another."""
    if scale == 1.0:
        return list(strokes), ()
    matrix, none = scale * np.eye(2), np.zeros(2)
    scaled = [replace(one, drawn=one.drawn.moved(matrix, none)) for one in strokes]
    return scaled, (f"the drawing was saved at {1.0 / scale:.1%} of its size, and has been read at full size",)
