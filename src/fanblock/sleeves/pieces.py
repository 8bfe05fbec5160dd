"""What all pieces of a sleeve have in common: their edges below the cap, how the cap lies on them, and the lines drawn on them.

A piece lies flat, right side up. Its *rim* is its loop without the cap, counter-clockwise: down one side, along the hem and
up the other. The cap closes it, and is put in by :mod:`fanblock.sleeves.setting`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.pattern.model import Edge, Mark
from fanblock.problems import GeometryError, Problem
from fanblock.sleeves.arm import Size
from fanblock.sleeves.cap import Cap

ARM_LINE_MM = 25.0
"""How far below the underarm a sleeve is measured against the upper arm; so far down it keeps its full width."""

LEAST_ABOVE_ELBOW_MM = 70.0
"""The elbow must lie at least so far below the underarm of a sleeve."""

UPPER_ARM, ELBOW = "upper arm line", "elbow line"
"""Names of the lines that a sleeve is measured along, from stitch line to stitch line."""

FRONT_LINE, BACK_LINE = "front of the arm", "back of the arm"
"""Names of the lines along the front and the back of the arm."""

TOP_MARK = "top of the arm"
"""Name of the mark at the highest point of the cap."""

_WORD_LINE_MM, _BELOW_MM, _TOP_LINE_MM = 60.0, 45.0, 18.0
"""Length of the lines that say which side of the arm they lie on, how far below the underarm they begin, and the length of
the mark at the top."""

_GRAIN_INSET_MM = 25.0


@dataclass(frozen=True, slots=True)
class Joint:
    """Two edges of a sleeve that are sewn to each other, as (piece, edge); the first rises, and may be longer.

    ``line`` is the seam they belong to; ``fullness_mm`` is taken up as ``how`` tells.
    """

    line: str
    front: tuple[str, str]
    back: tuple[str, str]
    fullness_mm: float = 0.0
    how: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Cloth:
    """One piece: its rim, its cap as one line in loop order, the lines on it and its grain.

    The cap runs from one place on the armhole to another, under the arm from front to back and over the shoulder to the front.
    """

    name: str
    rim: tuple[Edge, ...]
    cap: Curve
    from_mm: float
    to_mm: float
    marks: tuple[Mark, ...]
    grain: tuple[Points, Points]


def mirrored(curve: Curve, about: float = 0.0) -> Curve:
    """Return a curve's mirror image about an upright line."""
    return Curve.through(curve.points * (-1.0, 1.0) + (2.0 * about, 0.0))


def elbow_level(cap: Cap, size: Size) -> float:
    """Return the height of the elbow in the folded sleeve, under 0; GeometryError when it comes too near to the underarm."""
    level = cap.height_mm - size.to_elbow_mm
    if level > -LEAST_ABOVE_ELBOW_MM:
        what = (
            f"the cap would be {cap.height_mm / 10.0:.1f} cm high, and from shoulder to elbow are only "
            f"{size.to_elbow_mm / 10.0:.1f} cm."
        )
        remedy = (
            "The armhole is too large for this arm: raise it under the arm, or shorten what goes over the shoulder."
        )
        raise GeometryError([Problem("cap-high", "", what, remedy)])
    return level


def line(name: str, start: Points, end: Points, says: str) -> Mark:
    """Return a straight line that tells a place."""
    return Mark(name, "place", Curve.through([start, end]), says)


def level_line(name: str, left: Curve, right: Curve, level: float, says: str) -> Mark:
    """Return the level line from one falling edge to another."""
    ends = [np.array([x_at(edge, level), level]) for edge in (left, right)]
    return line(name, ends[0], ends[1], says)


def x_at(edge: Curve, level: float) -> float:
    """Return where a falling edge passes a level."""
    return float(np.interp(-level, -edge.points[:, 1], edge.points[:, 0]))


def arm_words(*places: tuple[str, float]) -> Iterator[Mark]:
    """Yield short upright lines, at these x, named and worded by the side of the arm that they lie on."""
    for name, x in places:
        yield line(name, np.array([x, -_BELOW_MM]), np.array([x, -_BELOW_MM - _WORD_LINE_MM]), name)


def top_mark(cap: Cap) -> Mark:
    """Return the mark at the highest point of the cap."""
    return line(TOP_MARK, cap.top, cap.top - (0.0, _TOP_LINE_MM), TOP_MARK)


def upright_grain(x: float, low: float, high: float) -> tuple[Points, Points]:
    """Return a grain line straight up the upper arm."""
    return frozen((x, low + _GRAIN_INSET_MM)), frozen((x, high - _GRAIN_INSET_MM))


def numbered(name: str, count: int) -> tuple[str, ...]:
    """Return names for the pieces of an edge, from the top: one alone keeps its name."""
    return (name,) if count == 1 else tuple(f"{name} {number}" for number in range(1, count + 1))
