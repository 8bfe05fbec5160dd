"""The key picture: one half of the garment from outside, its panels seam to seam, with numbers, names and
letters.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from fanblock.geometry.bezier import polyline
from fanblock.geometry.region import thinned
from fanblock.pattern.model import CENTER, FOLD, OPEN_KINDS, Edge, Panel, Pattern
from fanblock.sheet import phrases
from fanblock.sheet.boning import outside_boxes
from fanblock.sheet.closing import DONE, opening_of
from fanblock.sheet.drawing import Drawing, Group, Stroke, Words
from fanblock.sheet.font import fitted
from fanblock.sheet.joined import beside, joined
from fanblock.sheet.labels import Wish
from fanblock.sheet.placing import place_all
from fanblock.sheet.space import Space
from fanblock.sheet.telling import telling
from fanblock.sheet.upright import moved_panel, slit_points
from fanblock.sheet.wording import Block, Line
from fanblock.tolerances import BEZIER_MM

_FOOT_MM, _SIDE_MM = 9.0, 6.0


def key(pattern: Pattern, width_mm: float = 180.0, height_mm: float = 120.0) -> Drawing:
    """Return the key picture, as large as fits the given room; centre front lies at the left."""
    laid = list(joined(pattern).values())
    panels = [*laid, *beside(pattern, laid)]
    all_points = np.vstack([panel.loop() for panel in panels])
    low, size = all_points.min(axis=0), np.ptp(all_points, axis=0)
    room = np.array([width_mm - 2 * _SIDE_MM, height_mm - _FOOT_MM - 2.0])
    scale = float(np.min(room / size))
    shift = np.array([_SIDE_MM + 0.5 * (room[0] - scale * size[0]), _FOOT_MM]) - scale * low
    small = [moved_panel(panel, scale * np.eye(2), shift) for panel in panels]
    drawn = [(f"{panel.label} {panel.name}", tuple(_panel(panel))) for panel in small]
    shapes = (Group(f"key {name}", tuple(one for one in of if isinstance(one, Stroke))) for name, of in drawn)
    words = (Group(f"key words {name}", tuple(one for one in of if isinstance(one, Words))) for name, of in drawn)
    groups = (*shapes, *words)  # words over all pieces: where skirts lap they would be hidden
    caption = Words(fitted(telling(pattern).caption, 3.4, width_mm), 0.5 * width_mm, 2.0, 3.4, "middle")
    ends = Group("key words", (*_ends(pattern, (panel for panel in small if not panel.added)), caption))
    return Drawing("key", width_mm, height_mm, (*groups, ends))


def _panel(panel: Panel) -> Iterator[Stroke | Words]:
    """The panel as straight runs near enough for a picture, and its words."""
    ring = panel.loop()
    closed = np.vstack((ring, ring[:1]))
    slits = [slit_points(slit) for slit in panel.slits]
    waists = [part.points for part in panel.levels.get("waist", ())]
    yield Stroke(polyline(thinned(closed, BEZIER_MM)), "paper", "panel", True)
    yield from (Stroke(polyline(slit), "grain", "slit") for slit in slits)
    yield from (Stroke(polyline(thinned(waist, BEZIER_MM)), "level", "waist level") for waist in waists)
    yield from (Stroke(polyline(thinned(mark.curve.points, BEZIER_MM)), "guide", mark.name) for mark in panel.marks)
    done, _, _ = place_all(list(_wishes(panel)), Space.within(ring, [*slits, *waists], 0.5))
    boxes = [label.box for label in done]
    for channel in panel.channels:
        yield from (Stroke(polyline(run), "guide", "bone") for run in outside_boxes(channel.line.points, boxes))
    for label in done:
        yield from label.items


def _wishes(panel: Panel) -> Iterator[Wish]:
    ring = panel.loop()
    waist = [part.points for part in panel.levels.get("waist", ())]
    low = float(np.vstack(waist)[:, 1].mean()) if waist else float(ring[:, 1].min())
    upper = ring[ring[:, 1] > low]
    middle = (float(upper[:, 0].mean()), 0.45 * low + 0.55 * float(ring[:, 1].max()))
    for edge in panel.edges:
        if edge.letter:
            blocks = tuple(Block((Line(edge.letter, size, True),)) for size in (3.6, 3.0, 2.4))
            places = []
            for ratio in (0.5, 0.35, 0.65):
                at = ratio * edge.curve.length_mm
                (x, y), (dx, dy) = edge.curve.at(at), edge.curve.tangent_at(at)
                places.append((float(x - 3.0 * dy), float(y + 3.0 * dx)))
            yield Wish(f"letter {edge.name}", blocks, tuple(places), 6.0, needed=False)
    numbers = [block for angle in (0.0, 90.0) for block in _numbers(panel, angle)]
    numbers += [Block((Line(panel.label, size, True),)) for size in (6.0, 4.0, 2.4)]
    yield Wish("number", tuple(numbers), (middle,), needed=False)


def _numbers(panel: Panel, angle_deg: float) -> Iterator[Block]:
    """Number and name, large to small; a name of several words on one line or, before it gets smaller, on several."""
    lines = panel.name.split()
    for number, name in ((9.0, 3.6), (7.0, 3.0), (5.0, 2.4), (4.0, 2.0)):
        head = Line(panel.label, number, True)
        yield Block((head, Line(panel.name, name)), angle_deg)
        if len(lines) > 1:
            yield Block((head, *(Line(word, name) for word in lines)), angle_deg)


def _end_word(pattern: Pattern, edge: Edge, place: str) -> str:
    """The centre that an edge stands at, its own name where it does not stand there, or how two pieces are closed."""
    if edge.kind not in OPEN_KINDS:
        return edge.name
    if edge.opens_at:  # within the half, where two pieces are laced to each other: told once
        return DONE[opening_of(pattern, edge).closed] if phrases.faces_back(edge) else ""
    opening = opening_of(pattern, edge)
    return opening.edge if opening.widths or opening.overlap_mm else place


def _ends(pattern: Pattern, panels: Iterable[Panel]) -> Iterator[Words]:
    """CENTER FRONT and CENTER BACK outside the ends of the row, along their edges."""
    for panel in panels:
        for edge in panel.edges:
            told = (
                edge.mirrored and phrases.faces_front(edge) and not edge.opens_at
            )  # beside the left half's, which says it
            if edge.kind in {CENTER, FOLD, *OPEN_KINDS} and not told:
                middle = 0.5 * edge.curve.length_mm
                (x, y), (dx, dy) = edge.curve.at(middle), edge.curve.tangent_at(middle)
                against = dy < 0.0 if dx * dy > -0.5 * abs(dy) else dx < 0.0  # upward, but never upside down
                dx, dy = (-dx, -dy) if against else (dx, dy)
                out = -1.4 if against != bool(edge.opens_at) else 3.6  # words in a gap between two pieces would not fit
                place = "center front" if phrases.faces_front(edge) else "center back"
                words = _end_word(pattern, edge, place).upper()
                angle = float(np.degrees(np.arctan2(dy, dx)))
                yield Words(words, float(x + out * dy), float(y - out * dx), 2.8, "middle", angle, bold=True)
