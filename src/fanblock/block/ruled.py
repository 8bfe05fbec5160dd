"""The block: two lines, waist and bust, and the straight rulings between places of equal around.

A place on it is an *around* u, 0 at the centre front and 1 at the centre back, and a *height* v, 0 at the
waist and 1 at the bust: P(u, v) = (1 − v)·waist(u) + v·bust(u). Both may lie outside 0..1; the sheet is
carried on there. The centre front stands upright on the origin, x to the right, y up, seen from outside:
the half drawn is the wearer's left.

Along both lines around is share of arc. What it is along the levels between them depends on the lines: a block made from
measures (:mod:`fanblock.block.bowed`) knows it exactly, a traced one (:mod:`fanblock.block.traced`) measures it.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from functools import cached_property
from typing import Any, Protocol, overload

import numpy as np
from numpy.typing import ArrayLike

from fanblock.block.bow import Complex
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.tolerances import CHORD_MM, SAME_POINT_MM, SOLVED
from fanblock.wearer.model import Tilt

_SEARCH = frozen(np.linspace(-0.6, 1.6, 23))
_ROUNDS = 30
_CAREFUL = 0.8  # share of the chord tolerance that is used, since the bow is looked at in a row of places only

CROSSING_AROUNDS = frozen(np.linspace(0.0, 1.0, 129))
"""The rulings that are looked at for crossings."""


class LevelLine(Protocol):
    """The waist or the bust of a block: a curve over around 0..1, run at one speed, carried on beyond both ends.

    Points are complex numbers, x + iy, in millimetres; a positive turn is clockwise.
    """

    @property
    def length_mm(self) -> float:
        """Length from around 0 to 1."""

    @property
    def turn_rad(self) -> float:
        """Clockwise turn from around 0 to 1."""

    def at(self, around: Points) -> Complex:
        """Return the points at ``around``."""

    def place(self, around: float) -> complex:
        """Return one point."""

    def slope(self, around: Points) -> Complex:
        """Return the derivative by around."""

    def bend(self, around: Points) -> Complex:
        """Return the second derivative by around."""


class Block(ABC):
    """Half a body's sheet, centre front to centre back; see the module for its coordinates.

    ``corrections`` are all the tilts that made it, given and found, in the order they were applied. ``traced_from`` names
    the drawing of one that was not made from measures.
    """

    waist: LevelLine
    bust: LevelLine
    corrections: tuple[Tilt, ...]
    traced_from: str = ""
    _pieces = 1

    @property
    @abstractmethod
    def side_ratio(self) -> float:
        """The around of the side."""

    @abstractmethod
    def _speed(self, around: Points, height: Points) -> Points:
        """Length of dP/du."""

    @abstractmethod
    def _from_side(self, around: Points, height: Points) -> Points:
        """Signed length along levels from the side to ``around``."""

    @property
    def half_waist_mm(self) -> float:
        """Length of the waist level, exact."""
        return self.waist.length_mm

    @property
    def half_bust_mm(self) -> float:
        """Length of the bust level, exact."""
        return self.bust.length_mm

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
        return _like(self._further(u, v, distance))

    def level(self, height: float, from_around: float = 0.0, to_around: float = 1.0) -> Curve:
        """Return a level, or a part of it, as a curve within the chord tolerance."""
        u = np.linspace(from_around, to_around, 33)
        along, bend = self._slope(u, _array(height)), self._bend(u, _array(height))
        bow = float(np.max(np.abs(_cross(along, bend)) / np.maximum(np.abs(along), SAME_POINT_MM)))
        pieces = math.ceil(abs(to_around - from_around) * math.sqrt(bow / (8.0 * _CAREFUL * CHORD_MM)))
        pieces = max(pieces, math.ceil(abs(to_around - from_around) * self._pieces), 1)
        return Curve(frozen(self.at(np.linspace(from_around, to_around, pieces + 1), height)))

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

    def _further(self, around: Points, height: Points, distance_mm: Points) -> Points:
        """Return the around so far along the level, sharpened by Newton's method."""
        target = self._from_side(around, height) + distance_mm
        u = around + distance_mm / self._speed(around, height)
        for _ in range(_ROUNDS):
            step = (target - self._from_side(u, height)) / self._speed(u, height)
            u = u + step
            if np.all(np.abs(step) <= SOLVED):
                break
        return u

    def _ruling(self, around: Points) -> Complex:
        ruling: Complex = self.bust.at(around) - self.waist.at(around)
        return ruling

    def _slope(self, around: Points, height: Points) -> Complex:
        slope: Complex = (1.0 - height) * self.waist.slope(around) + height * self.bust.slope(around)
        return slope

    def _bend(self, around: Points, height: Points) -> Complex:
        bend: Complex = (1.0 - height) * self.waist.bend(around) + height * self.bust.bend(around)
        return bend

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
