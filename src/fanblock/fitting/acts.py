"""What a note may do: change a measure, tilt the block, take in at seams, raise an edge, spring a hem.

Each act takes a state and returns the next with words for what it changed; none of them when there was nothing to do.
"""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import numpy as np

from fanblock.block.from_body import AT_SIDE
from fanblock.draft.altering import TakeMore
from fanblock.fitting.edgeacts import Done, hollowed, listed, raised, sprung, turned
from fanblock.fitting.levels import girth_names, terms_of
from fanblock.fitting.numbers import panel_sum_mm
from fanblock.fitting.seams import NEAR, SeamCourse, courses, taking
from fanblock.fitting.sentences import (
    ALL,
    LEVELS,
    TOP,
    Effect,
    Hollow,
    Longer,
    Raise,
    Spring,
    TakeIn,
    TakeOut,
    Turn,
)
from fanblock.fitting.state import (
    ROUNDED_MM,
    State,
    altered,
    is_measured,
    length_words,
    measure_words,
    measured,
    measures_of,
    redrafted,
    rounded,
    sided,
    tape_rounded,
)
from fanblock.geometry.splines import level_ended
from fanblock.problems import GarmentError, Problem
from fanblock.terms import Length
from fanblock.tolerances import SAME_POINT_MM
from fanblock.wearer.model import HALVES, LEFT, RIGHT, Tilt

MOST_AT_A_SEAM_MM = 25.0
"""More than this at one seam is too much for it, and is shared with its neighbours (common practice, no source)."""

LEAST_MM = 1.6
"""What the new girths leave over and is less in all, a sixteenth of an inch, is not worth a seam: no tape shows it."""

SETTLED = "nothing: the new girths have settled it"
"""What is told of a level that is right once waist and bust are."""

AS_IT_SHOULD_BE = "nothing: it is as it should be"

_SETTLED_MM = 0.005
_ROUNDS = 6


def effect(state: State, one: Effect, mm: float, because: str) -> Done:
    """Return the state after one effect of a note of this amount."""
    match one:
        case Longer(measure, share):
            return longer(state, measure, share * mm)
        case TakeOut(at, share):
            return tilted(state, at, share * mm)
        case TakeIn(level, region, share, each):
            return taken_in(state, level, region, share * mm, because, each=each)
        case Raise():
            return raised(state, one, mm, because)
        case Spring(region, share):
            return sprung(state, region, share * mm, because)
        case Hollow(place, share):
            return hollowed(state, place, share * mm, because)
        case Turn(dial, share):
            return turned(state, dial, share * mm, because)


def lengthened(state: State, mm: float) -> Done:
    """Return the wearer with every taut length from waist to bust longer."""
    values = measures_of(state).values
    names = ("bust to waist", "bust to waist at side", "bust to waist at back", "raised")
    units = state.pattern.body.units
    longer_by = {name: tape_rounded(values[name] + mm, units) for name in names if name in values}
    return measured(state, longer_by), tuple(measure_words(state, name, mm) for name in longer_by)


def longer(state: State, measure: str, mm: float) -> Done:
    """Return the wearer with one measure longer, in the set it was taken in.

    One that was not taken begins at what it was guessed to be.
    """
    body = state.pattern.body
    if measure == "raised":
        base = body.length_mm("held bust to waist")
    elif measure == "front arc":
        base = body.side_ratio * body.length_mm("bust")
    else:
        base = body.length_mm(measure)
    return measured(state, {measure: tape_rounded(base + mm, body.units)}), (measure_words(state, measure, mm),)


def side_lengthened(state: State, half: str, mm: float) -> Done:
    """Return the wearer longer from waist to bust at one side of the body; what was not measured there is told by the block."""
    chosen, block = measures_of(state), state.pattern.block
    lifted = block.center_front_mm - chosen.values["bust to waist"]
    one = chosen.values.get(AT_SIDE, block.ruling_length_mm(block.side_ratio) - lifted)
    left, right = chosen.sides.get(AT_SIDE, (one, one))
    units = state.pattern.body.units
    left, right = (tape_rounded(one + mm, units) if half == of else one for of, one in ((LEFT, left), (RIGHT, right)))
    made = sided(state, AT_SIDE, (left, right))
    word = "longer" if mm > 0.0 else "shorter"
    return made, (f"wearer: {AT_SIDE} {length_words(state, abs(mm))} {word} on the {half}",)


def tilted(state: State, at: str, mm: float) -> Done:
    """Return the wearer with a wedge taken out at a centre line, half way up; less than nothing lets one out."""
    wearer = state.opened.wearer
    same = next((tilt for tilt in wearer.figure if (tilt.at, tilt.height_ratio, tilt.to) == (at, 0.5, "")), None)
    tilt = Tilt(at, rounded(mm + (same.take_mm if same else 0.0)))
    figure = (
        *(one for one in wearer.figure if one is not same),
        *([tilt] if abs(tilt.take_mm) > SAME_POINT_MM else []),
    )
    word = "taken out" if mm > 0.0 else "let out"
    says = f"wearer: a wedge of {length_words(state, abs(mm))} {word} at the {at.replace('center', 'centre')}"
    return redrafted(state, replace(state.opened, wearer=replace(wearer, figure=figure))), (says,)


def gapped(state: State, level: str, mm: float, keep: str, because: str) -> Done:
    """Return the garment with its pieces larger by ``mm`` in all at a level.

    Waist and bust go into the wearer's girths where they were measured and the notes do not keep them from it. What earlier
    notes changed at this level in passing is made good.
    """
    name = girth_names(state.pattern).get(level, "")
    if keep == "wearer" and is_measured(state) and name in measures_of(state).values:
        return _girth(state, level, name, mm) if mm else (state, (AS_IT_SHOULD_BE,))
    if level == TOP:  # no sum is taken there: only the cone is known
        rest = mm - state.by_girths.get(level, 0.0)
    else:
        rest = state.sums[level] + mm - panel_sum_mm(state.pattern, level)
    if abs(rest) < (LEAST_MM if state.by_girths else 2.0 * ROUNDED_MM):
        return state, (SETTLED if abs(mm) > LEAST_MM else AS_IT_SHOULD_BE,)
    made, changed = taken_in(state, level, ALL, -0.5 * rest, because)
    if mm * rest < 0.0 and not changed[0].startswith("nothing"):
        did = "let out" if mm > 0.0 else "took in"
        changed = (f"{changed[0]}, since the new girths {did} more than was wanted here",)
    return made, changed


def _girth(state: State, level: str, name: str, mm: float) -> Done:
    """Return the wearer with a girth of this name changed until the pieces measure so much more at its level."""
    due, start, base = panel_sum_mm(state.pattern, level) + mm, state, measures_of(state).values[name]
    value, made = base + mm, state
    for _ in range(_ROUNDS):
        made = measured(start, {name: value})
        miss = due - panel_sum_mm(made.pattern, level)
        if abs(miss) < _SETTLED_MM:
            break
        value += miss
    by, value = value - base, tape_rounded(value, start.pattern.body.units)
    made = measured(start, {name: value})
    moved = {
        other: start.by_girths.get(other, 0.0) + panel_sum_mm(made.pattern, other) - panel_sum_mm(start.pattern, other)
        for other in LEVELS
        if other != level
    }
    return replace(made, by_girths=MappingProxyType(moved)), (measure_words(state, name, by),)


def taken_in(
    state: State, level: str, region: str, mm: float, because: str, *, each: bool = False, half: str = ""
) -> Done:
    """Return the garment with ``mm`` taken in at a level in either half, or in one, shared by the seams of a region.

    More than a seam can carry is shared by all that reach the level; GarmentError when that is not enough either.
    """
    seams = {course.name: course for course in courses(state.pattern)}
    names = taking(tuple(seams.values()), region, level)
    if not names:
        return state, (f"nothing: no seam of this garment can take in or let out at the {level} there",)
    per_seam = mm if each else mm / len(names)
    if abs(per_seam) > MOST_AT_A_SEAM_MM:
        names = taking(tuple(seams.values()), ALL, level)
        per_seam = mm / len(names)
        if abs(per_seam) > MOST_AT_A_SEAM_MM:
            what = f"{length_words(state, abs(mm))} a half is more than its seams can take at the {level}."
            raise GarmentError([Problem("fit-much", because, what, "Measure again, and sew another toile.")])
    changes = [_take(state, seams[name], level, per_seam, half) for name in names]
    made = state
    for own in HALVES if not half else ():
        kept = [one for name in names for one in _kept(state, seams[name], level, own)]
        made = altered(made, kept, because, own) if kept else made
    made = altered(made, changes, because, half)
    word = "taken in" if mm > 0.0 else "let out"
    amount = length_words(state, abs(per_seam))
    says = f"this garment: {amount} {word} at the {level} of {listed(names)}, in {f'the {half} half alone' if half else 'either half'}"
    return made, (says,)


def _take(state: State, seam: SeamCourse, level: str, mm: float, half: str = "") -> TakeMore:
    """Return the change that makes a seam take ``mm`` more at a level than it does now, in both halves or in one."""
    height = _level_height(seam, level)
    knots = _knots(state, seam, half)
    stands = any(abs(at - height) < SAME_POINT_MM for at in knots)
    more = mm + (0.0 if stands else _now(knots, seam, height))
    return TakeMore(seam.name, terms_of(state.pattern)[level], Length(rounded(more)))


def _kept(state: State, seam: SeamCourse, level: str, half: str) -> list[TakeMore]:
    """What one half must be told at a level so that it keeps its own change when both halves are changed there."""
    height, knots = _level_height(seam, level), _knots(state, seam, half)
    both = _knots(state, seam)
    if knots == both or any(abs(at - height) < SAME_POINT_MM for at in knots):
        return []
    more = rounded(_now(knots, seam, height) - _now(both, seam, height))
    return [TakeMore(seam.name, terms_of(state.pattern)[level], Length(more))] if more else []


def _level_height(seam: SeamCourse, level: str) -> float:
    return float(seam.height[-1]) if level == TOP else min(seam.levels[level], float(seam.height[-1]))


def _knots(state: State, seam: SeamCourse, half: str = "") -> dict[float, float]:
    """What earlier fittings make a seam take, by height: in both halves, or in one with what is its own."""
    garment = state.opened.garment
    knots: dict[float, float] = {}
    for one in (*garment.alterations, *(own for of, own in garment.own_alterations if of == half)):
        if isinstance(one, TakeMore) and one.seam == seam.name and isinstance(one.more, Length):
            at = _height_of(one, seam)
            knots[at] = knots.get(at, 0.0) + one.more.mm
    return knots


def _height_of(one: TakeMore, seam: SeamCourse) -> float:
    top = float(seam.height[-1])
    if one.at.share is not None and not one.at.share.of:
        return min(one.at.share.ratio, top)
    return min({"waist": 0.0, "bust": 1.0}.get(one.at.landmark, top), top)


def _now(knots: dict[float, float], seam: SeamCourse, height: float) -> float:
    """Return what earlier fittings make a seam take at a height that none of them named."""
    if not knots:
        return 0.0
    known = dict(knots)
    for end in (max(float(seam.height[0]), 0.0), min(1.0, float(seam.height[-1]))):
        if not any(abs(end - one) < NEAR for one in knots):
            known[end] = 0.0
    at = np.array(sorted(known))
    return float(level_ended(at, np.array([known[one] for one in at.tolist()]))(np.array([height]))[0])
