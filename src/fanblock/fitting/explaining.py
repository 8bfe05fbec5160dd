"""The smallest explanation: which one or two causes account for most of what was noted, and what each leaves over.

Everything that was measured is a number at a place: how much the pieces are too small at the top, the bust, the middle and
the waist, and how far the drawn waist lies from the string. Each cause moves these places in its own proportions, as the
cone does; its amount is the one that leaves the least over (least squares).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from fanblock.fitting.levels import girth_names, heights_of, level_words, top_height, wanted_mm
from fanblock.fitting.notes import Notes
from fanblock.fitting.sentences import BUST, LEVELS, MIDDLE, TOP, WAIST, TakeIn, TakeOut
from fanblock.fitting.state import told_length
from fanblock.pattern.model import Pattern

LEAST_MM = 1.0
"""What is left over and smaller than this is told as nothing: no tape shows it."""

BETTER = 0.15
"""Two causes are told above one only when they account for so much more of what was noted."""

MOST_TOLD = 4

LINES = ("all round", "center back", "center front")


@dataclass(frozen=True, slots=True)
class Explanation:
    """Causes with their amounts in words, the share of what was noted that they account for, and what is left over."""

    says: tuple[str, ...]
    share: float
    left_over: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Cause:
    """One cause: its words for an amount, and how far a millimetre of it moves every place."""

    words: Callable[[float, str], str]
    moves: Mapping[str, float]


def explanations(notes: Notes, pattern: Pattern) -> tuple[Explanation, ...]:
    """Return the best explanations of what was noted of a garment, the smallest that do it first; none of too little."""
    if pattern.band is not None:
        return ()
    seen = noted(notes, pattern)
    places = [place for place, mm in seen.items() if abs(mm) > LEAST_MM]
    if len(places) < 2:
        return ()
    due = np.array([seen[place] for place in seen])
    found = []
    for count in (1, 2):
        for causes in combinations(_causes(pattern), count):
            one = _explained(causes, seen, due, pattern)
            if one is not None:
                found.append((one.share - BETTER * (count - 1), one))
    found.sort(key=lambda pair: (-pair[0], pair[1].says))
    return tuple(one for _, one in found[:MOST_TOLD])


def noted(notes: Notes, pattern: Pattern) -> dict[str, float]:
    """Return what the notes say in numbers: by level, how much the pieces are too small in all; by place, the waist line."""
    seen: dict[str, float] = {}
    wanted = wanted_mm(pattern) if pattern.band is None else {}
    for level in LEVELS:
        if level in notes.gap_mm:
            seen[level] = notes.gap_mm[level] - wanted[level]
    for pinch in notes.pinches:
        seen[pinch.level] = seen.get(pinch.level, 0.0) - pinch.mm
    for said in notes.said:
        for effect in said.sentence.effects:
            if isinstance(effect, TakeIn):
                seen[effect.level] = seen.get(effect.level, 0.0) - 2.0 * effect.share * said.mm
            elif isinstance(effect, TakeOut):
                place = f"line {effect.at}"
                seen[place] = seen.get(place, 0.0) - effect.share * said.mm
    for line in notes.lines:
        place = f"line {line.where}"
        seen[place] = seen.get(place, 0.0) + line.above_mm
    return seen


def _causes(pattern: Pattern) -> tuple[_Cause, ...]:
    heights = {**heights_of(pattern), TOP: top_height(pattern)}
    low, high = heights[WAIST], heights[BUST]
    cone = {level: (height - low) / (high - low) for level, height in heights.items()}
    names = girth_names(pattern)
    return (
        _Cause(_girth(names[WAIST]), {level: 1.0 - of_upper for level, of_upper in cone.items()}),
        _Cause(_girth(names[BUST]), cone),
        _Cause(_alike, dict.fromkeys(LEVELS, 1.0)),
        _Cause(_at("the body half way up"), {MIDDLE: 1.0}),
        _Cause(_at("the body at the top edge"), {TOP: 1.0}),
        _Cause(_length, {f"line {place}": 1.0 for place in LINES}),
        _Cause(_tilt("centre back"), {"line center back": 1.0}),
        _Cause(_tilt("centre front"), {"line center front": 1.0}),
    )


def _girth(name: str) -> Callable[[float, str], str]:
    return lambda mm, units: (
        f"the {name} is {told_length(abs(mm), units)} {'larger' if mm > 0.0 else 'smaller'} than the tape said"
    )


def _alike(mm: float, units: str) -> str:
    word = "less" if mm > 0.0 else "more"
    return f"laced in {told_length(abs(mm), units)} {word} than was reckoned, alike at every height"


def _at(place: str) -> Callable[[float, str], str]:
    return lambda mm, units: (
        f"{place} wants {told_length(abs(mm), units)} {'more' if mm > 0.0 else 'less'} than the cone gives"
    )


def _length(mm: float, units: str) -> str:
    return f"from waist to bust the body is {told_length(abs(mm), units)} {'longer' if mm > 0.0 else 'shorter'} than was measured"


def _tilt(place: str) -> Callable[[float, str], str]:
    return lambda mm, units: (
        f"the body is {told_length(abs(mm), units)} {'longer' if mm > 0.0 else 'shorter'} at the {place}"
    )


def _explained(
    causes: Sequence[_Cause], seen: Mapping[str, float], due: np.ndarray, pattern: Pattern
) -> Explanation | None:
    """Return what some causes explain together; None where one of them has no part in it."""
    units, names = pattern.body.units, level_words(pattern)
    moves = np.array([[cause.moves.get(place, 0.0) for cause in causes] for place in seen])
    if np.linalg.matrix_rank(moves) < len(causes):
        return None
    amounts = np.linalg.lstsq(moves, due, rcond=None)[0]
    left = due - moves @ amounts
    share = 1.0 - float(left @ left) / float(due @ due)
    if np.min(np.abs(amounts)) < LEAST_MM or share <= 0.0:
        return None
    over = tuple(
        f"{told_length(abs(mm), units)} {'too small' if mm > 0.0 else 'too large'} at the {names[place]}"
        if place in LEVELS
        else f"{told_length(abs(mm), units)} at the waist {place.replace('center', 'centre')}"
        for place, mm in zip(seen, left.tolist(), strict=True)
        if abs(mm) > LEAST_MM
    )
    return Explanation(
        tuple(cause.words(mm, units) for cause, mm in zip(causes, amounts.tolist(), strict=True)), share, over
    )
