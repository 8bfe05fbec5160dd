"""One element of a drawing as a curve in millimetres, y up. This is the one place that knows svgelements.

The library is given that element and the groups it lies in, and of them only what says where things lie.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from io import BytesIO
from typing import Any
from xml.sax.saxutils import quoteattr

import numpy as np

from fanblock.geometry.bezier import sample
from fanblock.geometry.curve import Curve
from fanblock.tracing.bare import SAVE, Element
from fanblock.units import UNITS

SHAPES = frozenset({"path", "line", "polyline"})
"""The elements that are lines."""

CLOSED = frozenset({"polygon", "rect", "circle", "ellipse"})
"""The elements that always end where they begin."""

CLONE = "use"

LONGEST_PATH = 200_000
"""Most characters of one line that are read."""

LONGEST_MM = 20_000.0
"""No line of a block is twenty metres long; one that is would have its points taken for ever."""

MOST_ARCS = 200
"""Most circular arcs of one line: each is read as many short curves."""

_ARCS = re.compile(r"[Aa]")

STEP_MM = 0.25
"""How far apart the points of a line are taken: on a bend as tight as a thumb a chord then keeps within 0.001 mm of it."""

PIXELS_TO_THE_INCH = 96.0
"""How many pixels of a vector drawing make an inch (W3C, CSS Values and Units)."""

_PIXELS = {
    "mm": PIXELS_TO_THE_INCH / UNITS["in"],
    "cm": PIXELS_TO_THE_INCH * UNITS["cm"] / UNITS["in"],
    "in": PIXELS_TO_THE_INCH,
    "pt": PIXELS_TO_THE_INCH / 72.0,
    "pc": PIXELS_TO_THE_INCH / 6.0,
    "px": 1.0,
    "": 1.0,
}
"""Pixels in one of each absolute unit: an inch is 72 points or 6 picas (W3C, CSS Values and Units). The library's own
millimetre is a ten-millionth of itself too long."""

_LENGTH = re.compile(r"\s*([+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)\s*(mm|cm|in|pt|pc|px|)\s*")

_ARC_PARTS = 32
"""Into how many cubics an arc is cut: each then keeps far within the tolerance of chords."""

_KEPT = frozenset(
    {"d", "points", "x1", "y1", "x2", "y2", "x", "y", "width", "height", "viewBox", "preserveAspectRatio", "transform"}
)
"""The attributes that say where something lies; no other is handed on."""

_STYLED = re.compile(r"(?:^|;)\s*(?:transform|translate|rotate|scale|offset-path)\s*:")


def unit_of(text: str) -> str | None:
    """Return the unit of an absolute length, empty for a bare number; None for any other text.

    >>> unit_of("12.5mm"), unit_of("400"), unit_of("100%")
    ('mm', '', None)
    """
    found = _LENGTH.fullmatch(text)
    return None if found is None else found[2]


class NoLineError(Exception):
    """An element that is no open line: what is wrong with it and what to do."""

    def __init__(self, what: str, remedy: str) -> None:
        super().__init__(what)
        self.what, self.remedy = what, remedy


def curve_of(element: Element) -> Curve:
    """Return an element as a curve in millimetres, y up; NoLineError when it is no open line."""
    if element.tag in CLOSED or element.tag == CLONE:
        word = "is a clone of another" if element.tag == CLONE else "is a closed shape"
        raise NoLineError(f"{word}.", "Draw it as a line with two ends.")
    chain = [element]
    while chain[0].parent is not None:
        chain.insert(0, chain[0].parent)
    if any(_STYLED.search(one.attributes.get("style", "")) for one in chain):
        raise NoLineError("is moved by a style.", SAVE)
    if any(len(text) > LONGEST_PATH for one in chain for key, text in one.attributes.items() if key in _KEPT):
        raise NoLineError(f"has more than {LONGEST_PATH} characters.", "Draw it with fewer points.")
    if len(_ARCS.findall(element.attributes.get("d", ""))) > MOST_ARCS:
        raise NoLineError(f"has more than {MOST_ARCS} arcs.", "Draw it with fewer points.")
    runs = _beziers(_bare(chain))
    legs = np.abs(np.diff(runs, axis=1))
    if not np.all(np.isfinite(runs)) or float(np.hypot(legs[..., 0], legs[..., 1]).sum()) > LONGEST_MM:
        raise NoLineError(f"is longer than {LONGEST_MM / 1000.0:.0f} m.", "Look at the size of the drawing.")
    curve = Curve.through(sample(runs, STEP_MM))
    if len(curve.points) < 2:
        raise NoLineError("has no length.", "Draw it from corner to corner.")
    return curve


def as_line(element: Element) -> Curve:
    """Return an element as a curve, which ends where it begins if it is a closed line or a plain rectangle.

    NoLineError for what is no line, a circle or a clone among them.
    """
    shape = element
    if element.tag == "rect" and not {"rx", "ry"} & element.attributes.keys():
        x, y, wide, high = (element.attributes.get(key, "0") for key in ("x", "y", "width", "height"))
        run = f"M {x},{y} h {wide} v {high} h -{wide} Z"
        shape = replace(element, tag="path", attributes={**element.attributes, "d": run})
    elif element.tag == "polygon":
        run = f"M {element.attributes.get('points', '')} Z"
        shape = replace(element, tag="path", attributes={**element.attributes, "d": run})
    run = shape.attributes.get("d", "") if shape.tag == "path" else ""
    bare = _CLOSED.sub("", run)
    if bare == run:
        return curve_of(shape)
    curve = curve_of(replace(shape, attributes={**shape.attributes, "d": bare}))
    return Curve.through(np.vstack((curve.points, curve.points[:1])))


_CLOSED = re.compile(r"[Zz]\s*$")


def _bare(chain: list[Element]) -> bytes:
    """Return an SVG file with one element in it and the groups it lies in, and nothing but where they lie."""
    opened, closed = "", ""
    for number, one in enumerate(chain):
        tag = one.tag if one.tag in {"svg", *SHAPES} else "g"
        kept = {
            key: _in_pixels(text)
            for key, text in one.attributes.items()
            if key in _KEPT and (tag != "g" or key == "transform")
        }
        if tag == "path":
            kept = {"d": "", **kept}
        if tag == "svg":
            kept = {"width": "100%", "height": "100%", **kept}
            kept |= {"xmlns": "http://www.w3.org/2000/svg"} if number == 0 else {}
        opened += f"<{tag}{''.join(f' {key}={quoteattr(text)}' for key, text in sorted(kept.items()))}>"
        closed = f"</{tag}>{closed}"
    return (opened + closed).encode()


def _in_pixels(text: str) -> str:
    """Return an absolute length in pixels, and any other text as it is."""
    found = _LENGTH.fullmatch(text)
    return text if found is None or not found[2] else repr(float(found[1]) * _PIXELS[found[2]])


def _beziers(text: bytes) -> Any:
    """Return the one line in an SVG file as cubic Béziers in millimetres, y up: shape (n, 4, 2)."""
    import svgelements

    try:
        drawing = svgelements.SVG.parse(BytesIO(text), reify=True, ppi=PIXELS_TO_THE_INCH, on_error="raise")
        shapes = [one for one in drawing.elements() if isinstance(one, svgelements.Shape)]
        segments = list(svgelements.Path(shapes[0])) if shapes else []
        moves = [one for one in segments if isinstance(one, svgelements.Move)]
        closes = [one for one in segments if isinstance(one, svgelements.Close)]
        runs = [run for one in segments if not isinstance(one, svgelements.Move) for run in _cubics(one)]
    except Exception as fault:  # the library raises whatever a path it does not understand leads to
        raise NoLineError("cannot be read.", SAVE) from fault
    if closes:
        raise NoLineError("is closed: its end is joined to its beginning.", "Open it: a line of a block has two ends.")
    if len(moves) > 1:
        raise NoLineError(f"lies in {len(moves)} pieces.", "Join them to one line.")
    if not runs:
        raise NoLineError("has no length.", "Draw it from corner to corner.")
    scale = UNITS["in"] / PIXELS_TO_THE_INCH
    return np.array(runs, dtype=np.float64) * (scale, -scale)


def _cubics(segment: Any) -> Iterator[list[tuple[float, float]]]:
    """Yield the control points of a segment as those of cubics."""
    import svgelements

    start, end = segment.start, segment.end
    if isinstance(segment, svgelements.Arc):
        for cubic in segment.as_cubic_curves(_ARC_PARTS):
            yield from _cubics(cubic)
        return
    if isinstance(segment, svgelements.CubicBezier):
        handles = [segment.control1, segment.control2]
    elif isinstance(segment, svgelements.QuadraticBezier):
        handles = [_between(end_point, segment.control) for end_point in (start, end)]
    else:
        handles = [start + (end - start) * share for share in (1.0 / 3.0, 2.0 / 3.0)]
    yield [(float(point.x), float(point.y)) for point in (start, *handles, end)]


def _between(end: Any, control: Any) -> Any:
    """Return the handle of a cubic that draws the same as a quadratic: two thirds of the way to its control point."""
    return end + (control - end) * (2.0 / 3.0)
