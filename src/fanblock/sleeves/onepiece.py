"""The sleeve in one piece, as gowns and jackets of about 1740-90 have it, bent at the elbow in one of two ways."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.splines import through_points
from fanblock.pattern.model import DARTED, HEM, SEAM, Edge, Mark
from fanblock.sleeves.arm import Size
from fanblock.sleeves.bent import STEP_MM, Dart, darted, side
from fanblock.sleeves.cap import Cap
from fanblock.sleeves.pieces import (
    ARM_LINE_MM,
    BACK_LINE,
    ELBOW,
    FRONT_LINE,
    UPPER_ARM,
    Cloth,
    Joint,
    arm_words,
    elbow_level,
    level_line,
    line,
    mirrored,
    numbered,
    top_mark,
    upright_grain,
)
from fanblock.units import fine_length

FULL_MM = 15.0
"""How far the seam behind stands out at the elbow, so that there is room for the bend (from memory)."""

STRETCHES = ("above the elbow", "at the elbow", "below the elbow")
"""The stretches of a seam that holds elbow darts, from the top; each has a letter of its own."""

MOST_TAPER = math.tan(math.radians(14.0))
"""How fast that seam comes in below the elbow at most: a short sleeve stays wider (from memory)."""

Drawn = tuple[tuple[Cloth, ...], tuple[Joint, ...]]
"""The pieces of a sleeve without their caps, and its own seams."""


@dataclass(frozen=True, slots=True)
class Darts:
    """Elbow darts: how many, and what they take together in mm."""

    count: int
    take_mm: float


def bent_by_darts(name: str, cap: Cap, size: Size, seam_mm: float, darts: Darts) -> Drawn:
    """Return the sleeve whose seam runs under the arm, from ``seam_mm`` on the armhole, bent by darts in its back edge.

    The upper half stands upright between the lines of the front and of the back of the arm; the under half lies at either
    side of it, and both edges of the seam come in as the arm grows narrower. Below each dart all is turned forward.
    """
    elbow, width = elbow_level(cap, size), size.width_mm
    seam = cap.scoop.at(seam_mm - cap.front_mm)
    middle = width / 2.0 - float(seam[0])
    ins = [(0.0, -ARM_LINE_MM), (_in(size, size.elbow_mm), elbow), (_in(size, size.hem_mm), elbow - size.below_mm)]
    front = side([(by - float(seam[0]), y) for by, y in ins], from_y=float(seam[1]))
    made = darted(front, middle, elbow, width / 2.0, darts.count, darts.take_mm)
    fronts = _edges(f"{name} seam front", made.front)
    backs = _edges(f"{name} seam back", made.back)
    hem = Edge(f"{name} hem", HEM, Curve.through([fronts[-1].curve.end, backs[-1].curve.end]))
    joints = tuple(_joint(name, *pair) for pair in zip(range(len(fronts)), backs, fronts, strict=True))
    marks = (
        *(_dart(number, dart) for number, dart in enumerate(made.darts, start=1)),
        line(ELBOW, *made.elbow, "elbow"),
        level_line(UPPER_ARM, front, mirrored(front, middle), -ARM_LINE_MM, "upper arm"),
        *arm_words((FRONT_LINE, 0.0), (BACK_LINE, width / 2.0)),
        top_mark(cap),
    )
    under = seam_mm - cap.front_mm
    behind = mirrored(cap.scoop.between(under, cap.scoop.length_mm), width / 2.0)
    before = mirrored(cap.scoop.between(0.0, under))
    whole = Curve.through(np.vstack((behind.points, cap.arch.points, before.points)))
    rim = (*fronts, hem, *(_turned(edge) for edge in reversed(backs)))
    grain = upright_grain(width / 4.0, elbow, cap.height_mm)
    return (Cloth(name, rim, whole, seam_mm, seam_mm, marks, grain),), joints


def _in(size: Size, girth_mm: float) -> float:
    """Return how far each edge of the seam has come in where the sleeve is so wide."""
    return (size.width_mm - girth_mm) / 2.0


def _edges(name: str, curves: tuple[Curve | None, ...]) -> tuple[Edge, ...]:
    """Return the pieces of one edge of a seam, falling, named from the top."""
    there = [curve for curve in curves if curve is not None]
    return tuple(Edge(each, SEAM, curve) for each, curve in zip(numbered(name, len(there)), there, strict=True))


def _turned(edge: Edge) -> Edge:
    return Edge(edge.name, edge.kind, edge.curve.reversed())


def _joint(name: str, number: int, longer: Edge, edge: Edge) -> Joint:
    """Return two pieces of the seam, counted from the top, as a joint: the second pair has the darts between its ends."""
    places = (name, longer.name), (name, edge.name)
    line = f"{name} seam {STRETCHES[number]}"
    if number != 1:
        return Joint(line, *places)
    return Joint(line, *places, longer.curve.length_mm - edge.curve.length_mm, DARTED)


def _dart(number: int, dart: Dart) -> Mark:
    legs = Curve.through([dart.upper, dart.point, dart.lower])
    wide = f"{dart.width_mm:.1f} mm ({fine_length(dart.width_mm, 'in')})".replace(".0 mm", " mm")
    return Mark(f"elbow dart {number}", "dart", legs, f"elbow dart {wide}" if number == 1 else "")


def bent_by_seam(name: str, cap: Cap, size: Size) -> Drawn:
    """Return the sleeve whose seam runs behind, from the back pitch over the elbow, where it stands out for the bent arm.

    The front of the arm lies straight on the thread. Both edges of the seam are mirror images of each other about it.
    """
    elbow = elbow_level(cap, size)
    low, full = elbow - size.below_mm, size.elbow_mm / 2.0 + FULL_MM
    half = max(size.hem_mm / 2.0, full - MOST_TAPER * size.below_mm)
    lead = _unit(np.array([half - full, low - elbow]))
    points = [(size.width_mm / 2.0, -ARM_LINE_MM), (full, elbow), (half, low)]
    behind = side(points, lead, from_y=float(cap.scoop.end[1]))
    ahead = mirrored(behind)
    hem = _hollow(np.array([half, low]), lead)
    seam, rising, falling = f"{name} seam", f"{name} seam upper", f"{name} seam under"
    rim = (Edge(falling, SEAM, ahead), Edge(f"{name} hem", HEM, hem), Edge(rising, SEAM, behind.reversed()))
    marks = (
        line(ELBOW, np.array([-full, elbow]), np.array([full, elbow]), "elbow"),
        level_line(UPPER_ARM, ahead, behind, -ARM_LINE_MM, "upper arm"),
        *arm_words((FRONT_LINE, 0.0)),
        top_mark(cap),
    )
    whole = Curve.through(np.vstack((cap.arch.points, mirrored(cap.scoop).points)))
    grain = upright_grain(size.width_mm / 4.0, elbow, cap.height_mm)
    cloth = Cloth(name, rim, whole, cap.back_mm, cap.back_mm, marks, grain)
    return (cloth,), (Joint(seam, (name, rising), (name, falling)),)


def _unit(vector: Points) -> Points:
    return np.asarray(vector / np.hypot(*vector))


def _hollow(corner: Points, lead: Points) -> Curve:
    """Return the hem from the left corner to the right one, square to both edges, so that it rises to the front of the arm."""
    slope = lead[0] / lead[1]  # how much the hem rises for each step inward, to stand square on an edge that leans so
    top = np.array([0.0, float(corner[1] + slope * corner[0] / 2.0)])
    left = corner * (-1.0, 1.0)
    across = np.array([-lead[1], lead[0]])
    points = through_points(np.array([left, top, corner]), STEP_MM, across * (1.0, -1.0), across)
    return Curve.through(points)
