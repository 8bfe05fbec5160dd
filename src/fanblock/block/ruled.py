"""The block: two bows, waist and bust, and the straight rulings between places of equal around.

A place on it is an *around* u, 0 at the centre front and 1 at the centre back, and a *height* v, 0 at the
waist and 1 at the bust: P(u, v) = (1 − v)·waist(u) + v·bust(u). Both may lie outside 0..1; the sheet is
carried on there. The centre front stands upright on the origin, x to the right, y up, seen from outside:
the half drawn is the wearer's left.

Along a level dP/du = (1 − v)·waist′(u) + v·bust′(u), two directions of fixed lengths. Where both bows
turn at the same rate the angle β between them is fixed and so is the speed: around is share of arc
exactly, and ℓ(v)² = ((1−v)w)² + (vb)² + 2v(1−v)wb·cos β. Where they do not (bent behind the side), the
speed is integrated by Gauss-Legendre quadrature from the side, which for such turns is exact to the last
digits.
"""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from functools import cached_property
from typing import Any, overload

import numpy as np
from numpy.typing import ArrayLike

from fanblock.block.bow import Bow, Complex
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.tolerances import CHORD_MM, SAME_POINT_MM, SOLVED
from fanblock.wearer.model import Tilt

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(12)
_SEARCH = frozen(np.linspace(-0.6, 1.6, 23))
_ROUNDS = 30
_CAREFUL = 0.8  # share of the chord tolerance that is used, since the bow is looked at in a row of places only

CROSSING_AROUNDS = frozen(np.linspace(0.0, 1.0, 129))
"""The rulings that are looked at for crossings."""


@dataclass(frozen=True, eq=False)
class Block:
    """Half a body's sheet, centre front to centre back; see the module for its coordinates.

    ``corrections`` are all the tilts that made it, given and found, in the order they were applied; those
    that run to the side come last, and ``unbent`` is the block without them, if there are any.
    """

    waist: Bow
    bust: Bow
    corrections: tuple[Tilt, ...] = ()
    unbent: Block | None = None

    @property
    def half_waist_mm(self) -> float:
        """Length of the waist level, exact."""
        return self.waist.length_mm

    @property
    def half_bust_mm(self) -> float:
        """Length of the bust level, exact."""
        return self.bust.length_mm

    @property
    def side_ratio(self) -> float:
        """The around of the side."""
        return self.waist.side_ratio

    @property
    def turn_rad(self) -> float:
        """How far the levels turn from centre front to centre back, the mean of both; tilts leave it alone."""
        return (self.waist.turn_rad + self.bust.turn_rad) / 2.0

    @property
    def center_front_mm(self) -> float:
        """Length of the centre front, waist to bust."""
        return self.ruling_length_mm(0.0)

    @property
    def center_back_mm(self) -> float:
        """Length of the centre back, waist to bust."""
        return self.ruling_length_mm(1.0)

    @property
    def is_even(self) -> bool:
        """Whether around is share of arc at every level: both bows turn at the same rates."""
        return (
            self.waist.front_turn_rad == self.bust.front_turn_rad
            and self.waist.back_turn_rad == self.bust.back_turn_rad
        )

    def at(self, around: ArrayLike, height: ArrayLike) -> Points:
        """Return the points at ``around`` and ``height``, which broadcast; x and y are the last axis."""
        u, v = _array(around), _array(height)
        waist = self.waist.at(u)
        return _pairs(waist + v * (self.bust.at(u) - waist))

    def around_slope(self, around: ArrayLike, height: ArrayLike) -> Points:
        """Return dP/du, the derivative by around along a level."""
        return _pairs(self._slope(_array(around), _array(height)))

    def ruling_direction(self, around: ArrayLike) -> Points:
        """Return the unit vectors from waist to bust along the rulings at ``around``."""
        ruling = self._ruling(_array(around))
        return _pairs(ruling / np.abs(ruling))

    def where(self, points: ArrayLike) -> tuple[Points, Points]:
        """Return around and height of ``points`` (x and y in the last axis): the inverse of :meth:`at`.

        The signed distance of a point from the rulings falls through nought at its around; the place
        where it does is bracketed on a fixed grid and then sharpened by Newton's method.
        """
        array = _array(points)
        place = array[..., 0] + 1j * array[..., 1]
        u = self._first_guess(place)
        for _ in range(_ROUNDS):
            foot, ruling = self.waist.at(u), self._ruling(u)
            along = self.waist.slope(u)
            spread = self.bust.slope(u) - along
            step = _cross(place - foot, ruling) / (_cross(along, ruling) - _cross(place - foot, spread))
            u = u + step
            if np.all(np.abs(step) <= SOLVED):
                break
        ruling = self._ruling(u)
        v = ((place - self.waist.at(u)) * ruling.conj()).real / np.abs(ruling) ** 2
        return np.asarray(u), np.asarray(v)

    @overload
    def ruling_length_mm(self, around: float) -> float: ...
    @overload
    def ruling_length_mm(self, around: Points) -> Points: ...
    def ruling_length_mm(self, around: Any) -> Any:
        """Return the length of the ruling at ``around``, waist to bust."""
        if isinstance(around, float):
            return abs(self.bust.place(around) - self.waist.place(around))
        return _like(np.abs(self._ruling(_array(around))))

    @overload
    def level_length_mm(self, height: float) -> float: ...
    @overload
    def level_length_mm(self, height: Points) -> Points: ...
    def level_length_mm(self, height: Any) -> Any:
        """Return the length of the whole half level at ``height``."""
        v = _array(height)
        return _like(self._from_side(np.ones_like(v), v) - self._from_side(np.zeros_like(v), v))

    @overload
    def level_part_mm(self, height: float, from_around: float, to_around: float) -> float: ...
    @overload
    def level_part_mm(self, height: ArrayLike, from_around: ArrayLike, to_around: ArrayLike) -> Points: ...
    def level_part_mm(self, height: Any, from_around: Any, to_around: Any) -> Any:
        """Return the length of the part of a level between two arounds, negative if they are in reverse."""
        v = _array(height)
        return _like(self._from_side(_array(to_around), v) - self._from_side(_array(from_around), v))

    @overload
    def along(self, around: float, height: float, distance_mm: float) -> float: ...
    @overload
    def along(self, around: ArrayLike, height: ArrayLike, distance_mm: ArrayLike) -> Points: ...
    def along(self, around: Any, height: Any, distance_mm: Any) -> Any:
        """Return the around ``distance_mm`` further along the level, towards the back if positive."""
        u, v, distance = np.broadcast_arrays(_array(around), _array(height), _array(distance_mm))
        if self.is_even:
            return _like(u + distance / self._speed(u, v))
        target = self._from_side(u, v) + distance
        u = u + distance / self._speed(u, v)
        for _ in range(_ROUNDS):
            step = (target - self._from_side(u, v)) / self._speed(u, v)
            u = u + step
            if np.all(np.abs(step) <= SOLVED):
                break
        return _like(u)

    def level(self, height: float, from_around: float = 0.0, to_around: float = 1.0) -> Curve:
        """Return a level, or a part of it, as a curve within the chord tolerance."""
        u = np.linspace(from_around, to_around, 33)
        along, bend = self._slope(u, _array(height)), self._bend(u, _array(height))
        bow = float(np.max(np.abs(_cross(along, bend)) / np.maximum(np.abs(along), SAME_POINT_MM)))
        pieces = math.ceil(abs(to_around - from_around) * math.sqrt(bow / (8.0 * _CAREFUL * CHORD_MM)))
        return Curve(frozen(self.at(np.linspace(from_around, to_around, max(pieces, 1) + 1), height)))

    def crossing_height(self, lowest: float, highest: float) -> float | None:
        """Return the height in the range, nearest to the block, at which rulings cross, or None."""
        place = self.crossing_place(_array(lowest), _array(highest))
        return None if place is None else place[1]

    def crossing_place(self, lowest: Points, highest: Points) -> tuple[float, float] | None:
        """Return around and height of the crossing of rulings nearest to the block, or None.

        ``lowest`` and ``highest`` are one height each, or one for each of :data:`CROSSING_AROUNDS`.
        Neighbouring rulings cross where dP/du and the ruling lie along each other. Their cross product is
        linear in height on every ruling, so the height follows in closed form for each of a close row of
        rulings.
        """
        ruling, along = self._ruling(CROSSING_AROUNDS), self.waist.slope(CROSSING_AROUNDS)
        at_waist = _cross(along, ruling)
        by_height = _cross(self.bust.slope(CROSSING_AROUNDS) - along, ruling)
        crossed = np.minimum(at_waist + lowest * by_height, at_waist + highest * by_height) <= 0.0
        if not np.any(crossed):
            return None
        with np.errstate(divide="ignore", invalid="ignore"):
            heights = np.where(by_height == 0.0, 0.5, -at_waist / by_height)
        distance = np.where(crossed, np.abs(np.clip(heights, lowest, highest) - 0.5), np.inf)
        first = int(np.argmin(distance))
        return float(CROSSING_AROUNDS[first]), float(np.clip(heights, lowest, highest)[first])

    def with_bows(self, waist: Bow, bust: Bow, correction: Tilt, unbent: Block | None = None) -> Block:
        """Return the block with another waist bow and the correction behind it, set upright again."""
        return Block(waist, bust, (*self.corrections, correction), unbent).upright()

    def upright(self) -> Block:
        """Return the block moved as a whole so that its centre front stands upright on the origin."""
        foot = complex(self.waist.at(_array(0.0)))
        turn = math.pi / 2.0 - cmath.phase(complex(self._ruling(_array(0.0))))
        waist, bust = (bow.moved(turn, foot, -foot) for bow in (self.waist, self.bust))
        return Block(waist, bust, self.corrections, self.unbent)

    def _ruling(self, around: Points) -> Complex:
        ruling: Complex = self.bust.at(around) - self.waist.at(around)
        return ruling

    def _slope(self, around: Points, height: Points) -> Complex:
        slope: Complex = (1.0 - height) * self.waist.slope(around) + height * self.bust.slope(around)
        return slope

    def _bend(self, around: Points, height: Points) -> Complex:
        bend: Complex = (1.0 - height) * self.waist.bend(around) + height * self.bust.bend(around)
        return bend

    def _speed(self, around: Points, height: Points) -> Points:
        """Length of dP/du, from the angle between the two bows, which is linear in around on either half."""
        low, high = (1.0 - height) * self.waist.length_mm, height * self.bust.length_mm
        angle: Any = self.waist.heading_rad - self.bust.heading_rad
        if not self.is_even:
            from_side = around - self.side_ratio
            front = self.bust.front_turn_rad - self.waist.front_turn_rad
            back = self.bust.back_turn_rad - self.waist.back_turn_rad
            angle = angle + from_side * np.where(from_side < 0.0, front, back)
        # the square of the sum less 4·low·high·sin²(angle/2): no digits are lost where the angle is nought
        squared = (low + high) ** 2 - 4.0 * low * high * np.sin(0.5 * angle) ** 2
        speed: Points = np.sqrt(np.maximum(squared, 0.0))
        return speed

    def _from_side(self, around: Points, height: Points) -> Points:
        """Signed length along levels from the side to ``around``."""
        from_side = around - self.side_ratio
        if self.is_even:
            even: Points = from_side * self._speed(around, height)
            return even
        nodes = self.side_ratio + 0.5 * from_side[..., np.newaxis] * (1.0 + _NODES)
        speeds = self._speed(nodes, height[..., np.newaxis])
        length: Points = 0.5 * from_side * np.sum(_WEIGHTS * speeds, axis=-1)
        return length

    @cached_property
    def _grid(self) -> tuple[Complex, Complex]:
        return self.waist.at(_SEARCH), self._ruling(_SEARCH)

    def _first_guess(self, place: Complex) -> Points:
        """Around of ``place`` to within a cell of the grid, nearest the middle where there are two."""
        foot, ruling = self._grid
        away = _cross(place[..., np.newaxis] - foot, ruling)
        falls = (away[..., :-1] >= 0.0) & (away[..., 1:] < 0.0)
        cost = np.where(falls, np.abs(_SEARCH[:-1] - 0.5), np.inf)
        cell = np.argmin(cost, axis=-1)
        left = np.take_along_axis(away, cell[..., np.newaxis], axis=-1)[..., 0]
        right = np.take_along_axis(away, cell[..., np.newaxis] + 1, axis=-1)[..., 0]
        inside = _SEARCH[cell] + (_SEARCH[1] - _SEARCH[0]) * left / np.where(left == right, 1.0, left - right)
        nearest = _SEARCH[np.argmin(np.abs(away) / np.abs(ruling), axis=-1)]
        guess: Points = np.where(np.any(falls, axis=-1), inside, nearest)
        return guess


def _array(values: ArrayLike) -> Points:
    return np.asarray(values, dtype=np.float64)


def _like(values: Points) -> Any:
    """A float for a single value, else the array."""
    return float(values) if np.ndim(values) == 0 else values


def _pairs(values: Complex) -> Points:
    return np.stack((values.real, values.imag), axis=-1)


def _cross(a: Any, b: Any) -> Points:
    """z of the cross product of two complex vectors."""
    crossed: Points = a.real * b.imag - a.imag * b.real
    return crossed
