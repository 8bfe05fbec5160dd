"""What a note may do: change a measure, tilt the block, take in at seams, raise an edge, spring a hem.

Each act takes a state and returns the next with words for what it changed; none of them when there was nothing to do.
"""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import numpy as np

from fanblock.draft.altering import Alteration, RaiseEdge, SpringMore, TakeMore
from fanblock.fitting.numbers import panel_sum_mm
from fanblock.fitting.seams import HEIGHTS, NEAR, TERMS, SeamCourse, courses, springing, taking
from fanblock.fitting.sentences import ALL, BUST, LEVELS, TOP, WAIST, Effect, Longer, Raise, Spring, TakeIn, TakeOut
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
)
from fanblock.geometry.splines import level_ended
from fanblock.problems import GarmentError, Problem
from fanblock.terms import Around, Length, Share
from fanblock.tolerances import SAME_POINT_MM
from fanblock.wearer.model import Tilt

MOST_AT_A_SEAM_MM = 25.0
"""More than this at one seam is too much for it, and is shared with its neighbours (common practice, no source)."""

_SETTLED_MM = 0.005
_ROUNDS = 6

Done = tuple[State, tuple[str, ...]]


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


def lengthened(state: State, mm: float) -> Done:
    """Return the wearer with every taut length from waist to bust longer."""
    values = measures_of(state).values
    names = ("bust to waist", "bust to waist at side", "bust to waist at back", "raised")
    longer_by = {name: values[name] + mm for name in names if name in values}
    return measured(state, longer_by), tuple(measure_words(state, name, mm) for name in longer_by)


def longer(state: State, measure: str, mm: float) -> Done:
    """Return the wearer with one measure longer: one that was not taken begins at what it was guessed to be."""
    body, values = state.pattern.body, measures_of(state).values
    if measure == "raised":
        base = values.get("raised", body.length_mm("held bust to waist"))
    elif measure == "front arc":
        base = values.get("front arc", body.side_ratio * body.length_mm("bust"))
    else:
        base = values[measure]
    return measured(state, {measure: base + mm}), (measure_words(state, measure, mm),)


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
    if keep == "wearer" and level in (WAIST, BUST) and is_measured(state):
        return _girth(state, level, mm) if mm else (state, ())
    if level == TOP:  # no sum is taken there: only the cone is known
        rest = mm - state.by_girths.get(level, 0.0)
    else:
        rest = state.sums[level] + mm - panel_sum_mm(state.pattern, level)
    if abs(rest) < 2.0 * ROUNDED_MM:
        return state, ()
    return taken_in(state, level, ALL, -0.5 * rest, because)


def _girth(state: State, level: str, mm: float) -> Done:
    """Return the wearer with a girth changed until the pieces measure so much more at its level."""
    due, start, base = panel_sum_mm(state.pattern, level) + mm, state, measures_of(state).values[level]
    value, made = base + mm, state
    for _ in range(_ROUNDS):
        made = measured(start, {level: value})
        miss = due - panel_sum_mm(made.pattern, level)
        if abs(miss) < _SETTLED_MM:
            break
        value += miss
    value = rounded(value)
    made = measured(start, {level: value})
    moved = {
        other: start.by_girths.get(other, 0.0) + panel_sum_mm(made.pattern, other) - panel_sum_mm(start.pattern, other)
        for other in LEVELS
        if other != level
    }
    return replace(made, by_girths=MappingProxyType(moved)), (measure_words(state, level, value - base),)


def taken_in(state: State, level: str, region: str, mm: float, because: str, *, each: bool = False) -> Done:
    """Return the garment with ``mm`` taken in at a level in one half, shared by the seams of a region.

    More than a seam can carry is shared by all that reach the level; GarmentError when that is not enough either.
    """
    seams = {course.name: course for course in courses(state.pattern)}
    names = taking(tuple(seams.values()), region, level)
    if not names:
        return state, ()
    per_seam = mm if each else mm / len(names)
    if abs(per_seam) > MOST_AT_A_SEAM_MM:
        names = taking(tuple(seams.values()), ALL, level)
        per_seam = mm / len(names)
        if abs(per_seam) > MOST_AT_A_SEAM_MM:
            what = f"{length_words(state, abs(mm))} a half is more than its seams can take at the {level}."
            raise GarmentError([Problem("fit-much", because, what, "Measure again, and sew another toile.")])
    changes = [_take(state, seams[name], level, per_seam) for name in names]
    made = altered(state, changes, because)
    word = "taken in" if mm > 0.0 else "let out"
    amount = length_words(state, abs(per_seam))
    says = f"this garment: {amount} {word} at the {level} of {_listed(names)}, in either half"
    return made, (says,)


def _take(state: State, seam: SeamCourse, level: str, mm: float) -> Alteration:
    """Return the change that makes a seam take ``mm`` more at a level than it does now."""
    height = float(seam.height[-1]) if level == TOP else min(HEIGHTS[level], float(seam.height[-1]))
    knots: dict[float, float] = {}
    for one in state.opened.garment.alterations:
        if isinstance(one, TakeMore) and one.seam == seam.name and isinstance(one.more, Length):
            at = _height_of(one, seam)
            knots[at] = knots.get(at, 0.0) + one.more.mm
    stands = any(abs(at - height) < SAME_POINT_MM for at in knots)
    return TakeMore(seam.name, TERMS[level], Length(rounded(mm + (0.0 if stands else _now(knots, seam, height)))))


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


def raised(state: State, one: Raise, mm: float, because: str) -> Done:
    """Return the garment with an outline edge raised at a place."""
    up = one.share * mm
    change = RaiseEdge(one.edge, Around(ratio=one.around), Length(rounded(up)), Share(one.reach))
    word = "higher" if up > 0.0 else "lower"
    place = {0.0: "at the centre front", 1.0: "at the centre back"}.get(
        one.around, f"{one.around:.0%} round from the front"
    )
    edge = "lower edge" if one.edge == "hem" else one.edge
    return altered(state, [change], because), (
        f"this garment: the {edge} {length_words(state, abs(up))} {word} {place}",
    )


def sprung(state: State, region: str, mm: float, because: str) -> Done:
    """Return the garment with every seam of a region springing more at the hem."""
    names = springing(courses(state.pattern), region)
    if not names:
        return state, ()
    word = "more" if mm > 0.0 else "less"
    says = (
        f"this garment: {_listed(names)} spring{'s' if len(names) == 1 else ''} {length_words(state, abs(mm))} {word}"
    )
    return altered(state, [SpringMore(name, Length(rounded(mm))) for name in names], because), (says,)


def _listed(names: tuple[str, ...]) -> str:
    quoted = [f"“{name}”" for name in names]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} and {quoted[-1]}"
