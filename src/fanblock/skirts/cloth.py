"""Cloth taken up along a waist: gathered evenly, or folded into pleats, each at its place.

A *place* is measured along the waist, from the front; the *cloth* lies over it, longer by what is taken up. Depths are
told by place, so the lower edge is level when the pleats lie folded: a pleat's layers are as deep as what they lie on.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from fanblock.geometry.curve import Points
from fanblock.skirts.folds import PleatKind, Way

STEP_MM = 3.0
"""Distance between the places at which a depth is asked for."""


@dataclass(frozen=True, slots=True)
class Turn:
    """A crease: where in the cloth it lies, to which place along the waist it comes, and how it is folded and laid."""

    cloth_mm: float
    place_mm: float
    says: str


@dataclass(frozen=True, slots=True)
class Cloth:
    """Cloth of ``width_mm`` over a waist: ``fullness`` times its length, and pleats of ``fold_mm`` at ``at_mm`` places."""

    length_mm: float
    fullness: float = 1.0
    kind: PleatKind = "knife"
    fold_mm: float = 0.0
    toward: Way = "back"
    at_mm: tuple[float, ...] = ()

    @property
    def taken_mm(self) -> float:
        """How much cloth one pleat takes."""
        return (2.0 if self.kind == "knife" else 4.0) * self.fold_mm

    @property
    def width_mm(self) -> float:
        """How wide all of the cloth is."""
        return self.over(self.length_mm)

    def over(self, place_mm: float) -> float:
        """Return how much cloth lies before a place of the waist; a pleat at that very place lies behind it."""
        return self.fullness * place_mm + self.taken_mm * sum(at < place_mm for at in self.at_mm)

    def turns(self) -> tuple[Turn, ...]:
        """Return all creases, from the front of the cloth."""
        found = []
        for at in self.at_mm:
            start = self.over(at)
            for folds, away, outward in _COURSES[self.kind, self.toward]:
                says = _says(outward=outward, away=away)
                found.append(Turn(start + folds * self.fold_mm, at + away * self.fold_mm, says))
        return tuple(found)

    def foot(self, depth_at: Callable[[Points], Points]) -> tuple[Points, Points]:
        """Return places across the cloth, rising, and how deep it is there, given the depth at places of the waist."""
        knots = [(0.0, 0.0), *self._knots(), (self.width_mm, self.length_mm)]
        across, places = [], []
        for (cloth, place), (further, at) in pairwise(knots):
            count = max(int(abs(further - cloth) / STEP_MM), 1)
            across += np.linspace(cloth, further, count, endpoint=False).tolist()
            places += np.linspace(place, at, count, endpoint=False).tolist()
        across.append(self.width_mm)
        places.append(self.length_mm)
        return np.array(across), depth_at(np.clip(np.array(places), 0.0, self.length_mm))

    def _knots(self) -> list[tuple[float, float]]:
        """Return places in the cloth and along the waist between which it lies flat, the pleats' ends among them."""
        found: list[tuple[float, float]] = []
        turns, count = self.turns(), len(_COURSES[self.kind, self.toward])
        for number, at in enumerate(self.at_mm):
            start = self.over(at)
            own = [(turn.cloth_mm, turn.place_mm) for turn in turns[number * count : (number + 1) * count]]
            found += [*([] if own[0][0] <= start else [(start, at)]), *own]
            if own[-1][0] < start + self.taken_mm:
                found.append((start + self.taken_mm, at))
        return found


_COURSES = {
    ("knife", "back"): ((1, 1, True), (2, 0, False)),
    ("knife", "front"): ((0, 0, False), (1, -1, True)),
    ("box", "back"): ((0, 0, False), (1, -1, True), (3, 1, True), (4, 0, False)),
    ("box", "front"): ((0, 0, False), (1, -1, True), (3, 1, True), (4, 0, False)),
    ("inverted", "back"): ((0, 0, True), (1, -1, False), (3, 1, False), (4, 0, True)),
    ("inverted", "front"): ((0, 0, True), (1, -1, False), (3, 1, False), (4, 0, True)),
}
"""For each kind of pleat its creases: how many folds into its cloth, how many folds away from its place, whether outward."""


def _says(*, outward: bool, away: int) -> str:
    """Return how a crease is folded, and which way the fold is laid where it does not stand at the pleat's own place."""
    way = {-1: " forward", 0: "", 1: " back"}[away]
    return ("outward" if outward else "inward") + (f", {'lay' if outward else 'tuck'} it{way}" if way else "")


def spread_evenly(number: int, start_mm: float, end_mm: float) -> tuple[float, ...]:
    """Return places for pleats between two places, each in the middle of its share.

    >>> spread_evenly(2, 0.0, 100.0)
    (25.0, 75.0)
    """
    step = (end_mm - start_mm) / number
    return tuple(start_mm + (each + 0.5) * step for each in range(number))
