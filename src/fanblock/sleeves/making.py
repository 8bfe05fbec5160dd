"""From a recipe's choices to a sleeve in its armhole: the whole of it, step by step."""

from __future__ import annotations

from dataclasses import dataclass, replace

from fanblock.draft.work import Work
from fanblock.problems import GeometryError, Problem
from fanblock.sleeves.arm import Ease, Size, size_of
from fanblock.sleeves.armhole import Armhole, armhole_of, parted
from fanblock.sleeves.cap import Cap, drawn_cap, pitches
from fanblock.sleeves.onepiece import Darts, Drawn, bent_by_darts, bent_by_seam
from fanblock.sleeves.setting import EASED, TUCKED, Spare, set_in, spare_of, spare_zone, stretches, with_bars
from fanblock.sleeves.telling import notes
from fanblock.sleeves.twopiece import two_pieces

MOST_TUCKED_MM, MOST_EASED_MM = 130.0, 40.0
"""More spare than this is not tucked or eased into an armhole, but gathered or cut otherwise (from memory)."""

FROM_PITCH_MM = 40.0
"""Least distance of a sleeve's seam under the arm from the two places where its under half ends."""

BY_DARTS, BY_SEAM = "darts", "seam"


@dataclass(frozen=True, slots=True)
class Cut:
    """How a sleeve is cut: in ``pieces`` 1 or 2; one piece is bent by ``darts`` or by its ``seam`` behind.

    ``ahead_mm`` is how far before the lowest point of the armhole the seam under the arm stands, ``forward_mm`` how far the
    wrist of a sleeve in two pieces comes forward.
    """

    pieces: int
    bend: str
    ahead_mm: float
    darts: Darts
    forward_mm: float


def with_sleeve(
    work: Work, name: str, cut: Cut, length: str | float, ease: Ease, spare_mm: float, over_shoulder_mm: float | None
) -> Work:
    """Return the work with a sleeve added and sewn to the armhole, and with what is to be said of it.

    ``length`` is ``elbow``, ``long`` or millimetres from the shoulder bone to the hem; ``over_shoulder_mm`` what is missing of
    the armhole where no strap and no seam closes it. GeometryError with what cannot be drawn on this body, and why.
    """
    spare = spare_of(spare_mm, TUCKED if cut.pieces == 1 else EASED, work.body.units)
    _check_spare(spare)
    size = size_of(work.body, length, ease)
    armhole = armhole_of(work, over_shoulder_mm)
    ends = pitches(armhole, size.width_mm, spare.mm)
    zone = spare_zone(armhole, spare, ends)
    seam = _seam_place(armhole, ends, cut.ahead_mm) if _has_arm_seam(cut) else None
    work = parted(work, armhole, [*zone, *_ends_of_pieces(cut, ends, seam)])
    armhole = armhole_of(work, over_shoulder_mm)
    cap = drawn_cap(armhole, ends, size.width_mm, spare.mm)
    cloths, joints = _drawn(work, name, cut, cap, size, seam)
    parts = stretches(armhole, spare, zone)
    work = with_bars(set_in(work, cloths, joints, parts, spare.how), parts, spare.how)
    flat = sum(part.armhole_mm for part in parts if not part.fullness_mm)
    said = notes(work.body, armhole, size, spare, [cloth.name for cloth in cloths], length, flat)
    return replace(work, notes=(*work.notes, *said))


def _has_arm_seam(cut: Cut) -> bool:
    return cut.pieces == 1 and cut.bend == BY_DARTS


def _ends_of_pieces(cut: Cut, ends: tuple[float, float], seam: float | None) -> tuple[float, ...]:
    """Return the places on the armhole at which a seam of the sleeve ends."""
    if cut.pieces > 1:
        return ends
    return (ends[1],) if seam is None else (seam,)


def _check_spare(spare: Spare) -> None:
    most = MOST_TUCKED_MM if spare.how == TUCKED else MOST_EASED_MM
    if spare.mm > most:
        what = f"{spare.mm / 10.0:.1f} cm cannot be {spare.how} into an armhole; {most / 10.0:.0f} cm is the most."
        raise GeometryError([Problem("spare-large", "spare", what, "Give less.")])


def _seam_place(armhole: Armhole, ends: tuple[float, float], ahead_mm: float) -> float:
    place = armhole.on_seam(armhole.lowest_mm - ahead_mm)
    if not ends[0] + FROM_PITCH_MM < place < ends[1] - FROM_PITCH_MM:
        what = "the sleeve's seam would leave the underarm."
        raise GeometryError([Problem("seam-ahead", "seam ahead", what, "Let it stand nearer to the underarm.")])
    return place


def _drawn(work: Work, name: str, cut: Cut, cap: Cap, size: Size, seam: float | None) -> Drawn:
    if cut.pieces == 2:
        forearm = work.body.length_mm("arm length") - size.to_elbow_mm
        return two_pieces(name, cap, size, cut.forward_mm, forearm)
    if seam is None:
        return bent_by_seam(name, cap, size)
    return bent_by_darts(name, cap, size, seam, cut.darts)
