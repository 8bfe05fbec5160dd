"""The order in which seams are sewn, and from where to where each of them runs."""

from __future__ import annotations

from fanblock.pattern.model import LET_IN, LOWER, PLEAT_HEAD, SLIT, WHIPPED, Edge, EdgeName, Panel, Pattern, Seam
from fanblock.sheet import phrases
from fanblock.sheet.finishing import is_capped, is_set_on

PAST_WAIST_MM = 5.0
"""A seam that goes on further than this below the waist is sewn below it."""


LET_IN_FIRST, IN_A_HALF, SKIRT, SET_ON = -1, 0, 1, 2
"""The four turns of seams: pieces into slits, the seams of a half, skirts of their own, what is fitted on the body."""


def rank(pattern: Pattern, seam: Seam) -> int:
    """Return at which of the four turns a seam is sewn."""
    panels = pattern.by_name[seam.front.panel], pattern.by_name[seam.back.panel]
    if LET_IN in (panels[0].edge(seam.front.edge).kind, panels[1].edge(seam.back.edge).kind):
        return LET_IN_FIRST
    if any(is_set_on(panel) for panel in panels):
        return SET_ON
    return SKIRT if any(panel.added for panel in panels) else IN_A_HALF


def is_full(seam: Seam) -> bool:
    """Tell whether a seam has cloth to take up: on a sleeve's cap it is sewn when the flat stretches are."""
    return seam.fullness_mm > 0.0


def when(pattern: Pattern, seam: Seam) -> tuple[int, int, int, int, str]:
    """By what seams are put in order: pieces into slits first, set-on pieces last, as they are set on.

    In between a seam is sewn before those that it ends on or is cut by, and otherwise they go from front to back. Straps come
    before sleeves; a sleeve is closed, set in where it lies flat, and then where it has cloth to take up.
    """
    turn, front, back = rank(pattern, seam), pattern.by_name[seam.front.panel], pattern.by_name[seam.back.panel]
    if turn == SET_ON and (is_capped(front) or is_capped(back)):
        own = is_capped(front) and is_capped(back)
        return turn, 1 if own else 3 if is_full(seam) else 2, pattern.seams.index(seam), 0, seam.letter
    if turn != IN_A_HALF:
        return turn, 0, pattern.seams.index(seam), 0, seam.letter
    return turn, _depth(pattern, seam.line, ()), front.number, back.number, seam.letter


def _depth(pattern: Pattern, line: str, above: tuple[str, ...]) -> int:
    """How many seams that end on one another, or are cut by one another, have to be sewn before a line."""
    before = {one.line for one in pattern.seams if line and line in one.onto} - {line, *above}
    return 1 + max(_depth(pattern, one, (*above, line)) for one in before) if before else 0


def across(pattern: Pattern, seam: Seam) -> list[Seam]:
    """Return all the seams of one level seam, from front to back; none for a seam that is not level."""
    if not pattern.by_name[seam.front.panel].edge(seam.front.edge).across:
        return []
    found = [one for one in pattern.seams if (one.line, one.letter) == (seam.line, seam.letter)]
    numbers = {panel.name: panel.number for panel in pattern.panels}
    return sorted(found, key=lambda one: sorted((numbers[one.front.panel], numbers[one.back.panel])))


def upper_first(pattern: Pattern, seam: Seam) -> tuple[EdgeName, EdgeName]:
    """Return the two edges of a seam that runs right across, the upper piece's first."""
    lies_above = pattern.by_name[seam.front.panel].edge(seam.front.edge).across == LOWER
    return (seam.front, seam.back) if lies_above else (seam.back, seam.front)


def is_open(pattern: Pattern, seam: Seam) -> bool:
    """Tell whether a seam stops at the waist and leaves the skirts below it open."""
    panel = pattern.by_name[seam.front.panel]
    edge = panel.edge(seam.front.edge)
    return stops_at_waist(edge) and any(one.kind == SLIT for one in beside(panel, edge))


def is_whipped(pattern: Pattern, seam: Seam) -> bool:
    """Tell whether a seam joins two finished pieces of the garment: not one of a piece that is set on or let in."""
    panels = pattern.by_name[seam.front.panel], pattern.by_name[seam.back.panel]
    return pattern.construction == WHIPPED and not any(panel.added for panel in panels)


def run_words(pattern: Pattern, seam: Seam) -> str:
    """Return from where to where a seam runs, as the end of a sentence; empty where that is plain."""
    panel = pattern.by_name[seam.front.panel]
    edge = panel.edge(seam.front.edge)
    if is_open(pattern, seam):
        return ", from the top down to the waist bar and no further"
    if any(one.kind == PLEAT_HEAD for one in beside(panel, edge)):
        above = edge.waist_at_mm is not None
        return ", from the top down to the pleat heads" if above else ", from the pleat heads to the lower edge"
    under, over = (_level_line(pattern, panel, one) for one in beside(panel, edge))
    if under or over:
        return f", from the {over or 'top'} to the {under or 'lower edge'}"
    if edge.waist_at_mm is not None and not stops_at_waist(edge):
        return ", from the top to the lower edge"
    return ""


def _level_line(pattern: Pattern, panel: Panel, edge: Edge) -> str:
    """The name of the level seam that an edge lies on, if it lies on one."""
    if not edge.across:
        return ""
    here = (panel.name, edge.name)
    sides = ((one, side) for one in pattern.seams for side in (one.front, one.back))
    return next((one.line for one, side in sides if (side.panel, side.edge) == here), "")


def stops_at_waist(edge: Edge) -> bool:
    """Tell whether a seam edge ends at the waist."""
    if edge.waist_at_mm is None:
        return False
    return min(edge.waist_at_mm, edge.curve.length_mm - edge.waist_at_mm) < PAST_WAIST_MM


def beside(panel: Panel, edge: Edge) -> tuple[Edge, Edge]:
    """Return the edges before and after one in its panel's loop."""
    at = next(number for number, one in enumerate(panel.edges) if one.name == edge.name)
    return panel.edges[at - 1], panel.edges[(at + 1) % len(panel.edges)]


SKIRT_NAME = " skirt"
"""How the seam of a skirt below pleats ends its name (:func:`fanblock.skirts.pleating.skirt_name`)."""


def center_run(line: str, heads: list[Panel]) -> str:
    """Return from where to where a centre seam runs; one that is parted by the heads of pleats is sewn in two."""
    names = [phrases.prose(edge.name) for panel in heads for edge in panel.edges if edge.kind == PLEAT_HEAD]
    if f"{line.removesuffix(SKIRT_NAME)} pleat head" not in names:
        return "from the top to the lower edge"
    return (
        "from the pleat heads to the lower edge"
        if line.endswith(SKIRT_NAME)
        else "from the top down to the pleat heads"
    )
