"""From the words of a recipe to numbers on this block: amounts to millimetres, positions to around and height."""

from __future__ import annotations

import numpy as np

from fanblock.block.stand import level_of
from fanblock.draft.model import AROUND, HEIGHT, Draft
from fanblock.draft.opening import edge_line, laced_at
from fanblock.problems import GeometryError, Problem
from fanblock.terms import Amount, Around, Dial, Height, Length, Position
from fanblock.tolerances import SETTLED
from fanblock.wearer.body import Body
from fanblock.wearer.girths import HEIGHT_MEASURES

_ROUNDS = 60


def amount_mm(body: Body, amount: Amount, of: str) -> float:
    """Return an amount in millimetres; a share that names no measure is a share of the measure ``of``."""
    if isinstance(amount, Length):
        return amount.mm
    if isinstance(amount, Dial):
        raise TypeError(f"the dial “{amount.name}” has not been resolved")
    return amount.ratio * measure_mm(body, amount.of or of)


def size_mm(body: Body, amount: Amount, of: str, option: str) -> float:
    """Return an amount that cannot be less than nothing, in millimetres; GeometryError under ``option`` when it is."""
    mm = amount_mm(body, amount, of)
    if mm < 0.0:
        raise GeometryError([Problem("negative", option, f"got {mm:.1f} mm, needs 0 or more.", "Leave out the minus.")])
    return mm


def measure_mm(body: Body, name: str) -> float:
    """Return a measure of the body; GeometryError when it was neither taken nor can be guessed."""
    try:
        return body.length_mm(name)
    except KeyError:
        raise GeometryError(
            [
                Problem(
                    "measure-missing",
                    f"wearer {body.name}",
                    f"this recipe stands on the measure “{name}”, which was not taken.",
                    f"Add `{name}:` to the measures and draft again.",
                )
            ]
        ) from None


def height_on(draft: Draft, height: Height, around: float) -> float:
    """Return the height, as a share, of a recipe's height on the ruling at ``around``."""
    ruling = draft.block.ruling_length_mm(around)
    if height.share is not None:
        base = height.share.ratio
        if height.share.of:
            base *= measure_mm(draft.body, height.share.of) / ruling
    elif height.landmark in HEIGHT_MEASURES:
        base = level_of(draft.block, draft.body, height.landmark).height
    elif height.landmark == "held bust":
        base = 1.0 + _lift_mm(draft.body) / ruling
    elif height.landmark == "underarm":
        base = measure_mm(draft.body, "underarm") / ruling
    else:
        base = draft.height_of(height.landmark, around)
    if height.plus is not None:
        base += height.sign * amount_mm(draft.body, height.plus, of="bust to waist") / ruling
    return float(base)


def _lift_mm(body: Body) -> float:
    """Return how far above the block's bust level the garment will hold the bust: 0 when that was measured."""
    return max(
        measure_mm(body, "held bust to waist") - body.lengths.get("raised", measure_mm(body, "bust to waist")),
        0.0,
    )


def place_of(draft: Draft, position: Position) -> tuple[float, float]:
    """Return (around, height) of a position on this draft.

    The around fixes the ruling; where it stands on a slanting line, the lacing edge or a seam, or so far from a place
    along the level, around and height are found together.
    """
    around = position.around
    u = start = _start_around(draft, around)
    slanting = _slanting(draft, around)
    for _ in range(_ROUNDS):
        v = height_on(draft, position.height, u)
        base = float(np.interp(v, slanting[:, HEIGHT], slanting[:, AROUND])) if slanting is not None else u
        if slanting is None or abs(base - u) < SETTLED:
            break
        u = base
    if around.plus is None:
        return u, v
    mm = around.sign * amount_mm(draft.body, around.plus, of="bust")
    for _ in range(_ROUNDS):
        base = float(np.interp(v, slanting[:, HEIGHT], slanting[:, AROUND])) if slanting is not None else start
        before, u = u, float(draft.block.along(base, v, mm))
        v = height_on(draft, position.height, u)
        if abs(before - u) < SETTLED:
            break
    return u, v


def _start_around(draft: Draft, around: Around) -> float:
    if around.ratio is not None:
        return around.ratio
    if around.landmark == "side":
        return draft.block.side_ratio
    if around.landmark == "center front":
        return 0.0
    if around.landmark == "center back":
        return 1.0
    return 0.5


def _slanting(draft: Draft, around: Around) -> np.ndarray | None:
    """Return the line, sorted by height, that an around stands on when its around changes with height."""
    if around.ratio is not None or around.landmark in {"side", "center front", "center back"}:
        return None
    if around.landmark in {"lacing edge", "front edge", "back edge"} or laced_at(around.landmark):
        return edge_line(draft, around.landmark)
    seam = draft.seam(around.landmark)
    heights = np.linspace(seam.low, seam.top, 200)
    return np.column_stack((seam.around_of(heights), heights))
