"""What is said of a sleeve: in which order it is sewn, what was guessed, and what to look at on the toile."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fanblock.pattern.model import Note
from fanblock.sleeves.arm import LONG, Size, guessed
from fanblock.sleeves.armhole import Armhole
from fanblock.sleeves.setting import TUCKED, Spare
from fanblock.units import fine_length, format_length
from fanblock.wearer.body import Body

CLOSE_RATIO, LARGE_RATIO = 1.0, 1.15
"""An armhole is under the measured one, or over it by so much that the toile must tell whether it should be. Cloth and a
lowered underarm want 5 to 10 % more than a tape round the joint (from memory)."""

ARM_TO_ARMHOLE = 1.45
"""An armhole is about so many times the upper arm: 16 to 17 in go with an arm of 11 to 12 in (from memory)."""

HAND_RATIO = 1.35
"""A sleeve narrower at the wrist than this times the wrist does not go over the hand (from memory)."""


def notes(
    body: Body, armhole: Armhole, size: Size, spare: Spare, pieces: Sequence[str], length: str | float, flat_mm: float
) -> tuple[Note, ...]:
    """Return what to say of a sleeve of these ``pieces``, ``flat_mm`` of whose cap is sewn without anything to take up."""
    return (
        *(Note("guess", f"GUESSED: {name}: {body.guessed[name]}") for name in guessed(body, length)),
        *(Note("sewing last", says, pieces[0]) for says in _sewing(body, armhole, spare, pieces, flat_mm)),
        *(Note("toile", says) for says in _toile(body, armhole, size, length)),
    )


def _sewing(body: Body, armhole: Armhole, spare: Spare, pieces: Sequence[str], flat_mm: float) -> Iterator[str]:
    flat = format_length(flat_mm, body.units)
    if len(pieces) > 1:
        yield (
            f"The under sleeve goes into the armhole first, right sides together, {flat} of it, flat, then the top sleeve."
        )
    else:
        until = ", up to the bars where the tucks begin" if spare.how == TUCKED and spare.mm else ""
        yield (
            f"The sleeve is set in from underneath, right sides together: {flat} in all lie flat on the armhole, without any "
            f"ease{until}."
        )
    taken = fine_length(spare.mm, body.units)
    if spare.how != TUCKED:
        if spare.mm:
            yield f"The top sleeve is {taken} longer than what it is sewn to: ease it in, most of it at the top."
        return
    where = "the strap" if armhole.over_mm else "the shoulder"
    if spare.mm:
        yield (
            f"Put the garment on the body, draw the head of the sleeve up over {where} and lay its spare, {taken} in all, into "
            "tucks that fold towards the back; the marks say about where. Pin it there, take it off and sew it as it is pinned."
        )
    if armhole.open_mm:
        yield (
            f"The edge “cap over the shoulder” is sewn to a strap that is not on these sheets, taken to be "
            f"{format_length(armhole.open_mm, body.units)} long on the side of the arm."
        )


def _toile(body: Body, armhole: Armhole, size: Size, length: str | float) -> Iterator[str]:
    units, long = body.units, armhole.length_mm
    yield (
        "Set a toile of one sleeve in. With the arm hanging and with the hand at the belt it must lie without a strain; "
        "bend the arm and look whether the elbow sits at the elbow line."
    )
    told = _armhole_told(body, long)
    if told:
        yield told
    wrist = body.lengths.get("wrist")
    if length == LONG and wrist is not None and size.hem_mm < HAND_RATIO * wrist:
        yield (
            f"The sleeve is {format_length(size.hem_mm, units)} round at the wrist and will hardly go over the hand: leave its "
            "seam open there for about 10 cm (4 in), and close that with hooks or buttons."
        )


def _armhole_told(body: Body, long_mm: float) -> str:
    """Return how the armhole compares with the measured one, or with the arm, where there is something to say."""
    units, measured = body.units, body.lengths.get("armhole")
    if measured is None:
        usual = ARM_TO_ARMHOLE * body.length_mm("upper arm")
        says = f"`armhole` was not measured: this one is {format_length(long_mm, units)} round, by the arm about "
        return says + f"{format_length(usual, units)} would be usual. Measure it, and look at it first."
    says = f"This armhole is {format_length(long_mm, units)} round, {format_length(abs(long_mm - measured), units)} "
    if long_mm < CLOSE_RATIO * measured:
        return says + "less than you measured: it may cut in. Snip it under the arm, at most 1 cm (3/8 in) at a time."
    if long_mm > LARGE_RATIO * measured:
        return (
            says
            + "more than you measured. Before the sleeve, pin the armhole smaller: draw the shoulder or the strap up, and "
            "take up what stands off in front. Then measure it and draft again."
        )
    return ""
