"""Tilts: corrections of a block for a figure that is short, or long, at the back or at the front.

An ordinary tilt cuts the sheet along the level at the wedge's height and turns the lower part about the
far end of the cut. Turning alone would miss the length asked for and disturb the far centre line, so turn
and slide along the far centre line are solved together: the taken centre line loses exactly the take, the
far one keeps its length. Waist and bust levels keep their lengths and the rulings are drawn straight
again. Both levels still turn at one rate, so around remains share of arc at every level.

A tilt *to the side* bends the waist evenly from the side to the taken centre line, the bust as much the
other way, and leaves all the rest alone; its height has no meaning and is not looked at. (Bending the waist
alone would lean the taken centre line twice as far.)

Tilts compose in the order given, except that those that run to the side are always done last. Two
ordinary tilts in the other order give the same centre lengths, and shapes that differ by less than 0.05
mm for the takes that figures ask for; tilts to the side may come in any order.
"""

from __future__ import annotations

import cmath
from collections.abc import Callable

import numpy as np

from fanblock.block.bow import Bow
from fanblock.block.bowed import BowBlock
from fanblock.block.ruled import CROSSING_AROUNDS
from fanblock.problems import GeometryError, Problem, nearest
from fanblock.tolerances import SAME_POINT_MM, SOLVED
from fanblock.wearer.model import Tilt

REACH_BELOW_MM = 130.0
"""How far below the waist rulings must not cross: the longest tabs and points, and some."""

REACH_ABOVE_MM = 120.0
"""How far above the bust rulings must not cross: the highest backs, and some."""

_ROUNDS = 60


def tilted(block: BowBlock, tilt: Tilt) -> BowBlock:
    """Return the block with one more correction, set upright on its centre front again.

    The centre line at ``tilt.at`` loses ``tilt.take_mm`` (gains it, if negative); the other keeps its
    length, and so do waist and bust. Raises :class:`GeometryError` for a wedge height outside 0-100 %, a
    take that the sheet cannot give, or one that makes rulings cross within reach of a garment.
    """
    where = f"tilt at {tilt.at}"
    if tilt.at not in ("center back", "center front"):
        raise _refused("tilt-at", "tilt", f"cannot be at “{tilt.at}”.", nearest(tilt.at, _CENTERS))
    if tilt.to not in ("", "side"):
        raise _refused("tilt-to", where, f"cannot run to “{tilt.to}”.", nearest(tilt.to, ("side",)))
    if not tilt.to and not 0.0 <= tilt.height_ratio <= 1.0:
        what = (
            f"the wedge stands at {tilt.height_ratio * 100.0:.0f} % of the way from waist to bust; outside 0"
            " % to 100 % it would change nothing."
        )
        raise _refused("tilt-height", where, what, "Put it between the waist and the bust.")
    bends: tuple[Tilt, ...] = ()
    if block.unbent is not None and not tilt.to:
        bends = block.corrections[len(block.unbent.corrections) :]
        block = block.unbent
    for each in (tilt, *bends):
        block = _corrected(block, each)
    refuse_crossing(block, where)
    return block


def _corrected(block: BowBlock, tilt: Tilt) -> BowBlock:
    """The block with one more tilt, without a look at crossings."""
    where, length = f"tilt at {tilt.at}", block.ruling_length_mm(_CENTERS[tilt.at])
    bows = None
    if tilt.take_mm < length:
        bows = _bent_from_side(block, tilt) if tilt.to else _turned(block, tilt)
    if bows is None:
        what = f"taking {_cm(tilt.take_mm)} from a line of {_cm(length)} is more than the sheet can give."
        raise _refused("tilt-take", where, what, "Take less.")
    return block.with_bows(*bows, tilt, (block.unbent or block) if tilt.to else None)


def refuse_crossing(block: BowBlock, where: str) -> None:
    """Raise :class:`GeometryError` where rulings cross within reach below the waist or above the bust."""
    lengths = block.ruling_length_mm(CROSSING_AROUNDS)
    place = block.crossing_place(-REACH_BELOW_MM / lengths, 1.0 + REACH_ABOVE_MM / lengths)
    if place is None:
        return
    around, height = place
    above = height * block.ruling_length_mm(around)
    side = "above" if above > 0.0 else "below"
    raise _refused(
        "block-crossing",
        where,
        f"the upright lines of the block run into each other {_cm(abs(above))} {side} the waist.",
        "Take less, or measure again.",
    )


def root_of(function: Callable[[float], float], first: float, second: float) -> float | None:
    """Return where ``function`` is nought, by the secant rule from two guesses, or None."""
    at_first, at_second = function(first), function(second)
    for _ in range(_ROUNDS):
        if at_second == 0.0 or at_second == at_first:
            break
        third = second - at_second * (second - first) / (at_second - at_first)
        first, at_first = second, at_second
        second, at_second = third, function(third)
        if abs(second - first) <= SOLVED * max(1.0, abs(second)):
            break
    return second if abs(at_second) <= SAME_POINT_MM else None


_CENTERS = {"center front": 0.0, "center back": 1.0}


def _turned(block: BowBlock, tilt: Tilt) -> tuple[Bow, Bow] | None:
    """Waist and bust of an ordinary tilt: Newton's method on turn and slide of the waist."""
    taken = np.asarray(_CENTERS[tilt.at])
    far = 1.0 - taken
    feet = complex(block.waist.at(far)), complex(block.waist.at(taken))
    heads = complex(block.bust.at(far)), complex(block.bust.at(taken))
    goals = abs(heads[0] - feet[0]), abs(heads[1] - feet[1]) - tilt.take_mm
    slide = (heads[0] - feet[0]) / goals[0]
    pivot = feet[0] + tilt.height_ratio * (heads[0] - feet[0])
    lift = tilt.take_mm / abs(feet[1] - feet[0])
    unknowns = np.array([lift if taken else -lift, 0.0])
    for _ in range(_ROUNDS):
        spin = cmath.rect(1.0, unknowns[0])
        misses, slopes = np.empty(2), np.empty((2, 2))
        for row, (foot, head, goal) in enumerate(zip(feet, heads, goals, strict=True)):
            arm = spin * (foot - pivot)
            ruling = head - pivot - arm - unknowns[1] * slide
            length = abs(ruling)
            if length == 0.0:
                return None
            misses[row] = length - goal
            slopes[row] = (
                (ruling.conjugate() * -1j * arm).real / length,
                -(ruling.conjugate() * slide).real / length,
            )
        if abs(np.linalg.det(slopes)) <= SOLVED:
            return None
        step = np.linalg.solve(slopes, -misses)
        unknowns = unknowns + step
        if np.all(np.abs(step) <= SOLVED * goals[0]):
            return block.waist.moved(unknowns[0], pivot, unknowns[1] * slide), block.bust
    return None


def _bent_from_side(block: BowBlock, tilt: Tilt) -> tuple[Bow, Bow] | None:
    """Waist and bust of a tilt that runs to the side: equal and opposite turns, even all the way beyond the side."""
    taken = np.asarray(_CENTERS[tilt.at])
    goal = block.ruling_length_mm(float(taken)) - tilt.take_mm

    def bent(turn_rad: float) -> tuple[Bow, Bow]:
        if taken == 0.0:
            return block.waist.bent(turn_rad, 0.0), block.bust.bent(-turn_rad, 0.0)
        return block.waist.bent(0.0, turn_rad), block.bust.bent(0.0, -turn_rad)

    def miss(turn_rad: float) -> float:
        waist, bust = bent(turn_rad)
        return abs(complex(bust.at(taken)) - complex(waist.at(taken))) - goal

    share = abs(float(taken) - block.side_ratio)
    guess = tilt.take_mm / (block.half_waist_mm * share**2)
    turn = root_of(miss, 0.0, -guess) if tilt.take_mm else 0.0
    return None if turn is None else bent(turn)


def _cm(mm: float) -> str:
    return f"{mm / 10.0:.1f} cm"


def _refused(code: str, where: str, what: str, remedy: str) -> GeometryError:
    return GeometryError([Problem(code, where, what, remedy)])
