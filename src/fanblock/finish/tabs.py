"""Cutting skirts into tabs: slits from waist to hem, and the tabs' corners rounded."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from fanblock.block.ruled import Block
from fanblock.draft.work import Work
from fanblock.geometry.corners import rounded
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.pattern.model import CENTER, HEM, LET_IN, Edge, Panel, Slit
from fanblock.pattern.waistline import waistline_of
from fanblock.problems import GeometryError, Problem, nearest

NARROWEST_MM = 15.0
"""A tab narrower than this cannot be bound (from memory)."""


def with_tabs(work: Work, shares: Mapping[str, tuple[float, ...]], radius_mm: float) -> Work:
    """Return the panels with slits at these shares of their waists and all tab corners rounded.

    A slit runs straight from its share of the panel's waist to the same share of its hem; one at 0 or 100 % runs along a
    centre line. Other corners at a centre line or at a seam that is sewn to the hem stay as they are, as do those beside a piece
    that is let in: it parts the hem as a slit does. GeometryError when a panel is unknown, has no hem below a waist, or a tab
    is too narrow or too short for its corners.
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
    waist = _waist_over(panel, hems)
    if not _is_one_run(panel, hems) or len(waist) != 1 or _top_of(block, panel.edges[hems[0]].curve) >= 0.0:
        if not shares:
            return panel, []
        if len(hems) > 1:
            what = "the hem of this panel is in parts already, by a dart or tabs."
            return panel, [Problem("hem-in-parts", where, what, "Put `tabs` before what cuts the hem.")]
        return panel, [Problem("no-skirt", where, "this panel has no hem below a waist.", "Leave it out of `slits`.")]
    before, after = panel.edges[hems[0] - 1], panel.edges[(hems[-1] + 1) % len(panel.edges)]
    ends = (0.0 in shares and before.kind == CENTER, 1.0 in shares and after.kind == CENTER)
    tops = [waist[0].at(share * waist[0].length_mm) for share in shares]
    inner = slice(ends[0], len(shares) - ends[1])
    cut, problems = _run_into_tabs(panel, hems, tops[inner], shares[inner], radius_mm, where, ends)
    if problems:
        return panel, problems
    hem_edges = [edge for edge in cut.edges if edge.kind == HEM]
    first = [Slit(frozen(tops[0]), hem_edges[0].curve.start)] if ends[0] else []
    last = [Slit(frozen(tops[-1]), hem_edges[-1].curve.end)] if ends[1] else []
    free = {edge.name for edge, asked in ((hem_edges[0], ends[0]), (hem_edges[-1], ends[1])) if asked}
    edges = tuple(replace(edge, pointed=True) if edge.name in free else edge for edge in cut.edges)
    return replace(cut, edges=edges, slits=(*panel.slits, *first, *cut.slits, *last)), []


def _waist_over(panel: Panel, hems: list[int]) -> tuple[Curve, ...]:
    """Return the line from which a panel's skirt hangs; slits that pieces are let into may part it as they part the hem."""
    waist = waistline_of(panel)
    if 1 < len(waist) <= len(hems):
        return (Curve.through(np.vstack([part.points for part in waist])),)
    return waist


def _is_one_run(panel: Panel, hems: list[int]) -> bool:
    """Return whether a panel's hem is one edge, or parts of one between which pieces are let in."""
    between = [panel.edges[number] for one, other in pairwise(hems) for number in range(one + 1, other)]
    return bool(hems) and len(between) == 2 * (len(hems) - 1) and all(edge.kind == LET_IN for edge in between)


def _run_into_tabs(
    panel: Panel,
    hems: list[int],
    tops: Sequence[Points],
    shares: tuple[float, ...],
    radius_mm: float,
    where: str,
    ends: tuple[bool, bool],
) -> tuple[Panel, list[Problem]]:
    """Return a panel with its hem, in one part or several, cut into tabs at these shares of all of it.

    ``tops`` are the slits' upper ends. The panel's slits are then those between its tabs alone.
    """
    parts = [panel.edges[number].curve for number in hems]
    starts = np.cumsum([0.0, *(part.length_mm for part in parts)])
    at = [share * float(starts[-1]) for share in shares]
    last = len(hems) - 1
    of_part = [min(int(np.searchsorted(starts, place, side="right")) - 1, last) for place in at]
    cut, made, problems = panel, list[Slit](), list[Problem]()
    for part in reversed(range(len(hems))):
        mine = [number for number, one in enumerate(of_part) if one == part]
        on = [(at[number] - float(starts[part])) / parts[part].length_mm for number in mine]
        slits = [
            Slit(frozen(tops[number]), frozen(parts[part].at(share * parts[part].length_mm)))
            for number, share in zip(mine, on, strict=True)
        ]
        here = (ends[0] and part == 0, ends[1] and part == last)
        whole = replace(cut, slits=())
        cut, found = slit_into_tabs(whole, hems[part], tuple(slits), tuple(on), radius_mm, where, here)
        made = [*cut.slits, *made]
        problems += found
    return replace(cut, edges=_numbered(cut.edges), slits=tuple(made)), problems


def _numbered(edges: tuple[Edge, ...]) -> tuple[Edge, ...]:
    """Return a panel's edges with the parts of its hem numbered from the front, where there are several."""
    hems = [edge for edge in edges if edge.kind == HEM]
    if len(hems) < 2:
        return edges
    numbers = iter(range(1, len(hems) + 1))
    return tuple(replace(edge, name=f"hem {next(numbers)}") if edge.kind == HEM else edge for edge in edges)


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
