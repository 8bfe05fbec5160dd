"""What is told of a band alone: its three numbers, how it is sewn, and what its toile wants."""

from __future__ import annotations

from collections.abc import Iterator

from fanblock.block.band import Band
from fanblock.checks.band import STRAIGHT_RATIO, circle_words
from fanblock.pattern.model import CENTER, FOLD, Pattern
from fanblock.sheet import phrases
from fanblock.units import format_length


def band_tapes(band: Band, units: str) -> tuple[tuple[str, str], ...]:
    """Return the numbers of a band as pairs of words: what to measure, and what it should be."""
    rows = [
        ("inner edge, the one that is sewn on, all of it", format_length(band.inner_mm, units)),
        ("outer edge, all of it", format_length(band.outer_edge_mm, units)),
    ]
    if band.deepest_mm is None:
        rows.append(("depth from edge to edge", format_length(band.depth_mm, units)))
    else:
        rows.append(("depth at its ends", format_length(band.depth_mm, units)))
        rows.append(("depth in its middle", format_length(band.deepest_mm, units)))
    if abs(band.circle_ratio) >= STRAIGHT_RATIO:
        rows.append(("radius of the inner edge, to draw it by hand", format_length(abs(band.inner_radius_mm), units)))
    return tuple(rows)


def band_sentence(band: Band, units: str) -> str:
    """Return the numbers of a band as one sentence."""
    inner, outer, depth = (format_length(mm, units) for mm in (band.inner_mm, band.outer_edge_mm, band.depth_mm))
    if band.deepest_mm is not None:
        depth += f" at its ends and {format_length(band.deepest_mm, units)} in its middle"
    return f"The whole inner edge is {inner}, the outer edge {outer}, the depth {depth}; {circle_words(band)}."


def band_joining(pattern: Pattern) -> tuple[str, ...]:
    """Return what is sewn to what: the joins from the front, then the ends, then the inner edge."""
    numbers = {panel.name: panel.number for panel in pattern.panels}
    lines = [
        f"Join {seam.letter} to {seam.letter}: piece {numbers[seam.front.panel]} ({seam.front.panel}) to piece "
        f"{numbers[seam.back.panel]} ({seam.back.panel}), from edge to edge."
        for seam in pattern.seams
        if seam.front.panel != seam.back.panel
    ]
    lines += [
        f"Join {seam.letter} to {seam.letter}, the two ends of piece {numbers[seam.front.panel]}: it becomes a ring."
        for seam in pattern.seams
        if seam.front.panel == seam.back.panel
    ]
    if lines:
        lines.append("At each seam lay the ticks together first, then the ends.")
    return (*lines, *_ends(pattern), *_edges(pattern))


def _ends(pattern: Pattern) -> Iterator[str]:
    """What is done at the ends of what is drawn: a fold, a seam with the other half, or an open end."""
    if pattern.band is not None and pattern.band.halved and any(not panel.fold for panel in pattern.panels):
        yield "Make the other half as a mirror image: turn every piece over that is not on the fold."
    folded = any(panel.fold for panel in pattern.panels)
    for panel in pattern.panels:
        for edge in panel.edges:
            line = phrases.prose(edge.name)
            if edge.kind == FOLD:
                yield f"Piece {panel.number} is cut on the fold at the {line}: there is no seam."
            elif edge.kind == CENTER and edge.name == "center back" and not folded:
                yield f"Sew the two {line}s (piece {panel.number}, both halves) to each other, from edge to edge."
            elif edge.kind == CENTER:
                how = (
                    "it is sewn with the lining"
                    if _is_lined(pattern)
                    else "turn in its allowance and hem it, or bind it"
                )
                yield f"The {line} stays open: {how}."


def _is_lined(pattern: Pattern) -> bool:
    return any("lining" in dict(panel.cuts) for panel in pattern.panels)


def _edges(pattern: Pattern) -> Iterator[str]:
    yield "Stay-stitch the inner edge on its line and clip its allowance up to it, closer where it is more curved."
    if _is_lined(pattern):
        yield (
            "Join the lining likewise. Lay it on the outer cloth, right sides together, sew the two along the outer edge and the "
            "open ends, clip, turn them right side out and press."
        )
        yield "Then sew the inner edge on, its middle and quarters first, through the outer cloth; fell the lining over it."
        return
    yield "Finish the outer edge, then sew the inner edge on, its middle and quarters first."


def band_toile(pattern: Pattern) -> tuple[str, ...]:
    """Return how to try a band before the good cloth is cut."""
    return (
        "Cut it from paper or from a cloth of the same weight and pin it where it is worn, over what is worn under it.",
        "Leave the outer edge 2 to 3 cm (1 in) longer than drawn, and mark on it where it lands.",
    )
