"""The fan: the block that three measures make, a cone, a cylinder or a cone upside down laid flat.

With half waist w, half bust b and ruling d the sheet turns by θ = (b − w)/d from centre front to centre
back, and the level at a distance h above the waist is w + θh long. The radius w/θ that a draughtsman
would set on the pin runs to infinity as the bust nears the waist, so it is never used; both edges are
bows that leave the centre front square and turn by θ.
"""

from __future__ import annotations

from fanblock.block.bow import bow_from_front
from fanblock.block.bowed import BowBlock
from fanblock.problems import GeometryError, Problem


def fan(half_waist_mm: float, half_bust_mm: float, ruling_mm: float, side_ratio: float = 0.5) -> BowBlock:
    """Return the untilted block: centre front on the y axis with its waist at the origin.

    All three lengths must be over nought and ``side_ratio``, the around of the side, between nought and
    one; any drop from bust to waist is lawful, nought and less too. Raises :class:`GeometryError`
    otherwise.

    >>> fan(340.0, 440.0, 160.0).level_length_mm(0.5)
    390.0
    """
    lengths = (("half waist", half_waist_mm), ("half bust", half_bust_mm), ("bust to waist", ruling_mm))
    problems = [
        Problem("block-length", f"block › {name}", f"is {value:g} mm, but must be longer than nothing.")
        for name, value in lengths
        if not 0.0 < value < float("inf")
    ]
    if not 0.0 < side_ratio < 1.0:
        problems.append(Problem("block-side", "block › side", "must lie between the centre front and the centre back."))
    if problems:
        raise GeometryError(problems)
    turn = (half_bust_mm - half_waist_mm) / ruling_mm
    return BowBlock(
        bow_from_front(0j, half_waist_mm, turn, side_ratio),
        bow_from_front(1j * ruling_mm, half_bust_mm, turn, side_ratio),
    )
