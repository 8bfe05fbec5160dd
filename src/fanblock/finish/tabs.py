"""Cutting skirts into tabs: slits from waist to hem, and the tabs' corners rounded."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from fanblock.block.ruled import Block
from fanblock.draft.work import Work
from fanblock.geometry.corners import rounded
from fanblock.geometry.curve import Curve, frozen
from fanblock.pattern.model import CENTER, HEM, Edge, Panel, Slit
from fanblock.pattern.waistline import waistline_of
from fanblock.problems import GeometryError, Problem, nearest

NARROWEST_MM = 15.0
"""A tab narrower than this cannot be bound (from memory)."""


def with_tabs(work: Work, shares: Mapping[str, tuple[float, ...]], radius_mm: float) -> Work:
    """Return the panels with slits at these shares of their waists and all tab corners rounded.

    A slit runs straight from its share of the panel's waist to the same share of its hem; one at 0 or 100 % runs along a
    centre line. Other corners at a centre line or at a seam that is sewn to the hem stay as they are. GeometryError when a panel is unknown, has no hem below a waist, or a
    tab is too narrow or too short for its corners.
    """
    names = [panel.name for panel in work.panels]
    problems = [
        Problem("panel-unknown", "slits", f"there is no panel “{name}”.", nearest(name, names))
        for name in sorted(shares)
        if name not in names
    ]
    panels = []
    for panel in work.panels:
        cut, found = _tabbed(work.block, panel, shares.get(panel.name, ()), radius_mm)
        panels.append(cut)
        problems += found
    if problems:
        raise GeometryError(problems)
    return replace(work, panels=tuple(panels))


def _tabbed(block: Block, panel: Panel, shares: tuple[float, ...], radius_mm: float) -> tuple[Panel, list[Problem]]:
    where = f"slits › {panel.name}"
    hems = [number for number, edge in enumerate(panel.edges) if edge.kind == HEM]
    waist = waistline_of(panel)
    if len(hems) != 1 or len(waist) != 1 or _top_of(block, panel.edges[hems[0]].curve) >= 0.0:
        if not shares:
            return panel, []
        if len(hems) > 1:
            what = "the hem of this panel is in parts already, by a dart, a slit or tabs."
            return panel, [Problem("hem-in-parts", where, what, "Put `tabs` before what is let into the hem.")]
        return panel, [Problem("no-skirt", where, "this panel has no hem below a waist.", "Leave it out of `slits`.")]
    hem = panel.edges[hems[0]].curve
    slits = tuple(
        Slit(frozen(waist[0].at(share * waist[0].length_mm)), frozen(hem.at(share * hem.length_mm))) for share in shares
    )
    before, after = panel.edges[hems[0] - 1], panel.edges[(hems[0] + 1) % len(panel.edges)]
    ends = (0.0 in shares and before.kind == CENTER, 1.0 in shares and after.kind == CENTER)
    inner = slits[ends[0] : len(slits) - ends[1]], shares[ends[0] : len(shares) - ends[1]]
    cut, problems = slit_into_tabs(panel, hems[0], *inner, radius_mm, where, ends)
    if problems:
        return panel, problems
    hem_edges = [edge for edge in cut.edges if edge.kind == HEM]
    first = [Slit(slits[0].start, hem_edges[0].curve.start)] if ends[0] else []
    last = [Slit(slits[-1].start, hem_edges[-1].curve.end)] if ends[1] else []
    free = {edge.name for edge, asked in ((hem_edges[0], ends[0]), (hem_edges[-1], ends[1])) if asked}
    edges = tuple(replace(edge, pointed=True) if edge.name in free else edge for edge in cut.edges)
    return replace(cut, edges=edges, slits=(*first, *cut.slits, *last)), []


def slit_into_tabs(
    panel: Panel,
    at: int,
    slits: tuple[Slit, ...],
    shares: tuple[float, ...],
    radius_mm: float,
    where: str,
    ends: tuple[bool, bool] = (False, False),
) -> tuple[Panel, list[Problem]]:
    """Return a panel with its hem, the edge of number ``at``, cut into tabs by slits that end at these shares of it.

    Free corners are rounded, those at its two ``ends`` too where a slit runs there. What makes that impossible is returned
    as problems told at ``where``, the panel unchanged.
    """
    hem = panel.edges[at].curve
    stops = [0.0, *(share * hem.length_mm for share in shares), hem.length_mm]
    widths = np.diff(stops)
    corners = np.full(len(widths), 2.0)
    before, after = panel.edges[at - 1], panel.edges[(at + 1) % len(panel.edges)]
    kept = _sewn_on(before) and not ends[0], _sewn_on(after) and not ends[1]
    corners[0] -= kept[0]
    corners[-1] -= kept[1]
    if np.any(widths < np.maximum(corners * radius_mm, NARROWEST_MM if shares else 0.0)):
        what = f"a tab would be {max(min(widths), 0.0):.0f} mm wide at the hem, too narrow"
        what += f" for corners of {radius_mm:.0f} mm." if radius_mm else "."
        return panel, [Problem("tab-narrow", where, what, "Give fewer slits, move them apart, or a smaller `corner`.")]
    depths = [float(np.hypot(*(slit.end - slit.start))) for slit in slits]
    depths += [edge.curve.length_mm for edge, whole in zip((before, after), kept, strict=True) if not whole]
    if radius_mm and min(depths, default=radius_mm) < radius_mm:
        what = f"a tab would be {min(depths):.0f} mm deep, too short for corners of {radius_mm:.0f} mm."
        return panel, [Problem("tab-short", where, what, "Lower the hem, or give a smaller `corner`.")]
    return _with_corners(panel, at, slits, stops, radius_mm, kept), []


def _top_of(block: Block, curve: Curve) -> float:
    """Return the height of the highest of a curve's two ends and its middle point."""
    return float(block.where(curve.points[[0, len(curve.points) // 2, -1]])[1].max())


def _sewn_on(edge: Edge) -> bool:
    """Return whether the edge beside a hem is sewn, or a centre line, so that the hem runs on across it without a corner."""
    return edge.kind == CENTER or edge.mate is not None


def _with_corners(
    panel: Panel, at: int, slits: tuple[Slit, ...], stops: list[float], radius_mm: float, kept: tuple[bool, bool]
) -> Panel:
    """Return the panel with its hem in one edge a tab, corners rounded but for the outermost that are to be ``kept``."""
    edges = list(panel.edges)
    before, after = (at - 1) % len(edges), (at + 1) % len(edges)
    downs: list[Curve | None] = [
        edges[before].curve,
        *(Curve.through([slit.start, slit.end]) for slit in slits),
    ]
    ups: list[Curve | None] = [*(Curve.through([slit.end, slit.start]) for slit in slits), edges[after].curve]
    if kept[0] or not radius_mm:
        downs[0] = None
    if kept[1] or not radius_mm:
        ups[-1] = None
    tabs = [
        _tab(
            edges[at].curve.between(start, end),
            down if radius_mm else None,
            up if radius_mm else None,
            radius_mm,
        )
        for start, end, down, up in zip(stops, stops[1:], downs, ups, strict=False)
    ]
    names = ["hem"] if len(tabs) == 1 else [f"hem {number}" for number in range(1, len(tabs) + 1)]
    if downs[0] is not None:
        edges[before] = _shortened(edges[before], radius_mm, at_end=True)
    if ups[-1] is not None:
        edges[after] = _shortened(edges[after], radius_mm, at_end=False)
    pieces = [Edge(name, HEM, curve) for name, curve in zip(names, tabs, strict=True)]
    ended = tuple(Slit(slit.start, tab.end) for slit, tab in zip(slits, tabs, strict=False))
    return replace(panel, edges=(*edges[:at], *pieces, *edges[at + 1 :]), slits=ended)


def _tab(hem: Curve, down: Curve | None, up: Curve | None, radius_mm: float) -> Curve:
    """Return one tab's hem with its corners: ``down`` leads to its start, ``up`` away from its end."""
    start = rounded(down, hem, radius_mm) if down is not None else hem.points[:1]
    end = rounded(hem, up, radius_mm) if up is not None else hem.points[-1:]
    middle = hem.between(radius_mm if down is not None else 0.0, hem.length_mm - (radius_mm if up is not None else 0.0))
    return Curve.through(np.vstack((start, middle.points[1:-1], end)))


def _shortened(edge: Edge, by_mm: float, *, at_end: bool) -> Edge:
    length = edge.curve.length_mm
    if at_end:
        return replace(edge, curve=edge.curve.between(0.0, length - by_mm))
    waist = None if edge.waist_at_mm is None else edge.waist_at_mm - by_mm
    return replace(edge, curve=edge.curve.between(by_mm, length), waist_at_mm=waist)
