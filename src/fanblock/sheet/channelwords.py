"""Between which layers bones go, how their channels are marked, and how each channel is closed above.

The ways are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from fanblock.finish.binding import is_bound
from fanblock.geometry.curve import Points
from fanblock.geometry.meet import first_hits
from fanblock.pattern.bones import BONE, Channel
from fanblock.pattern.model import FREE, WHIPPED, Edge, Panel, Pattern
from fanblock.sheet import phrases
from fanblock.sheet.finishing import LINING, OUTER, STRENGTH

BESIDE_BINDING_MM = 25.0
"""A bone that ends further than this from a bound edge is not held by the binding, and could rise that far (from memory)."""

FAR_MM = 5000.0
"""Further than any piece is long."""


@dataclass(frozen=True, slots=True)
class Layering:
    """How a piece's layers take its bones: what they go between, and the face that is marked and lies up in stitching.

    ``inner`` is true of a face turned to the body; ``covered`` where another cloth may lie over the marked face.
    """

    between: str
    face: str
    inner: bool = False
    covered: bool = False


def layering(panel: Panel) -> Layering:
    """Return between which layers the bones of a piece go, by how many of each are cut for it."""
    counts = {layer: count if panel.single or panel.fold else max(count // 2, 1) for layer, count in panel.cuts}
    strong = counts.get(STRENGTH, 0)
    if strong > 1:
        between = "between the two strength layers" if strong == 2 else "between the two outermost strength layers"
        return Layering(between, "the outer face of the outermost strength layer", covered=OUTER in counts)
    if strong and OUTER in counts:
        return Layering(
            "between the outer cloth and the strength layer", "the inner face of the strength layer", inner=True
        )
    if strong and LINING in counts:
        return Layering("between the strength layer and the lining", "the outer face of the strength layer")
    if sum(counts.values()) > 1:
        return Layering("between outer cloth and lining", "the outer face of the outer cloth")
    return Layering("under a strip of cloth that is laid on inside for them", "the outer face of the cloth")


def boned_panels(pattern: Pattern) -> list[Panel]:
    """Return the pieces that have channels for straight bones, from front to back."""
    panels = sorted(pattern.panels, key=lambda panel: panel.number)
    return [panel for panel in panels if any(channel.kind == BONE for channel in panel.channels)]


def marked_words(pattern: Pattern) -> Iterator[str]:
    """Yield between which layers the bones go and how the channels are marked, for each way the pieces are layered."""
    groups: dict[Layering, list[Panel]] = {}
    for panel in boned_panels(pattern):
        groups.setdefault(layering(panel), []).append(panel)
    for way, panels in groups.items():
        yield from _marked(way, _of(panels) if len(groups) > 1 else "", pattern)


def _of(panels: Iterable[Panel]) -> str:
    names = [f"{panel.number} ({panel.name})" for panel in panels]
    return f" of piece{'s' if len(names) > 1 else ''} {phrases.listed(names)}"


def _marked(way: Layering, of: str, pattern: Pattern) -> Iterator[str]:
    yield f"Every bone{of} goes {way.between}."
    up, down = ("face down", "face up") if way.inner else ("face up", "turned over")
    halves = f"{up} for the left half and {down} for the right, whose channels are mirrored"
    if pattern.half:
        halves = f"{up}, as this is the pattern of one half"
    chalk = ", with chalk that brushes out" if "cloth" in way.face else ""
    yield (
        f"Mark the channels{of} once, on {way.face}{chalk}: lay the pattern on it {halves}. Prick through the ends of both lines of "
        "every channel and rule from prick to prick with chalk or a soft pencil, or trace them over carbon paper made for cloth. "
        "Stitch with this face up."
    )
    if way.covered:
        yield (
            "If you stitch through the outer cloth too, it hides those marks: mark the inner face of the innermost strength layer "
            "instead, the pattern the other way up, and stitch with that face up."
        )


def over_channels(pattern: Pattern) -> str:
    """Return what is to be done when no stitching shall show on the outer cloth; empty where it has to be stitched through."""
    ways = [layering(panel) for panel in boned_panels(pattern)]
    return (
        "where no stitching shall show, lay the outer cloth on afterwards" if any(way.covered for way in ways) else ""
    )


def closed_words(pattern: Pattern) -> Iterator[str]:
    """Yield which channels are stitched across above when their bones are in, and what closes the others."""
    across, others = [], 0
    for panel in boned_panels(pattern):
        numbers = open_above(panel)
        others += sum(channel.kind == BONE for channel in panel.channels) - len(numbers)
        if numbers:
            which = f"channel{'s' if len(numbers) > 1 else ''} {runs(numbers)}"
            across.append(f"piece {panel.number} ({panel.name}), {which}")
    if not across:
        return
    way = (
        "from the side, before the seam edge is turned in"
        if pattern.construction == WHIPPED
        else "from above, between the layers, before a channel beside it closes the way"
    )
    rest = " The others are closed by the binding." if others else ""
    yield (
        "Some channels end beside a seam or far below the upper edge, where no binding closes them: put their bones in "
        f"{way}, and stitch across the upper end when the bone is in. They are {'; '.join(across)}.{rest}"
    )


def open_above(panel: Panel) -> tuple[int, ...]:
    """Return the numbers of the channels whose upper end no binding closes: another edge is above it, or none near."""
    return tuple(
        channel.number for channel in panel.channels if channel.kind == BONE and not _under_binding(panel, channel)
    )


def _under_binding(panel: Panel, channel: Channel) -> bool:
    off_mm, edge = beyond(panel, channel, above=True)
    return edge is not None and off_mm <= BESIDE_BINDING_MM and _is_bare(panel, edge)


def _is_bare(panel: Panel, edge: Edge) -> bool:
    """Whether an edge is bound: free and without an allowance, of a loose piece as of any other."""
    free = edge.kind == FREE and edge.mate is None and not panel.allowances.get(edge.name, 0.0)
    return free or is_bound(panel, edge)


def beyond(panel: Panel, channel: Channel, *, above: bool) -> tuple[float, Edge | None]:
    """Return how far beyond one of its ends a channel, going on as it is, meets the outline, and which edge that is."""
    top, low = channel.line.start, channel.line.end
    end, way = (top, top - low) if above else (low, low - top)
    way = way / np.hypot(*way)
    side = 0.5 * channel.width_mm * np.array([-way[1], way[0]])
    starts = np.array([end - side, end, end + side])
    found: tuple[float, Edge | None] = (float("inf"), None)
    for edge in panel.edges:
        hits = first_hits(starts, np.tile(FAR_MM * way, (3, 1)), edge.curve.points)
        off_mm = FAR_MM * float(np.min(hits))
        if off_mm < found[0]:
            found = (off_mm, edge)
    return found


HEM_MM, NARROW_MM = 12.7, 20.0
"""How far bones end above a lower edge as a rule, and how much further the lowest of a piece wants a word: it looks forgotten
(from memory)."""


def unboned(pattern: Pattern) -> Iterator[tuple[Panel, float]]:
    """Yield each piece too narrow below for its lowest bone to go on, and how far above the lower edge that ends, in mm."""
    for panel in boned_panels(pattern):
        found = [(*beyond(panel, one, above=False), one) for one in panel.channels if one.kind == BONE]
        over = [(off_mm, edge, one) for off_mm, edge, one in found if edge is not None and _is_bare(panel, edge)]
        if not over:
            continue
        off_mm, edge, lowest = min(over, key=lambda one: one[0])
        if off_mm > HEM_MM + NARROW_MM and _is_squeezed(panel, lowest, edge):
            yield panel, off_mm


def _is_squeezed(panel: Panel, channel: Channel, below: Edge) -> bool:
    """Whether a channel that went on to its lower edge would come nearer to a side of the piece than its bone is wide."""
    way = channel.line.end - channel.line.start
    way = way / np.hypot(*way)
    side = 0.5 * channel.width_mm * np.array([-way[1], way[0]])
    foot = channel.line.end + STEP_MM * way
    corners: list[Points] = [foot - side, foot + side]
    sides = [edge.curve.points for edge in panel.edges if edge.name != below.name and edge.mate is not None]
    return any(
        float(np.hypot(*(points - corner).T).min()) < channel.bone.width_mm + channel.clear_mm[1]
        for points in sides
        for corner in corners
    )


STEP_MM = 12.0
"""How much lower a channel is tried that stops early."""


def runs(numbers: Iterable[int]) -> str:
    """Return numbers as a list whose runs are told by their ends.

    >>> runs([1, 2, 3, 7, 9])
    '1 to 3, 7 and 9'
    """
    found: list[list[int]] = []
    for number in numbers:
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    told = [
        word for run in found for word in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(one) for one in run])
    ]
    return phrases.listed(told)
