"""The cap of a sleeve: below, the armhole's own lower part; above, an arch as long as what it is sewn to and its spare.

The frame is a sleeve folded flat along the front and the back of the arm, seen from outside: front at the left at x = 0,
back at x = half the width, y = 0 where the cap is lowest. The *scoop* is the under half's upper end, from front to back; the
*arch* is the upper half's, from back to front.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fanblock.geometry.curve import Curve, Points
from fanblock.geometry.roots import first_below, root
from fanblock.problems import GeometryError, Problem
from fanblock.sleeves.armhole import NEAR_MM, Armhole

UNDER_RATIO, LEAST_UNDER_RATIO = 1.35, 1.05
"""How much longer the lower armhole is than the under half of the sleeve is wide: then it leaves the underarm level and
ends at about 75° (a circle's arc of that slope is 1.355 of its chord), which is how caps are drawn (from memory). Where the
armhole is small for the arm it is less, down to the second, which makes a low cap."""

STEEPEST_RAD, RATIO_STEP = math.radians(86.0), 0.05
"""The lower cap must not end steeper, or it would reach over the sides of the sleeve: where an armhole is bent sharply under
the arm, less of it is made the lower cap, in such steps."""

ARCH_RATIO = 1.15
"""The arch is at least so many times as long as half the sleeve is wide: less would be no cap but a slope."""

MOST_BEND, BEND_STEP = 4.0, 0.05
"""The scoop may bend at most so many times as much as the armhole lies bent on the block; how finely that is tried."""

FOOT_HANDLE, TOP_HANDLE = 0.45, 0.75
"""How far the handles of the arch reach towards the corner they turn, at its foot and at its top: a quarter of an ellipse
has 0.55 at both; more at the top makes a broad head (from memory)."""

FINE_MM = 0.5
"""Distance between the points of the scoop: it is bent more than the armhole is drawn, and must look smooth all the same."""

WAVE_MM = 40.0
"""Waves of the armhole shorter than this, as trued seams leave them, are drawn out on the sleeve; no length changes."""

ARCH_POINTS = 160
"""Points of half an arch."""

LEAST_RISE_MM, MOST_RISE_MM = 10.0, 600.0
"""Between these the height of the arch over its ends is sought."""


@dataclass(frozen=True, slots=True, eq=False)
class Cap:
    """The cap of a sleeve: ``scoop`` from front to back, ``arch`` from back to front, and where they were taken from.

    ``front_mm`` and ``back_mm`` are the two places on the armhole where the under half ends.
    """

    scoop: Curve
    arch: Curve
    front_mm: float
    back_mm: float

    @property
    def height_mm(self) -> float:
        """From the lowest point of the cap to its top."""
        return float(self.arch.points[:, 1].max())

    @property
    def top(self) -> Points:
        """The highest point of the arch."""
        return np.asarray(self.arch.points[int(np.argmax(self.arch.points[:, 1]))])


def pitches(armhole: Armhole, width_mm: float, spare_mm: float) -> tuple[float, float]:
    """Return the two places on the armhole, of one height, between which the under half of a sleeve is sewn flat.

    ``width_mm`` is the girth of the whole sleeve, ``spare_mm`` how much longer its cap is. A place that lies near a seam or
    the shoulder is moved there. GeometryError when the armhole is too small for so wide a sleeve.
    """
    half = width_mm / 2.0
    ratio = min((armhole.length_mm + spare_mm) / half - ARCH_RATIO, UNDER_RATIO)
    if ratio < LEAST_UNDER_RATIO or armhole.block_mm <= ratio * half:
        least = (LEAST_UNDER_RATIO + ARCH_RATIO) * half - spare_mm
        what = (
            f"the armhole is {armhole.length_mm / 10.0:.1f} cm round; a sleeve of {width_mm / 10.0:.1f} cm needs "
            f"{least / 10.0:.1f} cm at least."
        )
        remedy = "Lower the armhole under the arm, or give the sleeve less `ease`."
        raise GeometryError([Problem("armhole-small", "", what, remedy)])
    while ratio >= LEAST_UNDER_RATIO:
        front, back = (armhole.on_seam(place) for place in armhole.level_pair(ratio * half))
        scoop = _scoop_between(armhole, (front, back), width_mm)
        steep = max(_way(scoop.start_tangent), _way(scoop.end_tangent)) > STEEPEST_RAD
        if not steep and armhole.length_mm - (back - front) + spare_mm >= ARCH_RATIO * half - NEAR_MM / 2.0:
            return front, back
        ratio -= RATIO_STEP
    raise GeometryError([_unlike(armhole)])


def _scoop_between(armhole: Armhole, ends: tuple[float, float], width_mm: float) -> Curve:
    rise = armhole.height_mm(ends[1]) - armhole.height_mm(ends[0])
    return _scoop(*armhole.run(*ends), width_mm / 2.0, rise)


def drawn_cap(armhole: Armhole, ends: tuple[float, float], width_mm: float, spare_mm: float) -> Cap:
    """Return the cap of a sleeve ``width_mm`` round, its arch longer than the rest of the armhole by ``spare_mm``.

    ``ends`` are the two places (front, back) between which the under half is sewn. GeometryError when the cap cannot be
    drawn so.
    """
    front, back = ends
    upper_mm = armhole.length_mm - (back - front) + spare_mm
    scoop = _scoop_between(armhole, ends, width_mm)
    slopes = _way(scoop.start_tangent), _way(scoop.end_tangent)
    arch = _arch(scoop.end, scoop.start, (slopes[1], slopes[0]), upper_mm)
    return Cap(scoop, arch, front, back)


def _way(tangent: Points) -> float:
    """Return how steep a tangent is (rad), whether it rises or falls."""
    return math.atan2(abs(float(tangent[1])), float(tangent[0]))


def _scoop(lengths: Points, ways: Points, chord_mm: float, rise_mm: float) -> Curve:
    """Return the armhole's lower part, each stretch as long as it was, bent until its ends stand ``chord_mm`` apart.

    The one number found is how much more it is bent than it lies on the block. ``rise_mm`` is how much higher its back
    end lies than its front end.
    """
    span = math.hypot(chord_mm, rise_mm)
    step, ways = _evenly(lengths, ways)

    def bent(times: float) -> Points:
        steps = step * np.column_stack((np.cos(times * ways), np.sin(times * ways)))
        return np.vstack((np.zeros(2), np.cumsum(steps, axis=0)))

    def over(times: float) -> float:
        return float(np.hypot(*bent(times)[-1])) - span

    most = first_below(over, 0.0, BEND_STEP, MOST_BEND)
    if not most:
        what = (
            f"{lengths.sum() / 10.0:.1f} cm of armhole cannot be bent to an under sleeve {chord_mm / 10.0:.1f} cm wide."
        )
        raise GeometryError([Problem("armhole-shape", "", what, "Change the sleeve's `ease`.")])
    points = bent(root(over, 0.0, most))
    end = points[-1]
    turn = math.atan2(rise_mm, chord_mm) - math.atan2(end[1], end[0])
    points = points @ np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
    return Curve.through(points - np.array([0.0, points[:, 1].min()]))


def _evenly(lengths: Points, ways: Points) -> tuple[float, Points]:
    """Return a short length, and the direction of every stretch of that length: finer than the line was drawn, as long."""
    ends = np.cumsum(lengths)
    count = int(np.ceil(ends[-1] / FINE_MM))
    step = float(ends[-1]) / count
    middles = ends - lengths / 2.0
    slope = np.diff(ways[[0, 1, -2, -1]])[[0, 2]] / np.diff(middles[[0, 1, -2, -1]])[[0, 2]]
    first, last = ways[0] - slope[0] * middles[0], ways[-1] + slope[1] * (ends[-1] - middles[-1])
    at = np.concatenate(([0.0], middles, ends[-1:]))
    turns = np.interp((np.arange(count) + 0.5) * step, at, np.concatenate(([first], ways, [last])))
    return step, _without_waves(turns, round(WAVE_MM / step))


def _without_waves(turns: Points, window: int) -> Points:
    """Return directions averaged over a window; at the ends, where the line is carried on, they stay what they were."""
    half = min(window, len(turns) - 1) // 2
    before, after = 2.0 * turns[0] - turns[half:0:-1], 2.0 * turns[-1] - turns[-2 : -half - 2 : -1]
    carried = np.concatenate((before, turns, after))
    return np.convolve(carried, np.full(2 * half + 1, 1.0 / (2 * half + 1)), mode="valid")


def _unlike(armhole: Armhole) -> Problem:
    what = f"the armhole, {armhole.length_mm / 10.0:.1f} cm round, is too sharp under the arm to be made the cap of a sleeve."
    return Problem("armhole-shape", "", what, "Round it there, in `top edge`.")


def _arch(start: Points, end: Points, slopes: tuple[float, float], long_mm: float) -> Curve:
    """Return the arch from its back end to its front end, leaving and joining at these slopes, of this length."""
    high = max(float(start[1]), float(end[1]))

    def at(rise_mm: float) -> Curve:
        top = np.array([(start[0] + end[0]) / 2.0, high + rise_mm])
        back, front = _half(start, slopes[0], top), _half(end, slopes[1], top)
        return Curve.through(np.vstack((back, front[-2::-1])))

    def over(rise_mm: float) -> float:
        return at(rise_mm).length_mm - long_mm

    if over(LEAST_RISE_MM) > 0.0:
        what = f"the upper cap, {long_mm / 10.0:.1f} cm, does not reach over a sleeve so wide."
        raise GeometryError([Problem("cap-flat", "spare", what, "Give more `spare` or less `ease`.")])
    return at(root(over, LEAST_RISE_MM, MOST_RISE_MM))


def _half(foot: Points, slope: float, top: Points) -> Points:
    """Return points of one half of an arch, from its foot, rising at ``slope`` (rad), to its level top."""
    across, up = float(top[0] - foot[0]), float(top[1] - foot[1])
    reach = min(up / max(math.sin(slope), LEAST_SINE), abs(across) / max(math.cos(slope), math.cos(STEEP_RAD)))
    leaving = foot + FOOT_HANDLE * reach * np.array([math.copysign(math.cos(slope), across), math.sin(slope)])
    joining = top - TOP_HANDLE * np.array([across, 0.0])
    t = np.linspace(0.0, 1.0, ARCH_POINTS)[:, None]
    return (1 - t) ** 3 * foot + 3 * (1 - t) ** 2 * t * leaving + 3 * (1 - t) * t**2 * joining + t**3 * top


STEEP_RAD, LEAST_SINE = math.radians(89.0), 0.5
"""A slope steeper than the first counts as upright; one flatter than 30 degrees, whose sine is the second, as so steep."""
