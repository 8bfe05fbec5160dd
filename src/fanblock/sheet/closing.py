"""How a garment closes, in words: for pieces, for the order of sewing, for the toile and for the tape."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fanblock.pattern.model import LACING, OPEN_KINDS, Edge, Opening, Panel, Pattern
from fanblock.sheet import phrases
from fanblock.terms import SIDE
from fanblock.units import format_length

DONE = {"lacing": "laced", "pins": "pinned", "buttons": "buttoned", "hooks": "hooked", "ties": "tied"}
"""What is done to an opening by what closes it."""


AT = {"center front": "in front", "center back": "behind"}
"""Where an opening stands, for a short word; one along a seam stands on either side."""


def at_words(opening: Opening) -> str:
    """Return where an opening stands: ``at the centre back``, ``at each side``, ``at the side back on each side``."""
    if opening.times == 1:
        return f"at the {phrases.prose(opening.at)}"
    return "at each side" if opening.at == SIDE else f"at the {phrases.prose(opening.at)} on each side"


def opening_of(pattern: Pattern, edge: Edge) -> Opening:
    """Return the opening that an open edge belongs to."""
    named = [one for one in pattern.openings if edge.name == one.edge or edge.name.startswith(f"{one.edge} ")]
    if edge.opens_at:
        named = [one for one in pattern.openings if one.at == edge.opens_at]
    if named:
        return named[0]
    return Opening(phrases.center_of(edge), edge.name, "lacing", pattern.gap_mm)


def open_edges(pattern: Pattern) -> list[tuple[Panel, Edge, Opening]]:
    """Return every edge at which the garment opens, from front to back, with its piece and its opening."""
    panels = sorted((panel for panel in pattern.panels if not panel.added), key=lambda panel: panel.number)
    return [
        (panel, edge, opening_of(pattern, edge)) for panel in panels for edge in panel.edges if edge.kind in OPEN_KINDS
    ]


def sewing_words(pattern: Pattern) -> Iterator[str]:
    """Yield what is done at every opening, with all of its pieces."""
    pieces: dict[Opening, list[int]] = {}
    for panel, edge, opening in open_edges(pattern):
        known = opening if opening.at else replace(opening, at=phrases.center_of(edge))
        numbers = pieces.setdefault(known, [])
        if panel.number not in numbers:
            numbers.append(panel.number)
    for opening, numbers in pieces.items():
        which = f"piece {numbers[0]}" if len(numbers) == 1 else f"pieces {phrases.listed(numbers)}"
        yield (
            f"The open edges {at_words(opening)} ({which}) are not sewn: they are finished and "
            f"{_closed(pattern, opening)}."
        )


def _closed(pattern: Pattern, opening: Opening) -> str:
    """How an opening is closed, and how far apart or over each other its edges then are."""
    units, done = pattern.body.units, DONE[opening.closed]
    if opening.overlap_mm:
        over = format_length(2.0 * opening.overlap_mm, units)
        return (
            f"{done}, {over} over each other, the marked {phrases.prose(opening.at)} of one half on that of the other"
        )
    behind = next((panel for panel in pattern.panels if panel.name == opening.behind), None)
    apart = f"{format_length(opening.width_mm, units)} apart"
    if opening.widths:
        apart += " at the waist and farther above"
    if behind is not None and opening.closed in {"pins", "hooks", "buttons"}:
        return f"{done} to piece {behind.number} ({behind.name}), {apart}"
    over = f" over piece {behind.number} ({behind.name})" if behind is not None else ""
    return f"{done}{over}, {apart}" if opening.width_mm else f"{done}{over} edge to edge"


def toile_words(pattern: Pattern) -> Iterator[str]:
    """Yield how each opening that does not lace is closed on the toile; lacing has words of its own."""
    units = pattern.body.units
    for opening in dict.fromkeys(opening for _, edge, opening in open_edges(pattern) if edge.kind != LACING):
        place = phrases.prose(opening.at)
        if opening.overlap_mm:
            yield f"Close it at the {place} with pins: lay the marked {place} of one half on that of the other."
        elif opening.behind:
            yield (
                f"Make the {opening.behind} of the toile as well and pin the {opening.edge}s to it on the marked lines: "
                f"{format_length(opening.width_mm, units)} apart at the waist."
            )
        elif opening.width_mm:
            apart = format_length(opening.width_mm, units)
            yield f"Close it at the {place} with pins and a strip of cloth under the edges, {apart} apart at the waist."
        else:
            yield f"Close it at the {place} with pins, edge to edge."


def laced_words(pattern: Pattern) -> str:
    """Return how far apart the lacing edges stand when they are laced; of several lacings each with its place."""
    units = pattern.body.units
    laced = [opening for opening in pattern.openings if opening.closed == "lacing"]
    laced = laced or [Opening("", "", "lacing", pattern.gap_mm)]
    if not any(opening.width_mm for opening in laced):
        return "until the edges meet"
    if len(laced) == 1 and laced[0].times == 1:
        return f"with {format_length(laced[0].width_mm, units)} between the edges"
    apart = [f"{format_length(opening.width_mm, units)} {at_words(opening)}" for opening in laced]
    return f"with {phrases.listed(apart)} between the edges"


def tape_rows(pattern: Pattern) -> Iterator[tuple[str, str]]:
    """Yield what stands open or lies over at every opening, as pairs of words: what to measure, what it should be."""
    units = pattern.body.units
    for opening in pattern.openings or (Opening("", "", "lacing", pattern.gap_mm),):
        place = phrases.prose(opening.at)
        if opening.widths:
            yield from _widths(opening, units)
        elif opening.overlap_mm:
            yield (
                f"how far the halves lie over each other at the {place}",
                format_length(2.0 * opening.overlap_mm, units),
            )
        elif opening.width_mm and opening.closed == "lacing":
            where = f" {at_words(opening)}" if len(pattern.openings) > 1 or opening.times > 1 else ""
            yield f"gap left open where it laces{where}, at the waist", format_length(opening.width_mm, units)
        elif opening.width_mm:
            yield f"left open at the {place}, at the waist", format_length(opening.width_mm, units)


def _widths(opening: Opening, units: str) -> Iterator[tuple[str, str]]:
    """How wide an opening stands at every height, from the waist up, then below it."""
    for at_mm, wide_mm in sorted(opening.widths, key=lambda width: (width[0] < 0.0, abs(width[0]))):
        above = f"{format_length(abs(at_mm), units)} {'above' if at_mm > 0.0 else 'below'} the waist"
        yield f"{opening.edge} to {opening.edge}, {above if at_mm else 'at the waist'}", format_length(wide_mm, units)


def waist_words(pattern: Pattern) -> str:
    """Return how much of the worn waist no piece covers, as the end of a sentence; empty where all of it is cloth."""
    if not pattern.gap_mm:
        return ""
    laced = not pattern.openings or all(one.closed == "lacing" for one in pattern.openings if one.width_mm)
    what = "is gap" if laced else "stands open"
    units = pattern.body.units
    wide = [opening for opening in pattern.openings if opening.width_mm]
    each = ", ".join(f"{format_length(one.width_mm, units)} {AT.get(one.at, 'a side')}" for one in wide)
    told = f" ({each})" if any(one.times > 1 for one in wide) else ""
    return f", of which {format_length(pattern.gap_mm, units)} {what}{told}"


def along_words(pattern: Pattern, place: str, edge: Edge | None) -> str:
    """Return where a height at the front or the back is measured: along an open edge where that is not the centre line."""
    if edge is None or edge.kind not in OPEN_KINDS:
        return phrases.prose(place)
    opening = opening_of(pattern, edge)
    if opening.widths:
        return f"along the {opening.edge}"
    if opening.closed != "lacing" and not opening.width_mm and not opening.overlap_mm:
        return phrases.prose(place)
    word = "lacing edge" if opening.closed == "lacing" else opening.edge
    return f"{phrases.prose(place)} along the {word}"
