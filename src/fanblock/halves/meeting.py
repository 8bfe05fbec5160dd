"""What is looked at where two halves drafted apart come together, and what is found in either of them."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

import numpy as np

from fanblock.checks import block, girth
from fanblock.checks.finding import FAILS, WARNS, within
from fanblock.checks.table import findings
from fanblock.geometry.meet import foot
from fanblock.halves.joining import SIDES, of_half
from fanblock.pattern.model import CENTER, FOLD, OPEN_KINDS, Edge, Finding, Panel, Pattern
from fanblock.problems import GeometryError
from fanblock.tolerances import GIRTH_MM, HALVES_MEET_MM, HALVES_OPEN_MM
from fanblock.units import format_length, proved_length

FAMILY = "halves"

MEETING_KINDS = frozenset({CENTER, FOLD, *OPEN_KINDS})
"""The kinds of edges at which one half comes to the other."""


def halves_findings(pattern: Pattern) -> tuple[Finding, ...]:
    """Return what is found of a pattern of two halves: that they add up and meet, then all that is found in each of them."""
    return (*_sums(pattern), *_meetings(pattern), *_eyelets(pattern), *_of_each(pattern))


def half_findings(half: Pattern, side: str, despite: Collection[str] = ()) -> tuple[Finding, ...]:
    """Return the findings of one half; what refuses it says which half it is."""
    try:
        return findings(half, despite)
    except GeometryError as error:
        raise GeometryError(
            [
                replace(one, where=f"{side} half › {one.where}" if one.where else f"{side} half")
                for one in error.problems
            ]
        ) from None


def _of_each(pattern: Pattern) -> Iterator[Finding]:
    """The findings of both halves, those of one kind side by side, and as one where both say the same."""
    left, right = pattern.halves
    ours, others = (_own_words(half) for half in pattern.halves)
    theirs = {finding.code: finding for finding in right.findings}
    for finding in left.findings:
        other = theirs.pop(finding.code, None)
        if other is not None and (other.says, other.state) == (finding.says, finding.state):
            yield replace(finding, number=max(finding.number, other.number))
            continue
        yield _told(finding, SIDES[0], ours)
        if other is not None:
            yield _told(other, SIDES[1], others)
    yield from (_told(finding, SIDES[1], others) for finding in theirs.values())


OF_A_HALF = ("girth-worn-", "girth-at-", "block-")
"""How the codes of findings begin that are told of one half by itself, beside those of the sums by their shares."""

TWICE = frozenset({"block", "girth", "hips", "skirts", "layers", "body"})
"""Families that tell of the whole garment: said of one half they take both to be like it."""


def _own_words(half: Pattern) -> dict[str, str]:
    """What is told of the girths of one half counted once, by the codes of the findings."""
    found = (*(() if half.block.traced_from else block.check(half)), *girth.check(half))
    return {one.code: one.says for one in found if one.code.startswith(OF_A_HALF) or one.code[6:].isdigit()}


def _told(finding: Finding, side: str, own: dict[str, str]) -> Finding:
    of, says = f"{side} half", own.get(finding.code, finding.says)
    if finding.code not in own and finding.family in TWICE and finding.unit == "mm":
        of = f"if both halves were like the {side} one"
    return replace(finding, code=f"{side}-{finding.code}", says=of_half(says, of))


def _sums(pattern: Pattern) -> Iterator[Finding]:
    """That the two halves of the block make the girths that were measured."""
    left, right = pattern.halves
    units = pattern.body.units
    for ours, theirs in zip(left.stand.levels, right.stand.levels, strict=True):
        name = ours.name
        one, other = left.block.level_length_mm(ours.height), right.block.level_length_mm(theirs.height)
        due = pattern.body.length_mm(name)
        says = (
            f"{name}: the left half's block {format_length(one, units)} and the right half's {format_length(other, units)} "
            f"make {format_length(one + other, units)}, and {format_length(due, units)} is the wearer's"
        )
        yield within(f"halves-sum-{name.replace(' ', '-')}", FAMILY, abs(one + other - due), GIRTH_MM, "mm", says)


def _meetings(pattern: Pattern) -> Iterator[Finding]:
    """That the edges at each centre line are equally long, and reach as high and as low, in both halves."""
    left, right = pattern.halves
    theirs = {(panel.name, edge.name): (panel, edge) for panel, edge in _edges(right)}
    for panel, edge in _edges(left):
        tag, line = f"{panel.name}-{edge.name}".replace(" ", "-"), edge.name.replace("center", "centre")
        if (panel.name, edge.name) not in theirs:
            says = f"the {line} of piece {panel.number} ({panel.name}) is in the left half alone"
            yield within(f"halves-meet-{tag}", FAMILY, edge.curve.length_mm, HALVES_MEET_MM, "mm", says)
            continue
        parts = _parts(panel, edge), _parts(*theirs[panel.name, edge.name])
        apart = max(abs(ours - other) for ours, other in zip(*parts, strict=True))
        long = format_length(edge.curve.length_mm, pattern.body.units)
        limit = HALVES_OPEN_MM if edge.kind in OPEN_KINDS else HALVES_MEET_MM
        says = f"the two halves meet along the {line} ({panel.name}): {long} long in both, and level above and below"
        if apart > limit:
            other = format_length(theirs[panel.name, edge.name][1].curve.length_mm, pattern.body.units)
            off = proved_length(apart, pattern.body.units)
            says = f"the two halves do not meet along the {line} ({panel.name}): left {long}, right {other} long, {off} off"
        otherwise = WARNS if edge.kind in OPEN_KINDS else FAILS
        yield within(f"halves-meet-{tag}", FAMILY, apart, limit, "mm", says, otherwise=otherwise)


def _edges(pattern: Pattern) -> Iterator[tuple[Panel, Edge]]:
    for panel in pattern.panels:
        if not panel.added and not panel.layer:
            yield from ((panel, edge) for edge in panel.edges if edge.kind in MEETING_KINDS and not edge.opens_at)


def _parts(panel: Panel, edge: Edge) -> tuple[float, float]:
    """How far an edge runs before and after the waist meets it; all of it where it does not."""
    ends = [point for part in panel.levels.get("waist", ()) for point in (part.start, part.end)]
    if not ends:
        return edge.curve.length_mm, 0.0
    _, place = min(foot(edge.curve.points, point) for point in ends)
    at = float(np.interp(place, np.arange(len(edge.curve.points)), edge.curve.along))
    return at, edge.curve.length_mm - at


def _eyelets(pattern: Pattern) -> Iterator[Finding]:
    """That both rows of a lacing have equally many holes."""
    for lacing in pattern.lacings:
        apart = abs(len(lacing.left_mm) - len(lacing.right_mm))
        says = f"{lacing.edge}: {len(lacing.left_mm)} eyelets in one row and {len(lacing.right_mm)} in the other"
        yield within(f"halves-eyelets-{lacing.panel}".replace(" ", "-"), FAMILY, apart, 0.0, "", says)
