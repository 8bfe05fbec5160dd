"""What a cone cannot do on this body, and what lacing should not: warnings, and refusals that need a yes.

A refusal names a word; given back in ``despite`` it becomes a warning. Limits: reduction over 10 % of the waist (Gau,
Iowa State 1998, who advises no more); the others are from memory.
"""

from __future__ import annotations

import math
from collections.abc import Collection

from fanblock.checks.finding import HOLDS, WARNS
from fanblock.pattern.model import Finding, Pattern
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import SOLVED
from fanblock.units import format_length
from fanblock.wearer.model import SHIFT

FAMILY = "body"

REDUCTION_WARN, REDUCTION_MOST = 0.05, 0.10
TURN_WARN_DEG, TURN_MOST_DEG = 55.0, 65.0
STRAIGHT_RATIO, OVER_RATIO = 0.04, 0.03

BONED = frozenset({"stays", "bodies", "short stays"})
"""What is boned and laced, so that a waist larger than the bust would ride up."""


def check(pattern: Pattern, despite: Collection[str] = ()) -> tuple[Finding, ...]:
    """Return what this body asks of the maker.

    GeometryError for what is refused: a reduction over 10 % of the waist, a block that turns more than 65° a half, boned
    stays on a waist more than 3 % over the bust; unless the refusal's word is in ``despite``.
    """
    refused = _refusals(pattern, despite)
    if refused:
        raise GeometryError(refused)
    bust, waist = pattern.body.length_mm("bust"), pattern.body.length_mm("waist")
    turn = abs(math.degrees(pattern.block.turn_rad))
    share = _reduction(pattern)
    found = [
        _graded("reduction", share, REDUCTION_WARN, "ratio", f"the lacing takes in {share:.1%} of the waist"),
        _graded("turn", turn, TURN_WARN_DEG, "deg", f"half the block turns {turn:.0f}°{_bell(turn)}"),
    ]
    if abs(bust - waist) < STRAIGHT_RATIO * waist:
        says = "almost no waist: give the garment straps and a waist tape inside, or it will ride"
        found.append(Finding("straight", FAMILY, WARNS, (bust - waist) / waist, STRAIGHT_RATIO, "ratio", says))
    if pattern.title.makes in BONED and pattern.body.over == SHIFT and "raised" not in pattern.body.lengths:
        found.append(_bust_at_rest(pattern))
    found += [
        Finding(f"measure-{number}", FAMILY, WARNS, 0.0, 0.0, "", says)
        for number, says in enumerate(pattern.body.cautions, start=1)
    ]
    return tuple(found)


def _bell(turn_deg: float) -> str:
    """Return what to ask when a block turns so far that it becomes a bell."""
    if turn_deg <= TURN_WARN_DEG:
        return ""
    return f"; over {TURN_WARN_DEG:.0f}° it becomes a bell: was the bust raised when you measured?"


def _bust_at_rest(pattern: Pattern) -> Finding:
    """Warn that stays were drawn to a bust at rest: where they will hold it, the cone is already wider."""
    body, block = pattern.body, pattern.block
    lift = body.length_mm("held bust to waist") - body.length_mm("bust to waist")
    height = 1.0 + lift / block.center_front_mm
    over = 2.0 * block.level_length_mm(height) - body.length_mm("bust")
    says = (
        f"PROVISIONAL: `raised` was not measured; where stays would hold the bust, about {format_length(lift, body.units)} "
        f"higher, this cone is {format_length(over, body.units)} wider than it: measure `raised` and draft again"
    )
    return Finding("bust-at-rest", FAMILY, WARNS, over, 0.0, "mm", says)


def _graded(code: str, number: float, limit: float, unit: str, says: str) -> Finding:
    return Finding(code, FAMILY, WARNS if number > limit else HOLDS, number, limit, unit, says)


def _reduction(pattern: Pattern) -> float:
    girth = next(girth for girth in pattern.girths if girth.name == "waist")
    return (girth.reduction_mm - min(girth.ease_mm, 0.0)) / pattern.body.length_mm("waist")


def _refusals(pattern: Pattern, despite: Collection[str]) -> list[Problem]:
    bust, waist = pattern.body.length_mm("bust"), pattern.body.length_mm("waist")
    units = pattern.body.units
    found = []
    share = _reduction(pattern)  # 10 % of some waists, divided by them again, is a hair more than 0.1
    if share > REDUCTION_MOST + SOLVED and "reduction" not in despite:
        what = f"the lacing would take in {share:.1%} of the waist; more than {REDUCTION_MOST:.0%} is not drawn."
        found.append(
            Problem("reduction", "body", what, "Reduce less. If you must, draft again with `--despite reduction`.")
        )
    turn = abs(math.degrees(pattern.block.turn_rad))
    if turn > TURN_MOST_DEG and "turn" not in despite:
        drop = format_length(abs(bust - waist), units)
        what = f"half the block turns {turn:.0f}°: a drop of {drop} in so short a length makes a bell, not a garment."
        found.append(
            Problem(
                "turn",
                "body",
                what,
                "Measure `raised` with the bust lifted. If it is right, draft with `--despite turn`.",
            )
        )
    if pattern.title.makes in BONED and waist > (1.0 + OVER_RATIO) * bust and "waist" not in despite:
        what = f"the waist, {format_length(waist, units)}, passes the bust, {format_length(bust, units)}: boned stays would ride up."
        found.append(
            Problem(
                "waist",
                "body",
                what,
                "Choose jumps or side lacing. To draw it all the same, add `--despite waist`.",
            )
        )
    return found
