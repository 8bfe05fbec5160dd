"""The bodies that are drafted for a wearer whose left and right differ: an even one, and one for each half.

Either half is drafted as if both were like it. What lies on the centre lines is one for both, so that the halves meet:
lengths there are never guessed from the measures of one half, and where a half is shorter or longer at its side, its block
still has the centre lines of the other.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from fanblock.block.from_body import AT_BACK, AT_SIDE, block_of
from fanblock.block.ruled import Block
from fanblock.tolerances import SAME_POINT_MM
from fanblock.units import format_length
from fanblock.wearer import guesses
from fanblock.wearer.body import Body, body_of
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.girths import BUST, RAISED_WAIST
from fanblock.wearer.halved import Uneven, half_wearer, uneven
from fanblock.wearer.model import HALVES, Wearer

ELBOW, TO_ELBOW = "elbow", "shoulder to elbow"


@dataclass(frozen=True, slots=True)
class Bodies:
    """What there is to draft for one wearer: the ``even`` body, the two ``halves`` in order, and what is ``uneven``."""

    even: Body
    halves: tuple[Body, ...] = ()
    uneven: tuple[Uneven, ...] = ()


def bodies_of(wearer: Wearer, over: str, *, predict: bool = False) -> Bodies:
    """Return the bodies of a wearer over one layer, as :func:`fanblock.wearer.body.body_of` makes them.

    ``halves`` are the left and the right one, alike where the wearer is even. Raises WearerError as it does, and
    GeometryError when the lengths at the side make no block.
    """
    even = body_of(wearer, over, predict=predict)
    apart = uneven(wearer, over)
    if not apart:
        return Bodies(even, (even, even))
    halves = [_with_common(body_of(half_wearer(wearer, half), over, predict=predict), even) for half in HALVES]
    takes = [sum(tilt.take_mm for tilt in wearer.figure if tilt.half == half) for half in HALVES]
    if any(one.name == AT_SIDE for one in apart) or any(takes):
        even, halves = _with_sides(even, halves, takes)
    return Bodies(even, tuple(halves), apart)


def _with_common(half: Body, even: Body) -> Body:
    """Return a half's body with what was guessed as it is on the even body; only girths follow the half's own."""
    lengths, guessed = dict(half.lengths), dict(half.guessed)
    for name in even.guessed:
        if even.is_guess(name):
            lengths[name], guessed[name] = even.lengths[name], even.guessed[name]
    for name in guesses.OVER_BUST_MM:
        if even.is_guess(name):
            lengths[name] *= half.lengths[BUST] / even.lengths[BUST]
    for name, guess in (
        (RAISED_WAIST, guesses.raised_waist),
        (ELBOW, guesses.elbow),
        (TO_ELBOW, guesses.shoulder_to_elbow),
    ):
        if even.is_guess(name):
            lengths[name], guessed[name] = guess(lengths, half.units)
    return replace(half, lengths=Fixed(lengths), guessed=Fixed(guessed), cautions=even.cautions)


def _with_sides(even: Body, halves: Sequence[Body], takes: Sequence[float]) -> tuple[Body, list[Body]]:
    """Return the bodies with their own lengths at the side, and with one length at the centre back for all."""
    block = block_of(replace(even, figure=()))
    lifted = even.bust_height_mm - even.length_mm("bust to waist")
    back = block.center_back_mm - lifted
    own = [
        half.lengths.get(AT_SIDE, block.ruling_length_mm(block.side_ratio) - lifted) - take
        for half, take in zip(halves, takes, strict=True)
    ]
    mean = sum(own) / len(own)
    first, *rest = (_lengthened(body, side, back) for body, side in zip((even, *halves), (mean, *own), strict=True))
    return first, rest


def _lengthened(body: Body, side_mm: float, back_mm: float) -> Body:
    """Return a body with these lengths from waist to bust at the side and, unless it was measured, at the centre back."""
    lengths, guessed = {**body.lengths, AT_SIDE: side_mm}, dict(body.guessed)
    if AT_BACK not in lengths:
        lengths[AT_BACK] = back_mm
        guessed[AT_BACK] = f"{format_length(back_mm, body.units)}, as the length at the side makes it"
    return replace(body, lengths=Fixed(lengths), guessed=Fixed(guessed))


def is_alike(left: Block, right: Block) -> bool:
    """Return whether two halves' blocks are one: waist and bust of the same lengths, and both centre lines and the side."""
    ends = (0.0, left.side_ratio, 1.0)
    ours, theirs = (
        (block.half_waist_mm, block.half_bust_mm, block.side_ratio, *(float(block.ruling_length_mm(at)) for at in ends))
        for block in (left, right)
    )
    return all(abs(one - other) <= SAME_POINT_MM for one, other in zip(ours, theirs, strict=True))
