"""A wearer's block: the fan of two girths, with the tilts that lengths at side and back ask for.

The girths are waist and bust unless the garment stands on others (:mod:`fanblock.block.stand`).

Nobody arrives knowing how far to tilt. Whoever measures bust to waist at the side and at the back as well
has said it: those lengths differ from the one at the front, all taken with the bust at rest, and the same
differences are kept when the block stands on the raised bust. Then come the tilts that the wearer's
figure asks for in so many words.
"""

from __future__ import annotations

from dataclasses import replace

from fanblock.block.bowed import BowBlock
from fanblock.block.fan import fan
from fanblock.block.stand import Stand, stand_on
from fanblock.block.tilt import refuse_crossing, root_of, tilted
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import SAME_POINT_MM, SOLVED
from fanblock.units import format_length
from fanblock.wearer.body import Body
from fanblock.wearer.girths import BUST, WAIST, girth_height_mm
from fanblock.wearer.model import Tilt

AT_SIDE, AT_BACK = "bust to waist at side", "bust to waist at back"

_LEVEL = Tilt(at="center back", take_mm=0.0, height_ratio=0.5)


LEAST_APART_MM = 30.0
"""Two girths nearer than this do not tell how a cone widens: a slip of half a centimetre at one would move the other end
of the block by several (worked out)."""

_ROUNDS = 30


def block_of(body: Body, lower: str = WAIST, upper: str = BUST) -> BowBlock:
    """Return the block of a body, exact at two girths and at every bust-to-waist length that was measured.

    ``lower`` and ``upper`` name the girths (:data:`fanblock.wearer.girths.HEIGHT_MEASURES`), each at its own height above
    the waist. The ruling is ``raised`` if that was measured, else ``bust to waist``. With a length at the back only,
    one tilt at the centre back. With one at the side, a tilt at the centre back that is right at the side;
    with both, a second tilt from the side for what then is still wrong at the back. The wearer's own tilts
    are taken besides these. All are found in ``corrections`` of the block. Raises :class:`GeometryError`
    when the measures cannot make a sheet.
    """
    due = tuple(body.length_mm(name) / 2.0 for name in (lower, upper))
    if (lower, upper) == (WAIST, BUST):
        return _of_girths(body, *due)
    heights = _heights_mm(body, lower, upper)
    waist, bust = _carried(heights, due, body.bust_height_mm)
    for _ in range(_ROUNDS):
        _refuse_nothing(body, lower, upper, waist, bust)
        block = _of_girths(body, waist, bust)
        stand = stand_on(block, body, lower, upper)
        missing = tuple(
            half - block.level_length_mm(level.height) for half, level in zip(due, stand.levels, strict=True)
        )
        if max(map(abs, missing)) <= SOLVED * due[0]:
            break
        more = _carried(heights, missing, body.bust_height_mm)
        waist, bust = waist + more[0], bust + more[1]
    return block


def standing_block(body: Body, lower: str, upper: str) -> tuple[BowBlock, Stand]:
    """Return the block of a body that stands on two girths, as :func:`block_of` does, and where they lie on it."""
    block = block_of(body, lower, upper)
    return block, stand_on(block, body, lower, upper)


def _heights_mm(body: Body, lower: str, upper: str) -> tuple[float, float]:
    """Return how high the two girths lie; GeometryError when they are too near each other, or the wrong way round."""
    low, high = girth_height_mm(body, lower), girth_height_mm(body, upper)
    if high - low >= LEAST_APART_MM:
        return low, high
    units = body.units
    where = f"above the waist: {format_length(low, units)} and {format_length(high, units)}"
    what = f"{lower} and {upper} lie too near each other to tell how the body widens ({where})."
    remedy = f"They must lie {format_length(LEAST_APART_MM, units)} apart or more: measure both heights again."
    raise GeometryError([Problem("block-near", "block", what, remedy)])


def _carried(heights_mm: tuple[float, float], values: tuple[float, ...], ruling_mm: float) -> tuple[float, float]:
    """Return what values at two heights come to at the waist and at the bust, on a straight line through both."""
    slope = (values[1] - values[0]) / (heights_mm[1] - heights_mm[0])
    return values[0] - slope * heights_mm[0], values[0] + slope * (ruling_mm - heights_mm[0])


def _refuse_nothing(body: Body, lower: str, upper: str, waist_mm: float, bust_mm: float) -> None:
    """Refuse a cone that comes to its point between the girths it stands on and the waist or the bust."""
    for name, mm in ((WAIST, waist_mm), (BUST, bust_mm)):
        if mm <= 0.0:
            what = (
                f"from {lower} {format_length(body.length_mm(lower), body.units)} and {upper} "
                f"{format_length(body.length_mm(upper), body.units)} a cone would run to nothing before it reaches the {name}."
            )
            raise GeometryError(
                [Problem("block-nothing", "block", what, "Measure both girths and their heights again.")]
            )


def _of_girths(body: Body, half_waist_mm: float, half_bust_mm: float) -> BowBlock:
    """The block of a body with these halves of its girths at waist and bust."""
    rest = body.length_mm("bust to waist")
    ruling = body.bust_height_mm
    block = fan(half_waist_mm, half_bust_mm, ruling, body.side_ratio)
    at_side = _length_at(body, AT_SIDE, ruling - rest)
    at_back = _length_at(body, AT_BACK, ruling - rest)
    if at_side is not None:
        block = _brought_to(block, AT_SIDE, at_side, "")
    if at_back is not None:
        block = _brought_to(block, AT_BACK, at_back, "" if at_side is None else "side")
    for tilt in body.figure:
        block = tilted(block, tilt)
    refuse_crossing(block, "block")
    return block


def _length_at(body: Body, name: str, raise_mm: float) -> float | None:
    """The taut length ``name`` as it is with the bust raised, or None if it was not measured."""
    return body.length_mm(name) + raise_mm if name in body.lengths else None


def _brought_to(block: BowBlock, name: str, length_mm: float, to: str) -> BowBlock:
    """The block tilted at the centre back so that its ruling at the side, or at the back, has its length."""
    try:
        at_side = name == AT_SIDE
        take_mm = _take_for_side(block, length_mm) if at_side else block.center_back_mm - length_mm
        return block if abs(take_mm) < SAME_POINT_MM else tilted(block, replace(_LEVEL, take_mm=take_mm, to=to))
    except GeometryError as error:
        what = "no tilt can give the block this length; the others are too unlike it."
        remedy = "Measure bust to waist again at the front, the side and the back."
        raise GeometryError([Problem("block-taut-length", name, what, remedy)]) from error


def _take_for_side(block: BowBlock, length_mm: float) -> float:
    """What a tilt must take at the centre back for the ruling at the side to have its length."""
    side = block.side_ratio
    missing = block.ruling_length_mm(side) - length_mm
    if abs(missing) < SAME_POINT_MM:
        return 0.0

    def miss(take_mm: float) -> float:
        return tilted(block, replace(_LEVEL, take_mm=take_mm)).ruling_length_mm(side) - length_mm

    take = root_of(miss, 0.0, missing / side)
    if take is None:
        raise GeometryError([Problem("block-taut-length", AT_SIDE, "the tilt for it cannot be found.")])
    return take
