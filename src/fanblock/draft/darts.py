"""Darts: wedges stitched out of a panel, open at an edge, running to nothing at a point within the cloth.

A dart takes along the level, as a seam does, half on either side of its middle line, but the cloth is not cut. From its
mouth up to the level where it is booked it takes all of its take; from there it runs to nothing at its point, level at both
ends, so that its two legs lie along each other before they meet and the point does not pucker.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from fanblock.draft.model import HEM_EDGE, TOP_EDGE, DartLine, Draft
from fanblock.draft.places import place_of, size_mm
from fanblock.draft.seamline import NEAR, ON_EDGE, STEEPEST_DEG
from fanblock.geometry.curve import Points
from fanblock.geometry.splines import monotone
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount, Position
from fanblock.units import format_length

SHORTEST_MM = 30.0
"""A dart shorter than this is a pinch: ease it in instead (from memory)."""

WIDEST_RATIO = 0.4
"""A dart wider at its mouth than this share of its length ends in a pouch (from memory)."""

CLEAR_MM = 15.0
"""A dart's point keeps at least so far from the far edge of the cloth (from memory)."""


@dataclass(frozen=True, slots=True, eq=False)
class DartTake:
    """What one dart takes, as a function of height, in millimetres, both legs together; beyond its mouth as at it."""

    dart: DartLine
    mm: float

    def __call__(self, heights: ArrayLike) -> Points:
        """Return the take at every one of ``heights``."""
        return self.mm * taper(self.dart, heights)


def taper(dart: DartLine, heights: ArrayLike) -> Points:
    """Return the share of its take that a dart takes at heights: 1 at its mouth, 0 at its point and beyond."""
    share = np.clip((np.asarray(heights, dtype=np.float64) - dart.point) / (dart.full - dart.point), 0.0, 1.0)
    return np.asarray(share * share * (3.0 - 2.0 * share))


def with_dart(
    draft: Draft, *, name: str, through: tuple[Position, ...], share: float | None, take: Amount | None
) -> Draft:
    """Return the draft with one more dart, its middle running through places from its mouth to its point.

    GeometryError when its mouth stands on no edge on this body, its point off the cloth, or it is too short or too steep.
    """
    where = f"dart “{name}” › through"
    places = [place_of(draft, position) for position in through]
    chain = _mouth_chain(draft, where, *places[0])
    _check_course(draft, where, places)
    _check_point(draft, where, chain, *places[-1])
    rising = places[0][1] < places[-1][1]
    upward = places if rising else places[::-1]
    around_of = monotone(
        np.array([height for _, height in upward]),
        np.array([around for around, _ in upward]),
        straight_on=(rising, not rising),
    )
    mouth, point = places[0][1], places[-1][1]
    booked = draft.stand.lower.height
    dart = DartLine(
        name=name,
        around_of=around_of,
        mouth=mouth,
        point=point,
        full=booked if mouth < booked < point - NEAR else mouth,
        chain=chain,
        share=share,
        take_mm=None if take is None else size_mm(draft.body, take, "waist", f"dart “{name}” › take"),
    )
    return replace(draft, darts=(*draft.darts, dart))


def booked_at(dart: DartLine, height: float) -> float | None:
    """Return what a dart takes at the height where reductions are booked; None where it carries a share of them."""
    reaches = min(dart.mouth, dart.full) - NEAR <= height <= max(dart.mouth, dart.full) + NEAR
    if dart.share is not None:
        return None if reaches else 0.0
    return (dart.take_mm or 0.0) * float(taper(dart, np.array([height]))[0])


def dart_takes(draft: Draft, booked: Mapping[str, float]) -> tuple[DartTake, ...]:
    """Return every dart's take, those that carry a share having what was ``booked`` for them by name.

    GeometryError when one would let out, take next to nothing at its mouth for want of a level to book its share on, or is
    too wide for its length.
    """
    takes = tuple(
        DartTake(dart, booked[dart.name] if dart.share is not None else dart.take_mm or 0.0) for dart in draft.darts
    )
    problems = [problem for take in takes for problem in _problems(draft, take)]
    if problems:
        raise GeometryError(problems)
    return takes


def _problems(draft: Draft, take: DartTake) -> list[Problem]:
    dart, units = take.dart, draft.body.units
    where, level = f"dart “{dart.name}”", draft.stand.lower
    if dart.share is not None and booked_at(dart, level.height) is not None:
        what = f"it carries a share of what is taken in at the {level.name}, and does not open there."
        return [Problem("dart-share", f"{where} › share", what, "Give it a `take` of its own, or let it open there.")]
    if take.mm < 0.0:
        what = f"its share would let out {format_length(-take.mm, units)}; a dart can only take in."
        remedy = "Give it a `take` of its own, or less ease to the garment."
        return [Problem("dart-lets-out", f"{where} › share", what, remedy)]
    length = abs(dart.mouth - dart.point) * draft.block.ruling_length_mm(dart.around_at(dart.mouth))
    if take.mm > WIDEST_RATIO * length:
        what = f"it takes {format_length(take.mm, units)} in a length of {format_length(length, units)}: its point would pouch."
        return [
            Problem("dart-wide", where, what, "Let it take less, share it between two, or carry its point further.")
        ]
    return []


def _mouth_chain(draft: Draft, where: str, around: float, height: float) -> str:
    """Return the outline edge that a dart opens at."""
    off = {chain: abs(draft.height_of(chain, around) - height) for chain in (HEM_EDGE, TOP_EDGE) if draft.chain(chain)}
    near = min(off, key=off.__getitem__, default="")
    if near and off[near] < ON_EDGE:
        return near
    if not near:
        what, remedy = "neither a top edge nor a hem has been drawn that it could open at.", "Put it after both."
    else:
        away = format_length(off[near] * draft.block.ruling_length_mm(around), draft.body.units)
        what = f"on this body its first point lies {away} from the {near}; a dart opens at an edge."
        remedy = f"Begin it there, such as `[{around:.0%}, {near}]`."
    raise GeometryError([Problem("dart-mouth", where, what, remedy)])


def _check_course(draft: Draft, where: str, places: list[tuple[float, float]]) -> None:
    """Refuse a dart whose points do not go on one way, or that is too short or leans too far."""
    steps = np.diff([height for _, height in places])
    if not (np.all(steps > 0.0) or np.all(steps < 0.0)):
        what = "on this body its points do not go on in one direction, up or down."
        raise GeometryError([Problem("dart-order", where, what, "Give them from its mouth to its point.")])
    (from_around, mouth), (to_around, point) = places[0], places[-1]
    ruling = draft.block.ruling_length_mm((from_around + to_around) / 2.0)
    up = abs(point - mouth) * ruling
    across = abs(draft.block.level_part_mm((mouth + point) / 2.0, from_around, to_around))
    if up < SHORTEST_MM:
        units = draft.body.units
        what = f"on this body it is {format_length(up, units)} long; {format_length(SHORTEST_MM, units)} is the least."
        raise GeometryError([Problem("dart-short", where, what, "Carry its point further, or leave it out.")])
    lean = math.degrees(math.atan2(across, up))
    if lean > STEEPEST_DEG:
        what = f"it leans {lean:.0f}° from upright; 45° is the most."
        raise GeometryError([Problem("dart-steep", where, what, "Bring its ends nearer in around.")])


def _check_point(draft: Draft, where: str, chain: str, around: float, height: float) -> None:
    """Refuse a dart that runs to the far edge of the cloth, or off it."""
    far = TOP_EDGE if chain == HEM_EDGE else HEM_EDGE
    if not draft.chain(far):
        return
    room = draft.height_of(far, around) - height
    left = (room if far == TOP_EDGE else -room) * draft.block.ruling_length_mm(around)
    if left < CLEAR_MM:
        units = draft.body.units
        says = f"{format_length(left, units)} from" if left > 0.0 else "beyond"
        what = (
            f"on this body its point lies {says} the {far}; it must end {format_length(CLEAR_MM, units)} short of it."
        )
        raise GeometryError([Problem("dart-point", where, what, "End it earlier, or cut a seam instead.")])
