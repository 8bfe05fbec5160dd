"""A wearer's block: the fan of the measures, with the tilts that lengths at side and back ask for.

Nobody arrives knowing how far to tilt. Whoever measures bust to waist at the side and at the back as well
has said it: those lengths differ from the one at the front, all taken with the bust at rest, and the same
differences are kept when the block stands on the raised bust. Then come the tilts that the wearer's
figure asks for in so many words.
"""

from __future__ import annotations

from dataclasses import replace

from fanblock.block.fan import fan
from fanblock.block.ruled import Block
from fanblock.block.tilt import refuse_crossing, root_of, tilted
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import SAME_POINT_MM
from fanblock.wearer.body import Body
from fanblock.wearer.model import Tilt

AT_SIDE, AT_BACK = "bust to waist at side", "bust to waist at back"

_LEVEL = Tilt(at="center back", take_mm=0.0, height_ratio=0.5)


def block_of(body: Body) -> Block:
    """Return the block of a body, exact at bust, waist and every bust-to-waist length that was measured.

    The ruling is ``raised`` if that was measured, else ``bust to waist``. With a length at the back only,
    one tilt at the centre back. With one at the side, a tilt at the centre back that is right at the side;
    with both, a second tilt from the side for what then is still wrong at the back. The wearer's own tilts
    are taken besides these. All are found in ``corrections`` of the block. Raises :class:`GeometryError`
    when the measures cannot make a sheet.
    """
    rest = body.length_mm("bust to waist")
    ruling = body.length_mm("raised") if "raised" in body.lengths else rest
    block = fan(body.length_mm("waist") / 2.0, body.length_mm("bust") / 2.0, ruling, body.side_ratio)
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


def _brought_to(block: Block, name: str, length_mm: float, to: str) -> Block:
    """The block tilted at the centre back so that its ruling at the side, or at the back, has its length."""
    try:
        at_side = name == AT_SIDE
        take_mm = _take_for_side(block, length_mm) if at_side else block.center_back_mm - length_mm
        return block if abs(take_mm) < SAME_POINT_MM else tilted(block, replace(_LEVEL, take_mm=take_mm, to=to))
    except GeometryError as error:
        what = "no tilt can give the block this length; the others are too unlike it."
        remedy = "Measure bust to waist again at the front, the side and the back."
        raise GeometryError([Problem("block-taut-length", name, what, remedy)]) from error


def _take_for_side(block: Block, length_mm: float) -> float:
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
