"""The lines of a drawing that have the names asked for, at true scale, y up."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from fanblock.geometry.curve import Curve
from fanblock.problems import FanblockError, Place, Problem, nearest
from fanblock.tracing.bare import Element, plain_name, read_elements
from fanblock.tracing.lines import CLONE, CLOSED, SHAPES, NoLineError, curve_of, unit_of
from fanblock.units import shown

_MOST_LISTED, _MOST_COMPARED = 6, 500

_AUTOMATIC = re.compile(
    r"(path|line|polyline|polygon|curve|g|use|rect|circle|ellipse|shape|svg|layer|group|object|vector|xmlid)"
    r"\d*([ ._]*(\d+|copy))*[ ._]*"
)
"""Names that editors give by themselves; nobody meant them."""


def is_automatic(name: str) -> bool:
    """Return whether a name is one that editors give by themselves.

    >>> is_automatic("path1234-5"), is_automatic("Layer_2"), is_automatic("pocket")
    (True, True, False)
    """
    return _AUTOMATIC.fullmatch(plain_name(name)) is not None


@dataclass(frozen=True, slots=True, eq=False)
class NamedLine:
    """One line of a drawing: the name it was asked for by, its points in millimetres, y up, and where it stands."""

    name: str
    curve: Curve
    place: Place


@dataclass(frozen=True, slots=True)
class Lines:
    """The lines that were asked for, by name; ``in_pixels`` tells that the drawing has its size in pixels only."""

    by_name: Mapping[str, NamedLine]
    in_pixels: bool


def named_lines(data: bytes, file: str, wanted: Collection[str], error: type[FanblockError]) -> Lines:
    """Return the lines called ``wanted`` (plain names) in the SVG drawing ``data``.

    A line is called by its ``id``, by the label or title that a vector editor gave it, or by those of a group that holds
    it alone. ``file`` is the drawing's name in messages. Raises ``error`` with every problem there is, each with its place.
    """
    root = read_elements(data, file, error)
    problems: list[Problem] = []
    found = _found(root, file, wanted, problems)
    unit = _unit_of(root, file, problems)
    if problems:
        raise error(problems)
    lines = {}
    for name, element in found.items():
        try:
            lines[name] = NamedLine(name, curve_of(element), element.place(file))
        except NoLineError as fault:
            what = f"the line {shown(name)} {fault.what}"
            problems.append(Problem("drawing-line", "", what, fault.remedy, element.place(file)))
    if problems:
        raise error(problems)
    return Lines(lines, unit in ("px", ""))


def _found(root: Element, file: str, wanted: Collection[str], problems: list[Problem]) -> dict[str, Element]:
    """Return the one element of every name that is wanted; what is lost, there twice or no line is noted."""
    called: dict[str, list[Element]] = {name: [] for name in wanted}
    for element in root.all():
        for name in {plain_name(name) for name in element.names} & called.keys():
            for line in _lines_in(element):
                if not any(line is other for other in called[name]):
                    called[name].append(line)
    lost = [name for name, lines in called.items() if not lines]
    problems += [_lost(root, file, name, wanted) for name in lost]
    for name, lines in called.items():
        for other in lines[1:]:
            what = f"a second line is called {shown(name)}; the first stands in line {lines[0].line}."
            problems.append(Problem("drawing-twice", "", what, "Give one of them another name.", other.place(file)))
    first = {name: lines[0] for name, lines in called.items() if lines}
    for name, element in first.items():
        same = next(other for other, line in first.items() if line is element)
        if same != name:
            what = f"one line is called {shown(same)} and {shown(name)}."
            problems.append(Problem("drawing-twice", "", what, "Leave it one name.", element.place(file)))
    return first


def _lines_in(element: Element) -> list[Element]:
    """Return the shapes that are meant by an element's name: itself, or those that a group holds."""
    return [one for one in element.all() if one.tag in SHAPES or one.tag in CLOSED or one.tag == CLONE]


def _lost(root: Element, file: str, name: str, wanted: Collection[str]) -> Problem:
    """Return the problem of a name that no line has, with the names there are that it might be meant for."""
    others = {
        plain_name(other): line
        for line in _lines_in(root)[:_MOST_COMPARED]
        for other in line.names
        if plain_name(other) not in wanted
    }
    near = nearest(name, others) if others else ""
    meant = next((line for other, line in others.items() if f"“{other}”" in near), None)
    place = (root if meant is None else meant).place(file)
    if meant is None:
        named = ", ".join(sorted(others)[:_MOST_LISTED])
        near = f"The lines there are: {named}{' …' if len(others) > _MOST_LISTED else ''}." if others else ""
    what = f"no line is called {shown(name)}."
    return Problem("drawing-name", "", what, f"{near} Give that line this name, as its id or its label.".strip(), place)


def _unit_of(root: Element, file: str, problems: list[Problem]) -> str:
    """Return the unit that the drawing's size is given in; a size in none, or in parts of a window, is noted."""
    width, height = (unit_of(root.attributes.get(key, "")) for key in ("width", "height"))
    if width is not None and height is not None:
        return width
    what = "the drawing does not say how large it is, so nobody can tell how long its lines are."
    remedy = "Give the page a width and a height in mm, cm or in, and save it again."
    problems.append(Problem("drawing-size", "", what, remedy, root.place(file)))
    return ""
