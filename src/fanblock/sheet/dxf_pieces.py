"""A pattern as ASTM D6673 wants it: one block a piece, its lines by layers, all in millimetres to two decimals.

The standard (D6673-10, withdrawn in 2019 without a successor) describes pieces of one style and nothing else: no
partners across a seam, no bones. What it has no place for is carried as annotation. What stands here of layers, texts
and units is from memory of the standard, whose opening pages are all that was seen of it. *Turn points* are corners and
ends, *curve points* lie on a curve that the reader rebuilds.

This module settles what is written and refuses what may not be; :mod:`fanblock.sheet.dxf` only writes.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from fanblock.geometry import region
from fanblock.geometry.bezier import corners
from fanblock.geometry.curve import Points, frozen
from fanblock.geometry.meet import meetings, point_at
from fanblock.pattern.bones import BOTH, LEFT
from fanblock.pattern.model import FOLD, Edge, Panel, Pattern
from fanblock.problems import ExportError, Problem
from fanblock.sheet import phrases
from fanblock.sheet.drawing import Words
from fanblock.sheet.dxf_style import DxfNotch, DxfPiece, DxfStyle, refusals
from fanblock.sheet.piece import Piece, ticks_of
from fanblock.sheet.sevenbit import seven_bit, short_name
from fanblock.sheet.telling import half_of
from fanblock.tolerances import EXCHANGE_MM, STRAIGHT_MM
from fanblock.version import __version__

STANDARD = "D6673-10"
DECIMALS = 2
"""Decimals of a length in millimetres, as the standard has it for ``METRIC``."""

SNIP_MM = 3.0
"""Deepest notch that may be cut; never over half the allowance, so that no stitch line is reached (common practice, no
source)."""

_MEETS_MM = 0.02
"""Edges of one outline whose ends are farther apart than this, two last decimals, leave it open."""

_REACH_MM = 200.0
"""How far outside a stitch line its cut line is looked for."""


@dataclass(frozen=True, slots=True, eq=False)
class _Run:
    """Points as they are written, and which of them are turn points."""

    points: Points
    turns: tuple[int, ...]


def dxf_style(pattern: Pattern, pieces: Sequence[Piece]) -> DxfStyle:
    """Return what is written of a pattern whose panels are printed as ``pieces``.

    Raises ExportError with everything that the standard does not allow; see :func:`fanblock.sheet.dxf_style.refusals`.
    """
    names = {piece.panel.name: f"{piece.panel.label} {piece.panel.name}" for piece in pieces}
    style = DxfStyle(_style_texts(pattern), tuple(_piece(piece, pattern, names) for piece in pieces))
    problems = refusals(style)
    if problems:
        raise ExportError(problems)
    return style


def _style_texts(pattern: Pattern) -> tuple[tuple[str, str], ...]:
    """The texts of the style, in the standard's order; the only date is that on which the measures were taken."""
    title = pattern.title
    date = "-".join(reversed(pattern.body.taken_on.split("-"))) if pattern.body.taken_on else ""
    return (
        ("Style Name", short_name(title.recipe, "style")),
        ("Creation Date", date),
        ("Creation Time", ""),
        ("Author", f"fanblock;fanblock;{__version__}"),
        ("Sample Size", short_name(title.wearer, "wearer")),
        ("Grade Rule Table", ""),
        ("Units", "METRIC"),
        ("ASTM/D13Proposal 1 Version", f" {STANDARD}"),
    )


def _piece(piece: Piece, pattern: Pattern, names: dict[str, str]) -> DxfPiece:
    panel = piece.panel
    ring = _ring(piece.ground)
    sewn = [_run(edge.curve.points) for edge in panel.edges if not _on_fold(edge, panel)]
    slits = [_run(np.array([slit.start, slit.end])) for slit in panel.slits]
    inner = [_run(points) for points in _inner(panel)]
    runs = (ring, *inner, *slits, *sewn)
    turns = _once(point for run in runs for point in run.points[list(run.turns)])
    turning = {_key(point) for point in turns}
    material, count = panel.cuts[0]
    return DxfPiece(
        name=short_name(names[panel.name]),
        quantity=_quantity(count, panel, pattern),
        material=seven_bit(material),
        boundary=ring.points,
        sewn=tuple(run.points for run in sewn),
        inner=tuple(run.points for run in inner),
        slits=tuple(run.points for run in slits),
        turns=turns,
        curves=_once(point for run in runs for point in run.points if _key(point) not in turning),
        notches=tuple(_notches(panel, piece.ground)),
        drills=tuple((_rounded(e.point), e.hole_mm) for e in panel.eyelets if panel.side or e.half in (LEFT, BOTH)),
        grain=None if panel.grain is None else (_rounded(panel.grain[0]), _rounded(panel.grain[1])),
        mirror=_mirror(panel),
        words=tuple(
            Words(seven_bit(item.text), item.x, item.y, item.size_mm, item.anchor, item.angle_deg)
            for label in piece.labels
            for item in label.items
            if isinstance(item, Words) and seven_bit(item.text)
        ),
        remarks=tuple(seven_bit(text) for text in _remarks(panel, pattern, names)),
        closed=_closes(panel),
    )


def _rounded(points: Points) -> Points:
    """Points as they are written: two decimals, no minus zero."""
    return frozen(np.round(points, DECIMALS) + 0.0)


def _key(point: Points) -> tuple[float, float]:
    return float(point[0]), float(point[1])


def _once(points: Iterable[Points]) -> tuple[Points, ...]:
    """Points in order, each place once."""
    return tuple({_key(point): point for point in points}.values())


def _run(points: Points) -> _Run:
    """A run of points thinned between its corners and rounded, neighbours at one place made one."""
    marks = sorted({0, *corners(points), len(points) - 1})
    parts = [region.thinned(points[first : last + 1], EXCHANGE_MM) for first, last in itertools.pairwise(marks)]
    thin = _rounded(np.vstack([*(part[:-1] for part in parts), points[-1:]]))
    turns = np.cumsum([0, *(len(part) - 1 for part in parts)])
    keep = np.concatenate(([True], np.any(np.diff(thin, axis=0) != 0.0, axis=1)))
    return _Run(frozen(thin[keep]), tuple(sorted(set((np.cumsum(keep) - 1)[turns].tolist()))))


def _ring(ring: Points) -> _Run:
    """A closed ring as :func:`_run` makes it, beginning at a corner; where it has none, its first point is none either."""
    around = np.vstack((ring[-1:], ring, ring[:1]))
    found = [at - 1 for at in corners(around)]
    start = found[0] if found else 0
    run = _run(np.vstack((np.roll(ring, -start, axis=0), ring[start : start + 1])))
    return _Run(frozen(run.points[:-1]), run.turns[:-1] if found else ())


def _on_fold(edge: Edge, panel: Panel) -> bool:
    return edge.kind == FOLD or bool(panel.fold and panel.fold == edge.name)


def _closes(panel: Panel) -> bool:
    """Whether every edge begins where the one before it ends."""
    gaps = [edge.curve.start - panel.edges[at - 1].curve.end for at, edge in enumerate(panel.edges)]
    return all(float(np.hypot(*gap)) <= _MEETS_MM for gap in gaps)


def _inner(panel: Panel) -> Iterator[Points]:
    """Lines that are drawn and not cut: levels, marks, the stitching of channels."""
    for parts in panel.levels.values():
        yield from (part.points for part in parts)
    yield from (mark.curve.points for mark in panel.marks)
    yield from (row.points for channel in panel.channels for row in channel.rows)


def _mirror(panel: Panel) -> tuple[Points, Points] | None:
    """The line a piece on the fold is mirrored at; ExportError where that edge is not straight."""
    edge = next((edge for edge in panel.edges if _on_fold(edge, panel)), None)
    if edge is None:
        return None
    start, end = edge.curve.start, edge.curve.end
    x, y = (end - start) / np.hypot(*(end - start))
    if float(np.abs((edge.curve.points - start) @ np.array([-y, x])).max()) > STRAIGHT_MM:
        where, what = f"piece “{panel.name}”", f"its {phrases.prose(edge.name)} lies on the fold and is not straight."
        raise ExportError([Problem("dxf-fold", where, what, "Lay a straight edge on the fold.")])
    return _rounded(start), _rounded(end)


def _quantity(count: int, panel: Panel, pattern: Pattern) -> tuple[int, int]:
    """How many pieces as drawn, and how many mirrored."""
    whole = panel.single or bool(panel.fold) or any(edge.kind == FOLD for edge in panel.edges)
    if whole or (count % 2 and pattern.band is not None and not pattern.band.halved):
        return count, 0
    return count - count // 2, count // 2


def _notches(panel: Panel, ground: Points) -> Iterator[DxfNotch]:
    """Each tick as a notch on the boundary, straight outside its place on the stitch line."""
    for notch in panel.notches:
        curve = panel.edge(notch.edge).curve
        depth = min(SNIP_MM, 0.5 * max(panel.allowances.get(notch.edge, 0.0), 0.0))
        for at in [notch.at_mm] if notch.kind == "waist" else ticks_of(notch):
            x, y = curve.tangent_at(at)
            inward = notch.inward if notch.kind == "waist" else np.array([-y, x])
            point = _outside(curve.at(at), inward, ground)
            angle = math.degrees(math.atan2(inward[1], inward[0])) % 360.0
            yield DxfNotch(_rounded(point), depth, round(angle, DECIMALS))


def _outside(point: Points, inward: Points, ground: Points) -> Points:
    """Where the boundary stands straight outside a point of the stitch line."""
    ray = np.array([point + _MEETS_MM * inward, point - _REACH_MM * inward])
    ring = np.vstack((ground, ground[:1]))
    met = meetings(ray, ring)
    return point_at(ray, met[0][0]) if met else point


def _remarks(panel: Panel, pattern: Pattern, names: dict[str, str]) -> Iterator[str]:
    """What the standard has no place for: what the boundary is, what goes with what, what else is cut."""
    wide = sorted({width for width in panel.allowances.values() if width > 0.0})
    if wide and panel.cut_line is not None:
        yield "boundary: cut line, allowances included; finished line on layer 14"
    else:
        yield "boundary: finished line, no allowance"
    yield f"{names[panel.name]}; {pattern.title.garment}; for {pattern.title.wearer}; {phrases.stamp(pattern.title)}"
    yield f"{half_of(panel, pattern)}; y is up; grain as drawn"
    yield "; ".join(f"{layer}: cut {count}" for layer, count in phrases.layer_counts(panel))
    for edge in panel.edges:
        width = panel.allowances.get(edge.name, 0.0)
        beyond = f"allowance {width:g} mm" if width > 0.0 else "no allowance"
        says = f"edge {edge.name}: {edge.curve.length_mm:.1f} mm, {beyond}"
        if edge.mate is not None:
            letter = f"{edge.letter}, " if edge.letter else ""
            says += f"; sewn as {letter}to {names.get(edge.mate.panel, edge.mate.panel)}, edge {edge.mate.edge}"
        yield says
    right = [f"{eyelet.at_mm:.1f}" for eyelet in panel.eyelets if eyelet.half not in (LEFT, BOTH)]
    if right and not panel.side:
        yield f"eyelets of the right half, mm from the top: {', '.join(right)}"
