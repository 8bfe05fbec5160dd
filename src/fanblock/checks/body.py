"""What a cone cannot do on this body, and what lacing should not: warnings, and refusals that need a yes.

A refusal names a word; given back in ``despite`` it becomes a warning. Limits: reduction over 10 % of the waist (Gau,
Iowa State 1998, who advises no more); the others are from memory.
"""

from __future__ import annotations

import math
from collections.abc import Collection

from fanblock.checks.finding import HOLDS, WARNS
from fanblock.pattern.model import Finding, Girth, Pattern
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import SOLVED
from fanblock.units import format_length
from fanblock.wearer.girths import BUST, measures_of
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
    stays on a waist more than 3 % over the bust; unless the refusal's word is in ``despite``. Where the block stands on
    other girths, these take the places of waist and bust.
    """
    refused = _refusals(pattern, despite)
    if refused:
        raise GeometryError(refused)
    waist, bust = stood_on_mm(pattern)
    turn = abs(math.degrees(pattern.block.turn_rad))
    name, share = laced_in(pattern)
    found = [
        _graded("reduction", share, REDUCTION_WARN, "ratio", f"the lacing takes in {share:.1%} of the {name}"),
        _graded("turn", turn, TURN_WARN_DEG, "deg", f"half the block turns {turn:.0f}°{_bell(pattern, turn)}"),
        *_guessed(pattern),
    ]
    if pattern.stand.is_usual and abs(bust - waist) < STRAIGHT_RATIO * waist:
        says = "almost no waist: give the garment straps and a waist tape inside, or it will ride"
        found.append(Finding("straight", FAMILY, WARNS, (bust - waist) / waist, STRAIGHT_RATIO, "ratio", says))
    at_rest = pattern.body.over == SHIFT and "raised" not in pattern.body.lengths
    made_of_bust = pattern.stand.upper.name == BUST and not pattern.block.traced_from
    if pattern.title.makes in BONED and at_rest and made_of_bust:
        found.append(_bust_at_rest(pattern))
    found += [
        Finding(f"measure-{number}", FAMILY, WARNS, 0.0, 0.0, "", says)
        for number, says in enumerate(pattern.body.cautions, start=1)
    ]
    return tuple(found)


def stood_on_mm(pattern: Pattern) -> tuple[float, float]:
    """Return the two girths that the block stands on, the lower first, in mm: waist and bust as a rule.

    They are the body's, or the block's own where it was traced.
    """
    block, stand = pattern.block, pattern.stand
    if block.traced_from:
        return 2.0 * block.level_length_mm(stand.lower.height), 2.0 * block.level_length_mm(stand.upper.height)
    return pattern.body.length_mm(stand.lower.name), pattern.body.length_mm(stand.upper.name)


def laced_in(pattern: Pattern) -> tuple[str, float]:
    """Return the girth of which the garment takes in the largest share, and that share.

    It is the lower one that the block stands on, or the natural waist where there is cloth over it. A traced block may be
    smaller than the body to begin with, and that counts.
    """
    lower = next(girth for girth in pattern.girths if girth.name == pattern.stand.lower.name)
    shares = {lower.name: _taken_share(lower, pattern.body.length_mm(lower.name))}
    waist = next(girth for girth in pattern.girths if girth.height == 0.0)
    if waist.parts_mm > 0.0 and (waist.name not in shares or pattern.block.traced_from):
        worn = 2.0 * (waist.block_mm - waist.takes_mm)
        shares[waist.name] = max(1.0 - worn / pattern.body.length_mm(waist.name), shares.get(waist.name, 0.0))
    name = max(shares, key=lambda name: shares[name])
    return name, shares[name]


def _taken_share(girth: Girth, body_mm: float) -> float:
    return (girth.reduction_mm + girth.altered_mm - min(girth.ease_mm, 0.0)) / body_mm


def _guessed(pattern: Pattern) -> list[Finding]:
    """Warn where the block stands on what nobody measured."""
    stood_on = [measure for name in pattern.stand.names for measure in measures_of(name)]
    return [
        Finding(
            f"guessed-{name.replace(' ', '-')}",
            FAMILY,
            WARNS,
            pattern.body.length_mm(name),
            0.0,
            "mm",
            f"PROVISIONAL: the block stands on {name}, and that was guessed: measure it and draft again",
        )
        for name in stood_on
        if pattern.body.is_guess(name)
    ]


def _bell(pattern: Pattern, turn_deg: float) -> str:
    """Return what to ask when a block turns so far that it becomes a bell."""
    if turn_deg <= TURN_WARN_DEG:
        return ""
    ask = "was the bust raised when you measured?" if pattern.stand.is_usual else "are both girths and heights right?"
    return f"; over {TURN_WARN_DEG:.0f}° it becomes a bell: {ask}"


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


def _refusals(pattern: Pattern, despite: Collection[str]) -> list[Problem]:
    waist, bust = stood_on_mm(pattern)
    units, stand = pattern.body.units, pattern.stand
    found = []
    name, share = laced_in(pattern)  # 10 % of some waists, divided by them again, is a hair more than 0.1
    if share > REDUCTION_MOST + SOLVED and "reduction" not in despite:
        what = f"the lacing would take in {share:.1%} of the {name}; more than {REDUCTION_MOST:.0%} is not drawn."
        less = "Reduce less." if name == stand.lower.name else "End it above the waist, or let it stand on the waist."
        if pattern.block.traced_from:
            less = "Is this the block of this body, and is its drawing at true scale?"
        found.append(Problem("reduction", "body", what, f"{less} If you must, draft again with `--despite reduction`."))
    turn = abs(math.degrees(pattern.block.turn_rad))
    if turn > TURN_MOST_DEG and "turn" not in despite:
        drop = f"a drop of {format_length(abs(bust - waist), units)}"
        if not stand.is_usual:
            drop += f" from {stand.upper.name} to {stand.lower.name}"
        what = f"half the block turns {turn:.0f}°: {drop} in so short a length makes a bell, not a garment."
        again = "`raised` with the bust lifted" if stand.is_usual else "both girths and their heights again"
        found.append(Problem("turn", "body", what, f"Measure {again}. If it is right, draft with `--despite turn`."))
    if pattern.title.makes in BONED and waist > (1.0 + OVER_RATIO) * bust and "waist" not in despite:
        low, high = (
            f"the {name}, {format_length(mm, units)}" for name, mm in zip(stand.names, (waist, bust), strict=True)
        )
        what = f"{low}, passes {high}: boned stays would ride up."
        found.append(
            Problem(
                "waist",
                "body",
                what,
                "Choose jumps or side lacing. To draw it all the same, add `--despite waist`.",
            )
        )
    return found
