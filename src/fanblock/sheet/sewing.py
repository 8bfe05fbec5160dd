"""In which order a garment's seams are joined and where they stop, and what a toile of it wants; said plainly."""

from __future__ import annotations

from collections.abc import Iterator

from fanblock.pattern.model import ARMHOLE, CENTER, FOLD, LACING, SLIT, Edge, Panel, Pattern, Seam
from fanblock.sheet import closing, phrases
from fanblock.sheet.bandwords import band_joining, band_toile
from fanblock.units import format_length

PAST_WAIST_MM = 5.0
"""A seam that goes on further than this below the waist is sewn below it."""

UNPLANNED = (
    "Bones, their channels and eyelets are not planned on these sheets yet: where they go is for you to settle, best "
    "on the toile."
)


def joining(pattern: Pattern) -> tuple[str, ...]:
    """Return what is sewn to what, front to back: each seam and where it stops, how to match it, then the centres."""
    if pattern.band is not None:
        return band_joining(pattern)
    numbers = {panel.name: panel.number for panel in pattern.panels}
    seams = sorted(pattern.seams, key=lambda seam: (numbers[seam.front.panel], numbers[seam.back.panel], seam.letter))
    lines = [
        f"Join {seam.letter} to {seam.letter}: piece {numbers[seam.front.panel]} ({seam.front.panel}) to piece "
        f"{numbers[seam.back.panel]} ({seam.back.panel}){_until(pattern, seam)}{_taken_up(pattern, seam)}."
        for seam in seams
    ]
    if any(panel.edge(edge).waist_at_mm is not None for panel, edge in _fronts(pattern)):
        lines.append("At each seam lay the two waist bars together first, then the ticks, then the ends.")
    if any(is_open(pattern, seam) for seam in seams):
        lines.append(
            "Where a seam stops at the waist, secure it there with a few stitches on the spot and press its allowance "
            "back: it ends at the bar. The skirts below stay open."
        )
    if any(panel.slits for panel in pattern.panels):
        lines.append("Cut each slit up to its bar only, and reinforce it there before it is bound.")
    lines += [note.says for note in pattern.notes if note.kind == "sewing"]
    lines.append("Make the other half as a mirror image: turn every piece over.")
    return (*lines, *_centers(pattern))


def is_open(pattern: Pattern, seam: Seam) -> bool:
    """Tell whether a seam stops at the waist and leaves the skirts below it open."""
    panel = pattern.by_name[seam.front.panel]
    edge = panel.edge(seam.front.edge)
    return _stops_at_waist(edge) and any(beside.kind == SLIT for beside in _beside(panel, edge))


def toile(pattern: Pattern) -> tuple[str, ...]:
    """Return how to cut and put together a toile of this pattern that can be laced on, or of a band."""
    if pattern.band is not None:
        return band_toile(pattern)
    lines = [
        "Cut outside the printed lines by what stands here. Cut it from as many layers as the garment will have, or from one firm cloth; a soft toile tells nothing."
    ]
    if _edges(pattern, ARMHOLE):
        lines.append(
            "Leave 2 cm (3/4 in) more at the neck and round the arms, and cut it back on the body. Draw the edges on it, "
            "and the waist line right round."
        )
    else:
        lines.append(
            "Leave 5 to 7 cm (2 to 3 in) more above the top edge in front and behind, but not under the arm, where it "
            "could not be worn. Draw the top edge on it, and the waist line right round."
        )
    lines.append(
        "Leave wide allowances, about 2.5 cm (1 in), and sew them to the outside, so that you can pinch in and let out."
    )
    lines += closing.toile_words(pattern)
    if not _edges(pattern, LACING):
        return tuple(lines)
    gap_mm = closing.laced_mm(pattern)
    gap = f"with {format_length(gap_mm, pattern.body.units)} between the edges"
    return (
        *lines,
        "So that it can be laced: sew to each lacing edge a strip of cloth with eyelets, or a lacing tape, its holes on "
        f"the edge itself, and lace it {gap if gap_mm else 'until the edges meet'}.",
        "Put in a few bones for the time being: at the centre front, beside the lacing edges, in the side seams. No "
        "binding.",
        UNPLANNED,
    )


def _until(pattern: Pattern, seam: Seam) -> str:
    """Where a seam ends below."""
    edge = pattern.by_name[seam.front.panel].edge(seam.front.edge)
    if is_open(pattern, seam):
        return ", from the top down to the waist bar and no further"
    if edge.waist_at_mm is not None and not _stops_at_waist(edge):
        return ", from the top to the lower edge"
    return ""


def _fronts(pattern: Pattern) -> list[tuple[Panel, str]]:
    """The panel and the edge's name of every seam's front side."""
    return [(pattern.by_name[seam.front.panel], seam.front.edge) for seam in pattern.seams]


def _taken_up(pattern: Pattern, seam: Seam) -> str:
    """How much longer a seam's first edge is than what it is sewn to."""
    if not seam.fullness_mm:
        return ""
    return f", {format_length(seam.fullness_mm, pattern.body.units)} of the first {seam.how} to fit the second"


def _stops_at_waist(edge: Edge) -> bool:
    if edge.waist_at_mm is None:
        return False
    return min(edge.waist_at_mm, edge.curve.length_mm - edge.waist_at_mm) < PAST_WAIST_MM


def _beside(panel: Panel, edge: Edge) -> tuple[Edge, Edge]:
    at = next(number for number, one in enumerate(panel.edges) if one.name == edge.name)
    return panel.edges[at - 1], panel.edges[(at + 1) % len(panel.edges)]


def _edges(pattern: Pattern, kind: str) -> list[tuple[Panel, Edge]]:
    panels = sorted(pattern.panels, key=lambda panel: panel.number)
    return [(panel, edge) for panel in panels for edge in panel.edges if edge.kind == kind]


def _centers(pattern: Pattern) -> Iterator[str]:
    """What is done at the centre lines and where it opens."""
    for panel, edge in (*_edges(pattern, FOLD), *_edges(pattern, CENTER)):
        line = phrases.prose(edge.name)
        if edge.kind == FOLD or panel.fold == edge.name:
            yield f"Piece {panel.number} is cut on the fold at the {line}: there is no seam."
        elif panel.allowances.get(edge.name, 0.0) > 0.0:
            yield f"Sew the two {line}s (piece {panel.number}, both halves) to each other, from the top to the lower edge."
        else:
            yield f"At the {line} the two halves meet edge to edge, without allowance."
    yield from closing.sewing_words(pattern)
