"""The five numbers a maker can check with a tape before believing a pattern."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from fanblock.geometry.curve import Points
from fanblock.pattern.model import ARMHOLE, CENTER, FOLD, OPEN_KINDS, TOP, Edge, Panel, Pattern
from fanblock.sheet import closing, phrases
from fanblock.sheet.bandwords import band_sentence, band_tapes
from fanblock.sheet.levels import told_level
from fanblock.sheet.storeys import storeys
from fanblock.tolerances import SAME_HEIGHT
from fanblock.units import format_length


@dataclass(frozen=True, slots=True)
class TapeNumbers:
    """Heights of the top edge above the waist along the cloth, the gap, and the waist as worn, gap included (mm).

    What a garment does not have is None: one without a centre back edge has no back height. One that ends above the waist
    has its heights from another ``level``, and one whose block stands on another girth is worn at that, ``worn``. Where the
    two halves were drafted apart ``underarm_mm`` is that of the left one and ``underarm_right_mm`` of the right.
    """

    front_mm: float | None
    underarm_mm: float | None
    back_mm: float | None
    gap_mm: float
    worn_waist_mm: float | None
    level: str = "waist"
    worn: str = "waist"
    underarm_right_mm: float | None = None


def tape_numbers(pattern: Pattern) -> TapeNumbers:
    """Return the five numbers of a pattern."""
    lower = pattern.stand.lower
    waist = next((girth for girth in pattern.girths if girth.height == lower.height), None)
    worn_mm = None if waist is None else 2.0 * (waist.block_mm - waist.takes_mm)
    if pattern.halves:
        left, right = (tape_numbers(half) for half in pattern.halves)
        return replace(left, underarm_right_mm=right.underarm_mm, gap_mm=pattern.gap_mm, worn_waist_mm=worn_mm)
    return TapeNumbers(
        front_mm=_above_waist(pattern, front=True),
        underarm_mm=_underarm(pattern),
        back_mm=_above_waist(pattern, front=False),
        gap_mm=pattern.gap_mm,
        worn_waist_mm=worn_mm,
        level=told_level(pattern),
        worn=lower.name,
    )


def tape_data(pattern: Pattern) -> dict[str, float | None]:
    """Return the numbers by names for other programs, in millimetres."""
    if pattern.band is not None:
        return {"inner": pattern.band.inner_mm, "outer": pattern.band.outer_edge_mm, "depth": pattern.band.depth_mm}
    found = tape_numbers(pattern)
    return {
        "center_front": found.front_mm,
        "under_arm": found.underarm_mm,
        **({"under_arm_right": found.underarm_right_mm} if pattern.halves else {}),
        "center_back": found.back_mm,
        "gap": found.gap_mm,
        f"worn_{found.worn.replace(' ', '_')}": found.worn_waist_mm,
    }


def tape_words(pattern: Pattern) -> tuple[tuple[str, str], ...]:
    """Return the five numbers, or those of a band, as pairs of words: what to measure, and what it should be."""
    if pattern.band is not None:
        return band_tapes(pattern.band, pattern.body.units)
    found, units = tape_numbers(pattern), pattern.body.units
    rows = (
        (f"{_along('center front', pattern, front=True)}, {found.level} to top edge", found.front_mm),
        *((f"under the arm{on}, {found.level} to top edge at its lowest", mm) for on, mm in _underarms(found)),
        (f"{_along('center back', pattern, front=False)}, {found.level} to top edge", found.back_mm),
    )
    said = [(what, format_length(mm, units)) for what, mm in rows if mm is not None]
    said += closing.tape_rows(pattern)
    if found.worn_waist_mm is not None:
        included = ", gap included" if found.gap_mm else ""
        said.append((f"{found.worn} as worn{included}", format_length(found.worn_waist_mm, units)))
    return (*said, *_of_halves(pattern, units))


def _of_halves(pattern: Pattern, units: str) -> Iterator[tuple[str, str]]:
    """The cloth of either half where the two differ: their pieces, joined, at the girths and half way between them."""
    if not pattern.halves:
        return
    left, right = pattern.halves
    middle = 0.5 * (left.stand.lower.height + left.stand.upper.height)
    names = {left.stand.lower.height: left.stand.lower.name, left.stand.upper.height: left.stand.upper.name}
    names[middle] = f"half way from {left.stand.lower.name} to {left.stand.upper.name}"
    for ours, theirs in zip(left.girths, right.girths, strict=True):
        name = next((name for height, name in names.items() if abs(height - ours.height) < SAME_HEIGHT), "")
        if name and abs(ours.parts_mm - theirs.parts_mm) >= SAME_MM:
            yield f"the pieces of the left half, joined, {name}", format_length(ours.parts_mm, units)
            yield f"the pieces of the right half, joined, {name}", format_length(theirs.parts_mm, units)


def tape_sentence(pattern: Pattern) -> str:
    """Return the five numbers, or those of a band, as one sentence."""
    if pattern.band is not None:
        return band_sentence(pattern.band, pattern.body.units)
    found, units = tape_numbers(pattern), pattern.body.units
    heights = (
        (_along("center front", pattern, front=True), found.front_mm),
        ("under the arm, at its lowest,", found.underarm_mm),
        (_along("center back", pattern, front=False), found.back_mm),
    )
    parts = [f"{where} {format_length(mm, units)}" for where, mm in heights if mm is not None]
    if len(both := [format_length(mm, units) for _, mm in _underarms(found) if mm is not None]) > 1:
        said = f"under the arm, at its lowest, {both[0]} left, {both[1]} right"
        parts = [said if part.startswith("under the arm") else part for part in parts]
    says = f"Above the {found.level} it stands {'; '.join(parts)}" if parts else "Check it with a tape"
    if found.worn_waist_mm is not None:
        says += f"; the {found.worn} as worn is {format_length(found.worn_waist_mm, units)}"
        says += closing.waist_words(pattern)
    return f"{says}."


def _underarms(found: TapeNumbers) -> tuple[tuple[str, float | None], ...]:
    """The height under the arm, or both where they are not the same."""
    left, right = found.underarm_mm, found.underarm_right_mm
    if left is None or right is None or abs(left - right) < SAME_MM:
        return (("", left),)
    return (" on the left", left), (" on the right", right)


SAME_MM = 0.5
"""Two heights that differ by less are told as one: no tape shows it."""


def _along(place: str, pattern: Pattern, front: bool) -> str:
    """Where a height is measured, in prose: along an open edge where that is not the body's own centre line."""
    found = _outermost(pattern.halves[0] if pattern.halves else pattern, front)
    return closing.along_words(pattern, place, None if found is None else found[1])


def _above_waist(pattern: Pattern, front: bool) -> float | None:
    """Along the outermost centre, fold or lacing edge of the front or the back, from the waist to its top."""
    found = _outermost(pattern, front)
    if found is None:
        return None
    over = _over_level(*found, told_level(pattern))
    return None if over is None else over + _stood_on(pattern, *found)


def _stood_on(pattern: Pattern, panel: Panel, edge: Edge) -> float:
    """How far an edge goes on in the panels that stand on this one over level seams."""
    above = (pattern.by_name[name] for name in storeys(pattern, [panel])[0])
    return sum(one.curve.length_mm for other in above for one in other.edges if one.name == edge.name)


def _outermost(pattern: Pattern, front: bool) -> tuple[Panel, Edge] | None:
    ordered = sorted(pattern.panels, key=lambda panel: panel.number, reverse=not front)
    level = told_level(pattern)
    for panel in sorted(ordered, key=lambda panel: not panel.levels.get(level)):
        for edge in sorted(panel.edges, key=_top_mm, reverse=True):
            faces = phrases.faces_front(edge) if front else phrases.faces_back(edge)
            if edge.kind in {CENTER, FOLD, *OPEN_KINDS} and faces and not panel.added:
                return panel, edge
    return None


def _top_mm(edge: Edge) -> float:
    """How high an edge reaches: below pleats a centre line goes on as another edge."""
    return float(edge.curve.points[:, 1].max())


def _over_level(panel: Panel, edge: Edge, level: str) -> float | None:
    up = edge.curve if phrases.faces_back(edge) else edge.curve.reversed()
    ends = [point for part in panel.levels.get(level, ()) for point in (part.start, part.end)]
    if not ends:
        return None
    at = min((_nearest(up.points, up.along, point) for point in ends), key=lambda found: found[0])[1]
    return up.length_mm - at


def _nearest(points: Points, along: Points, to: Points) -> tuple[float, float]:
    """How far a point is from a run of points, and how far along the run its foot lies."""
    starts, steps = points[:-1], np.diff(points, axis=0)
    share = np.clip(np.sum((to - starts) * steps, axis=1) / np.sum(steps * steps, axis=1), 0.0, 1.0)
    off = np.hypot(*(starts + share[:, None] * steps - to).T)
    best = int(np.argmin(off))
    return float(off[best]), float(along[best] + share[best] * (along[best + 1] - along[best]))


def _underarm(pattern: Pattern) -> float | None:
    """The lowest place of the top edge above the waist, along the ruling, off the two centres."""
    cut = [panel for panel in pattern.panels if not panel.added]
    tops = [edge.curve.points for panel in cut for edge in panel.edges if edge.kind in (TOP, ARMHOLE)]
    if not tops:
        return None
    around, height = pattern.block.where(np.vstack(tops))
    inner = (around > 0.2) & (around < 0.8)
    if not inner.any():
        return None
    low = next((level.height for level in pattern.stand.levels if level.name == told_level(pattern)), 0.0)
    return float(np.min((height[inner] - low) * pattern.block.ruling_length_mm(around[inner])))
