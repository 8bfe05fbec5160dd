"""A dart, moved: its mouth, its point and what it takes, read from its two legs as they are drawn."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from fanblock.adopting.feet import followed, sorted_unique
from fanblock.adopting.moved import DrawnMark
from fanblock.adopting.placing import KEPT_MM
from fanblock.adopting.taking import LEAST_MM
from fanblock.adopting.wording import SHARE_DECIMALS, around_words, height_words
from fanblock.draft.darts import taper
from fanblock.draft.model import DartLine, Draft
from fanblock.draft.places import height_on, measure_mm, place_of
from fanblock.draft.takes import dart_takes_of
from fanblock.geometry.curve import Points
from fanblock.terms import Amount, Length, Position, Share

DART = "dart"

OPEN_POINT_MM = 2.0
"""Two legs whose ends lie nearer than this meet in a point: both were drawn by hand."""

LAST_SHARE = 0.25
"""From how much of its length, at its mouth, a dart is carried on straight to the edge it opens at."""


@dataclass(frozen=True, slots=True, eq=False)
class DartTarget:
    """A dart as it is drawn: the arounds of its middle and what it takes (mm) by rising height, and what is wrong with it."""

    heights: Points
    arounds: Points
    take_mm: Points
    off_mm: float
    problem: str = ""

    def middle(self, height: float, *, rising: bool) -> float:
        """Return the around of its middle at a height; beyond its mouth it is carried on straight."""
        count = max(2, int(LAST_SHARE * len(self.heights)))
        here = slice(0, count) if rising else slice(-count, None)
        beyond = height < self.heights[0] if rising else height > self.heights[-1]
        if beyond:
            return float(np.polyval(np.polyfit(self.heights[here], self.arounds[here], 1), height))
        return float(np.interp(height, self.heights, self.arounds))


def dart_targets(draft: Draft, marks: Sequence[DrawnMark]) -> dict[str, DartTarget]:
    """Return how every dart is drawn that was moved."""
    found = {}
    for dart in draft.darts:
        legs = [mark for mark in marks if mark.name == dart.name]
        if len(legs) == 2 and any(leg.is_moved for leg in legs):
            found[dart.name] = _target(draft, dart, legs)
    return found


def _target(draft: Draft, dart: DartLine, legs: Sequence[DrawnMark]) -> DartTarget:
    off = max(leg.off_mm for leg in legs)
    runs = [sorted_unique(*draft.block.where(followed(leg.new))[::-1]) for leg in legs]
    low, high = max(run[0][0] for run in runs), min(run[0][-1] for run in runs)
    heights = np.linspace(low, max(high, low), 100)
    first, last = sorted((np.interp(heights, *run) for run in runs), key=lambda run: float(np.mean(run)))
    take = np.asarray(draft.block.level_part_mm(heights, first, last))
    middle = np.asarray(draft.block.along(first, heights, take / 2.0))
    rising = dart.mouth < dart.point
    ends = [leg.new.end if (leg.new.end[1] > leg.new.start[1]) == rising else leg.new.start for leg in legs]
    apart = float(np.hypot(*(ends[0] - ends[1])))
    problem = (
        "" if apart <= OPEN_POINT_MM else f"its two legs no longer meet: at its point they are {apart:.1f} mm apart"
    )
    point = draft.block.where((ends[0] + ends[1]) / 2.0)
    if not problem:
        heights, middle, take = _with_end(heights, middle, take, float(point[1]), float(point[0]))
    return DartTarget(heights, middle, take, off, problem)


def _with_end(
    heights: Points, middle: Points, take: Points, height: float, around: float
) -> tuple[Points, Points, Points]:
    """Return a dart's run carried on to its point, where it takes nothing."""
    at, both = sorted_unique(
        np.append(heights, height), np.column_stack((np.append(middle, around), np.append(take, 0.0)))
    )
    return at, both[:, 0], both[:, 1]


@dataclass(frozen=True, slots=True)
class Redart:
    """How a dart's options change, in words and with dials set; ``unshared`` tells that it no longer carries a share, and
    ``less_mm`` how much less room there is at which girth, whole garment."""

    words: Mapping[str, Any]
    set: Mapping[str, Any]
    less_mm: Mapping[str, float]
    unshared: bool
    wider_mm: float


def redarted(old: Draft, before: Draft, options: Any, set_options: Any, target: DartTarget) -> Redart:
    """Return the options of a dart by which it is drawn where it was moved; ``before`` is the draft it is drawn on."""
    dart = next(one for one in old.darts if one.name == options.name)
    rising = dart.mouth < dart.point
    point = float(target.heights[-1] if rising else target.heights[0])
    said: list[tuple[Position, Position]] = []
    last = len(options.through) - 1
    for number, (words, set_) in enumerate(zip(options.through, set_options.through, strict=True)):
        at, height = place_of(before, set_)
        if number == last:
            height = point
        elif number == 0:
            height = height_on(before, set_.height, target.middle(height, rising=rising))
        elif not min(point, dart.mouth) < height < max(point, dart.mouth):
            continue
        said.append(_placed(before, words, set_, (at, height), target.middle(height, rising=rising)))
    mouth = place_of(before, said[0][1])[1]
    new = replace(dart, mouth=mouth, point=point, full=dart.full if dart.full != dart.mouth else mouth)
    shares = taper(new, target.heights)
    mm = float(shares @ target.take_mm / (shares @ shares))
    taken = next(take for take in dart_takes_of(old) if take.dart.name == dart.name)
    through = {"through": tuple(words for words, _ in said)}
    set_through: dict[str, Any] = {"through": tuple(set_ for _, set_ in said)}
    moved = {} if through["through"] == options.through else through
    wider = mm - taken.mm
    if abs(wider) < LEAST_MM:
        return Redart(moved, set_through, {}, unshared=False, wider_mm=0.0)
    amount = _amount(old, set_options.take, mm)
    less = {
        level.name: 2.0 * more
        for level in old.stand.levels
        if abs(more := mm * float(taper(new, level.height)) - float(taken(level.height))) >= LEAST_MM
    }
    unshared = options.share is not None
    return Redart(
        {**moved, "take": amount},
        {**set_through, "take": amount, "share": None},
        less,
        unshared=unshared,
        wider_mm=wider,
    )


def _placed(
    before: Draft, words: Position, set_: Position, now: tuple[float, float], around: float
) -> tuple[Position, Position]:
    """Return a point in words, and with dials set, where the dart now passes; what did not move keeps its words."""
    was = place_of(before, set_)
    block = before.block
    if abs(now[1] - was[1]) * block.ruling_length_mm(around) > KEPT_MM:
        height = height_words(before, set_.height, around, now[1])
        words, set_ = replace(words, height=height), replace(set_, height=height)
    if abs(block.level_part_mm(now[1], was[0], around)) > KEPT_MM:
        new = around_words(before, set_.around, around, now[1])
        words, set_ = replace(words, around=new), replace(set_, around=new)
    return words, set_


def _amount(draft: Draft, was: Amount | None, mm: float) -> Amount:
    """Return what a dart takes as an amount of the kind that it was."""
    if isinstance(was, Share):
        return Share(round(mm / measure_mm(draft.body, was.of or "waist"), SHARE_DECIMALS), was.of)
    return Length(round(mm, 1))
