"""Numbers for drawing a block by hand: with pin and lath, with points on a grid, or with the tapes alone.

Everything is said in the frame of one sheet of paper: x from its left edge, y from its lower edge. The
bust level's ends lie level with each other, the centre front at the left.

The pin way holds for the fan. A tilted block is drawn as its fan first and then cut, lapped and ruled
straight again; the grid gives where its lines must come to lie.

The way without numbers uses the tapes themselves, folded. Two half girths drawn square across a middle
line, one ruling apart, make a trapezoid; the lines through their ends meet the middle line at r = w·d/(b
− w) from the waist, which is the fan's own pin: that much is exact. What is not is the girth: stepping a
folded tape along an arc with its ends on the arc steps chords, and n chords of b/n reach 2nR·asin(b/2nR).
(The slant lines themselves are no centre lines; they would leave the girth several centimetres short.)
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from fanblock.block.bowed import BowBlock
from fanblock.block.fan import fan
from fanblock.block.tilt import tilted
from fanblock.geometry.curve import Points
from fanblock.tolerances import SOLVED
from fanblock.units import UNITS
from fanblock.wearer.model import Tilt

FARTHEST_PIN_MM = 2000.0
"""Longest lath that two hands still swing true; beyond it the points on a grid are the better way."""

MARGIN_MM = 20.0
"""Clear paper around the block."""

FOLDS = 8
"""Into how many parts a half girth is folded for the way without numbers: three times in half."""

MOST_ASTRAY_MM = 3.0
"""The way without numbers is offered only where stepping leaves the whole girth nearer than this."""

PENCIL_MM = 0.5
"""How far a pencilled end is taken to be off its place."""

_STEPS_MM = {"mm": 20.0, "cm": 20.0, "in": UNITS["in"]}
_STEEPEST_RAD = math.radians(80.0)
_ROUNDS = 40
_SHARES = 33


@dataclass(frozen=True, slots=True)
class Arc:
    """One level of the fan as an arc, with what checks it under a straight ruler.

    ``string_mm`` is its distance from the pin, None where it is straight. ``chord_mm`` joins its ends,
    ``rise_mm`` is how far its middle stands off that chord; ``half_chord_mm`` and ``half_rise_mm`` the
    same for its front half, and for its back half.
    """

    name: str
    length_mm: float
    string_mm: float | None
    chord_mm: float
    rise_mm: float
    half_chord_mm: float
    half_rise_mm: float


@dataclass(frozen=True, slots=True)
class Pin:
    """Where the pin stands on the sheet; off the paper ``y_mm`` is negative, or over its height."""

    x_mm: float
    y_mm: float


@dataclass(frozen=True, slots=True)
class Mark:
    """A point of the sheet, from its left and from its lower edge."""

    x_mm: float
    y_mm: float


@dataclass(frozen=True, slots=True)
class Wedge:
    """One tilt as it is done in paper on the block drawn so far.

    ``cut_from_mm`` and ``cut_to_mm`` say how far above the waist the cut starts on the taken centre line
    and ends on the far one; a tilt ``to`` the side is drawn by its points and has a cut at the waist.
    ``taken_line_mm`` and ``far_line_mm`` are the lengths to come out, and with them the two diagonals:
    ``front_to_back_mm`` from the waist of the centre front to the bust of the centre back,
    ``back_to_front_mm`` from the waist of the centre back to the bust of the centre front. Three of the
    four fix the lower part, the fourth checks it. ``cut`` is the cut on the sheet as drawn before it.
    """

    at: str
    to: str
    take_mm: float
    cut_from_mm: float
    cut_to_mm: float
    taken_line_mm: float
    far_line_mm: float
    front_to_back_mm: float
    back_to_front_mm: float
    cut: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Tapes:
    """The way without numbers, with its honest errors: how far astray the whole bust and waist come out.

    ``bust_astray_mm`` and ``waist_astray_mm`` come from stepping chords, ``pencil_astray_mm``, on the
    waist, from a pencil half a millimetre off at both ends of one line of the trapezoid.
    """

    folds: int
    bust_astray_mm: float
    waist_astray_mm: float
    pencil_astray_mm: float


@dataclass(frozen=True, slots=True)
class Guide:
    """All numbers for one block, in millimetres on one sheet.

    ``corners`` are the ends of the centre lines of the finished block; ``marks`` its levels at regular
    stations of ``step_mm`` from the left edge. ``first`` gives the levels as they are drawn before any
    tilt, at even shares from the centre front. ``diagonal_mm`` joins the waist of one centre line of the
    fan with the bust of the other, either way. Either ``half`` is drawn as a left one.
    """

    units: str
    width_mm: float
    height_mm: float
    ruling_mm: float
    diagonal_mm: float
    arcs: tuple[Arc, ...]
    pin: Pin | None
    step_mm: float
    corners: Mapping[str, Mark]
    marks: Mapping[str, tuple[Mark, ...]]
    first: Mapping[str, tuple[Mark, ...]]
    wedges: tuple[Wedge, ...]
    tapes: Tapes | None
    half: str = "left"


def guide_of(block: BowBlock, units: str = "cm", levels: Mapping[str, float] | None = None) -> Guide:
    """Return the numbers for drawing ``block`` by hand.

    ``levels`` names further levels by their height (0 waist, 1 bust). ``units`` (``mm``, ``cm`` or
    ``in``) chooses the stations of the grid: every 2 cm, or every inch.
    """
    heights = {"waist": 0.0, "bust": 1.0, **(levels or {})}
    base = _untilted(block)
    sheets = [levelled(base), levelled(block)]
    extent = np.concatenate([_extent(sheet, heights) for sheet in sheets])
    low, high = extent.min(axis=0), extent.max(axis=0)
    shift = complex(MARGIN_MM - low[0], MARGIN_MM - low[1])
    base, final = (_shifted(sheet, shift) for sheet in sheets)
    step = _STEPS_MM[units]
    around, height = np.array([0.0, 0.0, 1.0, 1.0]), np.array([0.0, 1.0, 0.0, 1.0])
    corners = zip(_CORNERS, (Mark(*map(float, xy)) for xy in final.at(around, height)), strict=True)
    arcs = tuple(_arc(base, name, v) for name, v in heights.items())
    return Guide(
        units=units,
        width_mm=float(high[0] - low[0]) + 2.0 * MARGIN_MM,
        height_mm=float(high[1] - low[1]) + 2.0 * MARGIN_MM,
        ruling_mm=base.center_front_mm,
        diagonal_mm=_between(base, 0.0, 1.0),
        arcs=arcs,
        pin=_pin(base, arcs),
        step_mm=step,
        corners=MappingProxyType(dict(corners)),
        marks=MappingProxyType({name: _marks(final, v, step) for name, v in heights.items()}),
        first=MappingProxyType({name: _even_marks(base, v) for name, v in heights.items()}),
        wedges=_wedges(_untilted(block), block.corrections, shift),
        tapes=_tapes(base),
    )


_CORNERS = ("center front waist", "center front bust", "center back waist", "center back bust")


def _untilted(block: BowBlock) -> BowBlock:
    """The fan that a block was before its tilts; each has kept the centre line it does not name."""
    taken = sum(tilt.take_mm for tilt in block.corrections if tilt.at == "center front")
    return fan(block.half_waist_mm, block.half_bust_mm, block.center_front_mm + taken, block.side_ratio)


def levelled(block: BowBlock) -> BowBlock:
    """Return the block turned so that its bust's ends are level, the centre front's on the origin."""
    start, end = (complex(block.bust.at(np.asarray(around))) for around in (0.0, 1.0))
    turn = -cmath.phase(end - start)
    waist, bust = (bow.moved(turn, start, -start) for bow in (block.waist, block.bust))
    return BowBlock(waist, bust, block.corrections)


def _shifted(block: BowBlock, shift: complex) -> BowBlock:
    return BowBlock(block.waist.moved(0.0, 0j, shift), block.bust.moved(0.0, 0j, shift), block.corrections)


def _extent(block: BowBlock, heights: Mapping[str, float]) -> Points:
    """Points that reach as far as the block does."""
    around = np.linspace(0.0, 1.0, 257)
    return np.concatenate([block.at(around, height) for height in heights.values()])


def _arc(base: BowBlock, name: str, height: float) -> Arc:
    turn, length = abs(base.turn_rad), base.level_length_mm(height)
    return Arc(
        name=name,
        length_mm=length,
        string_mm=length / turn if turn else None,
        chord_mm=_chord(length, turn),
        rise_mm=_rise(length, turn),
        half_chord_mm=_chord(length / 2.0, turn / 2.0),
        half_rise_mm=_rise(length / 2.0, turn / 2.0),
    )


def _chord(length_mm: float, turn_rad: float) -> float:
    """c = 2R sin(θ/2), without the radius."""
    return length_mm * float(np.sinc(turn_rad / (2.0 * math.pi)))


def _rise(length_mm: float, turn_rad: float) -> float:
    """h = R(1 − cos(θ/2)), without the radius."""
    return length_mm * turn_rad / 8.0 * float(np.sinc(turn_rad / (4.0 * math.pi))) ** 2


def _pin(base: BowBlock, arcs: tuple[Arc, ...]) -> Pin | None:
    """The pin, or None where the block is straight or a lath would be too long to swing."""
    if any(arc.string_mm is None or arc.string_mm > FARTHEST_PIN_MM for arc in arcs):
        return None
    crown = base.at(0.5, 1.0)
    radius = base.half_bust_mm / base.turn_rad
    return Pin(float(crown[0]), float(crown[1]) - radius)


def _marks(block: BowBlock, height: float, step_mm: float) -> tuple[Mark, ...]:
    """A level's points above regular stations, or at equal shares where it runs too steeply for stations."""
    along = block.around_slope(np.linspace(0.0, 1.0, _SHARES), height)
    if np.max(np.abs(np.arctan2(along[:, 1], along[:, 0]))) > _STEEPEST_RAD:
        return _even_marks(block, height)
    first, last = float(block.at(0.0, height)[0]), float(block.at(1.0, height)[0])
    stations = step_mm * np.arange(math.ceil(first / step_mm), math.floor(last / step_mm) + 1)
    around = (stations - first) / (last - first)
    for _ in range(_ROUNDS):
        move = (stations - block.at(around, height)[:, 0]) / block.around_slope(around, height)[:, 0]
        around = around + move
        if np.all(np.abs(move) <= SOLVED):
            break
    return tuple(Mark(float(x), float(y)) for x, y in zip(stations, block.at(around, height)[:, 1], strict=True))


def _even_marks(block: BowBlock, height: float) -> tuple[Mark, ...]:
    """A level's points at even shares from the centre front."""
    return tuple(Mark(float(x), float(y)) for x, y in block.at(np.linspace(0.0, 1.0, _SHARES), height))


def _wedges(block: BowBlock, corrections: tuple[Tilt, ...], shift: complex) -> tuple[Wedge, ...]:
    """The tilts one after another, each on the block that those before it have made."""
    wedges = []
    for tilt in corrections:
        taken = 0.0 if tilt.at == "center front" else 1.0
        far = 1.0 - taken
        height = 0.0 if tilt.to else tilt.height_ratio
        tilted_block = tilted(block, tilt)
        wedges.append(
            Wedge(
                at=tilt.at,
                to=tilt.to,
                take_mm=tilt.take_mm,
                cut_from_mm=height * block.ruling_length_mm(taken),
                cut_to_mm=height * block.ruling_length_mm(far),
                taken_line_mm=tilted_block.ruling_length_mm(taken),
                far_line_mm=tilted_block.ruling_length_mm(far),
                front_to_back_mm=_between(tilted_block, 0.0, 1.0),
                back_to_front_mm=_between(tilted_block, 1.0, 0.0),
                cut=() if tilt.to else _even_marks(_shifted(levelled(block), shift), height),
            )
        )
        block = tilted_block
    return tuple(wedges)


def _between(block: BowBlock, waist_around: float, bust_around: float) -> float:
    """From a place of the waist straight to a place of the bust."""
    return float(np.hypot(*(block.at(bust_around, 1.0) - block.at(waist_around, 0.0))))


def _tapes(base: BowBlock) -> Tapes | None:
    """The way without numbers, or None where the pin or the girths would be too far off."""
    bust, waist, turn = base.half_bust_mm, base.half_waist_mm, abs(base.turn_rad)
    if turn == 0.0:
        return Tapes(FOLDS, 0.0, 0.0, 0.0)
    half_step = turn / (2.0 * FOLDS)
    if max(bust, waist) / turn > FARTHEST_PIN_MM or half_step >= 1.0:
        return None
    too_far = 2.0 * (math.asin(half_step) / half_step - 1.0)
    pencil = 4.0 * PENCIL_MM * max(1.0, waist / bust)
    worst = max(too_far * bust, too_far * waist + pencil)
    return None if worst > MOST_ASTRAY_MM else Tapes(FOLDS, too_far * bust, too_far * waist, pencil)
