"""Setting a sleeve into its armhole: the cap cut at every seam of the bodice, each piece of it the mate of one of the armhole."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from fanblock.draft.adding import Place, panel_of, with_panel, with_piece, with_seam_between
from fanblock.draft.work import Work
from fanblock.geometry.curve import Curve, Points
from fanblock.pattern.model import ARMHOLE, Edge, Mark, Panel
from fanblock.sleeves.armhole import NEAR_MM, Armhole
from fanblock.sleeves.pieces import Cloth, Joint
from fanblock.units import fine_length, marked_mm

TUCKED, EASED = "tucked", "eased"
"""How the spare of a cap is taken up."""

ROOM_RATIO = 1.5
"""The spare is tucked over the strap alone where that is so many times as long, else over twice the spare at the shoulder
(from memory)."""

TUCK_MM = 10.0
"""About how much each tuck takes (from memory); all tucks of a sleeve take the same, to a millimetre or a sixteenth of an inch."""

_TUCK_LINE_MM, _BAR_MM = 20.0, 12.0
"""How far the lines of a tuck, and the bars where two seams of the cap meet, run into a piece."""

SEAM_HERE, SLEEVE_SEAM, FROM_HERE = "seam here", "sleeve seam here", "{how} from here"
"""What stands beside such a bar: a seam of the bodice meets the cap here, one of the sleeve the armhole, the flat part ends."""

OVER_SHOULDER = "cap over the shoulder"
"""The edge of a cap that is sewn to a strap which is not on the sheets."""


@dataclass(frozen=True, slots=True)
class Spare:
    """How much longer the cap is than its armhole over the shoulder, and how that is taken up."""

    mm: float
    how: str

    @property
    def tucks(self) -> int:
        """How many tucks take it up, were it tucked."""
        return max(round(self.mm / TUCK_MM), 1) if self.mm else 0


def spare_of(mm: float, how: str, units: str) -> Spare:
    """Return the spare of a cap; one that is tucked is so large that its tucks add up to it by the tape."""
    asked = Spare(mm, how)
    if how != TUCKED or not asked.tucks:
        return asked
    return Spare(asked.tucks * marked_mm(mm / asked.tucks, units), how)


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of the cap: what it is sewn to (None where nothing on the sheets is), where on the armhole, its fullness.

    ``tucks`` is in how many tucks that is laid.
    """

    place: Place | None
    from_mm: float
    to_mm: float
    fullness_mm: float = 0.0
    tucks: int = 0

    @property
    def armhole_mm(self) -> float:
        """Its length on the armhole."""
        return self.to_mm - self.from_mm

    @property
    def sleeve_mm(self) -> float:
        """Its length on the sleeve."""
        return self.armhole_mm + self.fullness_mm


def spare_zone(armhole: Armhole, spare: Spare, ends: tuple[float, float]) -> tuple[float, float]:
    """Return the two places, one behind and one in front, between which the spare is taken up over the shoulder.

    What is eased is spread over all that lies above ``ends`` (front, back). What is tucked lies over the strap, or over
    twice its length at the shoulder.
    """
    front, back = ends
    if spare.how == EASED:
        return back, front
    if armhole.over_mm >= ROOM_RATIO * spare.mm:
        return armhole.block_mm, 0.0
    beside = (2.0 * spare.mm - armhole.over_mm) / 2.0
    behind, before = armhole.on_seam(armhole.block_mm - beside), armhole.on_seam(beside)
    return (behind if behind > back + NEAR_MM else back), (before if before < front - NEAR_MM else front)


def stretches(armhole: Armhole, spare: Spare, zone: tuple[float, float]) -> tuple[Stretch, ...]:
    """Return the stretches of the cap in the armhole's order; the spare is shared out over the zone by length.

    Tucked it goes in whole tucks; a stretch that gets one alone has it as two of half the size, its ticks between them.
    """
    found = [
        Stretch(part.place, start, start + part.curve.length_mm)
        for start, part in zip(armhole.starts, armhole.parts, strict=False)
    ]
    if armhole.open_mm:
        found.append(Stretch(None, armhole.starts[-1], armhole.length_mm))
    over = [one for one in found if _middle(one) > zone[0] or _middle(one) < zone[1]]
    total = sum(one.armhole_mm for one in over)
    if spare.how != TUCKED or not spare.mm:
        return tuple(
            replace(one, fullness_mm=spare.mm * one.armhole_mm / total) if one in over else one for one in found
        )
    at = np.cumsum([0.0, *(one.armhole_mm / total for one in over)])
    counts = np.diff(np.round(spare.tucks * at)).astype(int).tolist()
    take, share = spare.mm / spare.tucks, dict(zip(over, counts, strict=True))
    return tuple(
        replace(one, fullness_mm=take * share[one], tucks=2 if share[one] == 1 else share[one])
        if share.get(one)
        else one
        for one in found
    )


def _middle(stretch: Stretch) -> float:
    return (stretch.from_mm + stretch.to_mm) / 2.0


def set_in(work: Work, cloths: Iterable[Cloth], joints: Iterable[Joint], parts: tuple[Stretch, ...], how: str) -> Work:
    """Return the work with the pieces of a sleeve added, sewn to each other and to the armhole.

    ``parts`` are the stretches of the cap, the armhole being split at their ends already.
    """
    sewn: list[tuple[Place, Stretch, Place]] = []
    for cloth in cloths:
        edges: list[Edge] = []
        taken: list[Mark] = []
        bars: list[Mark] = []
        before: Stretch | None = None
        for stretch, curve in _cap_of(cloth, parts):
            if before is not None:
                bars.append(_bar(f"cap bar {len(bars) + 1}", curve, 0.0, _at_end(before, stretch, how, SEAM_HERE)))
            before = stretch
            name = _cap_name(stretch, [edge.name for edge in edges])
            edges.append(Edge(name, ARMHOLE, curve))
            if stretch.place is not None:
                sewn.append(((cloth.name, name), stretch, stretch.place))
            if stretch.fullness_mm and how == TUCKED:
                taken += _tucks(stretch, curve, len(taken))
        panel = Panel(
            cloth.name, 0, (*cloth.rim, *edges), grain=cloth.grain, marks=(*cloth.marks, *taken, *bars), added=True
        )
        work = with_piece(work, panel)
    for joint in joints:
        name = joint.line if joint.front[1] == joint.back[1] else joint.front[1]
        work = with_seam_between(
            work, name, joint.front, joint.back, fullness_mm=joint.fullness_mm, how=joint.how, line=joint.line
        )
    for place, stretch, beyond in sewn:
        full = stretch.fullness_mm
        name = f"{place[0]} {place[1]}"
        work = with_seam_between(work, name, place, beyond, fullness_mm=full, how=how if full else "")
    return work


def _cap_of(cloth: Cloth, parts: tuple[Stretch, ...]) -> Iterator[tuple[Stretch, Curve]]:
    """The stretches of the cap on a piece, in loop order, each with its stitch line there."""
    at = 0.0
    for stretch in _between(cloth.from_mm, cloth.to_mm, parts):
        yield stretch, cloth.cap.between(at, at + stretch.sleeve_mm)
        at += stretch.sleeve_mm


def _between(start: float, end: float, parts: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
    """Return the stretches from one place on the armhole to another, over the shoulder if need be."""
    before = tuple(one for one in parts if _middle(one) < end)
    after = tuple(one for one in parts if _middle(one) > start)
    return tuple(one for one in after if one in before) if start < end else (*after, *before)


def _cap_name(stretch: Stretch, taken: list[str]) -> str:
    if stretch.place is None:
        return OVER_SHOULDER
    name = f"cap to {stretch.place[0]}"
    names = (name, *(f"{name} {number}" for number in range(2, len(taken) + 2)))
    return next(each for each in names if each not in taken)


def _tucks(stretch: Stretch, curve: Curve, before: int) -> Iterator[Mark]:
    """The tucks of a stretch, evenly along it: each the two lines that are laid on one another."""
    count = stretch.tucks
    take = stretch.fullness_mm / count
    wide = f"{take:.1f} mm ({fine_length(take, 'in')})".replace(".0 mm", " mm")
    for number in range(count):
        middle = (number + 0.5) / count * curve.length_mm
        first, second = (_inward(curve, middle + side * take / 2.0) for side in (-1.0, 1.0))
        says = f"{count} tucks of {wide}"
        run = np.vstack((first[::-1], second))
        yield Mark(f"tuck {before + number + 1}", "tuck", Curve.through(run), says if number == count // 2 else "")


def _at_end(one: Stretch, other: Stretch, how: str, otherwise: str) -> str:
    """What stands beside the bar between two stretches."""
    flat = not one.fullness_mm or not other.fullness_mm
    if flat and (one.fullness_mm or other.fullness_mm):
        return FROM_HERE.format(how={TUCKED: "tucks", EASED: "eased"}[how])
    return otherwise


def _bar(name: str, curve: Curve, at_mm: float, says: str) -> Mark:
    return Mark(name, "place", Curve.through(_inward(curve, at_mm, _BAR_MM)), says)


def with_bars(work: Work, parts: tuple[Stretch, ...], how: str) -> Work:
    """Return the work with a bar on every panel whose armhole is parted: a seam of the sleeve ends there, or its flat part.

    Where the armhole is parted by a seam of the bodice that seam is the mark.
    """
    for one, other in pairwise(parts):
        if one.place is None or other.place is None or one.place[0] != other.place[0]:
            continue
        panel = panel_of(work, one.place[0])
        number = sum(mark.name.startswith("armhole bar") for mark in panel.marks) + 1
        bar = _bar(f"armhole bar {number}", panel.edge(one.place[1]).curve, 0.0, _at_end(one, other, how, SLEEVE_SEAM))
        work = with_panel(work, replace(panel, marks=(*panel.marks, bar)))
    return work


def _inward(curve: Curve, at_mm: float, long_mm: float = _TUCK_LINE_MM) -> Points:
    """Return a line from a place on a counter-clockwise edge into the piece."""
    point, (x, y) = curve.at(at_mm), curve.tangent_at(at_mm)
    return np.vstack((point, point + long_mm * np.array([-y, x])))
