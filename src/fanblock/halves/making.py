"""Drafting a garment for a wearer whose left and right differ: two halves, or one for both and what was averaged."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import replace

from fanblock.checks.table import findings
from fanblock.finish.toile import toile_of
from fanblock.halves.bodies import Bodies
from fanblock.halves.joining import SIDES, joined_halves
from fanblock.halves.meeting import half_findings, halves_findings
from fanblock.pattern.model import Note, Panel, Pattern
from fanblock.problems import GeometryError, Problem
from fanblock.tolerances import SAME_POINT_MM
from fanblock.wearer.body import Body
from fanblock.wearer.fixed import Fixed
from fanblock.wearer.measures import EACH, MEASURES

Drawn = Callable[[Body, Sequence[Note], str], Pattern]
"""Draws the pattern of a body, with notes told first, and with the changes of one half if one is named."""


def averaged(bodies: Bodies) -> tuple[Note, ...]:
    """Return what is not the same left and right and was averaged, in words."""
    units = bodies.even.units
    return tuple(Note("body", f"averaged: {one.words(units)}") for one in bodies.uneven)


def is_of_one_side(note: Note, bodies: Bodies) -> bool:
    """Return whether a note tells of a measure that each side has of its own: it would tell the mean, which nothing is drawn by."""
    each = (one.name for one in bodies.uneven if one.name in MEASURES and MEASURES[one.name].sides == EACH)
    return note.kind == "guess" and any(f": {name}: " in note.says for name in each)


def _apart(bodies: Bodies) -> tuple[Note, ...]:
    """Return what is not the same left and right, and that each half is drafted for itself."""
    if not bodies.uneven:
        return (Note("body", "a fitting changed one half alone, so each half is drafted for itself, L and R"),)
    differ = "; ".join(one.words(bodies.even.units) for one in bodies.uneven)
    return (Note("body", f"left and right differ, so each half is drafted for itself, L and R: {differ}"),)


def of_two_halves(bodies: Bodies, drawn: Drawn, despite: Collection[str] = ()) -> Pattern:
    """Return the pattern of two halves, with its findings; one of both alike where the garment does not hang on what differs.

    GeometryError for a band, which is not made in halves.
    """
    told = _apart(bodies)
    left, right = (drawn(body, told, side) for body, side in zip(bodies.halves, SIDES, strict=True))
    if _alike(left, right):
        return _of_one(bodies, drawn, despite)
    if left.band is not None:
        return _of_band(bodies, drawn, despite)
    left, right = (
        replace(half, findings=half_findings(half, side, despite))
        for half, side in zip((left, right), SIDES, strict=True)
    )
    pattern = joined_halves(left, right, bodies.even)
    return replace(pattern, findings=halves_findings(pattern))


def told_as_one(pattern: Pattern) -> Pattern:
    """Return a pattern to look up heights and places in: of two halves the left one, its girths those of the whole garment.

    Both halves stay with it.
    """
    if not pattern.halves:
        return pattern
    return replace(
        pattern.halves[0],
        body=pattern.body,
        girths=pattern.girths,
        gap_mm=pattern.gap_mm,
        findings=pattern.findings,
        halves=pattern.halves,
    )


def toile_of_both(pattern: Pattern) -> Pattern:
    """Return the toile of a pattern as :func:`fanblock.finish.toile.toile_of` does, of two halves with the toile of each."""
    if not pattern.halves:
        return toile_of(pattern)
    left, right = (toile_of(half) for half in pattern.halves)
    return replace(joined_halves(left, right, pattern.body), findings=pattern.findings)


def _of_band(bodies: Bodies, drawn: Drawn, despite: Collection[str]) -> Pattern:
    """The pattern of a band, which goes round both halves: drawn from what they add up to.

    GeometryError where it hangs on a measure that each side has of its own.
    """
    summed = {name: mm for name, mm in bodies.even.lengths.items() if name in MEASURES and MEASURES[name].sides != EACH}
    sides = [replace(body, lengths=Fixed({**body.lengths, **summed})) for body in bodies.halves]
    left, right = (drawn(body, (), side) for body, side in zip(sides, SIDES, strict=True))
    if _alike(left, right):
        return _of_one(bodies, drawn, despite, "this is one piece, drawn from what both halves add up to")
    each = (one for one in bodies.uneven if one.name in MEASURES and MEASURES[one.name].sides == EACH)
    differ = "; ".join(one.words(bodies.even.units) for one in each)
    what = f"“{left.title.garment}” is one piece for both sides, and what it is drawn from is not: {differ}."
    remedy = "Write one measure for both sides into a wearer file for it, or one file for each side and draft it twice."
    raise GeometryError([Problem("halves-band", "", what, remedy)])


def _of_one(
    bodies: Bodies,
    drawn: Drawn,
    despite: Collection[str],
    because: str = "it makes no difference to this garment, and both halves are cut alike",
) -> Pattern:
    """The pattern of a garment whose two halves come out alike."""
    units = bodies.even.units
    told = [Note("body", f"{one.words(units)}: {because}") for one in bodies.uneven]
    pattern = drawn(bodies.even, told, SIDES[0])
    return replace(pattern, findings=findings(pattern, despite))


def _alike(left: Pattern, right: Pattern) -> bool:
    """Return whether two halves have the same pieces, to the last point of their outlines."""
    ours, theirs = ({panel.name: panel for panel in half.panels} for half in (left, right))
    return ours.keys() == theirs.keys() and all(_same(ours[name], theirs[name]) for name in ours)


def _same(ours: Panel, theirs: Panel) -> bool:
    first, second = ours.loop(), theirs.loop()
    return first.shape == second.shape and float(abs(first - second).max()) <= SAME_POINT_MM
