"""The sleeve in two pieces of doublets and spencers: a top sleeve and an under sleeve, both bent, with a seam before and behind."""

from __future__ import annotations

import math

import numpy as np

from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import HEM, SEAM, Edge, Mark
from fanblock.problems import GeometryError, Problem
from fanblock.sleeves.arm import Size
from fanblock.sleeves.bent import side
from fanblock.sleeves.cap import Cap
from fanblock.sleeves.onepiece import Drawn
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
    top_mark,
    upright_grain,
)

MOST_BEND_RATIO = 0.7
"""The hand may come forward by at most this share of the forearm: 45 degrees, as a sleeve bends that is cut crooked."""

_INSET_MM = 14.0
"""How far from a seam the words for the side of the arm stand."""


def two_pieces(name: str, cap: Cap, size: Size, forward_mm: float, forearm_mm: float) -> Drawn:
    """Return the top sleeve and the under sleeve.

    Both have the same fore-arm edge and the same hind-arm edge, so these match as they are drawn; half the girth of the arm
    lies on each. ``forward_mm`` is how far the wrist is brought forward of an arm that hangs straight, of a forearm
    ``forearm_mm`` long; the elbow's girth is that along the line which halves the bend.
    """
    if forward_mm > MOST_BEND_RATIO * forearm_mm:
        what = f"the wrist would come {forward_mm / 10.0:.1f} cm forward on a forearm of {forearm_mm / 10.0:.1f} cm."
        raise GeometryError([Problem("sleeve-bend", "forward", what, "Give less: 5 to 10 cm is usual.")])
    elbow = elbow_level(cap, size)
    fore, hind, ends = _sides(cap, size, elbow, math.asin(forward_mm / forearm_mm))
    top, under = f"top {name}", f"under {name}"
    fore_name, hind_name, hem_name = f"{name} fore-arm seam", f"{name} hind-arm seam", f"{name} hem"
    hem = Curve.through([fore.end, hind.end])
    upper = (Edge(fore_name, SEAM, fore), Edge(hem_name, HEM, hem), Edge(hind_name, SEAM, hind.reversed()))
    lower = (
        Edge(hind_name, SEAM, mirrored(hind)),
        Edge(hem_name, HEM, mirrored(hem).reversed()),
        Edge(fore_name, SEAM, mirrored(fore).reversed()),
    )
    x = size.width_mm / 4.0
    marks = _marks(size, fore, hind, ends)
    flipped = tuple(Mark(mark.name, mark.kind, mirrored(mark.curve), mark.says) for mark in marks)
    over = upright_grain(x, elbow, cap.height_mm)
    pieces = (
        Cloth(top, upper, cap.arch, cap.back_mm, cap.front_mm, (*marks, top_mark(cap)), over),
        Cloth(under, lower, mirrored(cap.scoop), cap.front_mm, cap.back_mm, flipped, upright_grain(-x, elbow, 0.0)),
    )
    joints = (
        Joint(fore_name, (under, fore_name), (top, fore_name)),
        Joint(hind_name, (top, hind_name), (under, hind_name)),
    )
    return pieces, joints


def _sides(cap: Cap, size: Size, elbow: float, bend: float) -> tuple[Curve, Curve, tuple[Points, Points]]:
    """Return the fore-arm and the hind-arm edge, falling, and the two ends of the elbow line between them."""
    half = size.elbow_mm / 4.0
    mitre = np.array([math.cos(bend / 2.0), -math.sin(bend / 2.0)])
    middle = np.array([size.width_mm / 4.0, elbow + half * math.sin(bend / 2.0)])
    inner, outer = middle - half * mitre, middle + half * mitre
    down, across = np.array([-math.sin(bend), -math.cos(bend)]), np.array([math.cos(bend), -math.sin(bend)])
    wrist = middle + (size.below_mm + float(down @ (outer - middle))) * down
    cuff = size.hem_mm / 4.0
    low = -ARM_LINE_MM
    fore = side([(0.0, low), _pair(inner), _pair(wrist - cuff * across)], down, from_y=float(cap.scoop.start[1]))
    back = [(size.width_mm / 2.0, low), _pair(outer), _pair(wrist + cuff * across)]
    hind = side(back, down, from_y=float(cap.scoop.end[1]))
    return fore, hind, (inner, outer)


def _pair(point: Points) -> tuple[float, float]:
    return float(point[0]), float(point[1])


def _marks(size: Size, fore: Curve, hind: Curve, ends: tuple[Points, Points]) -> tuple[Mark, ...]:
    return (
        line(ELBOW, *ends, "elbow"),
        level_line(UPPER_ARM, fore, hind, -ARM_LINE_MM, "upper arm"),
        *arm_words((FRONT_LINE, _INSET_MM), (BACK_LINE, size.width_mm / 2.0 - _INSET_MM)),
    )
