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
from fanblock.geometry.curve import Curve
from fanblock.problems import GeometryError, Place, Problem
from fanblock.sheet.drawing import PENS
from fanblock.sheet.writing import identifier, plain
from fanblock.tracing.bare import Element, plain_name, read_elements
from fanblock.tracing.lines import CLONE, CLOSED, SHAPES, NoLineError, curve_of
from fanblock.units import shown

CUT = "cut line"
SCALE_SURE = 0.001
"""Most that the lengths of lines may differ in scale for the whole drawing to be read at one scale."""

LONGEST, LONGER_MM = 2.0, 300.0
"""A line that is so many times as long as it was, and so much longer, is a scribble: no edge of a garment grows like that."""

_MOST_TOLD = 12
"""How many lines that are not ours are told of one by one."""


@dataclass(frozen=True, slots=True, eq=False)
class Stroke:
    """One line of a piece: as it was drafted, in the block's frame, and as it is drawn now, in the drawing's (mm, y up).

    ``edge`` tells that it is an edge of the piece, else it is a level.
    """

    panel: str
    name: str
    edge: bool
    old: Curve
    drawn: Curve
    place: Place


@dataclass(frozen=True, slots=True, eq=False)
class Found:
    """The strokes of all pieces by the piece's name, and what else is to be told of the drawing."""

    strokes: tuple[Stroke, ...]
    notes: tuple[str, ...]

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
                strokes.append(Stroke(one.panel.name, one.name, one.edge, one.old, curve, there[0].place(file)))
    if problems:
        raise GeometryError(problems)
    scaled, notes = _at_scale(strokes)
    long = [_long(one) for one in scaled if one.drawn.length_mm > LONGEST * one.old.length_mm + LONGER_MM]
    if long:
        raise GeometryError(long)
    return Found(tuple(scaled), (*notes, *_strangers(root, file, panels, taken)))


def _wanted(panels: Sequence[KeptPanel]) -> Iterator[_Wanted]:
    """Yield every edge and level with the id that it was written with: the sheet's own way of making them, again."""
    taken: set[str] = set()
    for panel in panels:
        group = identifier(plain(panel.title), taken)
        key = identifier(f"{group} {CUT}", taken)
        if panel.cut is not None:
            yield _Wanted(panel, group, key, CUT, False, panel.cut)
        for edge in panel.edges:
            key = identifier(f"{group} {plain(edge.name)}", taken)
            yield _Wanted(panel, group, key, edge.name, True, edge.curve)
        for name, parts in panel.levels.items():
            for part in parts:
                key = identifier(f"{group} {plain(name)} level", taken)
                yield _Wanted(panel, group, key, f"{name} level", False, part)


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


def _at_scale(strokes: Sequence[Stroke]) -> tuple[list[Stroke], tuple[str, ...]]:
    """Return the strokes at true scale, where an editor has saved the whole drawing at another."""
    ratios = np.array([stroke.old.length_mm / stroke.drawn.length_mm for stroke in strokes])
    scale = float(np.median(ratios)) if len(ratios) else 1.0
    agree = np.mean(np.abs(ratios / scale - 1.0) < SCALE_SURE) if len(ratios) else 0.0
    if abs(scale - 1.0) < SCALE_SURE or agree < 0.5:
        return list(strokes), ()
    matrix, none = scale * np.eye(2), np.zeros(2)
    scaled = [
        Stroke(one.panel, one.name, one.edge, one.old, one.drawn.moved(matrix, none), one.place) for one in strokes
    ]
    return scaled, (f"the drawing was saved at {1.0 / scale:.1%} of its size, and has been read at full size",)


def _strangers(root: Element, file: str, panels: Sequence[KeptPanel], taken: set[int]) -> Iterator[str]:
    """Yield what is drawn that was not drafted: marks and lines of the maker's own, each with its place."""
    groups = [identifier(plain(panel.title), set()) for panel in panels]
    told: list[str] = []
    for element in _shapes(root):
        if id(element) in taken or _ours(element, groups):
            continue
        name = element.names[0] if element.names else element.tag
        told.append(f"{shown(name)} (line {element.line}) is not among the lines that were drafted: it is not adopted")
    yield from told[:_MOST_TOLD]
    if len(told) > _MOST_TOLD:
        yield f"{len(told) - _MOST_TOLD} more lines were not drafted: they are not adopted"


def _ours(element: Element, groups: Sequence[str]) -> bool:
    """Return whether a line was written by the sheet: its id begins with its piece's, or it is one of those without."""
    own = element.attributes.get("id", "")
    if any(own.startswith(f"{group}-") for group in (*groups, "test-square", "long-line", "title", "not-sound")):
        return True
    lettered = element.parent is not None and "aria-label" in {**element.attributes, **element.parent.attributes}
    if lettered:  # words that an editor has turned into lines
        return True
    return element.attributes.get("class", "") in PENS and not element.attributes.get("data-name")
