"""Layers with outlines of their own: copies of the panels, moved by the turn of cloth, cut off or cut short, joined alike.

The copies are pieces of their own with the letters and notches of the panels they are copies of, so that they are sewn
together in the same order.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

import numpy as np

from fanblock.draft.adding import panel_of, with_piece
from fanblock.draft.model import AROUND
from fanblock.draft.places import height_on
from fanblock.draft.plans import LayerPlan
from fanblock.draft.slicing import Side
from fanblock.draft.truing import bend
from fanblock.draft.work import SeamRecord, Work
from fanblock.geometry.curve import Curve, Points, frozen
from fanblock.geometry.meet import meetings
from fanblock.geometry.rings import is_simple
from fanblock.pattern.model import CENTER, FOLD, HEM, LET_IN, WAIST, Edge, EdgeName, Mark, Note, Panel, Slit
from fanblock.problems import GeometryError, Problem
from fanblock.shaping.darts import with_even_darts
from fanblock.shaping.edges import FREE_KINDS, levels_of, places_of
from fanblock.shaping.equal import equalled, joined_ends
from fanblock.shaping.slits import with_closed_slits
from fanblock.shaping.trimming import Placed, cut_off, drawn_in
from fanblock.shaping.turning import Shift, shifts, turn_mm
from fanblock.units import format_length

LEAST_SEAM_MM = 1.0
"""A change of less than this at every seam is finer than anybody cuts (common practice, no source)."""

WHERE = "lining › panels"
"""Where problems with the panels of a layer are told."""

HELD = "sewn in along the edges"
"""How the pieces of a layer of its own are held."""

GRID = np.linspace(-0.2, 1.2, 141)
"""The arounds at which the line a layer is cut off along is worked out."""


def copy_name(panel: str, layer: str) -> str:
    """Return the name of a panel's copy for a layer.

    >>> copy_name("front", "lining")
    'front lining'
    """
    return f"{panel} {layer}"


def with_layers(work: Work) -> Work:
    """Return the work with the pieces of every layer that has outlines of its own.

    GeometryError when a panel cannot be copied so.
    """
    for plan in work.layer_plans:
        work = _with_layer(work, plan)
    return work


def _with_layer(work: Work, plan: LayerPlan) -> Work:
    """Return the work with the pieces of one more layer.

    Where its turn of cloth would change no seam by a millimetre, and nothing else is asked, it is cut by the panels' own
    outlines instead, and a note says so.
    """
    panels = tuple(panel_of(work, name, WHERE) for name in plan.panels)
    _check_pieces(panels, plan)
    moves = shifts(work, panels, plan.inside_mm)
    if not plan.reshapes and _most_at_a_seam(work, moves) < LEAST_SEAM_MM:
        return _cut_alike(work, plan)
    outlines = [_outline(work, panel, moves.get(panel.name), plan) for panel in panels]
    pairs = _pairs(work, panels, outlines)
    edges = equalled([[placed.edge for placed in outline] for outline in outlines], [pair for _, pair in pairs])
    mates = _mates(panels, edges, pairs, plan.layer)
    for number, panel in enumerate(panels):
        piece = _copy(work, panel, moves.get(panel.name), _mated(edges[number], mates, number), plan)
        work = with_piece(work, piece)
    work = replace(
        work,
        seams=(*work.seams, *(_record(seam, plan, panels, edges, pair) for seam, pair in pairs)),
        layers_by_panel={
            **{copy_name(panel.name, plan.layer): ((plan.layer, plan.count),) for panel in panels},
            **work.layers_by_panel,
        },
    )
    return replace(work, notes=(*work.notes, _note(work, plan, _lacking(panels))))


def _check_pieces(panels: tuple[Panel, ...], plan: LayerPlan) -> None:
    """Refuse pieces that cannot be cut off lower down."""
    what = "“{}” is not cut from the block, so nobody can tell where the layer would end on it."
    problems = [
        Problem("layer-depth", "lining › down to", what.format(panel.name), "Leave that piece or `down to` out.")
        for panel in panels
        if panel.added and plan.down_to is not None and any(edge.kind == HEM for edge in panel.edges)
    ]
    if problems:
        raise GeometryError(problems)


def _lacking(panels: tuple[Panel, ...]) -> list[str]:
    """Return the names of the pieces that are let into these panels and are not among them."""
    names = {panel.name for panel in panels}
    let_in = {
        edge.mate.panel for panel in panels for edge in panel.edges if edge.kind == LET_IN and edge.mate is not None
    }
    return sorted(let_in - names)


def _most_at_a_seam(work: Work, moves: Mapping[str, Shift]) -> float:
    """Return the most that both sides of one seam are moved together."""
    found = [
        abs(moves[seam.front[0]].back_mm + moves[seam.back[0]].front_mm)
        for seam in work.seams
        if seam.front[0] in moves and seam.back[0] in moves
    ]
    return max(found, default=0.0)


def _cut_alike(work: Work, plan: LayerPlan) -> Work:
    """Return the work with a layer that is cut by the panels' own outlines."""
    counts = dict(work.layers_by_panel)
    for name in plan.panels:
        counts[name] = (*counts.get(name, work.layers), (plan.layer, plan.count))
    round_mm = format_length(abs(turn_mm(plan.inside_mm)), work.body.units)
    note = Note(
        "sewing lining",
        f"The {plan.layer} lies so near the cloth that was drafted that it differs by {round_mm} all round, less than a "
        "millimetre at any seam: cut it by the same outline.",
    )
    return replace(work, layers_by_panel=counts, notes=(*work.notes, note))


def _outline(work: Work, panel: Panel, move: Shift | None, plan: LayerPlan) -> list[Placed]:
    """Return the edges of a panel's copy, moved, cut off and cut short, with their places on the block."""
    sides = [_placed(work, edge, move) for edge in panel.edges]
    if plan.down_to is not None and move is not None:
        kind = WAIST if any(edge.kind == WAIST for edge in panel.edges) else HEM
        cut = cut_off(sides, lambda around: _height(work, plan, around), kind, kind)
        if cut is None:
            what = f"nothing of panel “{panel.name}” lies above where the layer shall end."
            raise GeometryError([Problem("layer-empty", "lining › down to", what, "Leave that panel out.")])
        sides = [
            _redrawn(work, cut, number)
            if side.edge.name.startswith(kind) and not any(side is old for old in sides)
            else side
            for number, side in enumerate(cut)
        ]
    widths = {side.edge.name: _inward(side.edge, plan) for side in sides if side.edge.kind in FREE_KINDS}
    edges = joined_ends(drawn_in([side.edge for side in sides], widths))
    if not is_simple(np.vstack([edge.curve.points[:-1] for edge in edges])):
        what = f"panel “{panel.name}” cannot be cut short so."
        raise GeometryError(
            [Problem("layer-outline", "lining › short of edges", what, "Cut it less short, or end it higher.")]
        )
    return [Placed(edge, places_of(work, edge.curve.points)) for edge in edges]


def _placed(work: Work, edge: Edge, move: Shift | None) -> Placed:
    """Return an edge moved as the cloth is, without a mate."""
    bare = replace(edge, mate=None)
    places = places_of(work, edge.curve.points)
    if move is None:
        return Placed(bare, places)
    moved = move(work.block, places)
    curve = Curve(frozen(work.block.at(moved[:, 0], moved[:, 1])))
    held = edge.waist_at_mm
    if held is not None:
        count = np.arange(len(curve.points))
        held = float(np.interp(np.interp(held, edge.curve.along, count), count, curve.along))
    return Placed(replace(bare, curve=curve, waist_at_mm=held), moved)


def _redrawn(work: Work, sides: list[Placed], number: int) -> Placed:
    """Return the edge a layer was cut off along, drawn through its places and square to the centre lines it meets."""
    side = sides[number]
    curve = Curve.through(work.block.at(side.places[:, 0], side.places[:, 1]))
    before, after = sides[number - 1].edge, sides[(number + 1) % len(sides)].edge
    turns = []
    for edge, along, line, due in (
        (before, before.curve.end_tangent, curve.start_tangent, 0.5 * math.pi),
        (after, after.curve.start_tangent, curve.end_tangent, -0.5 * math.pi),
    ):
        off = due - math.atan2(along[0] * line[1] - along[1] * line[0], float(along @ line))
        turns.append((np.zeros(2), off) if edge.kind in CENTERS else None)
    return replace(side, edge=replace(side.edge, curve=bend(curve, turns[0], turns[1])))


CENTERS = frozenset({CENTER, FOLD})


def _height(work: Work, plan: LayerPlan, around: Points) -> Points:
    """Return the height at which a layer is cut off, at every around."""
    if plan.down_to is None:
        raise ValueError("a layer that is not cut off")
    heights = [height_on(work.draft, plan.down_to, float(one)) for one in GRID]
    return np.interp(around, GRID, heights)


def _inward(edge: Edge, plan: LayerPlan) -> float:
    """Return how far an edge is drawn in: short of every free edge, but longer at the lower ones."""
    lower = edge.kind in (HEM, WAIST)
    return plan.short_mm - (plan.longer_mm if lower else 0.0)


Pair = tuple[tuple[int, int], tuple[int, int]]


def _pairs(work: Work, panels: tuple[Panel, ...], outlines: list[list[Placed]]) -> list[tuple[SeamRecord, Pair]]:
    """Return the seams whose both edges are among the copies, as the numbers of panel and edge."""
    places = {
        (panel.name, placed.edge.name): (number, at)
        for number, (panel, outline) in enumerate(zip(panels, outlines, strict=True))
        for at, placed in enumerate(outline)
    }
    return [
        (seam, (places[seam.front], places[seam.back]))
        for seam in work.seams
        if seam.front in places and seam.back in places
    ]


def _mates(
    panels: tuple[Panel, ...], edges: list[list[Edge]], pairs: list[tuple[SeamRecord, Pair]], layer: str
) -> dict[tuple[int, int], EdgeName]:
    found = {}
    for _, (front, back) in pairs:
        for here, there in ((front, back), (back, front)):
            found[here] = EdgeName(copy_name(panels[there[0]].name, layer), edges[there[0]][there[1]].name)
    return found


def _mated(edges: list[Edge], mates: Mapping[tuple[int, int], EdgeName], number: int) -> list[Edge]:
    return [replace(edge, mate=mates.get((number, at))) for at, edge in enumerate(edges)]


def _record(
    seam: SeamRecord, plan: LayerPlan, panels: tuple[Panel, ...], edges: list[list[Edge]], pair: Pair
) -> SeamRecord:
    """Return a seam of the layer: it has the line, and so the letter, and the ticks of the seam it is a copy of."""
    front, back = ((copy_name(panels[panel].name, plan.layer), edges[panel][edge].name) for panel, edge in pair)
    return replace(seam, name=f"{plan.layer} {seam.name}", front=front, back=back, above=None, below=None)


def _copy(work: Work, panel: Panel, move: Shift | None, edges: list[Edge], plan: LayerPlan) -> Panel:
    """Return a panel's copy as a piece, with the marks and slits that still lie on it."""
    marks = tuple(_mark(work, mark, move) for mark in panel.marks if _keeps(work, mark.curve.start, plan))
    closed, marks = with_even_darts(tuple(joined_ends(edges)), marks)
    outline = with_closed_slits(Panel(panel.name, 0, closed)).loop()
    copy = Panel(
        copy_name(panel.name, plan.layer),
        0,
        closed,
        grain=panel.grain,
        slits=tuple(_slit(work, slit, move, outline) for slit in panel.slits if _keeps(work, slit.start, plan)),
        marks=marks,
        fold=panel.fold,
        whole=panel.whole,
        loose=HELD,
        let_in=panel.let_in,
        layer=plan.layer,
        copy_of=panel.name,
        inside_mm=plan.inside_mm,
    )
    if move is None:
        return copy
    trace = tuple(Side(edge.name, edge.kind, places_of(work, edge.curve.points)) for edge in closed)
    return replace(copy, levels=MappingProxyType(dict(levels_of(work, copy, trace))))


def _keeps(work: Work, point: Points, plan: LayerPlan) -> bool:
    """Return whether a place of a panel lies on what a layer keeps of it: a slit between tabs begins where it ends."""
    if plan.down_to is None:
        return True
    (around, height) = places_of(work, point[None])[0].tolist()
    return bool(height > height_on(work.draft, plan.down_to, around) + KEPT)


KEPT = 0.02
"""How far above the line a layer is cut off along, as a share of bust to waist, a mark begins that is kept."""


def _slit(work: Work, slit: Slit, move: Shift | None, loop: Points) -> Slit:
    """Return a slit where it lies on a panel's copy, ended at the copy's outline; ``loop`` bridges slits for pieces."""
    start, end = _put(work, np.vstack((slit.start, slit.end)), move)
    line = np.vstack((start, end + CARRIED * (end - start)))
    hits = [place for place, _ in meetings(line, np.vstack((loop, loop[:1])))]
    if hits:
        end = start + min(hits) * (line[1] - start)
    return replace(slit, start=frozen(start), end=frozen(end))


CARRIED = 0.3
"""How far, as a share of its length, a slit is carried on to find the outline of a copy that is longer than the panel."""


def _mark(work: Work, mark: Mark, move: Shift | None) -> Mark:
    return replace(mark, curve=Curve.through(_put(work, mark.curve.points, move)))


def _put(work: Work, points: Points, move: Shift | None) -> Points:
    """Return points of a panel where they lie on its copy."""
    if move is None:
        return points
    moved = move(work.block, places_of(work, points))
    return work.block.at(moved[:, AROUND], moved[:, 1])


def _note(work: Work, plan: LayerPlan, lacking: list[str]) -> Note:
    """Return what a layer of its own is and how it is set in, for the order of sewing."""
    units = work.body.units
    numbers = [panel.number for panel in work.panels if panel.layer == plan.layer]
    says = (
        f"The {plan.layer} (pieces {numbers[0]} to {numbers[-1]})"
        if len(numbers) > 1
        else (f"The {plan.layer} (piece {numbers[0]})")
    )
    if plan.inside_mm:
        where, less = ("inside", "smaller") if plan.inside_mm > 0.0 else ("outside", "larger")
        says += (
            f" lies {format_length(abs(plan.inside_mm), units)} {where} the layer that was drafted and is cut {less} for it: "
            f"{format_length(abs(turn_mm(plan.inside_mm)), units)} all round, shared among the seams."
        )
    else:
        says += " has an outline of its own."
    says += " Sew it together by itself, letter to letter; set it in smooth but not strained."
    if plan.short_mm:
        says += f" It ends {format_length(plan.short_mm, units)} short of the finished edges."
    if plan.longer_mm:
        says += f" It is {format_length(plan.longer_mm, units)} longer below than the rest: ease that in."
    if lacking:
        says += f" It has no piece for {' and '.join(lacking)}: there the slit in it stays open."
    return Note("sewing lining", says)
