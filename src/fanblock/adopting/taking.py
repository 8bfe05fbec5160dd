"""What a seam takes, where its two sides were moved apart or together: takes by height, and what it springs at the hem.

A seam that takes more at the waist or the bust makes the whole garment smaller there, and the other seams must not make
up for it. So it says its own take there instead of carrying a share, and the room at that girth is lessened by as much.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from fanblock.adopting.seams import on_line
from fanblock.adopting.targets import SeamTarget
from fanblock.block.stand import Level
from fanblock.draft.model import Draft, SeamLine
from fanblock.draft.places import amount_mm
from fanblock.draft.seamline import NEAR
from fanblock.draft.takes import Take, takes_of
from fanblock.geometry.splines import level_ended
from fanblock.terms import Amount, Around, Height, Length, Position, Share

LEAST_MM = 0.2
"""Two sides of a seam that were moved apart by less were moved together: both were drawn by hand."""

BETWEEN_MM = 0.5
"""A take that would differ by more than this between the heights that are named gets one more."""

APART = 0.15
"""Takes are named no nearer than this to one another, as a share of bust to waist."""

MOST_ADDED = 3
"""Most heights that are added to those at which a seam says what it takes."""


Takes = Mapping[Height, Amount]
"""What a seam takes, by height, as its recipe says it."""


@dataclass(frozen=True, slots=True)
class Retake:
    """How a seam's options change for what it takes, in words and with dials set, and what is less room at which girth.

    ``unshared`` tells that it no longer carries a share.
    """

    words: Mapping[str, Any]
    set: Mapping[str, Any]
    less_mm: Mapping[str, float] = field(default_factory=dict)
    unshared: bool = False


def retaken(old: Draft, seam: SeamLine, options: Any, set_options: Any, target: SeamTarget) -> Retake | None:
    """Return how a seam's options change for what it takes; None where its two sides were moved alike."""
    if float(np.abs(target.take_mm).max()) < LEAST_MM:
        return None
    take = next(take for take in takes_of(old) if take.seam.name == seam.name)
    levels = [level for level in old.stand.levels if _reaches(seam, level)]
    more = {level.name: _more(target, level.height) for level in levels}
    unshared = bool(options.share is not None and more.get(old.stand.lower.name))
    words, set_words, knots = _named(old, seam, options.take, set_options.take, target)
    for level in levels:
        is_named = any(abs(height - level.height) < NEAR for height in knots)
        if not is_named and (more[level.name] or unshared):
            at = Height(landmark=level.name)
            words[at] = set_words[at] = Length(round(_taken(take, level.height) + more[level.name], 1))
        knots.setdefault(level.height, more[level.name])
    for height in _between(seam, target, knots):
        at = Height(share=Share(height))
        words[at] = set_words[at] = Length(round(_taken(take, height) + _more(target, height), 1))
    change: dict[str, Any] = {"take": words} if words != dict(options.take) else {}
    set_change: dict[str, Any] = {"take": set_words} if change else {}
    if seam.low < -NEAR and abs(sprung := _more(target, seam.low)) >= LEAST_MM and not _at_hem(seam):
        change["spring"] = set_change["spring"] = Length(round(seam.spring_mm - sprung, 1))
    if not change:
        return None
    if unshared:
        set_change["share"] = None
    return Retake(change, set_change, {name: 2.0 * mm for name, mm in more.items() if mm}, unshared)


def _named(
    old: Draft, seam: SeamLine, take: Takes, set_take: Takes, target: SeamTarget
) -> tuple[dict[Height, Amount], dict[Height, Amount], dict[float, float]]:
    """Return what a seam says it takes, with what it takes more added: in words and with dials set; and how much more that
    is at each of those heights."""
    words, set_words, knots = dict(take), dict(set_take), dict[float, float]()
    for (said, _), (height, amount) in zip(take.items(), set_take.items(), strict=True):
        _, at = on_line(old, Position(Around(ratio=seam.around_at(seam.top)), height), seam.around_of)
        knots[at] = _more(target, at)
        if knots[at]:
            mm = round(amount_mm(old.body, amount, of="waist") + knots[at], 1)
            words[said] = set_words[height] = Length(mm)
    return words, set_words, knots


def _more(target: SeamTarget, height: float) -> float:
    mm = target.take_at(height)
    return mm if abs(mm) >= LEAST_MM else 0.0


def _taken(take: Take, height: float) -> float:
    return float(take(np.array([height]))[0])


def _reaches(seam: SeamLine, level: Level) -> bool:
    at_end = (seam.top_on and abs(seam.top - level.height) < NEAR) or (
        seam.low_on and abs(seam.low - level.height) < NEAR
    )
    return seam.low - NEAR <= level.height <= seam.top + NEAR and not at_end


def _at_hem(seam: SeamLine) -> bool:
    return any(height < -NEAR for height, _ in seam.takes)


def _between(seam: SeamLine, target: SeamTarget, knots: Mapping[float, float]) -> list[float]:
    """Return the heights at which the seam must say more of what it takes."""
    known = {height: mm for height, mm in knots.items() if height > -NEAR} or {0.0: 0.0}
    added: list[float] = []
    for _ in range(MOST_ADDED):
        heights = np.arange(max(seam.low, APART), seam.top - APART / 2.0, 0.01)
        if not len(heights):
            break
        at = np.array(sorted(known))
        told = level_ended(at, np.array([known[height] for height in at]))
        off = np.abs(np.array([target.take_at(float(height)) for height in heights]) - told(heights))
        off = np.where(np.abs(heights[:, None] - at).min(axis=1) < APART, 0.0, off)
        worst = int(np.argmax(off))
        if off[worst] < BETWEEN_MM:
            break
        height = round(float(heights[worst]), 2)
        known[height] = target.take_at(height)
        added.append(height)
    return added


def with_less_room(old: Draft, less_mm: Mapping[str, float]) -> Draft:
    """Return the draft with less room at its girths, whole garment."""
    lower, upper = (less_mm.get(name, 0.0) for name in old.stand.names)
    return replace(old, lower_ease_mm=old.lower_ease_mm - lower, upper_ease_mm=old.upper_ease_mm - upper)
