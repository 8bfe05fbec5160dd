"""Panels laid seam to seam: how each must turn and slide so that its seams meet its neighbours' at the
waist.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

import numpy as np

from fanblock.block.band import Band
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.halves.mirror import mirrored
from fanblock.halves.names import is_one
from fanblock.pattern.model import SHOULDER, Edge, Panel, Pattern, Seam
from fanblock.sheet.upright import moved_panel, upright
from fanblock.skirts.folded import folded
from fanblock.wearer.model import HALVES, LEFT, RIGHT

WHOLE_TURN_RAD = 2.0 * np.pi
HALVES_APART_MM = MappingProxyType({LEFT: 15.0, RIGHT: -15.0})
"""How far each half is moved from the centre front where both are shown, so that their words do not meet."""

ROW_GAP_MM = 20.0
"""Room between pieces of a band that are shown in a row."""


def joined(pattern: Pattern) -> Mapping[str, Panel]:
    """Return the panels by name, laid seam to seam in the block's frame, beginning with the first.

    At each seam the back piece is turned and slid until its waist point lies on the front piece's and both
    seam edges point the same way to their far ends; where a lace joins two pieces they lie the gap apart. Pieces are laid round the body; only one that nothing else joins is
    laid against a shoulder. A panel that no seam joins stays where it was drawn. Pleats let into a seam lie folded. Pieces
    that are not cut from the block are not among them: see :func:`beside`.
    """
    if pattern.halves:
        return _both(pattern)
    if pattern.band is not None:
        return _band(pattern, pattern.band)
    placed: dict[str, Panel] = {}
    flat = {panel.name: folded(panel) for panel in pattern.panels if not panel.added}
    panels = sorted(flat.values(), key=lambda panel: panel.number)
    for panel in panels:
        if panel.name in placed:
            continue
        over = ((seam, other) for seam, other in _neighbours(pattern, panel.name, shoulders=True) if other in placed)
        held = next(over, None)
        placed[panel.name] = panel if held is None else _beside(placed[held[1]], panel, held[0])
        waiting = [panel.name]
        while waiting:
            name = waiting.pop(0)
            for seam, other in _neighbours(pattern, name, shoulders=False):
                if other not in placed:
                    placed[other] = _beside(placed[name], flat[other], seam)
                    waiting.append(other)
            for other, laced in _laced(pattern, placed, name):
                placed[other] = laced
                waiting.append(other)
    return MappingProxyType({panel.name: placed[panel.name] for panel in panels})


def _both(pattern: Pattern) -> Mapping[str, Panel]:
    """Return the panels of both halves, the right one's at the left, as they lie when the wearer is seen from outside.

    A piece that both halves make stands in either as its half.
    """
    found: dict[str, Panel] = {}
    for half, side in zip(pattern.halves, HALVES, strict=True):
        for panel in joined(half).values():
            own = panel if side == LEFT else mirrored(panel)
            own = own if is_one(panel) else replace(own, side=side)
            found[f"{panel.name} {side}"] = moved_panel(own, np.eye(2), frozen([HALVES_APART_MM[side], 0.0]))
    return MappingProxyType(found)


def _band(pattern: Pattern, band: Band) -> Mapping[str, Panel]:
    """Return the pieces of a band as they stand on it, or in a row where it would lie over itself."""
    if band.drawn_ratio * abs(band.turn_rad) < WHOLE_TURN_RAD:
        return MappingProxyType(dict(pattern.by_name))
    return MappingProxyType({panel.name: panel for panel in _row(pattern.panels, 0.0, 0.0)})


def beside(pattern: Pattern, laid: Iterable[Panel]) -> tuple[Panel, ...]:
    """Return the pieces that are not cut from the block, upright in a row at the right of those that are laid.

    The pieces of a layer of its own are not among them: they are the panels over again.
    """
    points = np.vstack([panel.loop() for panel in laid])
    added = [panel for panel in pattern.panels if panel.added and not panel.layer]
    return tuple(_row(added, float(points[:, 0].max()) + 2.0 * ROW_GAP_MM, float(points[:, 1].min())))


def _row(panels: Iterable[Panel], x: float, y: float) -> Iterator[Panel]:
    """The panels upright side by side, the foot of each at ``y``, the first beginning at ``x``."""
    for panel in panels:
        stood = upright(panel)
        low, high = stood.loop().min(axis=0), stood.loop().max(axis=0)
        yield moved_panel(stood, np.eye(2), np.array([x - low[0], y - low[1]]))
        x += float(high[0] - low[0]) + ROW_GAP_MM


def _neighbours(pattern: Pattern, name: str, *, shoulders: bool) -> list[tuple[Seam, str]]:
    """Return the seams of a panel, those of its shoulders or all others, each with the panel beyond it."""
    found = []
    for seam in pattern.seams:
        for here, there in ((seam.front, seam.back), (seam.back, seam.front)):
            if here.panel == name and there.panel in pattern.by_name:
                if pattern.by_name[there.panel].added:
                    continue
                is_shoulder = pattern.by_name[name].edge(here.edge).kind == SHOULDER
                if is_shoulder == shoulders:
                    found.append((seam, there.panel))
    return found


def _beside(placed: Panel, panel: Panel, seam: Seam) -> Panel:
    sides = {seam.front.panel: seam.front.edge, seam.back.panel: seam.back.edge}
    anchor, far = _line(placed.edge(sides[placed.name]), False)
    own_anchor, own_far = _line(panel.edge(sides[panel.name]), placed.edge(sides[placed.name]).reversed)
    turn = np.angle(complex(*(far - anchor)) / complex(*(own_far - own_anchor)))
    matrix = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    return moved_panel(panel, matrix, anchor - matrix @ own_anchor)


def _laced(pattern: Pattern, placed: Mapping[str, Panel], name: str) -> Iterator[tuple[str, Panel]]:
    """The panels that a lace along a seam joins to a placed one, laid beside it as far off as the lace leaves them."""
    moved = placed[name]
    for number, edge in enumerate(pattern.by_name[name].edges):
        for other in pattern.panels:
            facing = next((one for one in other.edges if edge.opens_at and one.opens_at == edge.opens_at), None)
            if facing is None or other.name in placed or _rises(facing) == _rises(edge):
                continue
            here = moved.edges[number].curve
            along = (here.end - here.start) / np.hypot(*(here.end - here.start))
            apart = next((one.width_mm for one in pattern.openings if one.at == edge.opens_at), 0.0)
            out = apart * np.array([along[1], -along[0]])
            own = facing.curve.reversed()
            turn = np.angle(complex(*(here.end - here.start)) / complex(*(own.end - own.start)))
            matrix = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
            low, own_low = (line.start if _rises(edge) else line.end for line in (here, own))
            yield other.name, moved_panel(other, matrix, low + out - matrix @ own_low)


def _rises(edge: Edge) -> bool:
    """Whether an edge, as drawn on the block, runs up, as the one in front of an opening does."""
    return float(edge.curve.end[1]) > float(edge.curve.start[1])


def _line(edge: Edge, turned: bool) -> tuple[Points, Points]:
    """The waist point of a seam edge (its first point when it has none) and its end furthest from that.

    ``turned`` runs the edge backwards, as the mate of a seam whose edges run against each other.
    """
    curve: Curve = edge.curve.reversed() if turned else edge.curve
    if edge.waist_at_mm is None:
        return curve.start, curve.end
    anchor = edge.curve.at(edge.waist_at_mm)
    to_start, to_end = edge.waist_at_mm, edge.curve.length_mm - edge.waist_at_mm
    top = edge.curve.start if to_start > to_end else edge.curve.end
    return frozen(anchor), frozen(top)
