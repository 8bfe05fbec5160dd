"""The order of sewing as a strip of small pictures: what hangs together so far, the seam that is sewn, what is still open."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.region import inner_point, thinned
from fanblock.pattern.model import Panel, Pattern, Seam
from fanblock.sheet import phrases
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.font import fitted
from fanblock.sheet.joined import beside, joined
from fanblock.sheet.sewing import joining
from fanblock.sheet.sewingorder import is_whipped, when
from fanblock.sheet.upright import moved_group, moved_panel

WIDE_MM, HIGH_MM, APART_MM = 40.5, 40.0, 3.0
"""Size of one picture, and the room between two."""

IN_ROW = 4
"""How many stand side by side on a page."""

MOST_LETTERS = 7
"""Up to how many open seams are named under a picture; more are counted."""

_FOOT_MM, _EDGE_MM, _OFF_MM = 10.0, 2.0, 0.1
_HEAD_SIZE_MM, _TEXT_SIZE_MM = 3.4, 2.6
"""Room for the words under a picture, and round it; how near a line of it is drawn; sizes of the words."""


@dataclass(frozen=True, slots=True)
class Step:
    """One step of joining: the seams that are sewn at it, the pieces that hang together after it, the letters still open."""

    letter: str
    seams: tuple[Seam, ...]
    hanging: frozenset[str]
    open_letters: tuple[str, ...]


def steps_of(pattern: Pattern) -> tuple[Step, ...]:
    """Return the steps in which the seams of a half are sewn, in the order of :func:`fanblock.sheet.sewing.joining`.

    Seams of one letter on one line are sewn at one step. A seam hangs on the two pieces it joins, and on all that hung on
    either before.
    """
    pattern = pattern.halves[0] if pattern.halves else pattern
    drafted = [seam for seam in pattern.seams if not pattern.by_name[seam.front.panel].layer]
    at_once: dict[tuple[str, str], list[Seam]] = {}
    for seam in sorted(drafted, key=lambda seam: when(pattern, seam)):
        at_once.setdefault((seam.letter, seam.line), []).append(seam)
    groups: dict[str, frozenset[str]] = {panel.name: frozenset({panel.name}) for panel in pattern.panels}
    letters = list(dict.fromkeys(letter for letter, _ in at_once))
    left = [letter for letter, _ in at_once]
    found = []
    for (letter, _), seams in at_once.items():
        left.remove(letter)
        for seam in seams:
            group = groups[seam.front.panel] | groups[seam.back.panel]
            groups.update(dict.fromkeys(group, group))
        hanging = frozenset(name for group in groups.values() if len(group) > 1 for name in group)
        still = tuple(one for one in letters if one in left)
        found.append(Step(letter, tuple(seams), hanging, still))
    return tuple(found)


def sewing_strip(pattern: Pattern) -> Drawing | None:
    """Return the strip, its pictures in rows; None for a pattern with no seams to join.

    A picture bears the number of the sentence that tells of its seam.
    """
    steps = steps_of(pattern)
    if not steps:
        return None
    numbers = told_at(pattern, steps)
    pattern = pattern.halves[0] if pattern.halves else pattern
    rows = -(-len(steps) // IN_ROW)
    wide, high = (WIDE_MM + APART_MM) * IN_ROW - APART_MM, (HIGH_MM + APART_MM) * rows - APART_MM
    small = _small(pattern)
    groups = []
    for at, (number, step) in enumerate(zip(numbers, steps, strict=True)):
        row, column = divmod(at, IN_ROW)
        corner = np.array([(WIDE_MM + APART_MM) * column, high - HIGH_MM - (HIGH_MM + APART_MM) * row])
        groups.append(Group(f"sewing step {at + 1}", tuple(_picture(pattern, small, number, step, corner))))
    return Drawing("sewing order", wide, high, tuple(groups))


def sewing_rows(pattern: Pattern) -> list[Callable[[float, float, float], tuple[list[Stroke | Words], float]]]:
    """Return the rows of the strip one by one, each to be set at a left and a top on a page, in the width of the strip."""
    strip = sewing_strip(pattern)
    if strip is None:
        return []

    def row(
        groups: Sequence[Group], high: float
    ) -> Callable[[float, float, float], tuple[list[Stroke | Words], float]]:
        def setting(left: float, top: float, width: float) -> tuple[list[Stroke | Words], float]:
            aside = max(0.0, 0.5 * (width - strip.width_mm))
            moved = [moved_group(group, (left + aside, top - high)) for group in groups]
            return [item for group in moved for item in group.items], top - HIGH_MM

        return setting

    highs = [strip.height_mm - (HIGH_MM + APART_MM) * at for at in range(-(-len(strip.groups) // IN_ROW))]
    return [row(strip.groups[at * IN_ROW : (at + 1) * IN_ROW], high) for at, high in enumerate(highs)]


def told_at(pattern: Pattern, steps: Sequence[Step]) -> tuple[int, ...]:
    """Return the number of the sentence of :func:`fanblock.sheet.sewing.joining` that tells of each step.

    A letter that several sentences tell of, as its seam is sewn in stretches, gives each step its own as far as there are
    so many; 0 where none tells of it.
    """
    lines = joining(pattern)
    told: dict[str, list[int]] = {}
    for number, line in enumerate(lines, start=1):
        found = _TOLD.search(line)
        if found is not None:
            for one in _PAIR.findall(line[found.start() :]):
                told.setdefault(one, []).append(number)
    numbers = []
    for step in steps:
        some = told.get(step.letter, [0])
        numbers.append(some[0])
        told[step.letter] = some[1:] or some
    return tuple(numbers)


_TOLD = re.compile(r"\b(?:Join|Whip|Sew|Close [^:]*:) (\w+) to \1\b")
"""How a sentence begins that tells of a seam; what is to be done before it may stand in front of it."""

_PAIR = re.compile(r"\b(\w+) to \1\b")
"""A letter to its like, of which a sentence may name several."""


def _small(pattern: Pattern) -> Mapping[str, Panel]:
    """The pieces laid seam to seam, those that are set on beside them, as large as a picture takes."""
    laid = list(joined(pattern).values())
    panels = [*laid, *(panel for panel in beside(pattern, laid) if not panel.loose)]
    points = np.vstack([panel.loop() for panel in panels])
    low, size = points.min(axis=0), np.ptp(points, axis=0)
    room = np.array([WIDE_MM - 2.0 * _EDGE_MM, HIGH_MM - _FOOT_MM - 2.0 * _EDGE_MM])
    scale = float(np.min(room / size))
    shift = np.array([_EDGE_MM + 0.5 * (room[0] - scale * size[0]), _FOOT_MM + _EDGE_MM]) - scale * low
    return {panel.name: moved_panel(panel, scale * np.eye(2), shift) for panel in panels}


def _picture(
    pattern: Pattern, small: Mapping[str, Panel], number: int, step: Step, corner: Points
) -> Iterator[Stroke | Words]:
    """One picture: its frame, all pieces, those that hang together filled, the seam thick, and words under it."""
    x, y = corner.tolist()
    frame = frozen([(x, y), (x + WIDE_MM, y), (x + WIDE_MM, y + HIGH_MM), (x, y + HIGH_MM)])
    yield Stroke(polyline(frame, closed=True), "map", "frame", True)
    for panel in small.values():
        ring = panel.loop() + corner
        pen = "paper" if panel.name in step.hanging else "map"
        yield Stroke(polyline(thinned(np.vstack((ring, ring[:1])), _OFF_MM)), pen, panel.name, True)
    for seam in step.seams:
        for side in (seam.front, seam.back):
            if side.panel in small:
                run = small[side.panel].edge(side.edge).curve.points + corner
                yield Stroke(polyline(thinned(run, _OFF_MM)), "sewn", f"seam {seam.letter}")
    for panel in small.values():
        middle = inner_point(panel.loop()) + corner
        yield Words(panel.label, float(middle[0]), float(middle[1]) - 0.35 * _TEXT_SIZE_MM, _TEXT_SIZE_MM, "middle")
    wide = WIDE_MM - 2.0 * _EDGE_MM
    head, under = _words(pattern, number, step)
    yield Words(fitted(head, _HEAD_SIZE_MM, wide, True), x + _EDGE_MM, y + 5.6, _HEAD_SIZE_MM, bold=True)
    yield Words(fitted(under, _TEXT_SIZE_MM, wide), x + _EDGE_MM, y + 1.8, _TEXT_SIZE_MM)


def _words(pattern: Pattern, number: int, step: Step) -> tuple[str, str]:
    """What is done at a step, and what is still open after it."""
    how = "whip" if any(is_whipped(pattern, seam) for seam in step.seams) else "sew"
    letters = step.open_letters
    still = f"still open: {phrases.listed(letters) if len(letters) <= MOST_LETTERS else f'{len(letters)} seams'}"
    still = still if letters else "all are joined"
    return f"{f'{number}. ' if number else ''}{how} {step.letter} to {step.letter}", still


def strip_caption(steps: Sequence[Step]) -> str:
    """Return what stands under the strip."""
    count = len(steps)
    return (
        f"The {'seam' if count == 1 else f'{count} seams'} of one half, in their order: thick is what is sewn now, filled what "
        "hangs together after it; the numbers are those of the sentences."
    )
